"""What the tests of questions are asked of: an edition, every family's items, each family's in turn."""

import pytest

from assessments.questions import Item, family_names
from tests.questions.many import items_of
from training.rulebook import Edition, load_edition


@pytest.fixture(scope="session")
def edition() -> Edition:
    return load_edition("north-america")


@pytest.fixture(scope="session")
def drawn() -> dict[str, list[Item]]:
    """Items by family."""
    return {name: items_of(name) for name in family_names()}


@pytest.fixture(params=family_names())
def items(request: pytest.FixtureRequest) -> list[Item]:
    """The items of one family; the test runs once for each family."""
    return items_of(request.param)
