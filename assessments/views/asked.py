"""Questions that were asked: flagged by whoever answered, looked at again by a trainer, withdrawn and taken back."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone

from assessments import acts, queries
from assessments.forms.bench import AssessmentFlagForm, QuestionFlagForm, TakeBackForm, WithdrawQuestionForm
from assessments.models import COUNTED, Attempt, Purpose, Withdrawal
from assessments.pages import bench as pages
from assessments.pages.explained import lesson_of
from assessments.pages.shown import show_answer
from assessments.queries import Asked
from assessments.views.bench import family_title
from assessments.views.parts import picture_answer
from training.access import Place, shop_page
from training.models import Role
from training.rulebook import edition_title
from training.trade.speech import say


@shop_page(methods="GET POST")
def practice_flag(request: HttpRequest, place: Place, reference: UUID, position: int) -> HttpResponse:
    """Say what seems wrong with a practice question, once it is answered."""
    found = queries.own_question(place.shop, place.person, reference, position, Purpose.PRACTICE)
    back = reverse("assessments:practice_item", args=[place.shop.slug, reference, position])
    form = QuestionFlagForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            comment = form.cleaned_data["comment"]
            acts.flag_question(item=found, comment=comment, by=place.person, at=timezone.now())
        except acts.FlagRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, say("Flagged question {position}. Your trainer looks at it.", position=position))
            return redirect(back)
    return render(request, "assessments/flag.html", {"form": form, "position": position, "back": back})


@shop_page(methods="GET POST", while_sitting=True)
def result_flag(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Say what seemed wrong with a question of an assessment that is handed in; it is not shown again."""
    attempt = queries.attempt_of(place.shop, place.person, reference, *COUNTED)
    if not attempt.outcome:
        raise Http404
    back = reverse("assessments:result", args=[place.shop.slug, reference])
    form = AssessmentFlagForm(request.POST or None, size=attempt.form.size)
    if request.method == "POST" and form.is_valid():
        position = form.cleaned_data["position"]
        found = queries.own_question(place.shop, place.person, reference, position, *COUNTED)
        try:
            comment = form.cleaned_data["comment"]
            acts.flag_question(item=found, comment=comment, by=place.person, at=timezone.now())
        except acts.FlagRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, say("Flagged question {position}. Your trainer looks at it.", position=position))
            return redirect(back)
    return render(request, "assessments/flag.html", {"form": form, "back": back})


@shop_page(Role.TRAINER, Role.OWNER)
def asked(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """The questions of somebody's attempt, to look at one again."""
    attempt = queries.attempt_looked_at(place.shop, place.person, reference)
    context = {
        "attempt": attempt,
        "lines": [(line, family_title(line.family)) for line in queries.asked_in(attempt)],
        "late": queries.late_in(attempt),
    }
    return render(request, "assessments/asked.html", context)


@shop_page(Role.TRAINER, Role.OWNER)
def question(request: HttpRequest, place: Place, reference: UUID, position: int) -> HttpResponse:
    """One question that was asked, with its key, its sources, the answer, and what was said of it."""
    attempt, found = _found(place, reference, position)
    return _page(request, place, attempt, found, TakeBackForm() if found.withdrawn else WithdrawQuestionForm())


def _found(place: Place, reference: UUID, position: int) -> tuple[Attempt, Asked]:
    attempt = queries.attempt_looked_at(place.shop, place.person, reference)
    return attempt, queries.question_asked(attempt, position)


def _page(request: HttpRequest, place: Place, attempt: Attempt, found: Asked, form: Form) -> HttpResponse:
    reference, position = attempt.form.reference, found.row.position

    def address(_: str, number: int) -> str:
        return reverse("assessments:asked_picture", args=[place.shop.slug, reference, position, number])

    context = {
        "attempt": attempt,
        "asked": found,
        "title": family_title(found.row.family),
        "draw": pages.drawn(position, found.item, (), address),
        "shown": show_answer(found.item, found.answer),
        "lesson": lesson_of(found.item.lesson),
        "rulebook": edition_title(found.item.edition),
        "form": form,
    }
    return render(request, "assessments/asked_question.html", context)


@shop_page(Role.TRAINER, Role.OWNER)
def picture(request: HttpRequest, place: Place, reference: UUID, position: int, number: int) -> HttpResponse:
    """One picture that such a question showed."""
    _, found = _found(place, reference, position)
    figure = found.item.figure
    if figure is None:
        raise Http404
    return picture_answer(queries.one_shown(place.shop, figure, number))


@shop_page(Role.TRAINER, Role.OWNER, methods="POST")
def withdraw(request: HttpRequest, place: Place, reference: UUID, position: int) -> HttpResponse:
    """Let a question count no more."""
    return _settled(request, place, (reference, position), WithdrawQuestionForm(request.POST), acts.withdraw_question)


@shop_page(Role.TRAINER, Role.OWNER, methods="POST")
def take_back(request: HttpRequest, place: Place, reference: UUID, position: int) -> HttpResponse:
    """Let a question that was withdrawn count again."""
    return _settled(request, place, (reference, position), TakeBackForm(request.POST), acts.take_back_withdrawal)


def _settled(
    request: HttpRequest,
    place: Place,
    where: tuple[UUID, int],
    form: WithdrawQuestionForm | TakeBackForm,
    act: Callable[..., Withdrawal],
) -> HttpResponse:
    """The page after `act` with the form's reason, or the form again with what is wrong."""
    reference, position = where
    attempt, found = _found(place, reference, position)
    if form.is_valid():
        try:
            act(item=found.row, reason=form.cleaned_data["reason"], by=place.person, at=timezone.now())
        except acts.WithdrawalRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, say("Question {position}: the result was counted anew.", position=position))
            return redirect("assessments:asked_question", place.shop.slug, reference, position)
    return _page(request, place, attempt, found, form)
