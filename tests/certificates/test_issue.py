"""Issuing a certificate: what it needs, what it says, and that it is issued once."""

import random
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from io import BytesIO
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.test import Client
from pypdf import PdfReader

from certificates.acts import CertificateRefused, issue_certificate
from certificates.documents.certificate import certificate_pdf
from certificates.models import Certificate, HandsOn
from certificates.numbers import read_number, show_number
from certificates.queries import on_the_web, printed
from tests.factories import NOW, AttemptFactory, MembershipFactory
from tests.factories_certificates import SCOPE, CertificateFactory, HandsOnFactory, add_event, passed_attempt
from training.models import Shop, User

pytestmark = pytest.mark.django_db
Issue = Callable[..., Certificate]


@pytest.fixture
def issue(own_shop: Shop, apprentice: User, owner: User) -> Issue:
    def do(*, holder: User = apprentice, issuer: User = owner, at: datetime = NOW) -> Certificate:
        rng = random.Random("issue")
        return issue_certificate(shop=own_shop, holder=holder, issuer=issuer, scope=SCOPE, at=at, rng=rng)

    return do


def pass_theory(shop: Shop, person: User, **facts: Any) -> object:
    return passed_attempt(shop, person, **facts)


def pass_hands_on(shop: Shop, person: User, **facts: object) -> HandsOn:
    return HandsOnFactory.create(shop=shop, learner=person, **facts)


def test_theory_and_hands_on_passed_make_a_certificate(
    issue: Issue, own_shop: Shop, apprentice: User, owner: User
) -> None:
    attempt, hands_on = pass_theory(own_shop, apprentice), pass_hands_on(own_shop, apprentice)

    made = issue()

    made.refresh_from_db()
    assert read_number(made.number) == made.number
    assert (made.attempt, made.hands_on) == (attempt, hands_on)
    assert (made.holder_name, made.shop_name) == (apprentice.name, "Quarry Road Tire")
    assert (made.issued_date, made.expires_date) == (date(2026, 11, 25), date(2028, 11, 25))
    assert made.casings == ["passenger", "light-truck-fabric"]
    assert made.pass_mark == (
        "3 of 3 questions right (80 percent). At most 1 unsafe release. "
        "Provisional: set by judgment, not yet by measurement."
    )
    assert [(event.kind, event.by, event.at) for event in made.events.all()] == [("issued", owner, NOW)]


def test_it_prints_the_same_whatever_is_renamed_later(
    issue: Issue, own_shop: Shop, apprentice: User, owner: User, client: Client
) -> None:
    pass_theory(own_shop, apprentice)
    trainer = pass_hands_on(own_shop, apprentice).trainer
    names = {apprentice: "Dana Okafor", trainer: "Lena Marsh", owner: "Max Lind"}
    for person, name in names.items():
        person.name = name
        person.save()
    made = issue()

    def seen() -> tuple[bytes, str]:
        certificate = on_the_web().get(pk=made.pk)
        record = printed(certificate, site="https://training.example.org", path="/c/")
        page = client.get(f"/c/{show_number(made.number)}/").content.decode()
        return certificate_pdf(record), page.partition("<dt>Checked</dt>")[0]

    paper, page = seen()
    words = PdfReader(BytesIO(paper)).pages[0].extract_text()
    on_the_day = ("Quarry Road Tire", "North America", "passenger tires", "3 of 3 right", "Nov 24, 2026")
    assert [said for said in (*names.values(), *on_the_day) if said not in words] == []
    assert "Dana Okafor" in page

    User.objects.update(name="Renamed")
    Shop.objects.update(name="Another Shop", time_zone="Asia/Tokyo")

    assert seen() == (paper, page)


def test_the_day_of_issue_is_the_shops_own(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)

    made = issue(at=datetime(2026, 11, 26, 3, tzinfo=UTC))  # 20:00 the day before in Denver

    assert made.issued_date == date(2026, 11, 25)


def test_it_lasts_as_long_as_the_shop_says(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    own_shop.certificate_months = 12
    own_shop.save()
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)

    assert issue().expires_date == date(2027, 11, 25)


def test_without_theory_it_is_refused(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    pass_hands_on(own_shop, apprentice)
    AttemptFactory.create(
        not_passed=True, form__shop=own_shop, form__learner=apprentice, form__blueprint__scope=SCOPE.slug
    )

    with pytest.raises(CertificateRefused, match="has no passed assessment of this scope that still counts"):
        issue()


def test_without_hands_on_it_is_refused(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice, failed=True)

    with pytest.raises(CertificateRefused, match="has no passed hands-on evaluation of this scope that still counts"):
        issue()


def test_a_failed_hands_on_undoes_a_pass_before_it(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice, recorded_at=NOW - timedelta(days=3))
    pass_hands_on(own_shop, apprentice, failed=True, recorded_at=NOW - timedelta(days=2))

    with pytest.raises(CertificateRefused, match="no passed hands-on"):
        issue()

    pass_hands_on(own_shop, apprentice, recorded_at=NOW - timedelta(days=1))
    assert issue().hands_on.recorded_at == NOW - timedelta(days=1)


@pytest.mark.parametrize("half", ["theory", "hands-on"])
def test_each_half_may_be_as_old_as_a_certificate_lasts_and_no_older(
    half: str, issue: Issue, own_shop: Shop, apprentice: User
) -> None:
    # 24 months: done on Nov 25, 2024, so the last day to issue is Nov 25, 2026, in the shop's own time
    done_at = datetime(2024, 11, 25, 15, tzinfo=UTC)
    pass_theory(own_shop, apprentice, **({"started_at": done_at, "handed_in_at": done_at} if half == "theory" else {}))
    pass_hands_on(own_shop, apprentice, **({"recorded_at": done_at} if half == "hands-on" else {}))

    with pytest.raises(CertificateRefused, match="that still counts"):
        issue(at=datetime(2026, 11, 26, 15, tzinfo=UTC))
    assert issue(at=datetime(2026, 11, 25, 15, tzinfo=UTC)).issued_date == date(2026, 11, 25)


def test_what_was_passed_in_another_shop_does_not_count(
    issue: Issue, own_shop: Shop, other_shop: Shop, apprentice: User
) -> None:
    MembershipFactory.create(user=apprentice, shop=other_shop)
    pass_theory(other_shop, apprentice)
    pass_hands_on(other_shop, apprentice)

    with pytest.raises(CertificateRefused, match="no passed assessment"):
        issue()


def test_what_another_person_passed_does_not_count(issue: Issue, own_shop: Shop) -> None:
    colleague = MembershipFactory.create(shop=own_shop).user
    pass_theory(own_shop, colleague)
    pass_hands_on(own_shop, colleague)

    with pytest.raises(CertificateRefused, match="no passed assessment"):
        issue()


def test_another_scope_does_not_count(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice, scope="puncture-truck")

    with pytest.raises(CertificateRefused, match="no passed hands-on"):
        issue()


def test_nobody_certifies_themself(issue: Issue, own_shop: Shop, owner: User) -> None:
    pass_theory(own_shop, owner)
    pass_hands_on(own_shop, owner)

    with pytest.raises(CertificateRefused, match="cannot certify"):
        issue(holder=owner)


@pytest.mark.parametrize("role", ["apprentice", "owner_of_other_shop", "trainer_of_other_shop"])
def test_only_trainers_and_owners_of_the_shop_issue(
    role: str, issue: Issue, own_shop: Shop, person: Callable[[str], User]
) -> None:
    holder = MembershipFactory.create(shop=own_shop).user
    pass_theory(own_shop, holder)
    pass_hands_on(own_shop, holder)

    with pytest.raises(CertificateRefused, match="is no owner or trainer of Quarry Road Tire"):
        issue(holder=holder, issuer=person(role))


def test_a_trainer_can_issue(issue: Issue, own_shop: Shop, apprentice: User, trainer: User) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)

    assert issue(issuer=trainer).events.get().by == trainer


def test_somebody_who_left_is_not_certified(issue: Issue, own_shop: Shop) -> None:
    former = MembershipFactory.create(shop=own_shop, ended=True).user
    pass_theory(own_shop, former)
    pass_hands_on(own_shop, former)

    with pytest.raises(CertificateRefused, match="does not belong to Quarry Road Tire"):
        issue(holder=former)


def test_a_name_that_cannot_be_printed_is_said_before_issuing(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    apprentice.name = "王小明"
    apprentice.save()
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)

    with pytest.raises(CertificateRefused, match='cannot print "王小明" in the holder\'s name'):
        issue()
    assert not Certificate.objects.exists()


def test_pressing_twice_issues_once(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)

    assert issue() == issue()
    assert Certificate.objects.count() == 1


def test_the_next_day_the_same_passes_are_used_up(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)
    issue()

    with pytest.raises(CertificateRefused, match="no passed assessment"):
        issue(at=NOW + timedelta(days=1))


@pytest.mark.parametrize(("again", "missing"), [("theory", "no passed hands-on"), ("hands-on", "no passed assessment")])
def test_one_new_half_does_not_bring_back_a_used_one(
    again: str, missing: str, issue: Issue, own_shop: Shop, apprentice: User
) -> None:
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)
    issue()
    (pass_theory if again == "theory" else pass_hands_on)(own_shop, apprentice)

    with pytest.raises(CertificateRefused, match=missing):
        issue(at=NOW + timedelta(days=1))


@pytest.mark.parametrize("half", ["theory", "hands-on"])
def test_another_edition_does_not_count(half: str, issue: Issue, own_shop: Shop, apprentice: User) -> None:
    elsewhere = "united-kingdom"
    pass_theory(own_shop, apprentice, **({"form__edition": elsewhere} if half == "theory" else {}))
    pass_hands_on(own_shop, apprentice, **({"edition": elsewhere} if half == "hands-on" else {}))

    with pytest.raises(CertificateRefused, match="no passed"):
        issue()


def test_a_suspension_is_not_stepped_around(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    add_event(CertificateFactory.create(shop=own_shop, holder=apprentice), "suspended")
    pass_theory(own_shop, apprentice)
    pass_hands_on(own_shop, apprentice)

    with pytest.raises(
        CertificateRefused, match="has a suspended certificate of this scope: restore or revoke it first"
    ):
        issue()


def test_after_a_revocation_both_halves_must_be_new(issue: Issue, own_shop: Shop, apprentice: User) -> None:
    held = CertificateFactory.create(shop=own_shop, holder=apprentice)
    pass_hands_on(own_shop, apprentice, recorded_at=NOW - timedelta(hours=1))  # at that very moment: not after it
    add_event(held, "revoked", at=NOW - timedelta(hours=1))
    pass_theory(own_shop, apprentice)

    with pytest.raises(CertificateRefused, match="no passed hands-on"):
        issue()

    pass_hands_on(own_shop, apprentice, recorded_at=NOW)
    assert issue() != held


@pytest.mark.parametrize("part", ["attempt", "hands_on"])
def test_the_database_refuses_to_use_a_pass_twice(part: str) -> None:
    first = CertificateFactory.create()
    again = {part: getattr(first, part)}

    with pytest.raises(IntegrityError), transaction.atomic():
        CertificateFactory.create(shop=first.shop, holder=first.holder, **again)
