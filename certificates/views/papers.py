"""An assessment on paper: make it, print it and its key, type the answers in, hand in, or withdraw it."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone

from assessments import acts
from assessments.models import Outcome, Paper
from assessments.pages.bench import stand_ins, stand_ins_of
from assessments.pages.explained import known_beliefs
from assessments.pages.passing import missed, rule_lines
from assessments.queries import judgment_of, plan_of, summary_of, theories_of, theory_of, withdrawn_in
from assessments.questions import blueprint
from certificates import queries
from certificates.documents.certificate import PAPERS, NotDrawable
from certificates.documents.paper import answer_key_pdf, question_paper_pdf
from certificates.forms.papers import PaperAnswersForm, WithdrawForm
from certificates.queries import Scope, UnknownScope, scope_of, scopes_of
from training.access import Place, shop_page
from training.models import Role, Units, User
from training.rulebook import edition_title
from training.trade.lists import one_of
from training.trade.speech import say, saying

PAGE_NAMES = [("a4", "A4"), ("letter", saying("US Letter"))]


def _find(place: Place, reference: UUID) -> Paper:
    return get_object_or_404(queries.papers_in(place), form__reference=reference)


@shop_page(Role.TRAINER, methods="GET POST")
def paper_make(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """Choose whose assessment is printed; where the shop works in one scope, straight to it."""
    learner = get_object_or_404(queries.learner_in(place), reference=person)
    scopes = scopes_of(place.shop)
    if not scopes:
        raise Http404
    if len(scopes) == 1:
        return _make(request, place, learner, scopes[0])
    at = timezone.now()
    theories = theories_of(place.shop, learner)
    states = [(scope, theories[scope.slug], theories[scope.slug].state(at).value) for scope in scopes]
    return render(request, "certificates/paper_choose.html", {"learner": learner, "scopes": states})


@shop_page(Role.TRAINER, methods="GET POST")
def paper_of_scope(request: HttpRequest, place: Place, person: UUID, scope: str) -> HttpResponse:
    """What a paper of one scope is, and the way to one; where one is out already, the way to that."""
    learner = get_object_or_404(queries.learner_in(place), reference=person)
    try:
        return _make(request, place, learner, scope_of(place.shop, scope))
    except UnknownScope as problem:
        raise Http404 from problem


def _make(request: HttpRequest, place: Place, learner: User, scope: Scope) -> HttpResponse:
    terms, at = blueprint(scope.slug), timezone.now()
    if request.method == "POST":
        try:
            made = acts.make_paper(shop=place.shop, learner=learner, terms=terms, made_by=place.person, at=at)
        except acts.NotNow as refusal:
            messages.warning(request, say("No paper was made. {refusal}", refusal=refusal))
            return redirect("certificates:paper_of_scope", place.shop.slug, learner.reference, scope.slug)
        messages.success(request, say("Made paper {number} for {learner}.", number=made.number, learner=learner.name))
        return redirect("certificates:paper", place.shop.slug, made.form.reference)
    theory = theory_of(place.shop, learner, terms)
    made_before = queries.papers_in(place).filter(form__learner=learner, form__blueprint__scope=scope.slug)
    context = {
        "learner": learner,
        "scope": scope,
        "terms": terms,
        "theory": theory,
        "state": theory.state(at).value,
        "papers": made_before.order_by("-made_at"),
        "stand_ins": ", ".join(
            say("{family} stands in for {others}", family=who, others=instead_of)
            for who, instead_of in stand_ins(plan_of(place.shop, terms).cells)
        ),
    }
    return render(request, "certificates/paper_make.html", context)


@shop_page(Role.TRAINER)
def paper(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """One paper: print it, what is typed in, what came of it."""
    return _page(request, place, _find(place, reference), WithdrawForm())


def _page(request: HttpRequest, place: Place, found: Paper, form: WithdrawForm) -> HttpResponse:
    at = timezone.now()
    attempt, blueprint = found.form.attempt, found.form.blueprint
    if blueprint is None:
        raise Http404
    lines = queries.sheet_lines(queries.open_items(found), queries.typed_answers(found))
    judgment = judgment_of(attempt) if attempt.outcome else None
    context = {
        "paper": found,
        "attempt": attempt,
        "blueprint": blueprint,
        "rule": rule_lines(blueprint.rule, asked=judgment.asked, safety_asked=judgment.safety_asked)
        if judgment
        else [],
        "missed": missed(judgment, blueprint.rule) if judgment and attempt.outcome == Outcome.NOT_PASSED else [],
        "short_of": known_beliefs(found.form.short_of),
        "withdrawn": withdrawn_in(found.form_id),
        "is_staff": True,
        "is_open": attempt.is_open(at),
        "is_marked": bool(attempt.outcome),
        "edition": edition_title(found.form.edition),
        "lines": lines,
        "left_open": [number for number, words in lines if not words],
        "pages": PAGE_NAMES if place.shop.units == Units.METRIC else PAGE_NAMES[::-1],
        "stand_ins": stand_ins_of(blueprint),
        "summary": summary_of(attempt, blueprint.pass_percent) if attempt.outcome else None,
        "form": form,
    }
    return render(request, "certificates/paper.html", context)


@shop_page(Role.TRAINER)
def paper_pdf(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """The questions and the answer sheet to print; `?page=` a4 or letter."""
    return _pdf(request, place, reference, "paper")


@shop_page(Role.TRAINER)
def paper_key_pdf(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """The key with its explanations to print."""
    return _pdf(request, place, reference, "key")


def _pdf(request: HttpRequest, place: Place, reference: UUID, kind: str) -> HttpResponse:
    found = _find(place, reference)
    page = request.GET.get("page", "a4" if place.shop.units == Units.METRIC else "letter")
    if page not in PAPERS:
        messages.error(
            request, say('Page: "{page}" is not accepted; choose {pages}.', page=page[:20], pages=one_of(PAPERS))
        )
        return redirect("certificates:paper", place.shop.slug, reference)
    try:
        pdf = _printed(found, kind, page)
    except NotDrawable as problem:
        messages.error(
            request, say("Paper {number} cannot be printed: {problem}.", number=found.number, problem=problem)
        )
        return redirect("certificates:paper", place.shop.slug, reference)
    response = HttpResponse(pdf, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{kind}-{found.number}.pdf"'
    return response


def _printed(found: Paper, kind: str, page: str) -> bytes:
    if kind == "key":
        items = queries.items_of(found)
        printed = queries.printed_paper(found, [item.open() for item in items])
        return answer_key_pdf(printed, queries.key_entries(items), page=page)
    asked, pictures = queries.open_items(found), queries.pictures_in(found)
    return question_paper_pdf(queries.printed_paper(found, asked, pictures), page=page)


@shop_page(Role.TRAINER, methods="GET POST")
def paper_answers(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Type in what is on the answer sheet."""
    found = _find(place, reference)
    if request.method == "GET" and not found.form.attempt.is_open(timezone.now()):
        return redirect("certificates:paper", place.shop.slug, reference)
    form = PaperAnswersForm(
        request.POST if request.method == "POST" else None,
        asked=queries.open_items(found),
        saved=queries.typed_answers(found),
    )
    if request.method == "POST" and form.is_valid():
        try:
            acts.type_answers(paper=found, answers=form.answers(), typed_by=place.person, at=timezone.now())
        except acts.AttemptClosed as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(
                request, say("Answers of paper {number} saved. Check them, then hand in.", number=found.number)
            )
            return redirect("certificates:paper", place.shop.slug, reference)
    return render(request, "certificates/paper_answers.html", {"paper": found, "form": form})


@shop_page(Role.TRAINER, methods="POST")
def paper_hand_in(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Mark the paper; a second press shows the same result."""
    found = _find(place, reference)
    try:
        attempt = acts.hand_in_paper(paper=found, at=timezone.now())
    except (acts.AttemptClosed, acts.NotNow) as refusal:
        messages.warning(request, str(refusal))
    else:
        told = (
            say("Handed in paper {number}: passed.", number=found.number)
            if attempt.outcome == Outcome.PASSED
            else say("Handed in paper {number}: not passed.", number=found.number)
        )
        messages.success(request, told)
    return redirect("certificates:paper", place.shop.slug, reference)


@shop_page(Role.TRAINER, methods="POST")
def paper_withdraw(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Take back a paper that nobody sat."""
    found = _find(place, reference)
    form = WithdrawForm(request.POST)
    if form.is_valid():
        try:
            acts.withdraw_paper(paper=found, by=place.person, reason=form.cleaned_data["reason"], at=timezone.now())
        except acts.AttemptClosed as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(
                request, say("Withdrew paper {number}. It does not count as an attempt.", number=found.number)
            )
            return redirect("certificates:paper", place.shop.slug, reference)
    return _page(request, place, found, form)
