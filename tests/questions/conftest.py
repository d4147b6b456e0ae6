"""Many items of every family, drawn once."""

import pytest

from assessments.questions import draw, family_names
from tests.homes import home
from training.rulebook import load_edition

DRAWS = 150


@pytest.fixture(scope="session")
def edition():
    return load_edition("north-america")


@pytest.fixture(scope="session")
def drawn():
    """Items by family, half of them in inches first and half in millimeters first."""
    return {
        name: [draw(name, seed=f"test {n}", edition=home(name), prefer=("in", "mm")[n % 2]) for n in range(DRAWS)]
        for name in family_names()
    }


@pytest.fixture(params=family_names())
def items(request, drawn):
    """The items of one family; the test runs once for each family."""
    return drawn[request.param]
