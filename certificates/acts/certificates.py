"""Issuing a certificate on a passed assessment and a passed hands-on evaluation."""

import random
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from zoneinfo import ZoneInfo

from assessments.measurement.passing import SAFETY
from assessments.models import Attempt, Blueprint, Outcome, Withdrawal
from assessments.pages.passing import rule_in_short
from certificates.documents.fonts import missing_glyphs
from certificates.models import Certificate, Event, EventKind, HandsOn, Status, status_on
from certificates.numbers import new_number
from certificates.queries import Rests, Scope, casing_words, rests
from training.locks import compute_then_keep
from training.models import Membership, Role, Shop, User
from training.queries import house_rules_of_version
from training.rulebook import edition_language, load_edition
from training.trade.days import add_months
from training.trade.speech import in_language, say, saying


class CertificateRefused(Exception):
    """No certificate was issued: the words say what is missing."""


# by whose name it is that our fonts cannot draw
UNPRINTABLE = {
    "holder": saying(
        'The certificate cannot print "{missing}" in the holder\'s name "{name}". Have the name spelled in Latin, '
        "Greek or Cyrillic letters, then issue again."
    ),
    "shop": saying(
        'The certificate cannot print "{missing}" in the shop\'s name "{name}". Have the name spelled in Latin, '
        "Greek or Cyrillic letters, then issue again."
    ),
    "trainer": saying(
        'The certificate cannot print "{missing}" in the trainer\'s name "{name}". Have the name spelled in Latin, '
        "Greek or Cyrillic letters, then issue again."
    ),
    "issuer": saying(
        'The certificate cannot print "{missing}" in the issuer\'s name "{name}". Have the name spelled in Latin, '
        "Greek or Cyrillic letters, then issue again."
    ),
}


def pass_mark_words(blueprint: Blueprint, by_skill: Mapping[str, Sequence[int]]) -> str:
    """The pass mark of so many questions by skill, right and asked of each, and its standing, as it is printed."""
    asked, safety_asked = sum(tally[1] for tally in by_skill.values()), by_skill.get(SAFETY, (0, 0))[1]
    rule = rule_in_short(blueprint.rule, asked=asked, safety_asked=safety_asked)
    return say("{rule} {standing}", rule=rule, standing=blueprint.standing)


def issue_certificate(
    *, shop: Shop, holder: User, issuer: User, scope: Scope, at: datetime, rng: random.Random | None = None
) -> Certificate:
    """Certify a member of the shop for a scope. A second press the same day gives back the certificate of the first.

    `rng` draws the number; the system's own randomness without it. Raises CertificateRefused, naming what is missing.
    """
    if issuer == holder:
        raise CertificateRefused(
            say("{issuer} cannot certify {issuer}: another trainer or an owner must.", issuer=issuer.name)
        )
    day = at.astimezone(ZoneInfo(shop.time_zone)).date()

    def standing() -> tuple[list[int], ...]:
        """Everything that decides, by primary keys: none of it is ever changed, only added to or ended."""
        members = Membership.objects.filter(shop=shop, user__in=[holder, issuer], ended_at=None)
        passed = Attempt.objects.filter(form__shop=shop, form__learner=holder, outcome=Outcome.PASSED)
        seen = HandsOn.objects.filter(shop=shop, learner=holder)
        certified = Certificate.objects.filter(shop=shop, holder=holder)
        events = Event.objects.filter(certificate__shop=shop, certificate__holder=holder)
        withdrawn = Withdrawal.objects.filter(item__form__shop=shop, item__form__learner=holder, taken_back_at=None)
        rows = [members, passed, withdrawn, seen, certified, events]
        return tuple(list(one.order_by("pk").values_list("pk", flat=True)) for one in rows)

    def decided(_: object) -> Certificate:
        """The certificate of an earlier press, or a new one, not stored yet."""
        _check_members(shop, holder, issuer)
        resting = rests(shop=shop, scope=scope, at=at, learner=holder).get(holder.pk, Rests())
        earlier = _issued_before(shop, holder, scope, day, is_ready=resting.is_ready)
        return earlier or _written(shop, holder, issuer, scope, at, resting, rng or random.SystemRandom())

    def keep(certificate: Certificate) -> Certificate:
        if certificate.pk is None:
            certificate.save()
            Event.objects.create(certificate=certificate, order=1, kind=EventKind.ISSUED, at=at, by=issuer)
        return certificate

    return compute_then_keep(
        rests_on=standing,
        compute=decided,
        # holding the membership rows makes a second press wait for the first
        lock=lambda: list(
            Membership.objects.select_for_update(no_key=True)
            .filter(shop=shop, user__in=[holder, issuer])
            .order_by("pk")
            .values_list("pk")
        ),
        keep=keep,
        refusal=CertificateRefused(say("What the certificate rests on is changing at this moment; press again.")),
    )


def _check_members(shop: Shop, holder: User, issuer: User) -> None:
    held = list(
        Membership.objects.filter(shop=shop, user__in=[holder, issuer], ended_at=None).values_list("user_id", "role")
    )
    if not any(user == issuer.pk and role in (Role.OWNER, Role.TRAINER) for user, role in held):
        raise CertificateRefused(say("{issuer} is no owner or trainer of {shop}.", issuer=issuer.name, shop=shop.name))
    if not any(user == holder.pk for user, _ in held):
        raise CertificateRefused(say("{person} does not belong to {shop}.", person=holder.name, shop=shop.name))


def _issued_before(shop: Shop, holder: User, scope: Scope, day: date, *, is_ready: bool) -> Certificate | None:
    """The certificate of today's first press, where nothing new `is_ready` for another. A suspended one is refused."""
    earlier = list(
        Certificate.objects.filter(shop=shop, holder=holder, scope=scope.slug).prefetch_related("events").order_by("pk")
    )
    zone = ZoneInfo(shop.time_zone)
    standings = [status_on(certificate, certificate.events.all(), day, zone) for certificate in earlier]
    if not is_ready and earlier and earlier[-1].issued_date == day and standings[-1].is_valid:
        return earlier[-1]
    if any(standing.status is Status.SUSPENDED for standing in standings):
        raise CertificateRefused(
            say("{holder} has a suspended certificate of this scope: restore or revoke it first.", holder=holder.name)
        )
    return None


def _written(
    shop: Shop, holder: User, issuer: User, scope: Scope, at: datetime, resting: Rests, rng: random.Random
) -> Certificate:
    """The certificate with everything that is printed on it, not stored yet. Raises CertificateRefused."""
    zone = ZoneInfo(shop.time_zone)
    day = at.astimezone(zone).date()
    attempt, hands_on = resting.attempt, resting.hands_on
    if attempt is None:
        raise CertificateRefused(
            say("{holder} has no passed assessment of this scope that still counts.", holder=holder.name)
        )
    if hands_on is None:
        raise CertificateRefused(
            say("{holder} has no passed hands-on evaluation of this scope that still counts.", holder=holder.name)
        )
    trainer = hands_on.trainer
    names = {"holder": holder.name, "shop": shop.name, "trainer": trainer.name, "issuer": issuer.name}
    for whose, name in names.items():
        if missing := missing_glyphs(name):
            raise CertificateRefused(say(UNPRINTABLE[whose], missing=missing, name=name))
    blueprint = attempt.form.blueprint
    if blueprint is None:
        raise CertificateRefused(say("The assessment was drawn without a blueprint."))
    if attempt.handed_in_at is None or attempt.right_count is None or attempt.unsafe_count is None:
        raise CertificateRefused(say("The assessment was not handed in."))
    with in_language(edition_language(scope.edition)):  # what is kept is what is printed
        certificate = Certificate(
            number=new_number(rng),
            shop=shop,
            holder=holder,
            holder_name=holder.name,
            trainer_name=trainer.name,
            issuer_name=issuer.name,
            shop_name=shop.name,
            scope=scope.slug,
            scope_title=str(scope.title),
            casings=list(scope.casings),
            tires=list(casing_words(scope.casings)),
            edition=scope.edition,
            edition_title=str(load_edition(scope.edition).title),
            edition_version=attempt.form.edition_version,
            house_rules=[
                str(rule) for rule in house_rules_of_version(shop, scope.edition, attempt.form.edition_version)
            ],
            attempt=attempt,
            assessed_date=attempt.handed_in_at.astimezone(zone).date(),
            right_count=attempt.right_count,
            asked_count=sum(asked for _, asked in attempt.by_skill.values()),
            unsafe_count=attempt.unsafe_count,
            hands_on=hands_on,
            hands_on_date=hands_on.recorded_at.astimezone(zone).date(),
            pass_mark=pass_mark_words(blueprint, attempt.by_skill),
            curve=blueprint.curve,
            issued_date=day,
            expires_date=add_months(day, shop.certificate_months),
        )
    certificate.clean_fields()
    return certificate
