"""Families a shop has switched off: who is asked instead, and that a form stays whole."""

from collections import Counter

import pytest

from assessments.questions import Blueprint, Cell, blueprint, draw_form, family, family_names, parts_of
from assessments.questions.blueprints.stand_ins import stand_ins_for, with_stand_ins, with_their_series
from assessments.questions.draws.coverage import PUBLIC, coverage, families_of, public_seed
from assessments.questions.draws.sampling import draw_different
from training.rulebook import load_edition
from training.trade.words import SKILLS

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

EDITION = load_edition("north-america")
AMONG = families_of(EDITION)
PLAN = blueprint("north-america-light")


def plan(*cells: Cell) -> Blueprint:
    return Blueprint("p", "P", EDITION.name, ("passenger",), 60, 80, 0, 1, 1, 3, 24, "", cells)


def counts(terms: Blueprint) -> dict[str, int]:
    return {cell.family: cell.count for cell in terms.cells}


def test_with_nothing_off_the_plan_stays_as_it_is() -> None:
    assert with_stand_ins(PLAN, off=(), among=AMONG) is PLAN


def test_the_least_asked_family_of_the_skill_stands_in_and_the_cell_says_for_whom() -> None:
    # three families of size limits: two asked once, one not at all
    asked = plan(Cell("size-verdict", 2), Cell("limit-for-casing", 1))
    among = ("size-verdict", "limit-for-casing", "holes-by-size", "tire-verdict")

    found = with_stand_ins(asked, off={"size-verdict"}, among=among)

    # the first of two goes to the one not asked yet; then both are asked once and the first by name takes the second
    assert counts(found) == {"limit-for-casing": 1, "holes-by-size": 2}
    assert found.count == 3
    assert {cell.family: cell.instead_of for cell in found.cells}["holes-by-size"] == ("size-verdict",)


@pytest.mark.parametrize("name", [cell.family for cell in PLAN.cells])
def test_whichever_family_is_off_the_form_asks_as_many_questions_of_each_skill(name: str) -> None:
    found = with_stand_ins(PLAN, off={name}, among=AMONG)

    assert name not in counts(found)
    assert found.skills() == PLAN.skills()


def test_a_family_without_any_stand_in_stays() -> None:
    asked = plan(Cell("size-verdict", 2))

    assert with_stand_ins(asked, off={"size-verdict"}, among=("size-verdict", "tire-verdict")) is asked


def test_a_family_the_edition_has_nothing_to_ask_of_is_replaced_too() -> None:
    asked = plan(Cell("size-verdict", 1), Cell("tire-verdict", 1))

    found = with_stand_ins(asked, off={"tire-verdict"}, among=("holes-by-size", "tire-verdict", "earlier-repair"))

    assert counts(found) == {"holes-by-size": 1, "earlier-repair": 1}


def test_a_part_of_a_longer_case_takes_the_whole_case_with_it_and_never_stands_in() -> None:
    parts = parts_of("whole-case")

    found = with_stand_ins(PLAN, off={parts[2]}, among=AMONG)

    assert with_their_series({parts[2]}) == set(parts)
    assert not set(counts(found)) & set(parts)
    assert found.skills() == PLAN.skills()
    for name in family_names():
        assert not set(stand_ins_for(name, off=(), among=AMONG)) & set(parts)


def test_every_skill_has_at_least_two_families_so_that_any_one_can_be_switched_off() -> None:
    alone = Counter(family(name).skill for name in AMONG if not family(name).series)

    assert set(alone) == set(SKILLS)
    assert min(alone.values()) >= 2


def test_the_form_of_a_plan_with_stand_ins_asks_none_of_the_families_off() -> None:
    found = with_stand_ins(PLAN, off={"torque-recheck", "two-injuries"}, among=AMONG)

    items = draw_form(found, secret=b"secret", form_id="1", edition=EDITION)

    assert len(items) == PLAN.count
    assert not {"torque-recheck", "two-injuries"} & {item.family for item in items}


def test_a_family_that_is_off_stands_in_for_none_that_has_nothing_to_ask() -> None:
    united_kingdom = load_edition("united-kingdom")
    on = {"limit-for-casing", "size-verdict"}
    off = set(family_names()) - on

    # the United Kingdom has no limit by axle, so another family has to stand in
    items = draw_different(["tread-by-axle"] * 3, seeds=["1", "2", "3"], edition=united_kingdom, prefer="mm", off=off)

    assert {item.family for item in items} <= on


def test_no_seed_of_a_form_lies_in_the_namespace_of_the_bench() -> None:
    items = draw_form(PLAN, secret=b"secret", form_id="1", edition=EDITION)

    assert public_seed("1/3") == "bench:1/3"
    assert not any(item.seed.startswith(PUBLIC) for item in items)


def test_coverage_names_only_formats_and_skills_the_family_declares() -> None:
    found = {one.family: one.counts for one in coverage(EDITION)}

    assert set(found) == set(family_names())
    for name, seen in found.items():
        assert {form for _, form in seen} <= set(family(name).formats)
        assert sum(seen.values()) <= 4 * max(1, len(family(name).casings))
        if len(family(name).formats) == 1:  # the first visit to the bench waits for this: one draw tells
            assert set(seen.values()) <= {1}
    # its limit is not the same for each of these; a date code tells of no tire
    assert {casing for casing, _ in found["size-verdict"]} == {
        "passenger", "light-truck-fabric", "light-truck-steel", "truck",
    }  # fmt: skip
    assert {casing for casing, _ in found["date-code"]} == {""}
