"""How far somebody is on the way to the certificate of each scope: theory, hands-on, certificate."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from assessments.queries import State, Theory
from certificates.models import Certificate, Event, HandsOn, Standing, status_by
from certificates.queries.scopes import Scope
from training.access import Place
from training.models import User
from training.trade.words import SKILLS

FEW_DAYS = 90


@dataclass(frozen=True)
class Held:
    """A certificate and what it is today."""

    certificate: Certificate
    standing: Standing
    days_left: int


@dataclass(frozen=True)
class Way:
    """One person's way to the certificate of one scope. `held` is the valid certificate, or the latest one."""

    scope: Scope
    theory: Theory
    state: State
    hands_on: HandsOn | None
    held: Held | None

    @property
    def failed(self) -> tuple[str, ...]:
        """The titles of the skills below the pass mark in the latest attempt."""
        return tuple(str(SKILLS[skill]) for skill in self.theory.failed_skills if skill in SKILLS)

    @property
    def shown(self) -> tuple[Held, ...]:
        """The certificate to name, as a list of one or none."""
        return (self.held,) if self.held is not None else ()

    @property
    def is_certified(self) -> bool:
        """Whether the certificate is valid today."""
        return self.held is not None and self.held.standing.is_valid

    @property
    def is_settled(self) -> bool:
        """Whether nothing is to be done for it within FEW_DAYS."""
        return self.held is not None and self.is_certified and self.held.days_left > FEW_DAYS

    @property
    def is_begun(self) -> bool:
        """Whether the person has set out on it at all."""
        return any(one is not None for one in (self.theory.open, self.theory.latest, self.hands_on, self.held))

    @property
    def is_seen(self) -> bool:
        """Whether the latest hands-on was passed."""
        return self.hands_on is not None and self.hands_on.has_passed

    @property
    def needs_trainer(self) -> bool:
        """Whether the person cannot go on without a trainer: hands-on to be seen, or attempts used up."""
        if self.is_certified:
            return False
        return (self.state is State.PASSED and not self.is_seen) or self.state is State.USED_UP


def ways(
    *,
    scopes: Sequence[Scope],
    theories: Mapping[str, Theory],
    records: Iterable[HandsOn],
    held: Iterable[Held],
    at: datetime,
) -> tuple[Way, ...]:
    """One person's ways, from what was read before; `records` the latest last, `held` the latest first. No query."""
    latest = {record.scope: record for record in records}
    shown: dict[str, Held] = {}
    for one in held:
        slug = one.certificate.scope
        if slug not in shown or (one.standing.is_valid and not shown[slug].standing.is_valid):
            shown[slug] = one
    return tuple(
        Way(
            scope=scope,
            theory=theories[scope.slug],
            state=theories[scope.slug].state(at),
            hands_on=latest.get(scope.slug),
            held=shown.get(scope.slug),
        )
        for scope in scopes
    )


def held_in(place: Place, at: datetime, holder: User | None = None) -> tuple[Held, ...]:
    """Certificates of the shop, or of one holder, with their standing today, the latest first; one query."""
    events = Event.objects.filter(certificate__shop=place.shop)
    if holder is not None:
        events = events.filter(certificate__holder=holder)
    last: dict[int, Event] = {}
    for event in events.select_related("certificate").order_by("order"):
        last[event.certificate_id] = event
    day: date = place.day(at)
    held = [
        Held(
            event.certificate,
            status_by(event.certificate, event.kind, place.day(event.at), day),
            (event.certificate.expires_date - day).days,
        )
        for event in last.values()
    ]
    return tuple(sorted(held, key=lambda one: (one.certificate.issued_date, one.certificate.pk), reverse=True))
