"""Factories of hands-on records and certificates; the facts of an ordinary pass are filled here."""

import random
from datetime import date, timedelta
from typing import Any
from uuid import uuid4

import factory
from factory.django import DjangoModelFactory

from certificates.models import Certificate, Event, HandsOn
from certificates.numbers import new_number
from certificates.queries.scopes import Scope
from tests.factories import NOW, AttemptFactory, ShopFactory, UserFactory
from training.models import User

# hand-written, so that tests of certificates do not lean on the built-in blueprints
SCOPE = Scope(
    slug="puncture-light",
    title="Puncture repair, passenger and light truck",
    edition="north-america",
    casings=("passenger", "light-truck-fabric"),
)
CRITERIA = [
    {"id": "probe.clear", "step": "Probe", "text": "Probes the channel", "critical": True, "mark": "met"},
    {"id": "stitch.whole", "step": "Stitch", "text": "Stitches from the middle out", "critical": False, "mark": "met"},
]


class HandsOnFactory(DjangoModelFactory[HandsOn]):
    """A passed evaluation of yesterday; trait `failed`."""

    class Meta:
        model = HandsOn

    press = factory.LazyFunction(uuid4)
    shop = factory.SubFactory(ShopFactory)
    learner = factory.SubFactory(UserFactory)
    trainer = factory.SubFactory(UserFactory)
    scope = SCOPE.slug
    edition = "north-america"
    edition_version = "2026.1"
    criteria = factory.LazyFunction(lambda: [dict(line) for line in CRITERIA])
    has_passed = True
    recorded_at = NOW - timedelta(days=1)

    class Params:
        failed = factory.Trait(
            has_passed=False,
            criteria=factory.LazyFunction(lambda: [CRITERIA[0] | {"mark": "not-met"}, dict(CRITERIA[1])]),
        )


class CertificateFactory(DjangoModelFactory[Certificate]):
    """A certificate issued today for two years, with its attempt, its hands-on record and its first event."""

    class Meta:
        model = Certificate

    number = factory.Sequence(lambda n: new_number(random.Random(n)))
    shop = factory.SubFactory(ShopFactory)
    holder = factory.SubFactory(UserFactory)
    holder_name = factory.LazyAttribute(lambda made: made.holder.name)
    trainer_name = factory.LazyAttribute(lambda made: made.hands_on.trainer.name)
    issuer_name = "Max Lind"
    shop_name = factory.LazyAttribute(lambda made: made.shop.name)
    scope = SCOPE.slug
    scope_title = SCOPE.title
    casings = factory.LazyFunction(lambda: list(SCOPE.casings))
    tires = factory.LazyFunction(lambda: ["passenger tires", "light truck tires with a fabric body"])
    edition = SCOPE.edition
    edition_title = "North America"
    edition_version = "2026.1"
    attempt = factory.LazyAttribute(lambda made: passed_attempt(made.shop, made.holder))
    hands_on = factory.LazyAttribute(lambda made: HandsOnFactory.create(shop=made.shop, learner=made.holder))
    assessed_date = date(2026, 11, 25)
    right_count = 3
    asked_count = 3
    unsafe_count = 0
    hands_on_date = date(2026, 11, 24)
    pass_mark = "80 % right and at most 1 unsafe release. Provisional until measured."
    issued_date = date(2026, 11, 25)
    expires_date = date(2028, 11, 25)

    @classmethod
    def _create(
        cls, model_class: type[Certificate], *args: Any, issued_by: User | None = None, **kwargs: Any
    ) -> Certificate:
        made = Certificate.objects.create(**kwargs)
        at = NOW + (made.issued_date - NOW.date())
        Event.objects.create(certificate=made, order=1, kind="issued", at=at, by=issued_by or UserFactory.create())
        return made


def passed_attempt(shop: Any, learner: Any, *, scope: str = SCOPE.slug, **facts: Any) -> Any:
    """A passed assessment of a scope by one person in one shop."""
    return AttemptFactory.create(
        passed=True, form__shop=shop, form__learner=learner, form__blueprint__scope=scope, **facts
    )


def add_event(certificate: Certificate, kind: str, *, at: Any = NOW, reason: str = "A torn patch came back.") -> Event:
    """One more event of a certificate."""
    order = certificate.events.count() + 1
    return Event.objects.create(
        certificate=certificate, order=order, kind=kind, at=at, by=UserFactory.create(), reason=reason
    )
