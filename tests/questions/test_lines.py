"""Each line of an explanation says what is true of its own tire, and a thought is named only for a whole answer."""

import re

import pytest

from assessments.questions import Item, draw, family, family_names, lines_of, misconceptions, right_answer, thoughts
from assessments.questions.diagnosis.diagnosis import Outlook
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.claims import Decided
from assessments.questions.work.facts import permits
from tests.examples import times
from training.rulebook import Edition, load_edition

SEVERAL = sorted(name for name in family_names() if "several" in family(name).formats)
ORDERED = sorted(name for name in family_names() if "order" in family(name).formats)
IDS = re.compile(r"\b[a-z]+-[a-z]+-[a-z]+(-[a-z]+)*\b")


def drawn(name: str, edition: Edition, count: int) -> list[Item]:
    try:
        return [draw(name, seed=f"line {number}", edition=edition) for number in range(count)]
    except NoSuchLimit:
        return []


@pytest.mark.parametrize("country", ["north-america", "united-kingdom"])
@pytest.mark.parametrize("name", SEVERAL)
def test_a_line_has_the_verdict_that_makes_it_right_or_wrong(name: str, country: str) -> None:
    edition = load_edition(country)
    for item in drawn(name, edition, times(5)):
        lines = lines_of(item, edition)
        for option in item.options:
            # a claim on the way to repair it says more than the verdict does
            if isinstance(option.claim, Decided) and not option.claim.methods and option.id in lines:
                is_right = option.id in item.key_ids
                assert (lines[option.id].verdict in option.claim.verdicts) == is_right, (option, lines[option.id])


@pytest.mark.parametrize("name", SEVERAL)
def test_a_reason_is_a_sentence_without_ids(name: str, edition: Edition) -> None:
    for item in drawn(name, edition, times(5)):
        for line in lines_of(item, edition).values():
            assert line.reason.endswith((".", "!"))
            assert line.reason[0].isupper() or line.reason[0].isdigit()
            assert not re.search(r"\b(Injury [A-Z]|R1)\b", line.reason)
            assert not set(IDS.findall(line.reason)) & set(edition.clauses)


def test_the_lean_that_parts_one_piece_from_two_stands_beside_each_channel(edition: Edition) -> None:
    for item in drawn("one-piece-list", edition, times(5)):
        leans = [int(lean) for lean in re.findall(r"(\d+)°", item.stem)]
        for lean, line in zip(leans, item.explanation, strict=True):
            # 25 degrees: Tire Industry Association and Rubber Manufacturers Association wall charts
            assert "at most 25°" in str(line["limit"])
            assert line["found"] == f"{lean}°"
            assert line["holds"] == (lean <= 25)


@pytest.mark.parametrize("name", SEVERAL)
def test_a_thought_is_named_for_the_answer_that_it_gives_and_for_no_other(name: str, edition: Edition) -> None:
    for item in drawn(name, edition, times(3)):
        for held, (meant, *_) in Outlook(item).alone.items():
            if meant == ("key",):
                continue
            answer = [] if meant == ("nothing",) else list(meant)
            if not answer:
                continue
            assert held in thoughts(item, answer)
            assert held in misconceptions()
            other = item.options[0].id
            changed = sorted(set(answer) ^ {other})
            assert not changed or held not in thoughts(item, changed)


@pytest.mark.parametrize("name", sorted(family_names()))
def test_a_right_answer_and_none_are_explained_by_no_thought(name: str, edition: Edition) -> None:
    for item in drawn(name, edition, 1):
        assert thoughts(item, right_answer(item)) == ()
        assert thoughts(item, None) == ()


@pytest.mark.parametrize("name", ORDERED)
def test_a_thought_of_an_order_breaks_all_that_is_broken_in_it(name: str, edition: Edition) -> None:
    for item in drawn(name, edition, times(3)):
        assert isinstance(item.key, tuple)
        answer = list(reversed(item.key))  # everything that has to come before something else comes after it
        for thought in thoughts(item, answer):
            assert all(thought in item.distractors[f"{then} before {first}"] for first, then in item.before)


def test_a_way_of_working_is_refused_by_what_it_breaks_and_by_nothing_else(edition: Edition) -> None:
    direction, side = "Cutter direction: clockwise.", "Side cut first: inside."
    for item in drawn("cutter-setting", edition, times(8)):
        for id, line in lines_of(item, edition).items():
            text, is_right = item.option(id).text, id == item.key
            assert (direction in line.reason) == (is_right or "counterclockwise" in text), (text, line)
            assert (side in line.reason) == (is_right or "from outside first" in text), (text, line)


@pytest.mark.parametrize(
    ("reached", "keeps"), [("79560 mi", False), ("79600 mi", True), ("79650 mi", True), ("80050 mi", False)]
)
def test_miles_are_counted_from_where_the_wheel_went_on(edition: Edition, reached: str, keeps: bool) -> None:
    # after 50 to 100 miles; common practice, no published source
    clause = next(one for one in edition.clauses.values() if one.quantity == "job.torque_recheck")

    assert permits(clause, reached, "79550 mi") == keeps
