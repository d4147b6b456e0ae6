"""The page anyone opens by number: plain words, no login, nothing to walk through, nothing kept by a cache."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from types import SimpleNamespace
from typing import cast

import pytest
from django.http import HttpResponse
from django.test import Client
from django.utils import timezone

from certificates.models import Certificate
from certificates.numbers import show_number
from certificates.views import verify
from tests.factories import NOW
from tests.factories_certificates import CertificateFactory, add_event
from tests.pages import text_of
from training.models import Shop, User

pytestmark = pytest.mark.django_db


@pytest.fixture
def certificate(own_shop: Shop, apprentice: User) -> Certificate:
    return CertificateFactory.create(shop=own_shop, holder=apprentice, holder_name="Dana Okafor")


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Callable[[datetime], None]:
    def set_to(at: datetime) -> None:
        monkeypatch.setattr(timezone, "now", lambda: at)

    set_to(NOW)
    return set_to


@pytest.fixture
def check(client: Client, clock: Callable[[datetime], None]) -> Callable[[str], HttpResponse]:
    return lambda number: cast("HttpResponse", client.get(f"/c/{number}/"))


def headline(page: HttpResponse) -> str:
    return page.content.decode().split('<h1 id="answer">')[1].split("</span>")[0].split(">")[1]


def test_a_valid_certificate_says_what_it_covers(
    certificate: Certificate, check: Callable[[str], HttpResponse]
) -> None:
    page = check(show_number(certificate.number))

    text = text_of(page)
    assert page.status_code == 200
    assert headline(page) == "Valid"
    for fact in (
        "Dana Okafor",
        "Puncture repair, passenger and light truck",
        "For passenger tires and light truck tires with a fabric body. It covers no other tires.",
        "Quarry Road Tire",
        "Nov 25, 2026",
        "Nov 25, 2028",
        "North America, version 2026.1",
        "80 % right and at most 1 unsafe release. Provisional until measured.",
        "Nov 25, 2026, 8:00:00 AM MST",  # 15:00 UTC on the shop's clock
        "no license and no accreditation",
        "Local codes",
    ):
        assert fact in text


@pytest.mark.parametrize(
    ("kinds", "at", "words"),
    [
        ([], datetime(2028, 11, 26, 6, 59, tzinfo=UTC), "Valid"),  # still the 25th in Denver
        ([], datetime(2028, 11, 26, 7, 0, tzinfo=UTC), "Not valid: expired"),
        (["suspended"], NOW, "Not valid: suspended"),
        (["suspended", "restored"], NOW, "Valid"),
        (["revoked"], NOW, "Not valid: revoked"),
        (["suspended", "revoked"], NOW + timedelta(days=2000), "Not valid: revoked"),
    ],
)
def test_the_headline_says_what_is_true_now(
    kinds: list[str],
    at: datetime,
    words: str,
    certificate: Certificate,
    check: Callable[[str], HttpResponse],
    clock: Callable[[datetime], None],
) -> None:
    for kind in kinds:
        add_event(certificate, kind)
    clock(at)

    page = check(show_number(certificate.number))

    assert headline(page) == words
    assert ("Do not rely on it" in page.content.decode()) is (words != "Valid")


def test_the_reason_and_the_people_stay_in_the_shop(
    certificate: Certificate, check: Callable[[str], HttpResponse]
) -> None:
    event = add_event(certificate, "suspended", reason="Two repairs came back.")

    text = check(show_number(certificate.number)).content.decode()

    for private in (
        "Two repairs came back.",
        event.by.name,
        certificate.holder.email,
        certificate.hands_on.trainer.name,
    ):
        assert private not in text


@pytest.mark.parametrize("spell", [str, str.lower, lambda number: show_number(number).lower()])
def test_another_spelling_is_sent_to_the_one_address(
    spell: Callable[[str], str], certificate: Certificate, check: Callable[[str], HttpResponse]
) -> None:
    answer = check(spell(certificate.number))

    assert answer.status_code == 302
    assert answer.headers["Location"] == f"/c/{show_number(certificate.number)}/"


def test_the_address_in_capitals_of_the_printed_code_is_answered(certificate: Certificate, client: Client) -> None:
    answer = client.get(f"/C/{show_number(certificate.number)}/")

    assert answer.headers["Location"] == f"/c/{show_number(certificate.number)}/"


def test_an_unknown_and_a_malformed_number_get_different_help(
    certificate: Certificate, check: Callable[[str], HttpResponse]
) -> None:
    unknown, malformed = check("0000-0000-01"), check("0000-0000-02")

    assert unknown.status_code == malformed.status_code == 404
    assert "no certificate carries it" in unknown.content.decode()
    assert "one symbol is wrong or two have changed places" in malformed.content.decode()


def test_markup_in_the_address_is_shown_as_text(client: Client) -> None:
    page = client.get("/c/%3Cscript%3Ealert(1)/")

    assert b"<script>alert" not in page.content
    assert page.status_code == 404


@pytest.mark.parametrize("path", ["/c/", "/c/0000-0000-01/", "/c/nonsense/"])
def test_no_cache_keeps_the_answer(path: str, client: Client) -> None:
    assert "no-store" in client.get(path).headers["Cache-Control"]


def test_a_known_one_is_not_kept_by_a_cache_either(
    certificate: Certificate, check: Callable[[str], HttpResponse]
) -> None:
    for spelling in (certificate.number, show_number(certificate.number)):
        assert "no-store" in check(spelling).headers["Cache-Control"]


def test_the_form_leads_to_the_number(certificate: Certificate, client: Client) -> None:
    answer = client.get("/c/", {"number": f" {certificate.number.lower()} "})

    assert answer.headers["Location"] == f"/c/{show_number(certificate.number)}/"


@pytest.mark.parametrize(
    ("number", "words"), [("", "nothing was given"), ("K7QD", "this has 4"), ("x" * 41, "this is too long")]
)
def test_the_form_says_what_is_wrong(number: str, words: str, client: Client) -> None:
    page = client.get("/c/", {"number": number}).content.decode()

    assert f"Certificate number: {words}" in page or words in page
    assert "<title>Error: " in page


def test_one_address_may_not_try_them_all(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(verify, "time", SimpleNamespace(time=lambda: 1_000_020.0))
    statuses = [client.get("/c/0000-0000-01/").status_code for _ in range(61)]

    assert statuses == [404] * 60 + [429]
    assert client.get("/c/0000-0000-01/", REMOTE_ADDR="192.0.2.7").status_code == 404  # another address goes on
    monkeypatch.setattr(verify, "time", SimpleNamespace(time=lambda: 1_000_080.0))
    assert client.get("/c/0000-0000-01/").status_code == 404  # and so does this one a minute later


def test_a_removed_name_leaves_the_record(certificate: Certificate, check: Callable[[str], HttpResponse]) -> None:
    Certificate.objects.filter(pk=certificate.pk).update(holder_name="")

    page = check(show_number(certificate.number)).content.decode()

    assert "Dana Okafor" not in page
    assert "name removed on request" in page


def test_it_names_the_edition_that_it_was_issued_under(own_shop: Shop, check: Callable[[str], HttpResponse]) -> None:
    old = CertificateFactory.create(shop=own_shop, edition="given-up", edition_title="A Country We Left")

    assert "A Country We Left, version 2026.1" in check(show_number(old.number)).content.decode()


def test_it_works_years_later(own_shop: Shop, check: Callable[[str], HttpResponse]) -> None:
    old = CertificateFactory.create(shop=own_shop, issued_date=date(2016, 1, 4), expires_date=date(2018, 1, 4))

    assert headline(check(show_number(old.number))) == "Not valid: expired"
