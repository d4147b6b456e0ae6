"""The assessment: its terms, its questions on the clock, the review before hand-in, the result."""

from datetime import datetime
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone

from assessments import acts, queries
from assessments.forms.answers import AssessmentForm
from assessments.forms.rounds import StartForm
from assessments.measurement.passing import SAFETY
from assessments.models import COUNTED, Attempt, Outcome, Purpose
from assessments.pages.explained import known_beliefs, lessons_on
from assessments.pages.passing import curve_table, mark_row, missed, rule_lines
from assessments.pages.pictures import shots
from assessments.queries import terms_in, terms_of, tires_asked
from assessments.questions import Blueprint as Terms
from assessments.questions import curve_of, from_canonical
from assessments.views.kept import AHEAD
from assessments.views.parts import go_to_page, picture_answer, render_page_or_part, wants_part
from training.access import Place, shop_page
from training.pages.kept import kept_of
from training.trade.words import SKILLS, tires_in_words


def _own_attempt(place: Place, reference: UUID) -> Attempt:
    return queries.attempt_of(place.shop, place.person, reference, Purpose.ASSESSMENT)


def _clock(attempt: Attempt, at: datetime) -> dict[str, object]:
    """What the clock shows: whole minutes left, rounded up so that the last one reads 1."""
    seconds = (attempt.closes_at - at).total_seconds() if attempt.closes_at else 0
    return {"minutes_left": max(0, -int(-seconds // 60)), "is_up": seconds < 0, "attempt": attempt}


def _terms(place: Place, scope: str) -> Terms:
    """The assessment of a scope the shop works in; 404 for another."""
    terms = terms_of(place.shop, scope)
    if terms is None:
        raise Http404
    return terms


@shop_page(while_sitting=True)
def assessments(request: HttpRequest, place: Place) -> HttpResponse:
    """The assessments of the scopes the shop works in; straight to the one where there is one."""
    theories, at = queries.theories_of(place.shop, place.person), timezone.now()
    if len(theories) == 1:
        return redirect("assessments:assessment", place.shop.slug, *theories)
    context = {
        "scopes": [
            (theory, tires_in_words(theory.terms.casings), theory.state(at).value) for theory in theories.values()
        ]
    }
    return render(request, "assessments/assessments.html", context)


@shop_page(while_sitting=True)
def assessment(request: HttpRequest, place: Place, scope: str) -> HttpResponse:
    """What the assessment of a scope is, where the person stands with it, and the way in."""
    return _terms_page(request, place, _terms(place, scope), StartForm())


def _terms_page(request: HttpRequest, place: Place, terms: Terms, form: StartForm) -> HttpResponse:
    theory = queries.theory_of(place.shop, place.person, terms)
    curve = curve_of(terms.name)
    context: dict[str, object] = {
        "terms": terms,
        "form": form,
        "is_one_of_several": len(terms_in(place.shop)) > 1,
        "theory": theory,
        "state": theory.state(timezone.now()).value,
        "skills": [(SKILLS[skill], count) for skill, count in terms.skills().items()],
        "rule": rule_lines(terms.rule, asked=terms.count, safety_asked=terms.skills().get(SAFETY, 0)),
        "curve": curve_table(curve.to_json()) if curve is not None and curve.version == terms.version else None,
        "failed_titles": [SKILLS[skill] for skill in theory.failed_skills if skill in SKILLS],
        "lessons": lessons_on(theory.failed_skills),
    }
    return render(request, "assessments/assessment.html", context)


@shop_page(methods="POST", while_sitting=True)
def start(request: HttpRequest, place: Place, scope: str) -> HttpResponse:
    """Start the clock, or go on with the open assessment."""
    terms = _terms(place, scope)
    form = StartForm(request.POST)
    if not form.is_valid():
        return _terms_page(request, place, terms, form)
    try:
        attempt = acts.start_assessment(shop=place.shop, learner=place.person, terms=terms, at=timezone.now())
    except acts.NotNow as refusal:
        messages.warning(request, str(refusal))
        return redirect("assessments:assessment", place.shop.slug, terms.name)
    return redirect("assessments:item", place.shop.slug, attempt.form.reference, 1)


@shop_page(methods="GET POST", while_sitting=True)
def item(request: HttpRequest, place: Place, reference: UUID, position: int) -> HttpResponse:
    """One question. Its answer is saved when the choice changes, and with every button."""
    at = timezone.now()
    question = queries.question_of(place.shop, place.person, reference, position, Purpose.ASSESSMENT)
    if request.method == "GET" and not question.attempt.is_open(at):
        return go_to_page(request, "assessments:review", place.shop.slug, reference)
    if request.method == "GET" and AHEAD not in request.headers:
        acts.note_shown(attempt=question.attempt, position=position, at=at)
    form = None
    if request.method == "POST":
        form = AssessmentForm(request.POST, item=question.item, prefer=place.shop.units)
        go = request.POST.get("go", "next")
        if form.is_valid():
            try:
                kept = acts.record_response(
                    attempt=question.attempt,
                    position=position,
                    answer=form.cleaned_data["answer"],
                    revision=form.cleaned_data["revision"],
                    flag={"flag": True, "unflag": False}.get(go),
                    at=at,
                )
            except acts.AttemptClosed as refusal:
                acts.keep_late_answer(
                    attempt=question.attempt, position=position, answer=form.cleaned_data["answer"], at=at
                )
                form.add_error(None, str(refusal))
            except acts.StaleAnswer as refusal:
                form.add_error(None, str(refusal))
            else:
                if go == "stay" and wants_part(request):
                    return render(request, "assessments/_saved.html", {"saved": kept})
                return _way_on(request, place, question, go)
        if go == "stay" and wants_part(request):
            context = {"form": form, "revision": request.POST.get("revision", "0")}
            return render(request, "assessments/_not_saved.html", context)
    saved = queries.saved_in(question.attempt)
    here = saved.get(position)

    def address(number: int) -> str:
        return reverse("assessments:picture", args=[place.shop.slug, reference, position, number])

    context = {
        **_clock(question.attempt, at),
        "question": question,
        "item": question.item,
        "pictures": shots(question.item.figure, address),
        "tires": tires_asked(place.shop, question.scope),
        "is_last": position == question.size,
        "blocks": queries.tread_row(
            saved,
            shop=place.shop,
            reference=reference,
            size=question.size,
            purpose=Purpose.ASSESSMENT,
            current=position,
        ),
        "saved": here,
        "form": form
        or AssessmentForm(
            item=question.item,
            prefer=place.shop.units,
            answer=from_canonical(here.answer) if here else None,
        ),
        "is_closed": not question.attempt.is_open(at),
        "reference": reference,
        "kept": kept_of(place.person, reference),
    }
    return render_page_or_part(request, "item", context)


@shop_page(while_sitting=True)
def picture(request: HttpRequest, place: Place, reference: UUID, position: int, number: int) -> HttpResponse:
    """One picture that a question shows, as long as the assessment is open."""
    asked = (place.shop, place.person, reference, position, number)
    return picture_answer(queries.picture_asked(*asked, purpose=Purpose.ASSESSMENT, at=timezone.now()))


def _way_on(request: HttpRequest, place: Place, question: queries.Question, go: str) -> HttpResponse:
    """Where a button leads."""
    position = question.position + {"next": 1, "back": -1}.get(go, 0)
    if position > question.size:
        return go_to_page(request, "assessments:review", place.shop.slug, question.reference)
    return redirect("assessments:item", place.shop.slug, question.reference, max(1, position))


@shop_page(while_sitting=True)
def clock(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """The clock alone, asked for every half minute while a question is open."""
    context = {**_clock(_own_attempt(place, reference), timezone.now()), "reference": reference}
    return render(request, "assessments/_clock.html", context)


@shop_page(while_sitting=True)
def review(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """What is answered, open and flagged, before handing in."""
    at = timezone.now()
    attempt = _own_attempt(place, reference)
    if attempt.handed_in_at is not None:
        return redirect("assessments:result", place.shop.slug, reference)
    acts.note_shown(attempt=attempt, position=0, at=at)
    blocks = queries.tread_row(
        queries.saved_in(attempt),
        shop=place.shop,
        reference=reference,
        size=attempt.form.size,
        purpose=Purpose.ASSESSMENT,
    )
    context = {
        **_clock(attempt, at),
        "reference": reference,
        "kept": kept_of(place.person, reference),
        "total": attempt.form.size,
        "blocks": blocks,
        "open_blocks": [block for block in blocks if not block.is_answered],
        "flagged_blocks": [block for block in blocks if block.is_flagged],
        "answered_count": sum(block.is_answered for block in blocks),
    }
    return render(request, "assessments/review.html", context)


@shop_page(methods="POST", while_sitting=True)
def hand_in(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Hand in; a second press shows the same result."""
    try:
        acts.hand_in(attempt=_own_attempt(place, reference), at=timezone.now())
    except acts.NotNow as refusal:
        messages.warning(request, str(refusal))  # the result leads back to the review while nothing is handed in
    return redirect("assessments:result", place.shop.slug, reference)


@shop_page(while_sitting=True)
def result(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """How it ended, by skill, and what to read again. No question is shown again, and no key."""
    attempt = queries.attempt_of(place.shop, place.person, reference, *COUNTED)
    if attempt.form.purpose == Purpose.PAPER and not attempt.outcome:
        raise Http404
    if attempt.handed_in_at is None or attempt.form.blueprint is None:
        return redirect("assessments:review", place.shop.slug, reference)
    # a scope the shop has turned off since has no way back to its assessment, only the result
    terms = next((one for one in terms_in(place.shop) if one.name == attempt.form.blueprint.scope), None)
    theory = queries.theory_of(place.shop, place.person, terms) if terms else None
    rule, judgment = attempt.rule, queries.judgment_of(attempt)
    context = {
        "attempt": attempt,
        "reference": reference,
        "kept": kept_of(place.person, reference),
        "late": queries.late_in(attempt),
        "blueprint": attempt.form.blueprint,
        "rule": rule_lines(rule, asked=judgment.asked, safety_asked=judgment.safety_asked),
        "missed": missed(judgment, rule) if attempt.outcome == Outcome.NOT_PASSED else [],
        "short_of": known_beliefs(attempt.form.short_of),
        "withdrawn": queries.withdrawn_in(attempt.form_id),
        "scope": terms.name if terms else "",
        "has_passed": attempt.outcome == Outcome.PASSED,
        "blocks": mark_row(attempt.right_count or 0, judgment.asked, rule.needed(judgment.asked)),
        "needed": rule.needed(judgment.asked),
        "summary": queries.summary_of(attempt, attempt.form.blueprint.pass_percent),
        "theory": theory,
        "state": theory.state(timezone.now()).value if theory else "off",
        "is_latest": theory is None or theory.latest == attempt,
    }
    return render(request, "assessments/result.html", context)
