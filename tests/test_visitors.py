"""The store of visitors: pages that anyone opens write nothing beside it, and are answered when it is closed."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from typing import Any
from urllib.request import urlopen

import pytest
from django.contrib.sessions.models import Session
from django.core.cache import cache
from django.core.cache.backends.locmem import LocMemCache
from django.db import connections, router
from django.db.backends.sqlite3.base import SQLiteCursorWrapper
from django.test import Client

from certificates.numbers import show_number
from certificates.views.verify import LOOKUPS_A_MINUTE
from tests.browser.server import Site
from tests.factories import PASSWORD, MembershipFactory, UserFactory
from tests.factories_certificates import CertificateFactory
from training.config.visitors import ALIAS, VisitorsCache
from training.models import Shop, User

READS = ("SELECT", "SAVEPOINT", "RELEASE", "ROLLBACK")
VISITORS = router.db_for_write(Session)

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(VISITORS == "default", reason="on PostgreSQL these are tables apart, in one database"),
]


@pytest.fixture
def public(own_shop: Shop) -> list[str]:
    """The addresses that anyone opens without a login, one of each kind."""
    own_shop.public_check = True
    own_shop.save()
    certificate = CertificateFactory.create(shop=own_shop)
    return [
        f"/c/{show_number(certificate.number)}/",
        "/c/",
        f"/check/{own_shop.slug}/",
        "/accounts/login/",
        "/accounts/password/forgotten/",
    ]


Execute = Callable[..., Any]


@pytest.fixture
def written() -> Iterator[list[str]]:
    """The statements that change the database of examinations."""
    found: list[str] = []

    def note(execute: Execute, sql: str, *rest: Any) -> Any:
        if not sql.startswith(READS):
            found.append(sql)
        return execute(sql, *rest)

    with connections["default"].execute_wrapper(note):
        yield found


@pytest.fixture(params=["database is locked", "attempt to write a readonly database", "database or disk is full"])
def closed(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The store of visitors, in which SQLite lets nothing be written."""
    execute, store = SQLiteCursorWrapper.execute, connections[VISITORS].connection

    def refuse(cursor: SQLiteCursorWrapper, sql: str, *rest: Any) -> Any:
        if cursor.connection is store and not sql.startswith(READS):
            raise sqlite3.OperationalError(request.param)
        return execute(cursor, sql, *rest)

    monkeypatch.setattr(SQLiteCursorWrapper, "execute", refuse)
    yield
    VisitorsCache.closed_until = 0.0
    LocMemCache(ALIAS, {}).clear()


@pytest.fixture
def known(own_shop: Shop) -> User:
    return MembershipFactory.create(shop=own_shop, user=UserFactory.create(with_password=True)).user


@pytest.fixture
def browser(known: User) -> Client:
    """Somebody who is logged in already."""
    browser = Client()
    browser.force_login(known)
    return browser


def log_in(person: User, password: str) -> Any:
    return Client().post("/accounts/login/", {"login": person.email, "password": password})


def test_nobody_unknown_writes_to_the_database_of_examinations(
    public: list[str], known: User, written: list[str]
) -> None:
    answers = [Client().get(address).status_code for address in public]
    wrong = log_in(known, "not-the-password")

    assert (answers, wrong.status_code) == ([200] * len(public), 200)
    assert written == []


def test_pages_for_anyone_are_answered_while_nothing_can_be_written(public: list[str], closed: None) -> None:
    assert [Client().get(address).status_code for address in public] == [200] * len(public)


def test_tries_at_a_password_are_counted_while_nothing_can_be_written(known: User, closed: None) -> None:
    for _ in range(20):
        log_in(known, "not-the-password")

    page = log_in(known, PASSWORD).content.decode()

    assert "Too many wrong passwords" in page


def test_look_ups_are_counted_while_nothing_can_be_written(public: list[str], closed: None) -> None:
    answers = [Client().get(public[0]).status_code for _ in range(LOOKUPS_A_MINUTE + 1)]

    assert (answers[0], answers[-1]) == (200, 429)


def test_whoever_wants_to_log_in_meanwhile_is_told_to_wait_and_whoever_is_in_goes_on(
    own_shop: Shop, known: User, browser: Client, closed: None
) -> None:
    waits, goes_on = log_in(known, PASSWORD), browser.get(f"/shop/{own_shop.slug}/course/")

    assert (waits.status_code, waits["Retry-After"]) == (503, "5")
    assert "Nobody can log in or out just now" in waits.content.decode()
    assert goes_on.status_code == 200


def test_a_second_count_of_the_same_leaves_the_store_open(db: None) -> None:
    assert cache.add("doors", 1)
    assert not cache.add("doors", 1)

    assert cache.incr("doors") == 2
    assert VisitorsCache.closed_until == 0.0


def test_the_count_goes_on_in_the_store_when_it_opens_again(closed: None, monkeypatch: pytest.MonkeyPatch) -> None:
    cache.add("doors", 1)
    monkeypatch.undo()
    VisitorsCache.closed_until = 0.0

    assert cache.add("doors", 7)
    assert cache.get("doors") == 7


# -- a real site, whose store somebody else holds ----------------------------------------------------------------------


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    site = Site(tmp_path_factory.mktemp("demo"))
    site.start()
    yield site
    site.kill()


def status_of(address: str) -> int:
    with urlopen(address, timeout=30) as answer:
        return int(answer.status)


def test_the_demo_keeps_visitors_in_a_file_of_their_own(site: Site) -> None:
    tables = {}
    for name in ("sound-casing.sqlite3", "visitors.sqlite3"):
        with closing(sqlite3.connect(site.folder / name)) as database:
            rows = database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
            tables[name] = {row[0] for row in rows}

    assert {"cache", "django_session"} <= tables["visitors.sqlite3"]
    assert tables["sound-casing.sqlite3"].isdisjoint({"cache", "django_session"})
    assert tables["visitors.sqlite3"].isdisjoint({"training_user", "assessments_attempt", "certificates_certificate"})


@pytest.mark.parametrize("name", ["visitors.sqlite3", "sound-casing.sqlite3"])
def test_anyone_is_answered_while_another_program_holds_a_store(site: Site, name: str) -> None:
    (number,) = site.rows("SELECT number FROM certificates_certificate LIMIT 1")[0]
    addresses = ["/accounts/login/", f"/c/{show_number(number)}/", "/c/"]
    with closing(sqlite3.connect(site.folder / name)) as other:
        other.execute("BEGIN IMMEDIATE")
        answers = [status_of(site.address + address) for address in addresses]

    assert answers == [200, 200, 200]
