"""A hole that a reader moves: where the rulebook turns, exact to the part that is printed, and what the page says."""

import random
import re
from fractions import Fraction
from math import cos, radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.course.lessons import html_of
from tests.pages import text_of
from tests.present import present
from training.course import lesson, passage, render
from training.course.lessons import Block, CourseError
from training.course.movable import SLIDERS, Movable, last_that_holds, read_movable
from training.rulebook import HouseRule, HouseRules, Quantity, decide, lay_over, load_edition, quantity

HERE = lesson("measure-and-choose", "where-it-may-be")
BLOCK = next(block for block in HERE.blocks if block.kind == "movable")
# of the lesson's tire: 205/55R16 in the United Kingdom, whose area T is 70 % of its section width (BS AU 159g as it is
# summarised, tests/published/repair_area_uk.csv); the groove of the example in North America
HALF_CROWN_MM = {("north-america", "mm"): 71.0, ("north-america", "in"): 2.8125 * 25.4,
                 ("united-kingdom", "mm"): 205 * 0.70 / 2, ("united-kingdom", "in"): 205 * 0.70 / 2}  # fmt: skip
PLACES = list(HALF_CROWN_MM)
CASES_EACH = 250  # a thousand in all


def movable(edition: str, prefer: str) -> Movable:
    return read_movable(BLOCK, load_edition(edition), prefer)


def far_edge_mm(values: dict[str, Quantity]) -> float:
    """How far from the centerline the opening at the liner reaches [mm]. Source: plain trigonometry."""
    place, thick, hole = (values[name].number for name in ("place", "thickness", "hole"))
    lean = radians(values["lean"].number)
    return place + thick * tan(lean) + hole / 2 / cos(lean)


def some_values(example: Movable, chance: random.Random) -> dict[str, Quantity]:
    values = {field.name: field.at(chance.randint(field.least, field.most)) for field in example.fields}
    return {**values, "hole": example.start["hole"]}  # the size has a limit of its own


def is_repaired(example: Movable, values: dict[str, Quantity]) -> bool:
    decision = decide(example.case_of(values), edition=example.edition, rest_in_order=True)
    return str(decision.verdict) == "repair"


@pytest.mark.parametrize(("edition", "prefer"), PLACES)
def test_where_a_value_turns_is_exact_to_the_part_that_is_printed(edition, prefer) -> None:
    example, half_mm = movable(edition, prefer), HALF_CROWN_MM[edition, prefer]
    chance, turned = random.Random(f"{edition} {prefer}"), 0
    for _ in range(CASES_EACH):
        values = some_values(example, chance)
        name = chance.choice(SLIDERS)
        field, last = example.field(name), example.moved(values).turn(name)

        if last is None:
            assert not is_repaired(example, {**values, name: field.at(field.least)})
            assert far_edge_mm({**values, name: field.at(field.least)}) > half_mm - 1e-6
            continue
        kept = {**values, name: field.at(last)}
        assert is_repaired(example, kept)
        assert far_edge_mm(kept) <= half_mm + 1e-6
        if last == field.most:
            continue
        turned += 1
        past = {**values, name: quantity(Fraction(last + 1, 32 if field.unit == "in" else 10), field.unit)}
        assert not is_repaired(example, past)
        assert far_edge_mm(past) > half_mm - 1e-6
    assert turned > CASES_EACH / 4


@given(st.integers(-50, 50), st.integers(0, 300), st.integers(-100, 400))
def test_the_last_count_that_holds_is_found_with_few_questions(least: int, span: int, last: int) -> None:
    asked: list[int] = []

    def holds(count: int) -> bool:
        asked.append(count)
        return count <= last

    found = last_that_holds(holds, least, least + span)

    assert found == (None if last < least else min(last, least + span))
    assert len(asked) <= span.bit_length() + 2
    assert all(least <= count <= least + span for count in asked)


@pytest.mark.parametrize(("edition", "prefer"), PLACES)
def test_within_its_reach_a_greater_value_never_brings_a_rejected_hole_back(edition, prefer) -> None:
    example, chance = movable(edition, prefer), random.Random(7)
    for _ in range(12):
        values = some_values(example, chance)
        for name in SLIDERS:
            field = example.field(name)
            counts = sorted(chance.sample(range(field.least, field.most + 1), 8))
            held = [is_repaired(example, {**values, name: field.at(count)}) for count in counts]
            assert held == sorted(held, reverse=True)


@pytest.mark.parametrize(("edition", "prefer"), PLACES)
def test_no_value_in_reach_is_one_that_no_tire_has(edition, prefer) -> None:
    example = movable(edition, prefer)
    ends = [{**example.start, field.name: field.at(count)} for field in example.fields
            for count in (field.least, field.most)]  # fmt: skip

    assert {example.moved(values).decision.verdict for values in ends} == {"repair", "reject"}


@pytest.mark.parametrize(("edition", "prefer"), PLACES)
def test_the_example_begins_rejected_at_the_liner_alone_and_each_ready_move_repairs_it(edition, prefer) -> None:
    start = movable(edition, prefer).at_start

    assert start.decision.verdict == "reject"
    assert [one.clause for one in start.decision.deciding] == ["crown-at-liner"]
    assert present(start.inside_mm)[0] > 0 > present(start.inside_mm)[1]
    for name in SLIDERS:
        moved = present(start.at_turn(name))
        assert moved.decision.verdict == "repair"
        assert {one: value for one, value in moved.values.items() if one != name} == {
            one: value for one, value in start.values.items() if one != name
        }


def test_the_mark_of_the_one_piece_unit_is_where_the_rulebook_ends_it() -> None:
    # "over 25 degrees" a separate stem and patch: tests/published/limits.toml
    example = movable("north-america", "mm")
    ends = present(example.one_piece_ends())
    near = {**example.start, "place": example.field("place").at(400)}

    def ways(lean: Fraction) -> tuple[str, ...]:
        return present(example.moved({**near, "lean": quantity(lean, "deg")}).decision.plan)[0].methods_allowed

    assert ends.number == 25
    assert ways(ends.value) == ("one-piece", "two-piece")
    assert ways(ends.value + Fraction(1, 10)) == ("two-piece",)


def test_a_house_rule_of_the_shop_moves_the_turn() -> None:
    edition = load_edition("north-america")
    wider = lay_over(edition, HouseRules((HouseRule("crown-at-liner", ("3 mm",)),)))
    ours, theirs = (read_movable(BLOCK, one, "mm").at_start for one in (wider, edition))

    assert present(ours.turn("place")) == present(theirs.turn("place")) - 30
    assert present(ours.inside_mm)[1] == pytest.approx(present(theirs.inside_mm)[1] - 3)


# -- the page


@pytest.mark.parametrize(("edition", "line"), [("north-america", "outer groove"), ("united-kingdom", "edge of area T")])
def test_the_page_says_verdict_margins_and_the_turn(edition, line) -> None:
    page = render(HERE, edition=load_edition(edition), prefer="mm")
    rejected, held = text_of(page.exchanged({})), text_of(page.exchanged({"lean": "30"}))

    half_mm = HALF_CROWN_MM[edition, "mm"]
    past = 57 + 14 * tan(radians(40)) + 2.5 / cos(radians(40)) - half_mm
    assert f"The far edge is {_up(past)} mm past the {line}." in rejected
    assert rejected.startswith("Reject Place of the hole at the liner.")
    assert f"Met, with {_down(half_mm - 57 - 2.5 / cos(radians(40)))} mm to spare." in rejected
    lean = _last_lean(half_mm)
    assert f"Up to {lean}° it may be repaired; allowed: two-piece repair." in rejected
    assert f"It holds up to {lean}°." in rejected
    assert held.startswith("Repair two-piece repair Place of the hole at the liner.")


def _down(length_mm: float) -> str:
    return f"{int(length_mm * 10 + 1e-6) / 10:g}"


def _up(length_mm: float) -> str:
    return f"{-int(-length_mm * 10 // 1) / 10:g}"


def _last_lean(half_mm: float) -> float:
    """The last tenth of a degree that holds at 57 mm, 14 mm thick, 5 mm across. Source: plain trigonometry."""
    tenths = [count for count in range(601) if 57 + 14 * tan(radians(count / 10)) + 2.5 / cos(radians(count / 10))
              <= half_mm]  # fmt: skip
    return max(tenths) / 10


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"place": "80"}, 'Hole, from the center: "80" is out of reach here; give 40 mm to 72 mm.'),
        ({"place": "-57"}, 'Hole, from the center: "-57" is out of reach here; give 40 mm to 72 mm.'),
        ({"thickness": "1/2 in"}, 'Crown thickness: "1/2 in" is not in mm; give 8 mm to 20 mm.'),
        ({"lean": "steep"}, 'Lean, outward: "steep" is not an angle;'),
        ({"hole": "1e9"}, 'Hole, across: "1e9" is not a length;'),
        ({"lean": "<script>"}, 'Lean, outward: "<script>" is not an angle;'),
        ({"lean": "9" * 5000}, "Lean, outward:"),
    ],
)
def test_what_cannot_be_is_refused_by_name_and_what_was_shown_stays(asked, sentence) -> None:
    page = render(HERE, edition=load_edition("north-america"), prefer="mm")
    was = page.exchanged({"place": "50", "lean": "30"})
    told = page.exchanged({"place": "50", "lean": "30", **asked, "was": "50 mm;30 deg;14 mm;5 mm"})

    assert sentence in text_of(told)
    assert "<script" not in told
    assert _drawing(told) == _drawing(was) != _drawing(page.exchanged({}))
    # without what was shown before, or with nonsense for it, it stands as at first
    for before in ("", "50 mm;30 deg", "a;b;c;d", "50 mm;99 deg;14 mm;5 mm"):
        assert _drawing(page.exchanged({**asked, "was": before})) == _drawing(page.exchanged({}))


def _drawing(html: str) -> str:
    return present(re.search(r"(?s)<svg.*?</svg>", html))[0]


def test_values_are_read_as_people_write_them_and_shown_back_so() -> None:
    metric = render(HERE, edition=load_edition("north-america"), prefer="mm")
    inches = render(HERE, edition=load_edition("north-america"), prefer="in")

    assert metric.exchanged({"place": " 52,5 mm", "lean": "37.7°"}) == metric.exchanged(
        {"place": "52.5", "lean": "37.7"}
    )
    assert inches.exchanged({"place": '2 1/8"'}) == inches.exchanged({"place": "2 1/8"})
    assert 'name="place" type="text" value="2&#32;1/8"' in inches.moved({"place": "2 1/8 in"})
    assert 'value="&lt;b&gt;" aria-describedby' in metric.moved({"lean": "<b>"})


def test_an_address_moves_what_the_page_shows_and_nothing_else() -> None:
    page = render(HERE, edition=load_edition("united-kingdom"), prefer="mm")
    start, end = page.page.index("<form"), page.page.index("</form>")
    moved = page.moved({"lean": "20", "other": "1"})

    assert page.moved({}) == page.page
    assert moved[:start] == page.page[:start]
    assert moved[moved.index("</form>") :] == page.page[end:]
    assert 'data-verdict="Repair"' in moved
    assert "one-piece unit or two-piece repair" in moved


def test_a_size_beyond_the_limit_says_so_and_no_lean_mends_it() -> None:
    told = text_of(
        render(HERE, edition=load_edition("north-america"), prefer="mm").exchanged({"lean": "0", "hole": "8"})
    )

    assert "Injury A, size of the hole: 8 mm. Allowed: at most 1/4 in (6 mm)." in told
    assert "At this place no lean makes it a repair." in told
    assert "No value makes it a repair." in told


def test_the_passage_that_practice_prints_has_nothing_to_move() -> None:
    shown = present(passage(HERE, "The whole hole", edition=load_edition("north-america"), prefer="in"))

    assert "<form" not in shown.html
    assert "<input" not in shown.html
    assert 'data-verdict="Reject"' in shown.html


def test_a_rule_of_thumb_for_the_lean_is_plain_trigonometry() -> None:
    html = html_of("::leans 1/2 1\n", load_edition("north-america"))

    told = re.findall(r"<dt>(\d+)°</dt><dd>(.*?)</dd>", html)
    assert told == [("27", "half the thickness"), ("45", "the whole thickness")]
    assert tan(radians(27)) == pytest.approx(1 / 2, abs=0.01)
    assert tan(radians(45)) == pytest.approx(1)


TOML = BLOCK.body


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("title = ", "movable: it cannot be read"),
        (TOML.replace('title = "Move the hole"', ""), "title: nothing is not accepted; give a text"),
        (TOML.replace("[mm]", "[cm]"), "cm: is not a field; the fields here are case, in, mm, title"),
        (TOML.replace("[mm]\n", "[in.mm]\n"), r"mm: is missing; give a \[mm\] table"),
        (TOML.replace('"72 mm"', '"7 pots"'), 'place: "7 pots" is not a length'),
        (TOML.replace('"72 mm"', '"2 in"'), "place: give the least, the most and the first value"),
        (TOML.replace('"72 mm"', '"72.05 mm"'), "place: give the least, the most and one between them"),
        (TOML.replace('"72 mm"', '"41 mm"'), "place: give the least, the most and one between them"),
        (TOML.replace('casing = "passenger"', 'casing = "boat"'), "movable: tire.casing"),
    ],
)
def test_a_mistake_in_the_example_is_named(text, message) -> None:
    with pytest.raises(CourseError, match=message):
        read_movable(Block("movable", 1, body=text), load_edition("north-america"), "mm")


def test_a_lesson_moves_one_thing() -> None:
    with pytest.raises(CourseError, match="a lesson moves one thing"):
        html_of(f"::movable\n{TOML}\n::end\n\n::movable\n{TOML}\n::end\n", load_edition("north-america"))
