"""Issuing a certificate on a passed assessment and a passed hands-on evaluation."""

import random
from datetime import datetime
from zoneinfo import ZoneInfo

from django.db import transaction

from assessments.models import Blueprint
from certificates.documents.fonts import missing_glyphs
from certificates.models import Certificate, Event, EventKind, Status, status_on
from certificates.numbers import new_number
from certificates.queries import Scope, casing_words, rests
from training.models import Membership, Role, Shop, User
from training.queries import house_rules_of_version
from training.rulebook import load_edition
from training.trade.days import add_months


class CertificateRefused(Exception):
    """No certificate was issued: the words say what is missing."""


def pass_mark_words(blueprint: Blueprint) -> str:
    """The pass mark and its standing, as printed on the certificate."""
    allowed = blueprint.unsafe_allowed
    releases = f"at most {allowed} unsafe release{'' if allowed == 1 else 's'}" if allowed else "no unsafe release"
    return f"{blueprint.pass_percent} % right and {releases}. {blueprint.standing}"


@transaction.atomic
def issue_certificate(
    *, shop: Shop, holder: User, issuer: User, scope: Scope, at: datetime, rng: random.Random | None = None
) -> Certificate:
    """Certify a member of the shop for a scope. A second press the same day gives back the certificate of the first.

    `rng` draws the number; the system's own randomness without it. Raises CertificateRefused, naming what is missing.
    """
    if issuer == holder:
        raise CertificateRefused(f"{issuer.name} cannot certify {issuer.name}: another trainer or an owner must.")
    # holding the membership rows makes a second press wait for the first
    held = list(Membership.objects.select_for_update().filter(shop=shop, user__in=[holder, issuer], ended_at=None))
    if not any(row.user_id == issuer.pk and row.role in (Role.OWNER, Role.TRAINER) for row in held):
        raise CertificateRefused(f"{issuer.name} is no owner or trainer of {shop.name}.")
    if not any(row.user_id == holder.pk for row in held):
        raise CertificateRefused(f"{holder.name} does not belong to {shop.name}.")
    zone = ZoneInfo(shop.time_zone)
    day = at.astimezone(zone).date()
    earlier = list(
        Certificate.objects.filter(shop=shop, holder=holder, scope=scope.slug).prefetch_related("events").order_by("pk")
    )
    found = rests(shop=shop, scope=scope, at=at, learner=holder).get(holder.pk)
    standings = [status_on(certificate, certificate.events.all(), day, zone) for certificate in earlier]
    is_ready = found is not None and found.is_ready
    if not is_ready and earlier and earlier[-1].issued_date == day and standings[-1].is_valid:
        return earlier[-1]
    for standing in standings:
        if standing.status is Status.SUSPENDED:
            raise CertificateRefused(
                f"{holder.name} has a suspended certificate of this scope: restore or revoke it first."
            )
    if found is None or found.attempt is None:
        raise CertificateRefused(f"{holder.name} has no passed assessment of this scope that still counts.")
    if found.hands_on is None:
        raise CertificateRefused(f"{holder.name} has no passed hands-on evaluation of this scope that still counts.")
    trainer = found.hands_on.trainer
    names = {"holder": holder.name, "shop": shop.name, "trainer": trainer.name, "issuer": issuer.name}
    for whose, name in names.items():
        if missing := missing_glyphs(name):
            raise CertificateRefused(
                f'The certificate cannot print "{missing}" in the {whose}\'s name "{name}". '
                "Have the name spelled in Latin, Greek or Cyrillic letters, then issue again."
            )
    attempt, blueprint = found.attempt, found.attempt.form.blueprint
    if blueprint is None:
        raise CertificateRefused("The assessment was drawn without a blueprint.")
    if attempt.handed_in_at is None or attempt.right_count is None or attempt.unsafe_count is None:
        raise CertificateRefused("The assessment was not handed in.")
    certificate = Certificate(
        number=new_number(rng or random.SystemRandom()),
        shop=shop,
        holder=holder,
        holder_name=holder.name,
        trainer_name=trainer.name,
        issuer_name=issuer.name,
        shop_name=shop.name,
        scope=scope.slug,
        scope_title=scope.title,
        casings=list(scope.casings),
        tires=list(casing_words(scope.casings)),
        edition=scope.edition,
        edition_title=load_edition(scope.edition).title,
        edition_version=attempt.form.edition_version,
        house_rules=list(house_rules_of_version(shop, scope.edition, attempt.form.edition_version)),
        attempt=attempt,
        assessed_date=attempt.handed_in_at.astimezone(zone).date(),
        right_count=attempt.right_count,
        asked_count=sum(asked for _, asked in attempt.by_skill.values()),
        unsafe_count=attempt.unsafe_count,
        hands_on=found.hands_on,
        hands_on_date=found.hands_on.recorded_at.astimezone(zone).date(),
        pass_mark=pass_mark_words(blueprint),
        issued_date=day,
        expires_date=add_months(day, shop.certificate_months),
    )
    certificate.full_clean()
    certificate.save()
    Event.objects.create(certificate=certificate, order=1, kind=EventKind.ISSUED, at=at, by=issuer)
    return certificate
