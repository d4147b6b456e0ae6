"""Every text of a question is said in the language spoken, and what is right does not depend on the language."""

import gettext
import re
from collections.abc import Hashable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from functools import cache
from unittest import mock
from xml.etree import ElementTree

import pytest

from assessments.questions import CannotDraw, Item, NoSuchLimit, Option, draw, family_names
from assessments.questions.items.claims import essence
from assessments.questions.work.facts import facts
from assessments.questions.work.job_log import spoils, tell
from tests.proof.proof import prove
from tests.speaking import CLOSE, OPEN, bracketed, outside
from training.rulebook import load_edition
from training.trade import speech
from training.trade.days import month_name
from training.trade.speech import LANGUAGES, in_language, say

pytestmark = pytest.mark.walk  # over all families: what the README adds passes it too

SEEDS, PREFER = 2, ("in", "mm")
# What is read as it stands in every language: marks as they are molded (205/55R16, 32x11.50R15LT, DOT, TREAD PLIES), a
# unit of the shelf by its code, names of texts that were published, miles, and months, whose names come from CLDR.
PUBLISHED = ("UN Regulation No. 30 / No. 54", "49 CFR 574.5")
MARK = re.compile(r"[A-Z0-9/]+|x\d+")
PLACES = ("speed", "pressure", "share")  # in sentences that hold a value
AS_IT_IS = {"mi", *(month_name(month) for month in range(1, 13))}
NAMES = ("tire", "proposal")  # of what a ruling is about, put into words by the page that shows it
SWAPPED = "en-XB"

# an added country is held to its recipe, its questions are not proved here
OURS = ("north-america", "united-kingdom")


# places that are filled, and units, which stand as they are also within a phrase: "mm to spare"
KEPT = re.compile(r"(\{[^}]*\}|\b(?:in|mm)\b)")


class Swapped(gettext.NullTranslations):
    """Small letters for capitals: other texts, each as long as it was."""

    def gettext(self, message: str) -> str:
        return "".join(part if KEPT.fullmatch(part) else part.swapcase() for part in KEPT.split(message))

    def ngettext(self, one: str, many: str, count: int) -> str:
        return self.gettext(one if count == 1 else many)


@contextmanager
def swapped() -> Iterator[None]:
    """Inside, everything that passes the seam changes and keeps its length."""
    known = speech.catalogue

    def catalogue(tag: str) -> gettext.NullTranslations:
        return Swapped() if tag == SWAPPED else known(tag)

    with mock.patch.object(speech, "catalogue", catalogue), speech.in_language(SWAPPED):
        yield


def drawn(family: str) -> Iterator[Item]:
    """Some items of a family, in both units, in every edition that it asks something in."""
    for name in OURS:
        with suppress(NoSuchLimit, CannotDraw):  # it sets no limit on what the family asks, or has too few
            for seed in range(SEEDS):
                for prefer in PREFER:
                    yield draw(family, seed=f"seam {seed}", edition=load_edition(name), prefer=prefer)


@cache
def as_written(family: str) -> tuple[Item, ...]:
    return tuple(drawn(family))


def texts(item: Item) -> Iterator[tuple[str, str]]:
    """What a person reads of an item; the texts that the rulebook cites keep their own names."""
    yield "stem", item.stem
    yield from (("option", option.text) for option in item.options)
    yield from (("reason", option.text) for option in item.reasons)
    if item.figure is not None:
        yield "description", item.figure.description
    for line in item.explanation:
        yield from ((name, str(line.get(name, ""))) for name in ("title", "found", "limit", "because"))
        if line["subject"] not in NAMES:
            yield "subject", str(line["subject"])
        if not line["clause"] and not line.get("title"):  # the family's own
            yield "source", str(line["source"])


def unsaid(text: str) -> list[str]:
    """The words that never passed the seam."""
    for published in PUBLISHED:
        text = text.replace(published, "")
    return [word for word in outside(text) if not MARK.fullmatch(word) and word not in AS_IT_IS]


@pytest.mark.parametrize("family", family_names())
def test_every_word_of_a_question_is_said_in_the_language_spoken(family: str) -> None:
    with bracketed():
        items = tuple(drawn(family))

    found = {(place, text) for item in items for place, text in texts(item) if unsaid(text)}
    assert items
    assert not found


def untold(item: Item) -> Item:
    """The item without its texts and its drawing."""
    options, reasons = (tuple(Option(one.id, "", one.claim) for one in some) for some in (item.options, item.reasons))
    return replace(item, stem="", figure=None, options=options, reasons=reasons, explanation=(), sources=())


# The squares of a legend stand beside its words, and a number on the liner stands where its words leave room.
BESIDE_WORDS = ("lean-and-exit", "two-injuries")
COLORS = ("fill", "stroke")


def lines_of(item: Item) -> list[tuple[str, list[tuple[str, str]]]]:
    """Everything that its drawing shows apart from words, in order; or what its pictures are computed from."""
    if item.figure is None:
        return []
    if item.figure.sights:
        return [
            ("picture", [(name, str(value)) for name, value in one.parameters.items()]) for one in item.figure.sights
        ]
    elements = [(one.tag.rpartition("}")[2], one.attrib) for one in ElementTree.fromstring(item.figure.svg).iter()]
    lines = [(tag, sorted(shown.items())) for tag, shown in elements if tag not in ("text", "tspan", "title", "svg")]
    if item.family in BESIDE_WORDS:
        return [(tag, [(name, value) for name, value in shown if name in COLORS]) for tag, shown in lines]
    return lines


@pytest.mark.parametrize("family", family_names())
def test_a_language_whose_texts_are_as_long_changes_nothing_of_a_question_but_its_texts(family: str) -> None:
    with swapped():
        items = tuple(drawn(family))

    assert {item.stem for item in items}.isdisjoint(item.stem for item in as_written(family))
    for other, item in zip(items, as_written(family), strict=True):
        assert untold(other) == untold(item)
        assert lines_of(other) == lines_of(item)
        assert not [where for where, value in texts_in(other.to_json()) if type(value) is not str]


def claimed(item: Item) -> dict[str, Hashable]:
    """What each of its options claims, by its id."""
    return {option.id: essence(option.claim) for option in item.options if option.claim is not None}


def right(item: Item) -> set[Hashable]:
    """What those of its options claim that are right."""
    return {claimed(item).get(one, one) for one in item.key_ids}


@pytest.mark.parametrize("family", family_names())
def test_where_another_language_asks_the_same_the_same_is_right(family: str) -> None:
    """Options are weighed by their length as it is read, so that another language may offer others, elsewhere."""
    with bracketed():
        items = tuple(drawn(family))

    same = [
        (other, item)
        for other, item in zip(items, as_written(family), strict=True)
        if re.sub(f"[{OPEN}{CLOSE}]", "", other.stem).lower() == item.stem.lower() and other.case == item.case
    ]
    assert len(same) >= len(items) / 4
    for other, item in same:
        if item.format == "one":
            assert right(other) == right(item)
            assert lines_of(other) == lines_of(item)
        else:
            assert untold(other) == untold(item)
            assert lines_of(other) == lines_of(item)


@pytest.mark.parametrize("tag", LANGUAGES)
@pytest.mark.parametrize("family", family_names())
def test_a_question_is_proved_in_every_language(family: str, tag: str) -> None:
    proved = 0
    with in_language(tag):
        for name in OURS:
            with suppress(NoSuchLimit, CannotDraw):
                found = prove(family, draws=4, seed=f"seam {tag}", edition=load_edition(name))
                assert not found.troubles, found.troubles[0]
                proved += found.rechecked
    assert proved


def texts_in(data: object, where: str = "") -> Iterator[tuple[str, object]]:
    """All texts of a JSON value, each with its place."""
    if isinstance(data, dict):
        for name, value in data.items():
            yield where, name
            yield from texts_in(value, f"{where}.{name}")
    elif isinstance(data, list | tuple):
        for value in data:
            yield from texts_in(value, where)
    elif isinstance(data, str):
        yield where, data


def test_every_statement_and_every_spoiled_line_of_the_work_is_said() -> None:
    steps = {step.id: step for step in load_edition("north-america").procedure}
    spoiled = [
        ({"step": one.step, name: value}, steps[one.step], unit)
        for one in spoils()
        for unit in PREFER
        for name, values in one.said_in(unit).items()
        for value in values
    ]
    with bracketed():
        told = [tell(entry, step, "two-piece", unit).text for entry, step, unit in spoiled]
        told += [str(one.reason) for one in spoils()]
        for fact in facts():
            told += [str(one) for one in (fact.right, fact.wrong_text, fact.because)]
            told += [
                say(fact.say, **dict.fromkeys(PLACES, words)) if fact.say else str(words) for _, words in fact.values
            ]

    assert len(told) > len(spoiled) > 0
    assert not [text for text in told if unsaid(text)]
