"""What a certificate would rest on: theory and hands-on passed, in time, and not used for another certificate."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.db.models import Max

from assessments.models import COUNTED, Attempt, Outcome
from certificates.models import Certificate, Event, EventKind, HandsOn
from certificates.queries.scopes import Scope
from training.models import Shop, User
from training.trade.days import add_months


@dataclass(frozen=True)
class Rests:
    """The latest passed theory and hands-on of one person for one scope that a certificate may rest on."""

    attempt: Attempt | None = None
    hands_on: HandsOn | None = None

    @property
    def is_ready(self) -> bool:
        """Whether a certificate can be issued on it."""
        return self.attempt is not None and self.hands_on is not None


def rests(*, shop: Shop, scope: Scope, at: datetime, learner: User | None = None) -> Mapping[int, Rests]:
    """For one scope by person (primary key), four queries. Only `learner` when given."""
    return rests_by_scope(shop=shop, scopes=(scope,), at=at, learner=learner)[scope.slug]


def rests_by_scope(
    *, shop: Shop, scopes: Sequence[Scope], at: datetime, learner: User | None = None
) -> Mapping[str, Mapping[int, Rests]]:
    """By scope and person, four queries however many scopes there are.

    Each part is no older than the shop's certificates last, and later than a revocation of the person's certificate
    of this scope. Of hands-on records the latest counts: a failed one undoes a pass before it.
    """
    slugs = {scope.slug: scope.edition for scope in scopes}
    attempts = Attempt.objects.filter(
        form__shop=shop,
        form__purpose__in=COUNTED,
        form__blueprint__scope__in=slugs,
        outcome=Outcome.PASSED,
        handed_in_at__isnull=False,
        certificates=None,
    ).select_related("form__blueprint")
    # neither the sheet's lines nor the blueprint's cells are read here
    attempts = attempts.defer("by_skill", "form__blueprint__cells")
    records = HandsOn.objects.filter(shop=shop, scope__in=slugs).select_related("trainer").defer("criteria")
    revoked = Event.objects.filter(
        kind=EventKind.REVOKED, certificate__shop=shop, certificate__scope__in=slugs
    ).values_list("certificate__scope", "certificate__holder")
    if learner is not None:
        attempts, records = attempts.filter(form__learner=learner), records.filter(learner=learner)
        revoked = revoked.filter(certificate__holder=learner)
    zone = ZoneInfo(shop.time_zone)
    revoked_at = {(scope, person): last for scope, person, last in revoked.annotate(Max("at"))}

    def counts(key: tuple[str, int], done_at: datetime) -> bool:
        is_in_time = add_months(done_at.astimezone(zone).date(), shop.certificate_months) >= at.astimezone(zone).date()
        return is_in_time and not (key in revoked_at and done_at <= revoked_at[key])

    theory: dict[tuple[str, int], Attempt] = {}
    for attempt in attempts.order_by("handed_in_at", "pk"):
        scope = attempt.form.blueprint.scope if attempt.form.blueprint else ""
        key = (scope, attempt.form.learner_id)
        if attempt.handed_in_at and attempt.form.edition == slugs[scope] and counts(key, attempt.handed_in_at):
            theory[key] = attempt
    latest: dict[tuple[str, int], HandsOn] = {}
    for record in records.order_by("recorded_at", "pk"):
        if record.edition == slugs[record.scope]:
            latest[record.scope, record.learner_id] = record
    used = set(Certificate.objects.filter(shop=shop, scope__in=slugs).values_list("hands_on_id", flat=True))
    practical = {
        key: record
        for key, record in latest.items()
        if record.has_passed and record.pk not in used and counts(key, record.recorded_at)
    }
    found: dict[str, dict[int, Rests]] = {slug: {} for slug in slugs}
    for scope, person in theory.keys() | practical:
        found[scope][person] = Rests(attempt=theory.get((scope, person)), hands_on=practical.get((scope, person)))
    return found
