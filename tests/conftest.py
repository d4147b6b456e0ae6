"""What all tests share: two shops that must not see each other, their people by role, and visits as one of them."""

import os
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any, cast
from zoneinfo import ZoneInfo

import pytest
from django.conf import settings
from django.test import Client
from django.utils import timezone
from hypothesis import settings as examples

from assessments.models import Taught
from assessments.questions import Item
from certificates.models import Certificate
from certificates.numbers import show_number
from tests.browsers import missing
from tests.factories import (
    PASSWORD,
    AssignmentFactory,
    AttemptFactory,
    DrawFlagFactory,
    HouseRuleSetFactory,
    InvitationFactory,
    MembershipFactory,
    NoticeFactory,
    PaperFactory,
    PhotographFactory,
    RepairUnitFactory,
    ResponseFactory,
    ShopFactory,
    UserFactory,
    a_pictured_item,
    an_item,
)
from tests.factories_certificates import CertificateFactory, HandsOnFactory
from tests.kept_checks import keep
from tests.pages import Answer, ClientAs, Visit
from tests.permissions import WHO
from training.config.visitors import VisitorsCache
from training.course import printed_pictures
from training.models import Shop, User
from training.models.shops import digest_of

# a busy machine is slow, not wrong
examples.register_profile("patient", deadline=None)
examples.load_profile("patient")

# what browser tests need and this machine lacks; CI sets SOUND_CASING_BROWSER=required and refuses to go on without
MISSING = missing()


def pytest_configure(config: pytest.Config) -> None:
    """Refuse to leave the browser tests out where they are required."""
    if MISSING and os.environ.get("SOUND_CASING_BROWSER") == "required":
        raise pytest.UsageError(f"the browser tests are required here and need {MISSING}")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let whatever needs the database have the store of visitors too, where that is another; the longest run first."""
    # the walk over recipes has a worker to itself beside all the rest, and pages take longer than what has none
    items.sort(key=lambda item: (item.path.name != "test_recipes.py", item.path.parent.name != "browser"))
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


@pytest.fixture(scope="session")
def pictures_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where pictures are kept while the tests run."""
    return tmp_path_factory.mktemp("pictures")


@pytest.fixture(autouse=True)
def pictures_are_kept_apart(monkeypatch: pytest.MonkeyPatch, pictures_folder: Path) -> None:
    """Leave the folder of the installation alone."""
    monkeypatch.setattr(settings, "PICTURES_DIR", pictures_folder)


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


@pytest.fixture
def value(own_shop: Shop, person: Callable[[str], User]) -> Callable[[str], object]:
    """`value("paper")` is made when it is asked for; what can be is the apprentice's of the own shop."""
    now = timezone.now()
    for who in WHO[1:]:
        person(who).set_password(PASSWORD)
        person(who).save()
    learner, trainer = person("apprentice"), person("trainer")
    ours = {"form__shop": own_shop, "form__learner": learner}
    today = now.astimezone(ZoneInfo(own_shop.time_zone)).date()  # a day of the shop, not of the server

    def certificate() -> Certificate:
        days = {"issued_date": today, "expires_date": today + timedelta(days=700)}
        return CertificateFactory.create(shop=own_shop, holder=learner, issued_by=person("owner"), **days)

    def pictured(**more: Any) -> object:
        return AttemptFactory.create(form__items=[a_pictured_item()], **more, **ours).form.reference

    def answered(items: list[Item]) -> object:
        attempt = AttemptFactory.create(practice=True, form__items=items, **ours)
        ResponseFactory.create(attempt=attempt, is_right=True)
        return attempt.form.reference

    def taught() -> object:
        attempt = AttemptFactory.create(practice=True, **ours)
        ResponseFactory.create(attempt=attempt, is_right=False)
        Taught.objects.create(attempt=attempt, position=1, misconception="size-does-not-matter", at=now)
        return attempt.form.reference

    made: dict[str, Callable[[], object]] = {
        "shop": lambda: own_shop.slug,
        "person": lambda: learner.reference,
        "scope": lambda: "north-america-light",
        "module": lambda: "inspect-and-reject",
        "lesson": lambda: "off-the-wheel",
        "movable_module": lambda: "measure-and-choose",
        "movable_lesson": lambda: "where-it-may-be",
        "lesson_picture": lambda: next(iter(printed_pictures())),
        "position": lambda: 1,
        "practice": lambda: AttemptFactory.create(practice=True, **ours).form.reference,
        "attempt": lambda: AttemptFactory.create(started_at=now, **ours).form.reference,
        "taught_practice": taught,
        "answered_practice": lambda: answered([an_item()]),
        "answered_pictures": lambda: answered([a_pictured_item()]),
        "pictured_practice": lambda: pictured(practice=True),
        "pictured_attempt": lambda: pictured(started_at=now),
        "handed_in": lambda: AttemptFactory.create(passed=True, **ours).form.reference,
        "record": lambda: HandsOnFactory.create(shop=own_shop, learner=learner, trainer=trainer).reference,
        "number": lambda: certificate().number,
        "shown_number": lambda: show_number(certificate().number),
        "family": lambda: "size-verdict",
        "pictured_family": lambda: "picture-named",
        "paper": lambda: PaperFactory.create(**ours, form__drawn_at=now).form.reference,
        "flag": lambda: DrawFlagFactory.create(shop=own_shop, by=trainer).reference,
        "assignment": lambda: AssignmentFactory.create(shop=own_shop, learner=learner).reference,
        "notice": lambda: NoticeFactory.create(shop=own_shop, person=learner).reference,
        "invitation": lambda: InvitationFactory.create(shop=own_shop, sent_at=now).reference,
        "secret": lambda: InvitationFactory.create(sent_at=now, secret_digest=digest_of("the-secret")) and "the-secret",
        "check": lambda: keep(shop=own_shop, person=learner).reference,
        "set": lambda: HouseRuleSetFactory.create(shop=own_shop).number,
        "draft": lambda: PhotographFactory.create(shop=own_shop, added_by=trainer, draft=True).reference,
        "photograph": lambda: PhotographFactory.create(shop=own_shop).reference,
        "confirmed_photograph": lambda: PhotographFactory.create(shop=own_shop, confirmed=True).reference,
        "unit": lambda: RepairUnitFactory.create(shop=own_shop).reference,
        "uidb36": lambda: "1",
        "key": lambda: "no-such-key",
    }
    return lambda name: made[name]()
