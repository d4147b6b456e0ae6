"""Questions about steel bodies: what a full-service plant may still mend is no repair here, and no reject either."""

from collections import Counter

import pytest

from assessments.questions import Option, draw, mark
from assessments.questions.items.claims import All, Decided, parts
from assessments.questions.items.wordings import plain
from tests.present import as_a
from training.rulebook import load_edition

NORTH_AMERICA = load_edition("north-america")
STEEL = ("light-truck-steel", "truck")
VERDICTS = ("tire-verdict", "lean-and-exit")
TWO_HOLES = ("size-verdict", "before-and-after")
DRAWS = 40


@pytest.mark.parametrize("casing", STEEL)
@pytest.mark.parametrize("name", VERDICTS)
def test_repairing_here_what_belongs_to_a_plant_is_unsafe_and_sending_it_on_is_not(name, casing) -> None:
    seen: Counter[bool] = Counter()
    for number in range(DRAWS):
        item = draw(name, seed=f"plant/{number}", edition=NORTH_AMERICA, casings=[casing])
        if not plain(item.key_text).startswith("Send to a repair plant"):
            continue
        for option in item.options:
            repairs = option.text.startswith("Repair")
            assert mark(item, option.id).unsafe == repairs, (item.stem, option.text)
            seen[repairs] += 1
    assert seen[True] > 5
    assert seen[False] > 5


# 29 CFR 1910.177(f)(2): "80% or less" of the recommended pressure; (f)(4): "more than 80%".
def test_a_line_drawn_too_low_fills_what_was_run_soft() -> None:
    item = draw("pressure-line", seed="1", edition=NORTH_AMERICA)
    number, unit = str(item.key).split()
    value = float(number)

    assert mark(item, {"value": number, "unit": unit}).right
    assert mark(item, {"value": f"{value / 80 * 50:.1f}", "unit": unit}).unsafe  # half of the recommended pressure
    assert not mark(item, {"value": f"{value / 80 * 95:.1f}", "unit": unit}).unsafe


# Association article 2008: 1 to 1.5 in from each shoulder. 1.5 in is 38.1 mm, 1 in is 25.4 mm.
def test_a_hole_measured_clear_of_the_shoulder_that_is_not_is_unsafe() -> None:
    near: set[bool] = set()
    clear: set[bool] = set()
    for number in range(DRAWS):
        item = draw("edge-to-shoulder", seed=str(number), edition=NORTH_AMERICA, prefer="mm")
        distance = float(str(item.key).removesuffix(" mm"))
        assert not 25.4 < distance < 38.1
        unsafe = mark(item, {"value": "45", "unit": "mm"}).unsafe
        (near if distance < 38.1 else clear).add(unsafe)
    assert near == {True}
    assert clear == {False}


# 49 CFR 570.62(d) (from memory): no repair that reinforces the cord body on a front wheel.
def test_no_section_repair_runs_on_a_steer_axle() -> None:
    seen = 0
    for number in range(DRAWS):
        item = draw("repairs-by-axle", seed=str(number), edition=NORTH_AMERICA)
        for option in item.options:
            line = item.line_of(option)
            if "section repair" in line and line.startswith("Steer"):
                assert option.id not in as_a(tuple, item.key)
                assert option.id in item.unsafe
                seen += 1
    assert seen > 5


@pytest.mark.parametrize("casing", STEEL)
@pytest.mark.parametrize("name", TWO_HOLES)
def test_of_two_holes_it_is_unsafe_to_let_one_go_that_belongs_to_a_plant(name, casing) -> None:
    seen: Counter[bool] = Counter()
    for number in range(DRAWS):
        item = draw(name, seed=f"two/{number}", edition=NORTH_AMERICA, casings=[casing])
        right = repaired(item.option(str(item.key)))
        for option in item.options:
            is_unsafe = not repaired(option) <= right
            assert mark(item, option.id).unsafe == is_unsafe, (item.stem, option.text)
            seen[is_unsafe] += 1
    assert min(seen[True], seen[False]) > 5


def repaired(option: Option) -> set[str]:
    """The holes that an option lets be repaired, by what it claims of each."""
    return {
        one.alone for one in parts(as_a(All, option.claim)) if isinstance(one, Decided) and one.verdicts == ("repair",)
    }
