"""Assessments on paper, as far as a trainer may see them, and what is printed of them."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from zoneinfo import ZoneInfo

from django.db.models import QuerySet

from assessments.measurement.passing import SAFETY
from assessments.models import FormItem, Paper, Response
from assessments.pages.explained import lesson_of, reasons_of
from assessments.pages.passing import rule_in_short
from assessments.pages.shown import show_answer
from assessments.queries import picture_files
from assessments.questions import (
    Answer,
    Blame,
    Item,
    OpenItem,
    Picture,
    from_canonical,
    letter,
    misconceptions,
    place_in_words,
    right_in_words,
    ruler_unit,
    wrong_in_words,
)
from certificates.documents.paper import KeyEntry, Question, QuestionPaper, Rule, Wrong
from training.access import Place
from training.rulebook import edition_title, unit_label
from training.trade.lists import one_of
from training.trade.speech import say


def papers_in(place: Place) -> QuerySet[Paper]:
    """The shop's papers, but for those of the person asking: whoever sits a paper must not see its key."""
    return (
        Paper.objects.filter(form__shop=place.shop)
        .exclude(form__learner=place.person)
        .select_related(
            "form__learner", "form__shop", "form__blueprint", "form__attempt", "made_by", "typed_by", "withdrawn_by"
        )
    )


def open_items(paper: Paper) -> list[OpenItem]:
    """The questions of a paper in their order, without their keys; one query."""
    rows = FormItem.objects.filter(form=paper.form_id).order_by("position").values_list("open", flat=True)
    return [OpenItem.from_json(opened) for opened in rows]


def items_of(paper: Paper) -> list[Item]:
    """The questions of a paper in their order, keys included; one query."""
    rows = FormItem.objects.filter(form=paper.form_id).order_by("position").values_list("snapshot", flat=True)
    return [Item.from_json(snapshot) for snapshot in rows]


def typed_answers(paper: Paper) -> dict[int, Answer]:
    """What is typed in so far, by position; one query."""
    rows = Response.objects.filter(attempt__form=paper.form_id).values_list("position", "answer")
    return {position: from_canonical(answer) for position, answer in rows if answer}


def sheet_lines(asked: Sequence[OpenItem], typed: Mapping[int, Answer]) -> list[tuple[int, str]]:
    """The answer sheet in words, "" for a row left open; no query."""
    return [(number, _sheet_words(item, typed.get(number))) for number, item in enumerate(asked, 1)]


def _sheet_words(item: OpenItem, answer: Answer) -> str:
    if answer is None:
        return ""
    if isinstance(answer, str):
        return letter(answer)
    if isinstance(answer, list):
        return (" – " if item.format == "order" else " ").join(letter(one) for one in answer)
    match item.format:
        case "number":
            return f"{answer['value']} {answer['unit']}"
        case "place":
            return place_in_words(answer, ruler_unit(item.units))
    line = letter(answer["step"])
    if not answer["reason"]:
        return say("line {line}", line=line)
    return say("line {line}, reason {reason}", line=line, reason=letter(answer["reason"]))


def pictures_in(paper: Paper) -> dict[int, list[bytes]]:
    """The pictures of those questions that show some, by position; one query."""
    rows = FormItem.objects.filter(form=paper.form_id).values_list("position", "snapshot__content__figure")
    return {position: picture_files(Picture.from_json(figure)) for position, figure in rows if figure}


def printed_paper(
    paper: Paper, asked: Sequence[OpenItem], pictures: Mapping[int, Sequence[bytes]] = MappingProxyType({})
) -> QuestionPaper:
    """What the paper says, with the pictures of questions by position; one query."""
    form, blueprint = paper.form, paper.form.blueprint
    if blueprint is None:
        raise ValueError(f"form {form.reference} is no assessment")
    safety_asked = FormItem.objects.filter(form=paper.form_id, skill=SAFETY).count()
    return QuestionPaper(
        number=paper.number,
        reference=str(form.reference),
        title=blueprint.title,
        shop_name=form.shop.name,
        learner_name=form.learner.name,
        drawn_date=paper.made_at.astimezone(ZoneInfo(form.shop.time_zone)).date(),
        edition_title=str(edition_title(form.edition)),
        edition_version=form.edition_version,
        minutes=blueprint.minutes,
        pass_mark=rule_in_short(blueprint.rule, asked=form.size, safety_asked=safety_asked),
        questions=[_question(number, item, pictures.get(number, ())) for number, item in enumerate(asked, 1)],
    )


def key_entries(asked: Sequence[Item]) -> list[KeyEntry]:
    """The key with its explanations; no query."""
    return [_entry(number, item) for number, item in enumerate(asked, 1)]


def short_answer(item: Item) -> str:
    """The right answer as it stands on an answer sheet: letters, or the number with its tolerance."""
    if isinstance(item.key, Blame):
        lines = one_of(letter(step) for step in item.key.steps)
        if not item.key.reason:
            return say("{lines}, no reason", lines=lines)
        return say("{lines}, reason {reason}", lines=lines, reason=letter(item.key.reason))
    if item.format in ("one", "several", "order"):
        ids = (item.key,) if isinstance(item.key, str) else item.key
        joint = " – " if item.format == "order" else " "
        return joint.join(letter(one) for one in ids) if isinstance(ids, tuple) else item.key_text
    return "; ".join(right_in_words(item))


def _question(number: int, item: OpenItem, pictures: Sequence[bytes]) -> Question:
    return Question(
        number=number,
        format=item.format,
        situation=item.situation,
        ask=item.question,
        figure=item.figure.svg if item.figure else "",
        options=[(letter(option.id), option.text) for option in item.options],
        reasons=[(letter(option.id), option.text) for option in item.reasons],
        units=[unit_label(unit) for unit in item.units],
        pictures=pictures,
    )


def _entry(number: int, item: Item) -> KeyEntry:
    known = misconceptions()
    lesson, shown = lesson_of(item.lesson), show_answer(item, None)
    wrong = [one for one in wrong_in_words(item) if one.misconceptions or one.is_unsafe]
    return KeyEntry(
        question=_question(number, item.open(), picture_files(item.figure)),
        short=short_answer(item),
        right=right_in_words(item),
        # every broken pair of an order says the same as the rules below
        wrong=[]
        if item.format == "order"
        else [
            Wrong(
                f"{one.letter}. {one.words}" if one.letter else one.words,
                [str(known[name].title) for name in one.misconceptions if name in known],
                one.is_unsafe,
            )
            for one in wrong
        ],
        rules=[
            Rule(
                reason.because,
                [_finding(subject, found, holds=holds) for subject, found, holds in reason.findings],
                reason.limit,
                reason.source,
                reason.title,
            )
            for reason in reasons_of(item)
        ],
        figure=shown.figure.svg if shown.figure else "",
        lesson=str(lesson.title) if lesson else "",
    )


def _finding(subject: str, found: str, *, holds: bool) -> str:
    told = say("{subject}: {found}", subject=subject, found=found) if subject else found
    return say("{finding}: in order", finding=told) if holds else say("{finding}: not in order", finding=told)
