"""The second look at a log finds what the first did, and finds every log that was tampered with."""

from dataclasses import replace

import pytest

from assessments.questions import Item, Option, draw
from assessments.questions.items.shapes import Blame
from tests.present import as_a, present
from tests.proof.recheck import recheck
from tests.proof.recheck_log import _CLAIMS
from tests.questions.solvers_bench import BAD_IN_STEEL, BAD_LINES, LEFT_OUT, TOO_EARLY
from tests.questions.test_house_rules import STRICT, shop

FAMILIES = ("fault-in-preparation", "fault-in-installation", "fault-in-return", "whole-case-return")


def drawn(edition, name: str, holds) -> Item:
    """The first draw of a family for which this holds."""
    items = (draw(name, seed=f"log {number}", edition=edition) for number in range(400))
    return next(item for item in items if holds(item))


def complaints(item: Item, edition) -> tuple[str, ...]:
    found = recheck(item, edition)
    assert found is not None
    return found.complaints or ()


def with_line(item: Item, number: int, text: str) -> Item:
    options = list(item.options)
    options[number] = replace(options[number], text=text)
    return replace(item, options=tuple(options))


def blame_of(item: Item) -> Blame:
    return as_a(Blame, item.key)


def line_of(item: Item, opening: str) -> int | None:
    return next((place for place, line in enumerate(item.options) if line.text.startswith(opening)), None)


def is_sound(item: Item) -> bool:
    return item.key == Blame((item.options[-1].id,), "")


def is_faulty_line(item: Item) -> bool:
    return not is_sound(item) and len(blame_of(item).steps) == 1 and blame_of(item).steps[0] != item.options[-2].id


def test_every_reason_that_the_trade_knows_is_known_here() -> None:
    # the solver's reasons were written down beside the published sources, apart from the families
    bad = {reason for _, reason in (*BAD_LINES, *BAD_IN_STEEL)}
    assert set(_CLAIMS) == {*bad, *TOO_EARLY.values(), *LEFT_OUT.values()}


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
    ("name", "right", "wrong"),
    [
        ("fault-in-preparation", "clockwise, from inside first", "counterclockwise, from inside first"),
        ("fault-in-preparation", "from inside first", "from outside first"),
        ("fault-in-preparation", "1/2 in beyond", "1/4 in beyond"),
        ("fault-in-preparation", "texture No. 1", "texture No. 4"),
        ("fault-in-preparation", "scraped moist", "scraped dry"),
        ("fault-in-installation", "completely dry", "tacky"),
        ("fault-in-installation", "no heat", "forced heat"),
        ("fault-in-installation", "55 % humidity", "85 % humidity"),  # then more than 5 min, and 4 or 5 are stated
        ("fault-in-installation", "arrows to the beads", "arrows around the tire"),
        ("fault-in-installation", "from the center outward", "from the edge inward"),
        ("fault-in-return", "star pattern", "around the circle"),
        ("fault-in-return", "torque wrench", "impact wrench"),
        ("whole-case-return", "230 kPa", "150 kPa"),  # the case recommends 230 kPa
    ],
)
def test_a_right_line_made_wrong_is_found(name, right, wrong, edition) -> None:
    def fits(item: Item) -> bool:
        return is_sound(item) and any(right in line.text and "6 min" not in line.text for line in item.options)

    item = drawn(edition, name, fits)
    place = next(place for place, line in enumerate(item.options) if right in line.text)

    assert complaints(item, edition) == ()
    assert any(
        "does not say so" in line
        for line in complaints(with_line(item, place, item.options[place].text.replace(right, wrong)), edition)
    )


def test_a_second_fault_is_found(edition) -> None:
    item = drawn(
        edition, "fault-in-installation", lambda one: is_faulty_line(one) and line_of(one, "Stitch: from the center")
    )
    place = present(line_of(item, "Stitch"))

    twice = with_line(item, place, "Stitch: from the edge inward")

    assert any("more is wrong than one thing" in line for line in complaints(twice, edition))


@pytest.mark.parametrize("name", FAMILIES)
def test_a_line_left_out_is_found(name, edition) -> None:
    item = drawn(edition, name, is_sound)
    lines = item.options[:-2]

    without = replace(item, options=(*lines[:2], *lines[3:], *item.options[-2:]))

    assert any("('missing'," in line for line in complaints(without, edition))


# By the published orders of work: brush before the dust is taken away, dry before the patch, mount before seating.
@pytest.mark.parametrize(
    ("name", "first", "then"),
    [
        ("fault-in-preparation", "Brush", "Take the dust away"),
        ("fault-in-installation", "Let it dry", "Set the patch"),
        ("fault-in-return", "Mount the tire", "Seat the beads"),
        ("whole-case-return", "Mount the tire", "Seat the beads"),
    ],
)
def test_two_lines_turned_around_are_found(name, first, then, edition) -> None:
    item = drawn(edition, name, lambda one: is_sound(one) and None not in (line_of(one, first), line_of(one, then)))
    lines = list(item.options)
    one, other = present(line_of(item, first)), present(line_of(item, then))
    lines[one], lines[other] = replace(lines[one], text=lines[other].text), replace(lines[other], text=lines[one].text)

    assert any("('turned'," in line for line in complaints(replace(item, options=tuple(lines)), edition))


def test_two_reasons_that_say_the_same_are_found(edition) -> None:
    tacky = "The unit went on before the fluid was dry"
    item = drawn(edition, "fault-in-installation", lambda one: tacky in one.key_text)
    other = next(place for place, one in enumerate(item.reasons) if one.id != blame_of(item).reason)
    reasons = list(item.reasons)
    reasons[other] = Option(reasons[other].id, "The fluid was not left to dry")

    assert complaints(replace(item, reasons=tuple(reasons)), edition) == ("'The fluid was not left to dry' holds too",)


def test_words_that_nobody_can_read_are_no_question(edition) -> None:
    item = drawn(edition, "fault-in-preparation", lambda one: line_of(one, "Brush") is not None)

    with pytest.raises(ValueError, match="is no part of a line of brush"):
        recheck(with_line(item, present(line_of(item, "Brush")), "Brush: 7 rpm of love"), edition)


@pytest.mark.parametrize("rules", STRICT.values(), ids=STRICT)
def test_a_log_of_a_strict_shop_holds_under_its_own_rules(rules) -> None:
    for name in FAMILIES:
        for number in range(8):
            item = draw(name, seed=f"{number}", edition=shop(**rules))
            assert complaints(item, shop(**rules)) == ()


def test_a_log_that_is_right_by_the_published_limits_is_found_wrong_in_a_stricter_shop(edition) -> None:
    item = drawn(
        edition, "fault-in-preparation", lambda one: is_sound(one) and one.options[1].text.endswith("3 passes each way")
    )

    assert complaints(item, edition) == ()
    assert "passes_each_way" in complaints(item, shop(cutter_passes="5 passes"))[0]
