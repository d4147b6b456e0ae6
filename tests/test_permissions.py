"""Every address of the site against everybody who may ask, and a test that no address is missing from the table."""

from collections.abc import Callable, Iterator
from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.urls import URLPattern, URLResolver, get_resolver, reverse
from django.utils import timezone

from certificates.models import Certificate
from certificates.numbers import show_number
from tests.factories import (
    PASSWORD,
    AssignmentFactory,
    AttemptFactory,
    DrawFlagFactory,
    HouseRuleSetFactory,
    InvitationFactory,
    NoticeFactory,
    PaperFactory,
    RepairUnitFactory,
)
from tests.factories_certificates import CertificateFactory, HandsOnFactory
from tests.kept_checks import keep
from tests.pages import ClientAs
from tests.permissions import TABLE, WHO
from training.models import Shop, User
from training.models.shops import digest_of

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too


def _named(patterns: list[Any], namespace: str = "") -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, URLResolver):
            inner = f"{namespace}{pattern.namespace}:" if pattern.namespace else namespace
            yield from _named(pattern.url_patterns, inner)
        elif isinstance(pattern, URLPattern) and pattern.name:
            yield namespace + pattern.name


def test_the_table_names_every_address_of_the_site() -> None:
    assert {name for name, _ in TABLE} == set(_named(get_resolver().url_patterns))


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

    made: dict[str, Callable[[], object]] = {
        "shop": lambda: own_shop.slug,
        "person": lambda: learner.reference,
        "scope": lambda: "north-america-light",
        "module": lambda: "inspect-and-reject",
        "lesson": lambda: "off-the-wheel",
        "position": lambda: 1,
        "practice": lambda: AttemptFactory.create(practice=True, **ours).form.reference,
        "attempt": lambda: AttemptFactory.create(started_at=now, **ours).form.reference,
        "handed_in": lambda: AttemptFactory.create(passed=True, **ours).form.reference,
        "record": lambda: HandsOnFactory.create(shop=own_shop, learner=learner, trainer=trainer).reference,
        "number": lambda: certificate().number,
        "shown_number": lambda: show_number(certificate().number),
        "family": lambda: "size-verdict",
        "paper": lambda: PaperFactory.create(**ours, form__drawn_at=now).form.reference,
        "flag": lambda: DrawFlagFactory.create(shop=own_shop, by=trainer).reference,
        "assignment": lambda: AssignmentFactory.create(shop=own_shop, learner=learner).reference,
        "notice": lambda: NoticeFactory.create(shop=own_shop, person=learner).reference,
        "invitation": lambda: InvitationFactory.create(shop=own_shop, sent_at=now).reference,
        "secret": lambda: InvitationFactory.create(sent_at=now, secret_digest=digest_of("the-secret")) and "the-secret",
        "check": lambda: keep(shop=own_shop, person=learner).reference,
        "set": lambda: HouseRuleSetFactory.create(shop=own_shop).number,
        "unit": lambda: RepairUnitFactory.create(shop=own_shop).reference,
        "uidb36": lambda: "1",
        "key": lambda: "no-such-key",
    }
    return lambda name: made[name]()


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("page", TABLE, ids=[name for name, _ in TABLE])
def test_each_address_answers_each_role_as_listed(
    page: tuple[str, tuple[str, ...]],
    method: str,
    value: Callable[[str], object],
    client_as: ClientAs,
) -> None:
    name, arguments = page
    address = reverse(name, args=[value(argument) for argument in arguments])
    row = TABLE[page][method == "post"]
    expected = dict(zip(WHO, row.split(), strict=True))

    # whoever may write comes last, so that no refusal is owed to a change made before it
    order = sorted(WHO, key=lambda who: expected[who] not in ("404", "405"))
    found = {who: str(getattr(client_as(who), method)(address).status_code) for who in order}

    assert " ".join(found[who] for who in WHO) == row
