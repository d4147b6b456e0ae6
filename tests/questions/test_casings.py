"""A draw asks only about the casings it was given."""

from typing import Any

import pytest

from assessments.questions import Item, blueprint, blueprint_names, draw, draw_form, draw_practice, family, family_names
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.coverage import coverage, families_of
from assessments.questions.draws.sampling import CannotDraw
from training.rulebook import edition_names, load_edition

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

WHICH_BODY = "casing-class"  # which body it is, is what it asks: both come up in either scope


def casing_of(item: Item) -> str:
    if item.family == WHICH_BODY:
        return ""
    tire: Any = (item.case or {}).get("tire") or {}
    return str(tire.get("casing", ""))


@pytest.mark.parametrize("edition_name", edition_names())
@pytest.mark.parametrize("name", family_names())
def test_a_draw_tells_a_tire_of_the_casing_asked_for(name, edition_name) -> None:
    edition = load_edition(edition_name)
    for casing in family(name).casings:
        for number in range(3):
            try:
                item = draw(name, seed=f"casing/{number}", edition=edition, casings=[casing])
            except (NoSuchLimit, CannotDraw):
                continue
            assert casing_of(item) in (casing, "")


def test_a_family_that_tells_of_other_tires_refuses() -> None:
    edition = load_edition("north-america")
    with pytest.raises(NoSuchLimit, match='family "dual-pairs": it does not ask about passenger'):
        draw("dual-pairs", seed="1", edition=edition, casings=["passenger"])
    with pytest.raises(CannotDraw, match="cannot be drawn"):
        draw_practice(["dual-pairs"], seed="1", count=2, edition=edition, casings=["passenger"])


@pytest.mark.parametrize("name", blueprint_names())
def test_a_form_asks_only_about_the_casings_of_its_blueprint(name) -> None:
    plan = blueprint(name)
    edition = load_edition(plan.edition)
    for number in range(3):
        for item in draw_form(plan, secret=b"casings", form_id=str(number), edition=edition):
            assert casing_of(item) in ("", *plan.casings), item.family


@pytest.mark.parametrize("name", blueprint_names())
def test_every_cell_of_a_blueprint_has_something_to_ask(name) -> None:
    plan = blueprint(name)
    assert {cell.family for cell in plan.cells} <= set(families_of(load_edition(plan.edition), plan.casings))


def test_what_is_covered_is_what_is_asked() -> None:
    edition = load_edition("north-america")
    asked = {one.family: one for one in coverage(edition)}
    assert asked["tread-by-axle"].asks(["truck"])
    assert not asked["tread-by-axle"].asks(["passenger"])
    assert asked["date-code"].asks(["motorcycle"])  # tells no tire: of every casing
