"""Suspend, restore, revoke: which may follow which, by whom, and why."""

from collections.abc import Callable

import pytest
from django.db import IntegrityError, transaction

from certificates.acts import EventRefused, restore, revoke, suspend
from certificates.models import Certificate
from tests.factories import NOW, MembershipFactory
from tests.factories_certificates import CertificateFactory, add_event
from training.models import Shop, User

pytestmark = pytest.mark.django_db

ACTS = {"suspended": suspend, "restored": restore, "revoked": revoke}
# every state a certificate can be in, by its events after the issue, and what may follow
MAY = {
    (): {"suspended", "revoked"},
    ("suspended",): {"restored", "revoked"},
    ("suspended", "restored"): {"suspended", "revoked"},
    ("revoked",): set(),
    ("suspended", "revoked"): set(),
}


@pytest.fixture
def certificate(own_shop: Shop, apprentice: User) -> Certificate:
    return CertificateFactory.create(shop=own_shop, holder=apprentice)


@pytest.mark.parametrize("before", MAY)
@pytest.mark.parametrize("kind", ACTS)
def test_what_may_follow_what(before: tuple[str, ...], kind: str, certificate: Certificate, owner: User) -> None:
    for earlier in before:
        add_event(certificate, earlier)

    if kind in MAY[before]:
        event = ACTS[kind](certificate=certificate, by=owner, reason="A new reason.", at=NOW)
        assert (event.kind, event.order, event.by, event.reason) == (kind, len(before) + 2, owner, "A new reason.")
    else:
        with pytest.raises(EventRefused, match=rf"it cannot be {kind} now"):
            ACTS[kind](certificate=certificate, by=owner, reason="A new reason.", at=NOW)
        assert certificate.events.count() == len(before) + 1


@pytest.mark.parametrize("kind", ["suspended", "revoked"])
def test_pressing_twice_is_one_event(kind: str, certificate: Certificate, owner: User) -> None:
    first = ACTS[kind](certificate=certificate, by=owner, reason="Same press.", at=NOW)

    assert ACTS[kind](certificate=certificate, by=owner, reason="Same press. ", at=NOW) == first
    assert certificate.events.count() == 2


@pytest.mark.parametrize("kind", ACTS)
@pytest.mark.parametrize(
    ("reason", "words"),
    [("", "nothing was given"), ("  ", "nothing was given"), ("x" * 301, "301 characters are too many; at most 300")],
)
def test_a_reason_is_needed(kind: str, reason: str, words: str, certificate: Certificate, owner: User) -> None:
    if kind == "restored":
        add_event(certificate, "suspended")
    before = certificate.events.count()

    with pytest.raises(EventRefused, match=words):
        ACTS[kind](certificate=certificate, by=owner, reason=reason, at=NOW)
    assert certificate.events.count() == before


@pytest.mark.parametrize("role", ["apprentice", "trainer", "owner_of_other_shop"])
def test_only_an_owner_of_the_shop_may(role: str, certificate: Certificate, person: Callable[[str], User]) -> None:
    with pytest.raises(EventRefused, match="is no owner of the shop"):
        suspend(certificate=certificate, by=person(role), reason="Because.", at=NOW)


def test_an_owner_who_left_may_not(certificate: Certificate, own_shop: Shop) -> None:
    former = MembershipFactory.create(shop=own_shop, owner=True, ended=True).user

    with pytest.raises(EventRefused, match="is no owner"):
        revoke(certificate=certificate, by=former, reason="Because.", at=NOW)


def test_nobody_restores_their_own(own_shop: Shop, owner: User) -> None:
    own = CertificateFactory.create(shop=own_shop, holder=owner)
    suspend(certificate=own, by=owner, reason="A break.", at=NOW)

    with pytest.raises(EventRefused, match="cannot restore their own certificate"):
        restore(certificate=own, by=owner, reason="Back.", at=NOW)

    second = MembershipFactory.create(shop=own_shop, owner=True).user
    assert restore(certificate=own, by=second, reason="Back.", at=NOW).kind == "restored"


def test_the_database_wants_a_reason_too(certificate: Certificate) -> None:
    with pytest.raises(IntegrityError, match="event_gives_its_reason"), transaction.atomic():
        add_event(certificate, "revoked", reason="")
