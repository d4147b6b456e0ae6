"""What all tests share: two shops that must not see each other, their people by role, and visits as one of them."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any, cast

import pytest
from django.test import Client
from hypothesis import settings

from tests.browsers import missing
from tests.factories import MembershipFactory, ShopFactory, UserFactory
from tests.pages import Answer, ClientAs, Visit
from training.config.visitors import VisitorsCache
from training.models import Shop, User

# a busy machine is slow, not wrong
settings.register_profile("patient", deadline=None)
settings.load_profile("patient")

# what browser tests need and this machine lacks; CI sets SOUND_CASING_BROWSER=required and refuses to go on without
MISSING = missing()


def pytest_configure(config: pytest.Config) -> None:
    """Refuse to leave the browser tests out where they are required."""
    if MISSING and os.environ.get("SOUND_CASING_BROWSER") == "required":
        raise pytest.UsageError(f"the browser tests are required here and need {MISSING}")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let whatever needs the database have the store of visitors too, where that is another; the longest run first."""
    items.sort(key=lambda item: item.path.name != "test_recipes.py")  # a worker has it to itself, beside all the rest
    for item in items:
        if item.get_closest_marker("django_db") or "db" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.django_db(databases="__all__"), append=False)


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    """Leave out the tests that play pages where there is nothing to play them with."""
    is_browser_test = collection_path.parent.name == "browser" and collection_path.name.startswith("test_")
    return True if MISSING and is_browser_test and "playwright" in collection_path.read_text("utf-8") else None


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say what was left out."""
    if MISSING:
        terminalreporter.write_line(f"The browser tests were left out: they need {MISSING}.", yellow=True)


@pytest.fixture(autouse=True)
def store_of_visitors_is_open() -> None:
    """Begin with counters that can be written: a page of an earlier test may have met a locked store and left it."""
    VisitorsCache.closed_until = 0.0


ROLES = ("apprentice", "trainer", "owner")


@pytest.fixture
def own_shop(db: None) -> Shop:
    """The shop whose pages a test opens."""
    return ShopFactory.create(slug="quarry-road", name="Quarry Road Tire")


@pytest.fixture
def other_shop(db: None) -> Shop:
    """A shop that must not see any of the first one's."""
    return ShopFactory.create(slug="mill-street", name="Mill Street Tire")


@pytest.fixture
def person(own_shop: Shop, other_shop: Shop) -> Callable[[str], User]:
    """`person("trainer")` is the own shop's trainer, `person("owner_of_other_shop")` the other's owner; made once."""
    made: dict[str, User] = {}

    def find(role: str) -> User:
        if role not in made:
            name, _, elsewhere = role.partition("_of_other_shop")
            del elsewhere
            if name not in ROLES:
                raise ValueError(f"role: {role!r} is not accepted; give one of {ROLES}, or with _of_other_shop")
            shop = other_shop if role.endswith("_of_other_shop") else own_shop
            user = UserFactory.create(name=f"The {role.replace('_', ' ')}", email=f"{role}@shop.example")
            made[role] = MembershipFactory.create(user=user, shop=shop, role=name).user
        return made[role]

    return find


@pytest.fixture
def apprentice(person: Callable[[str], User]) -> User:
    """The apprentice of the own shop."""
    return person("apprentice")


@pytest.fixture
def trainer(person: Callable[[str], User]) -> User:
    """The trainer of the own shop."""
    return person("trainer")


@pytest.fixture
def owner(person: Callable[[str], User]) -> User:
    """The owner of the own shop."""
    return person("owner")


@pytest.fixture
def client_as(person: Callable[[str], User]) -> ClientAs:
    """`client_as("trainer")` or `client_as(user)`: a browser logged in as that person; "anonymous" is not."""

    def log_in(who: str | User) -> Client:
        client = Client()
        if who != "anonymous":
            client.force_login(person(who) if isinstance(who, str) else who)
        return client

    return log_in


@pytest.fixture
def visit(client_as: ClientAs) -> Visit:
    """`visit(url, as_role="trainer")`, or `visit(url, as_role=user, post={...})`: the answer of one page."""

    def go(
        url: str, *, as_role: str | User = "apprentice", post: dict[str, Any] | None = None, **headers: str
    ) -> Answer:
        client = client_as(as_role)
        answer = client.get(url, headers=headers) if post is None else client.post(url, post, headers=headers)
        return cast("Answer", answer)

    return go
