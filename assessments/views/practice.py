"""Practice: choose a skill, answer, read why, see what to read again."""

from collections.abc import Collection
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone

from assessments import acts, queries
from assessments.acts import PRACTICE_ITEMS
from assessments.forms.answers import PracticeForm
from assessments.models import Attempt, Purpose
from assessments.pages.explained import known_beliefs
from assessments.pages.pictures import explained_shots, shots
from assessments.pages.taught import lesson_on
from assessments.queries import off_in, practiced_as, terms_about, terms_in, terms_of, tires_asked
from assessments.questions import SERIES, families_of, family, parts_of, series_in
from assessments.questions import Blueprint as Terms
from assessments.views.parts import go_to_page, picture_answer, render_page_or_part
from training.access import Place, shop_page
from training.rulebook import Edition
from training.trade.speech import say
from training.trade.words import SKILLS, tires_in_words

DEFAULT_PASS_PERCENT = 80  # for the words beside a ruler where no assessment sets a mark yet


def _pass_percent(terms: Terms | None) -> int:
    return terms.pass_percent if terms else DEFAULT_PASS_PERCENT


def _asks(edition: Edition, off: frozenset[str], casings: Collection[str] | None) -> dict[str, list[str]]:
    """What each skill asks about some casings: the titles of its families, without those in `off`."""
    asks: dict[str, list[str]] = {skill: [] for skill in SKILLS}
    for name in families_of(edition, casings):
        if not family(name).series and name not in off:
            asks[family(name).skill].append(family(name).title)
    return asks


@shop_page()
def practice(request: HttpRequest, place: Place) -> HttpResponse:
    """The skills, what each asks, how the person stands, and what is unfinished, for the tires of one scope."""
    about = terms_about(place.shop, request.GET.get("casing", ""))  # a lesson names its tires and knows no scopes
    terms = about or terms_of(place.shop, request.GET.get("scope", "")) or terms_of(place.shop)
    casings = terms.casings if terms else None
    unfinished = queries.unfinished_practice(place.shop, place.person, practiced_as(place.shop, terms))
    percent = _pass_percent(terms)
    off = off_in(place.shop)
    asks = _asks(place.edition, off, casings)
    skills = [
        {
            "result": result,
            "words": result.words(percent),
            "asks": asks[result.skill],
            "open": unfinished.get(result.skill),
        }
        for result in queries.skill_results(place.shop, place.person)
        if asks[result.skill]
    ]
    context = {
        "skills": skills,
        "mixed": unfinished.get(""),
        "cases": [
            (name, SERIES[name], len(parts_of(name)), unfinished.get(name))
            for name in series_in(place.edition, casings)
            if off.isdisjoint(parts_of(name))
        ],
        "count": PRACTICE_ITEMS,
        "scope": terms,
        "tires": [(one.name, tires_in_words(one.casings), one == terms) for one in terms_in(place.shop)],
        "pass_percent": percent,
    }
    return render(request, "assessments/practice.html", context)


@shop_page(methods="POST")
def start(request: HttpRequest, place: Place) -> HttpResponse:
    """Start a practice, or go on with the unfinished one of that skill."""
    try:
        attempt = acts.start_practice(
            shop=place.shop,
            learner=place.person,
            skill=request.POST.get("skill", ""),
            scope=request.POST.get("scope", ""),
            at=timezone.now(),
        )
    except acts.UnknownSkill as refusal:
        messages.error(request, str(refusal))
        return redirect("assessments:practice", place.shop.slug)
    return redirect("assessments:practice_item", place.shop.slug, attempt.form.reference, _first_open(attempt))


def _first_open(attempt: Attempt) -> int:
    answered = queries.saved_in(attempt)
    return next((n for n in range(1, attempt.form.size + 1) if n not in answered), attempt.form.size)


@shop_page(methods="GET POST")
def item(request: HttpRequest, place: Place, reference: UUID, position: int) -> HttpResponse:
    """One question; after its answer, why."""
    question = queries.question_of(place.shop, place.person, reference, position, Purpose.PRACTICE)
    saved = queries.saved_in(question.attempt)
    unread = queries.to_read(question.attempt)
    if unread is not None and position not in saved:
        return go_to_page(request, "assessments:practice_taught", place.shop.slug, reference)
    form = PracticeForm(request.POST or None, item=question.item, prefer=place.shop.units)
    if request.method == "POST" and form.is_valid():
        try:
            acts.answer_practice(
                attempt=question.attempt, position=position, answer=form.cleaned_data["answer"], at=timezone.now()
            )
        except acts.AlreadyAnswered as refusal:
            messages.warning(request, str(refusal))
        return redirect("assessments:practice_item", place.shop.slug, reference, position)
    if request.method == "GET" and position not in saved:
        acts.note_shown(attempt=question.attempt, position=position, at=timezone.now())
    review, withdrawn = None, {}
    if position in saved:
        gone = queries.withdrawn_in(question.attempt.form_id)
        withdrawn = {position: gone[position]} if position in gone else {}
        review = queries.practice_review(question.attempt, position, edition=place.edition, prefer=place.shop.units)

    def address(number: int) -> str:
        return reverse("assessments:practice_picture", args=[place.shop.slug, reference, position, number])

    others = [*range(position + 1, question.size + 1), *range(1, position)]
    context = {
        "question": question,
        "item": question.item,
        "tires": tires_asked(place.shop, question.scope),
        "blocks": queries.tread_row(
            saved,
            shop=place.shop,
            reference=reference,
            size=question.size,
            purpose=Purpose.PRACTICE,
            current=position,
            drawn=queries.drawn_in(question.attempt),
        ),
        "form": form,
        "review": review,
        "withdrawn": withdrawn,
        "pictures": explained_shots(
            review.item.figure, address, queries.photograph_shown(place.shop, review.item.figure)
        )
        if review
        else shots(question.item.figure, address),
        "following": next((number for number in others if number not in saved), None),
        "is_taught": unread is not None,
    }
    return render_page_or_part(request, "practice_item", context)


@shop_page(methods="GET POST")
def taught(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """What practice stops to teach after like mistakes; read, it goes on to ask again."""
    attempt = queries.attempt_of(place.shop, place.person, reference, Purpose.PRACTICE)
    found, after = queries.taught_last(attempt)
    if request.method == "POST":
        acts.read_taught(attempt=attempt, at=timezone.now())
        if attempt.handed_in_at is not None:
            return redirect("assessments:practice_end", place.shop.slug, reference)
        return redirect("assessments:practice_item", place.shop.slug, reference, _first_open(attempt))
    known = known_beliefs([found.misconception])
    told = lesson_on(known[0], after, edition=place.edition, prefer=place.shop.units) if known else None
    context = {"attempt": attempt, "told": told, "is_over": attempt.handed_in_at is not None}
    return render(request, "assessments/practice_taught.html", context)


@shop_page()
def picture(request: HttpRequest, place: Place, reference: UUID, position: int, number: int) -> HttpResponse:
    """One picture that a question shows, before its answer and after."""
    asked = (place.shop, place.person, reference, position, number)
    return picture_answer(queries.picture_asked(*asked, purpose=Purpose.PRACTICE, at=timezone.now()))


@shop_page()
def end(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """What a practice showed so far: by skill, what the wrong answers have in common, what to read."""
    attempt = queries.attempt_of(place.shop, place.person, reference, Purpose.PRACTICE)
    terms = terms_of(place.shop, attempt.form.scope)
    beliefs = queries.beliefs_of(place.shop, place.person)
    context = {
        "attempt": attempt,
        "summary": queries.summary_of(
            attempt, _pass_percent(terms), said=[belief.misconception.id for belief in beliefs]
        ),
        "beliefs": beliefs,
        "withdrawn": queries.withdrawn_in(attempt.form_id),
        "following": None if attempt.handed_in_at else _first_open(attempt),
        "left": attempt.form.size - len(queries.saved_in(attempt)),
        "skill_title": {**SKILLS, **SERIES}.get(attempt.form.skill) or say("All skills mixed"),
        "tires": tires_in_words(terms.casings) if terms and len(terms_in(place.shop)) > 1 else "",
        "may_repeat": terms is not None or not attempt.form.scope,
    }
    return render(request, "assessments/practice_end.html", context)
