"""Many items of every family and many forms of every blueprint, drawn once for all tests that look at many."""

from functools import cache

from assessments.questions import Item, blueprint, draw, draw_form
from tests.examples import times
from tests.homes import home
from training.rulebook import load_edition

DRAWS, FORMS, PROVED = 100, times(30), times(100)


@cache
def items_of(family: str) -> list[Item]:
    """Items of a family, half of them in inches first and half in millimeters first."""
    return [draw(family, seed=f"test {n}", edition=home(family), prefer=("in", "mm")[n % 2]) for n in range(DRAWS)]


@cache
def forms_of(name: str) -> list[list[Item]]:
    """Forms of a built-in blueprint."""
    plan = blueprint(name)
    edition = load_edition(plan.edition)
    return [draw_form(plan, secret=b"kept", form_id=f"fair {number}", edition=edition) for number in range(FORMS)]
