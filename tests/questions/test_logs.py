"""The second look at a log finds what the first did, and finds every log that was tampered with."""

from dataclasses import replace

import pytest

from assessments.questions import Item, draw
from assessments.questions.items.claims import Done
from assessments.questions.items.shapes import Blame
from assessments.questions.work.job_log import spoils
from tests.present import as_a, present
from tests.proof.bench import Bench
from tests.proof.holding import claimed
from tests.questions.solvers_bench import BAD_IN_STEEL, BAD_LINES, LEFT_OUT, TOO_EARLY
from tests.questions.test_house_rules import STRICT, shop
from training.rulebook import JobError

FAMILIES = ("fault-in-preparation", "fault-in-installation", "fault-in-return", "whole-case-return")


def drawn(edition, name: str, holds) -> Item:
    """The first draw of a family for which this holds."""
    return _first(edition, name, holds, "in")


def _first(edition, name: str, holds, prefer: str) -> Item:
    items = (draw(name, seed=f"log {number}", edition=edition, prefer=prefer) for number in range(400))
    return next(item for item in items if holds(item))


def complaints(item: Item, edition) -> tuple[str, ...]:
    return claimed(Bench(item, edition)).complaints or ()


def with_line(item: Item, step: str, **said: str) -> Item:
    """The item with a line that says something else."""
    options = list(item.options)
    place = present(line_of(item, step))
    claim = as_a(Done, options[place].claim)
    options[place] = replace(options[place], claim=replace(claim, said={**(claim.said or {}), **said}))
    return replace(item, options=tuple(options))


def blame_of(item: Item) -> Blame:
    return as_a(Blame, item.key)


def line_of(item: Item, step: str) -> int | None:
    steps = [one.claim.step if isinstance(one.claim, Done) else "" for one in item.options]
    return steps.index(step) if step in steps else None


def says(item: Item, step: str, **said: str | int) -> bool:
    """Has the item a line of this step that says all this?"""
    claims = [one.claim for one in item.options if isinstance(one.claim, Done) and one.claim.step == step]
    return any(said.items() <= (claim.said or {}).items() for claim in claims)


def is_sound(item: Item) -> bool:
    return item.key == Blame((item.options[-1].id,), "")


def is_faulty_line(item: Item) -> bool:
    return not is_sound(item) and len(blame_of(item).steps) == 1 and blame_of(item).steps[0] != item.options[-2].id


def test_every_reason_that_the_trade_knows_is_asked() -> None:
    # the solver's reasons were written down beside the published sources, apart from the families
    bad = {reason for _, reason in (*BAD_LINES, *BAD_IN_STEEL)}
    assert {one.reason for one in spoils()} == {*bad, *TOO_EARLY.values(), *LEFT_OUT.values()}


# A ticket says nothing of eyes, weights or the jack: common practice, no published source.
@pytest.mark.parametrize("name", FAMILIES)
def test_a_log_without_a_fault_is_not_explained_by_what_no_log_states(name, edition) -> None:
    told = {str(line["clause"]) for line in drawn(edition, name, is_sound).explanation}

    assert told
    assert not told & {"eye-protection", "no-ignition", "vehicle-held", "lifted-by-one", "lead-free-weights"}


@pytest.mark.parametrize("name", FAMILIES)
def test_a_log_as_drawn_holds(name, edition) -> None:
    for number in range(60):
        assert complaints(draw(name, seed=str(number), edition=edition), edition) == ()


@pytest.mark.parametrize("name", FAMILIES)
def test_another_line_as_the_key_is_found(name, edition) -> None:
    item = drawn(edition, name, is_faulty_line)
    other = next(line.id for line in item.options[:-2] if line.id != blame_of(item).steps[0])

    assert "lies in other lines" in complaints(replace(item, key=Blame((other,), blame_of(item).reason)), edition)[0]


@pytest.mark.parametrize("name", FAMILIES)
def test_another_reason_as_the_key_is_found(name, edition) -> None:
    item = drawn(edition, name, is_faulty_line)
    other = next(one.id for one in item.reasons if one.id != blame_of(item).reason)

    said = complaints(replace(item, key=Blame(blame_of(item).steps, other)), edition)

    assert any("does not say so" in line for line in said)
    assert any(line.endswith("holds too") for line in said)


@pytest.mark.parametrize("name", FAMILIES)
def test_a_fault_taken_for_none_is_found_and_none_for_a_fault(name, edition) -> None:
    faulty, sound = drawn(edition, name, is_faulty_line), drawn(edition, name, is_sound)
    none = Blame((faulty.options[-1].id,), "")

    assert any("does not say so" in line for line in complaints(replace(faulty, key=none), edition))
    blaming = replace(sound, key=Blame(("1",), sound.reasons[0].id))
    assert any("nothing is wrong in these lines" in line for line in complaints(blaming, edition))


# What each of these lines then breaks, by the published figures at the top of the solvers.
@pytest.mark.parametrize(
    ("name", "step", "said", "right", "wrong"),
    [
        ("fault-in-preparation", "remove-damage", "direction", "clockwise", "counterclockwise"),
        ("fault-in-preparation", "remove-damage", "from", "inside", "outside"),
        ("fault-in-preparation", "outline", "margin", "1/2 in", "1/4 in"),
        ("fault-in-preparation", "buff", "texture", "No. 1", "No. 4"),
        ("fault-in-preparation", "clean-liner", "scraped", "moist", "dry"),
        ("fault-in-installation", "dry", "state", "completely dry", "tacky"),
        ("fault-in-installation", "dry", "heat", "no heat", "forced heat"),
        ("fault-in-installation", "dry", "humidity", "55 %", "85 %"),  # then more than 5 min, and 4 or 5 are stated
        ("fault-in-installation", "apply-unit", "arrows", "to the beads", "around the tire"),
        ("fault-in-installation", "stitch", "direction", "from the center outward", "from the edge inward"),
        ("fault-in-return", "install", "pattern", "star", "around the circle"),
        ("fault-in-return", "install", "tool", "torque wrench", "impact wrench"),
        ("whole-case-return", "inflate", "pressure", "230 kPa", "150 kPa"),  # the case recommends 230 kPa
    ],
)
def test_a_right_line_made_wrong_is_found(name, step, said, right, wrong, edition) -> None:
    item = _first(
        edition,
        name,
        lambda one: is_sound(one) and says(one, step, **{said: right}) and not says(one, "dry", time="6 min"),
        "mm" if right.endswith("kPa") else "in",
    )

    assert complaints(item, edition) == ()
    assert any("does not say so" in line for line in complaints(with_line(item, step, **{said: wrong}), edition))


def test_a_second_fault_is_found(edition) -> None:
    item = drawn(
        edition,
        "fault-in-installation",
        lambda one: is_faulty_line(one) and says(one, "stitch", direction="from the center outward"),
    )

    twice = with_line(item, "stitch", direction="from the edge inward")

    assert any("more is wrong than one thing" in line for line in complaints(twice, edition))


@pytest.mark.parametrize("name", FAMILIES)
def test_a_line_left_out_is_found(name, edition) -> None:
    item = drawn(edition, name, is_sound)
    lines = item.options[:-2]

    without = replace(item, options=(*lines[:2], *lines[3:], *item.options[-2:]))

    assert any("missing at" in line for line in complaints(without, edition))


# By the published orders of work: brush before the dust is taken away, dry before the patch, mount before seating.
@pytest.mark.parametrize(
    ("name", "first", "then"),
    [
        ("fault-in-preparation", "brush", "remove-dust"),
        ("fault-in-installation", "dry", "apply-unit"),
        ("fault-in-return", "mount", "seat-beads"),
        ("whole-case-return", "mount", "seat-beads"),
    ],
)
def test_two_lines_turned_around_are_found(name, first, then, edition) -> None:
    item = drawn(edition, name, lambda one: is_sound(one) and None not in (line_of(one, first), line_of(one, then)))
    lines = list(item.options)
    one, other = present(line_of(item, first)), present(line_of(item, then))
    claims = lines[one].claim, lines[other].claim
    lines[other], lines[one] = replace(lines[other], claim=claims[0]), replace(lines[one], claim=claims[1])

    assert any("order at" in line for line in complaints(replace(item, options=tuple(lines)), edition))


# Whoever says one of these says some of the others: the fluid was not dry when the unit went on.
NOT_DRY = {
    "The fluid had too little time",
    "The unit went on before the fluid was dry",
    "The fluid was not left to dry",
    "The fluid dried under the unit",
}


def test_no_two_reasons_that_say_some_of_the_same_are_offered(edition) -> None:
    offered = [
        {one.text for one in draw("fault-in-installation", seed=str(number), edition=edition).reasons}
        for number in range(200)
    ]

    assert max(len(reasons & NOT_DRY) for reasons in offered) == 1


def test_a_second_reason_that_holds_is_found(edition) -> None:
    item = drawn(edition, "fault-in-installation", is_faulty_line)
    right = next(one for one in item.reasons if one.id == blame_of(item).reason)
    twice = tuple(replace(one, claim=right.claim) for one in item.reasons)

    assert len(complaints(replace(item, reasons=twice), edition)) == 4


def test_words_that_nobody_can_read_are_no_question(edition) -> None:
    item = drawn(edition, "fault-in-preparation", lambda one: line_of(one, "brush") is not None)

    with pytest.raises(JobError, match=r"steps\[\d+\].love"):
        complaints(with_line(item, "brush", love="7 rpm"), edition)


@pytest.mark.parametrize("rules", STRICT.values(), ids=STRICT)
def test_a_log_of_a_strict_shop_holds_under_its_own_rules(rules) -> None:
    for name in FAMILIES:
        for number in range(8):
            item = draw(name, seed=f"{number}", edition=shop(**rules))
            assert complaints(item, shop(**rules)) == ()


def test_a_log_that_is_right_by_the_published_limits_is_found_wrong_in_a_stricter_shop(edition) -> None:
    item = drawn(edition, "fault-in-preparation", lambda one: is_sound(one) and says(one, "remove-damage", passes=3))

    assert complaints(item, edition) == ()
    assert "limit at remove-damage" in complaints(item, shop(cutter_passes="5 passes"))[0]
