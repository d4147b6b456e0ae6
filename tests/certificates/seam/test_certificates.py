"""The pages of certificates, the public check and every refusal say each word in the language spoken."""

from collections.abc import Callable
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from certificates import acts
from certificates.acts import CertificateRefused, EventRefused
from certificates.models import Certificate, EventKind, Status
from certificates.numbers import MalformedNumber, read_number, show_number
from certificates.queries import scope_of
from certificates.views.verify import LOOKUPS_A_MINUTE
from tests.certificates.seam.told import LIGHT, certified, typed, unsaid
from tests.factories import NOW, MembershipFactory
from tests.factories_certificates import HandsOnFactory, add_event, passed_attempt
from tests.pages import url
from training.models import Shop, User

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("kinds", [(), ("suspended",), ("suspended", "restored"), ("revoked",)])
@pytest.mark.parametrize("expires", ["2028-11-25", "2026-11-26"])
def test_its_pages_in_every_standing(
    read: Callable[..., list[str]], shop: Shop, people: dict[str, User], kinds: tuple[str, ...], expires: str
) -> None:
    rules = [typed("Size of the hole: at most 5 mm")]
    made = certified(
        shop,
        people["apprentice"],
        people["trainer"],
        house_rules=rules,
        unsafe_count=len(kinds),
        expires_date=expires,
    )
    for kind in kinds:
        event = add_event(made, kind, reason=typed("A torn patch came back."))
        event.by.name = typed("Max")
        event.by.save()
    number = show_number(made.number)

    assert read(url("certificates:certificate", shop, number), as_role="owner") == []
    assert read(url("certificates:revoke", shop, number), as_role="owner") == []
    assert read(reverse("certificates:verify", args=[number]), as_role="anonymous") == []
    Certificate.objects.filter(pk=made.pk).update(holder_name="", trainer_name="", issuer_name="")
    assert read(reverse("certificates:verify", args=[number]), as_role="anonymous") == []
    assert read(url("certificates:certificate", shop, number), as_role="owner") == []


def test_what_an_owner_does_and_may_not_do(read: Callable[..., list[str]], shop: Shop, people: dict[str, User]) -> None:
    number = show_number(certified(shop, people["apprentice"], people["trainer"]).number)
    reason = {"reason": typed("It came back.")}
    for page, sent in (
        ("suspend", {}),
        ("suspend", {"reason": typed("x" * 500)}),
        ("restore", reason),
        ("suspend", reason),
        ("restore", reason),
        ("revoke", {}),
        ("revoke", reason),
        ("suspend", reason),
        ("restore", reason),
    ):
        assert read(url(f"certificates:{page}", shop, number), as_role="owner", post=sent) == [], page


def test_refusals_of_an_event(shop: Shop, people: dict[str, User]) -> None:
    made = certified(shop, people["owner"], people["trainer"])
    told = []
    for act, by, reason in (
        (acts.restore, people["owner"], "Back."),
        (acts.suspend, people["trainer"], "Stop."),
        (acts.suspend, people["owner"], " "),
        (acts.suspend, people["owner"], "x" * 301),
    ):
        with pytest.raises(EventRefused) as refused:
            act(certificate=made, by=by, reason=reason, at=NOW)
        told.append(str(refused.value))

    assert [unsaid(words) for words in told] == [[]] * 4


def test_issuing_and_what_keeps_from_it(read: Callable[..., list[str]], shop: Shop, people: dict[str, User]) -> None:
    learner, trainer = people["apprentice"], people["trainer"]
    address = url("certificates:issue", shop, learner.reference)

    assert read(address, post={"scope": typed("anything")}) == []
    assert read(address, post={}) == []
    passed_attempt(shop, learner, scope=LIGHT)
    assert read(address, post={}) == []
    HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT)
    assert read(address, post={}) == []
    assert Certificate.objects.get().holder == learner


def test_refusals_of_issuing(shop: Shop, people: dict[str, User]) -> None:
    learner, trainer, owner = (people[role] for role in ("apprentice", "trainer", "owner"))
    away = MembershipFactory.create(user__name=typed("away"), ended=True).user
    scope = scope_of(shop)
    suspended = certified(shop, trainer, owner)
    add_event(suspended, "suspended")
    for holder, issuer in ((owner, owner), (owner, learner), (away, owner), (trainer, owner), (learner, owner)):
        with pytest.raises(CertificateRefused) as refused:
            acts.issue_certificate(shop=shop, holder=holder, issuer=issuer, scope=scope, at=NOW)
        assert unsaid(str(refused.value)) == []


@pytest.mark.parametrize("whose", ["holder", "shop", "trainer", "issuer"])
def test_a_name_that_cannot_be_printed(shop: Shop, people: dict[str, User], whose: str) -> None:
    learner, trainer, owner = (people[role] for role in ("apprentice", "trainer", "owner"))
    passed_attempt(shop, learner, scope=LIGHT)
    HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT)
    named: Any = {"holder": learner, "shop": shop, "trainer": trainer, "issuer": owner}[whose]
    named.name = typed("نور")
    named.save()

    with pytest.raises(CertificateRefused) as refused:
        acts.issue_certificate(shop=shop, holder=learner, issuer=owner, scope=scope_of(shop), at=NOW)
    assert unsaid(str(refused.value).replace('"نور"', "")) == []


def test_a_number_that_is_none(read: Callable[..., list[str]]) -> None:
    assert read(reverse("certificates:verify_lookup"), as_role="anonymous") == []
    for number in ("", "K7QD", "K7QD-2M9X-4U", "K7QD-2M9X-4S", "x" * 60):
        asked = reverse("certificates:verify_lookup") + f"?number={number}"
        assert [word for word in read(asked, as_role="anonymous") if word not in number] == [], number
    for number in ("0000-0000-01", "0000-0000-02"):
        assert read(reverse("certificates:verify", args=[number]), as_role="anonymous", status=404) == []
    with pytest.raises(MalformedNumber) as problem:
        read_number("U")
    assert unsaid(str(problem.value)) == []


def test_too_many_checks(read: Callable[..., list[str]], client: Client) -> None:
    address = reverse("certificates:verify", args=["0000-0000-02"])
    for _ in range(LOOKUPS_A_MINUTE):
        client.get(address)

    assert read(address, as_role="anonymous", status=429) == []


def test_words_of_every_status_and_every_kind_of_event() -> None:
    assert [unsaid(status.words) for status in Status] == [[]] * len(Status)
    assert [unsaid(str(kind.label)) for kind in EventKind] == [[]] * len(EventKind)
