"""The Roster: staff against scopes on a day, what expires next, who is ready; as many queries for any shop."""

import csv
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from io import StringIO

import pytest
from django.urls import reverse

from certificates import queries
from certificates.queries.roster import Roster
from certificates.queries.scopes import Scope, scope_of
from certificates.views.roster import guarded
from tests.factories import NOW, MembershipFactory
from tests.factories_certificates import SCOPE, CertificateFactory, HandsOnFactory, add_event, passed_attempt
from tests.pages import ClientAs, Visit, cost_of, url
from tests.present import present
from training.models import Membership, Shop

pytestmark = pytest.mark.django_db
TODAY = date(2026, 11, 25)


@pytest.fixture
def show(own_shop: Shop) -> Callable[..., Roster]:
    def read(on: date = TODAY, scopes: tuple[Scope, ...] = (SCOPE,)) -> Roster:
        return queries.roster(shop=own_shop, on=on, at=NOW, scopes=scopes)

    return read


def member(shop: Shop, name: str, **facts: object) -> Membership:
    return MembershipFactory.create(shop=shop, user__name=name, **facts)


def words(found: Roster) -> dict[str, str]:
    """Name to the status of the first scope."""
    return {row.person.name: row.cells[0].standing.status if row.cells[0].standing else "none" for row in found.rows}


def test_everybody_is_listed_with_where_they_stand(show: Callable[..., Roster], own_shop: Shop) -> None:
    member(own_shop, "Aya")
    for name, kinds in (("Ben", []), ("Cleo", ["suspended"]), ("Dov", ["revoked"])):
        certificate = CertificateFactory.create(shop=own_shop, holder=member(own_shop, name).user)
        for kind in kinds:
            add_event(certificate, kind)
    CertificateFactory.create(
        shop=own_shop,
        holder=member(own_shop, "Eli").user,
        issued_date=date(2024, 11, 1),
        expires_date=date(2026, 11, 24),
    )

    assert words(show()) == {"Aya": "none", "Ben": "valid", "Cleo": "suspended", "Dov": "revoked", "Eli": "expired"}


def test_a_past_day_shows_what_was_true_then(show: Callable[..., Roster], own_shop: Shop) -> None:
    certificate = CertificateFactory.create(
        shop=own_shop, holder=member(own_shop, "Ben").user, issued_date=date(2026, 11, 1)
    )
    add_event(certificate, "suspended", at=datetime(2026, 11, 20, 18, tzinfo=UTC))

    assert words(show(date(2026, 10, 31))) == {"Ben": "none"}
    assert words(show(date(2026, 11, 19))) == {"Ben": "valid"}
    assert words(show(date(2026, 11, 20))) == {"Ben": "suspended"}


def test_a_day_to_come_shows_who_will_have_expired(show: Callable[..., Roster], own_shop: Shop) -> None:
    CertificateFactory.create(shop=own_shop, holder=member(own_shop, "Ben").user)

    assert words(show(date(2028, 11, 25))) == {"Ben": "valid"}
    assert words(show(date(2028, 11, 26))) == {"Ben": "expired"}


def test_somebody_who_left_is_listed_only_while_their_certificate_is_valid(
    show: Callable[..., Roster], own_shop: Shop
) -> None:
    member(own_shop, "Gone", ended=True)
    left = member(own_shop, "Left", ended=True)
    CertificateFactory.create(shop=own_shop, holder=left.user)

    assert words(show()) == {"Left": "valid"}
    assert show().rows[0].has_left
    assert words(show(date(2028, 11, 26))) == {}
    assert words(show(date(2026, 11, 1))) == {"Gone": "none", "Left": "none"}  # both belonged to the shop then


def test_another_shop_is_not_seen(show: Callable[..., Roster], own_shop: Shop, other_shop: Shop) -> None:
    both = member(own_shop, "Both").user
    MembershipFactory.create(user=both, shop=other_shop)
    CertificateFactory.create(shop=other_shop, holder=both)
    member(other_shop, "Stranger")

    assert words(show()) == {"Both": "none"}


def test_the_valid_certificate_counts_over_an_older_one(show: Callable[..., Roster], own_shop: Shop) -> None:
    holder = member(own_shop, "Ben").user
    new = CertificateFactory.create(shop=own_shop, holder=holder)
    CertificateFactory.create(
        shop=own_shop, holder=holder, issued_date=date(2024, 11, 1), expires_date=date(2026, 11, 1)
    )

    cell = show().rows[0].cells[0]

    assert (cell.certificate, present(cell.standing).status) == (new, "valid")


def test_a_certificate_of_a_scope_no_longer_offered_has_its_own_column(
    show: Callable[..., Roster], own_shop: Shop
) -> None:
    CertificateFactory.create(
        shop=own_shop, holder=member(own_shop, "Ben").user, scope="older", scope_title="Puncture repair, as it was"
    )

    assert show().scope_titles == (SCOPE.title, "Puncture repair, as it was")


def test_what_expires_next_comes_first(show: Callable[..., Roster], own_shop: Shop) -> None:
    for name, expires in (("Late", date(2028, 1, 1)), ("Soon", date(2026, 11, 25)), ("Mid", date(2027, 1, 4))):
        CertificateFactory.create(
            shop=own_shop, holder=member(own_shop, name).user, issued_date=date(2026, 1, 1), expires_date=expires
        )
    add_event(CertificateFactory.create(shop=own_shop, holder=member(own_shop, "Out").user), "revoked")

    assert [(one.certificate.holder_name, one.days) for one in show().expiries] == [
        ("Soon", 0),
        ("Mid", 40),  # 25 Nov to 4 Jan: 5 days of November, 31 of December, 4 of January
        ("Late", 402),
    ]


def test_who_is_ready_and_who_is_half_way(show: Callable[..., Roster], own_shop: Shop) -> None:
    ready, theory, practical = (member(own_shop, name).user for name in ("Ready", "Theory", "Practical"))
    member(own_shop, "Neither")
    for who in (ready, theory):
        passed_attempt(own_shop, who)
    for who in (ready, practical):
        HandsOnFactory.create(shop=own_shop, learner=who)
    gone = member(own_shop, "Gone", ended=True).user
    passed_attempt(own_shop, gone)
    HandsOnFactory.create(shop=own_shop, learner=gone)

    found = show()

    assert [one.person for one in found.ready] == [ready]
    assert [(one.person, one.rests.attempt is not None) for one in found.on_the_way] == [
        (practical, False),
        (theory, True),
    ]


def fill(shop: Shop, count: int) -> None:
    for number in range(count):
        held, ready = (MembershipFactory.create(shop=shop).user for _ in range(2))
        certificate = CertificateFactory.create(shop=shop, holder=held)
        if number % 2:
            add_event(certificate, "suspended")
        slug = scope_of(shop).slug
        passed_attempt(shop, ready, scope=slug)
        HandsOnFactory.create(shop=shop, learner=ready, scope=slug)


@pytest.mark.parametrize("name", ["roster", "roster_csv"])
def test_thirty_people_cost_as_many_queries_as_three(name: str, client_as: ClientAs, own_shop: Shop) -> None:
    client, address = client_as("owner"), url(f"certificates:{name}", own_shop)

    fill(own_shop, 3)
    few = cost_of(client, address)
    fill(own_shop, 27)

    assert cost_of(client, address) == few
    assert 3 < few <= 12


def test_a_day_that_is_none_is_said_and_today_is_shown(visit: Visit, own_shop: Shop) -> None:
    page = visit(reverse("certificates:roster", args=[own_shop.slug]) + "?on=2026-13-45", as_role="owner")

    assert page.status_code == 200
    assert "On: this is not a day; give year, month and day, for example 2026-11-25." in page.content.decode()


def test_an_early_day_has_its_empty_state(visit: Visit, own_shop: Shop) -> None:
    page = visit(reverse("certificates:roster", args=[own_shop.slug]) + "?on=2000-01-01", as_role="owner")

    assert "Nobody belonged to the shop on this day." in page.content.decode()


def test_the_table_can_be_taken_to_a_spreadsheet(visit: Visit, own_shop: Shop) -> None:
    holder = member(own_shop, '=HYPERLINK("http://x.example";"Łukasz")', since_at=NOW - timedelta(days=900)).user
    certificate = CertificateFactory.create(shop=own_shop, holder=holder)

    answer = visit(reverse("certificates:roster_csv", args=[own_shop.slug]) + "?on=2026-11-25", as_role="owner")

    text = answer.content.decode("utf-8-sig")  # fails without the mark by which spreadsheets know UTF-8
    assert answer.content.startswith(b"\xef\xbb\xbf")
    row = next(row for row in csv.DictReader(StringIO(text)) if row["Certificate"])
    assert row["Name"] == '\'=HYPERLINK("http://x.example";"Łukasz")'
    assert row["Status"] == "valid"
    assert row["Certificate"].replace("-", "") == certificate.number
    assert (row["On"], row["Issued"], row["Valid through"]) == ("2026-11-25", "2026-11-25", "2028-11-25")


# Source: OWASP, "CSV Injection": the characters = + - @, tab and carriage return at the start of a cell
@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", " ="])
def test_a_cell_that_would_run_is_guarded(start: str) -> None:
    assert guarded(f"{start}1+1") == f"'{start}1+1"


@pytest.mark.parametrize("text", ["Dana Okafor", "O'Brien", "K7QD-2M9X-4T", "2026-11-25", ""])
def test_an_ordinary_cell_stays_as_it_is(text: str) -> None:
    assert guarded(text) == text
