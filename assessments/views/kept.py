"""Answers that a browser kept until it had a connection: taken one by one, and told what became of each."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.middleware.csrf import get_token
from django.utils import timezone
from django.utils.timezone import localtime

from assessments import acts, queries
from assessments.forms.answers import AssessmentForm
from assessments.models import Purpose
from assessments.pages.answered import answer_in_words
from assessments.queries import Question
from assessments.questions import from_canonical
from training.access import Place, shop_page
from training.trade.days import written_time
from training.trade.speech import say

AHEAD = "Kept-Ahead"  # the header of a question that a browser fetches before anybody looks at it


@shop_page(methods="GET POST", while_sitting=True)
def keep(request: HttpRequest, place: Place, reference: UUID, position: int) -> HttpResponse:
    """Take one answer, and say what became of it: `saved`, `stale`, `late` or `refused`, with the words to show.

    A question that was shown from what the browser had fetched ahead counts as first shown when its answer arrives:
    a time that a browser says is not believed. GET has the token that a post needs after a new login.
    """
    question = queries.question_of(place.shop, place.person, reference, position, Purpose.ASSESSMENT)
    if request.method == "GET":
        return JsonResponse({"state": "ready", "token": get_token(request)})
    form = AssessmentForm(request.POST, item=question.item, prefer=place.shop.units)
    if not form.is_valid():
        return JsonResponse(
            {"state": "refused", "words": " ".join(str(one) for errors in form.errors.values() for one in errors)}
        )
    at, answer = timezone.now(), form.cleaned_data["answer"]
    if request.POST.get("unseen") and question.attempt.is_open(at):
        acts.note_shown(attempt=question.attempt, position=position, at=at)
    try:
        saved = acts.record_response(
            attempt=question.attempt,
            position=position,
            answer=answer,
            revision=form.cleaned_data["revision"],
            flag={"flag": True, "unflag": False}.get(request.POST.get("go", "")),
            at=at,
        )
    except acts.AttemptClosed as refusal:
        acts.keep_late_answer(attempt=question.attempt, position=position, answer=answer, at=at)
        return JsonResponse({"state": "late", "words": str(refusal)})
    except acts.StaleAnswer:
        return JsonResponse(_both(question, answer))
    revision = saved.revision if saved else 0
    words = ""
    if saved and revision:
        time = written_time(localtime(saved.saved_at))
        words = say("Answer saved {time}", time=time) if saved.answer else say("Answer cleared {time}", time=time)
    return JsonResponse({"state": "saved", "revision": revision, "words": words})


def _both(question: Question, answer: str) -> dict[str, object]:
    """The answer that arrived and the one that stands, for the person to choose; the revision of the one that
    stands."""
    there = queries.saved_in(question.attempt)[question.position]
    return {
        "state": "stale",
        "revision": there.revision,
        "words": say(
            'Question {position} was answered elsewhere at {time}: "{there}". Chosen here: "{here}". Which one counts?',
            position=question.position,
            time=written_time(localtime(there.saved_at)),
            there=answer_in_words(question.item, from_canonical(there.answer)),
            here=answer_in_words(question.item, from_canonical(answer)),
        ),
    }
