"""The Roster: staff against scopes on a day, what expires next, and who is ready to be certified."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.db.models import Prefetch

from assessments.models import Attempt
from assessments.queries import fallen_in
from certificates.models import Certificate, Event, Standing, Status, status_on
from certificates.queries.ready import Rests, rests_by_scope
from certificates.queries.scopes import Scope
from training.models import Shop, User
from training.queries import Member, members

NEXT_SHOWN = 10


@dataclass(frozen=True)
class Cell:
    """One person and one scope on the day; without a certificate, none."""

    scope_title: str
    heading: str  # the same in a few words
    certificate: Certificate | None = None
    standing: Standing | None = None

    @property
    def is_valid(self) -> bool:
        """Whether the person may do the work of the scope on the day."""
        return self.standing is not None and self.standing.is_valid


@dataclass(frozen=True)
class Row:
    """One person of the roster; `has_left` when they no longer belonged to the shop that day."""

    person: User
    roles: tuple[str, ...]
    has_left: bool
    cells: tuple[Cell, ...]

    @property
    def has_certificates(self) -> bool:
        """Whether the person holds any on the day, valid or not."""
        return any(cell.certificate for cell in self.cells)


@dataclass(frozen=True)
class Expiry:
    """A valid certificate and how many days after the roster's day it stays valid."""

    certificate: Certificate
    days: int
    heading: str


@dataclass(frozen=True)
class Candidate:
    """A person with at least one of theory and hands-on passed for a scope, not yet used."""

    person: User
    scope: Scope
    rests: Rests


@dataclass(frozen=True)
class Fallen:
    """A pass that is none without what was withdrawn since, and the certificate that rests on it, if there is one.

    Nothing follows from it by itself: somebody decides.
    """

    attempt: Attempt
    certificate: Certificate | None


@dataclass(frozen=True)
class Roster:
    """All of the page. `to_decide`, `ready` and `on_the_way` are as of now, whatever day is shown."""

    on: date
    headings: tuple[str, ...]  # of the columns: scopes by title where there is one, by their tires where several
    may_work: tuple[tuple[str, tuple[User, ...]], ...]  # by column: who holds a valid certificate
    scope_titles: tuple[str, ...]
    rows: tuple[Row, ...]
    expiries: tuple[Expiry, ...]
    to_decide: tuple[Fallen, ...]
    ready: tuple[Candidate, ...]
    on_the_way: tuple[Candidate, ...]


def roster(*, shop: Shop, on: date, at: datetime, scopes: Sequence[Scope]) -> Roster:
    """The roster of a shop on a day; a constant number of queries."""
    zone = ZoneInfo(shop.time_zone)
    titles = {scope.slug: scope.title for scope in scopes}
    held: dict[int, dict[str, list[tuple[Certificate, Standing]]]] = {}
    certificates = list(
        Certificate.objects.filter(shop=shop)
        .only(
            "number", "holder", "holder_name", "scope", "scope_title", "issued_date", "expires_date", "shop", "attempt"
        )
        .prefetch_related(Prefetch("events", Event.objects.only("certificate", "order", "kind", "at")))
        .order_by("issued_date", "pk")
    )
    for certificate in certificates:
        standing = status_on(certificate, certificate.events.all(), on, zone)
        if standing.status is not Status.NOT_ISSUED:
            held.setdefault(certificate.holder_id, {}).setdefault(certificate.scope, []).append((certificate, standing))
            titles.setdefault(certificate.scope, certificate.scope_title)
    tires = {scope.slug: scope.tires for scope in scopes} if len(titles) > 1 else {}
    columns = [(slug, title, tires.get(slug, title)) for slug, title in titles.items()]
    everybody = members(shop)
    rows = []
    for member in everybody:
        own = held.get(member.person.pk, {})
        roles = _roles_on(member, on, zone)
        is_certified = any(standing.is_valid for found in own.values() for _, standing in found)
        if roles or is_certified:
            cells = tuple(_cell(title, heading, own.get(slug, [])) for slug, title, heading in columns)
            rows.append(Row(person=member.person, roles=roles, has_left=not roles, cells=cells))
    valid = [
        Expiry(certificate=cell.certificate, days=(cell.certificate.expires_date - on).days, heading=cell.heading)
        for row in rows
        for cell in row.cells
        if cell.certificate and cell.standing and cell.standing.is_valid
    ]
    present = {member.person.pk: member.person for member in everybody if member.held}
    ready = rests_by_scope(shop=shop, scopes=scopes, at=at)
    candidates = [
        Candidate(person=present[person], scope=scope, rests=found)
        for scope in scopes
        for person, found in ready[scope.slug].items()
        if person in present
    ]
    candidates.sort(key=lambda candidate: candidate.person.name)
    return Roster(
        on=on,
        headings=tuple(heading for _, _, heading in columns),
        may_work=tuple(
            (heading, tuple(row.person for row in rows if row.cells[place].is_valid and not row.has_left))
            for place, (_, _, heading) in enumerate(columns)
        ),
        scope_titles=tuple(titles.values()),
        rows=tuple(rows),
        expiries=tuple(sorted(valid, key=lambda expiry: expiry.days)[:NEXT_SHOWN]),
        to_decide=tuple(_to_decide(shop, certificates, at.astimezone(zone).date(), zone)),
        ready=tuple(candidate for candidate in candidates if candidate.rests.is_ready),
        on_the_way=tuple(candidate for candidate in candidates if not candidate.rests.is_ready),
    )


def _to_decide(shop: Shop, certificates: Sequence[Certificate], day: date, zone: ZoneInfo) -> Iterator[Fallen]:
    """The passes that fell and that a valid certificate rests on, or that were the person's last word."""
    resting = {one.attempt_id: one for one in certificates}
    for attempt, is_superseded in fallen_in(shop):
        certificate = resting.get(attempt.pk)
        if certificate is None and not is_superseded:
            yield Fallen(attempt, None)
        elif certificate is not None and status_on(certificate, certificate.events.all(), day, zone).is_valid:
            yield Fallen(attempt, certificate)


def _roles_on(member: Member, day: date, zone: ZoneInfo) -> tuple[str, ...]:
    """The roles the person held at the end of a day, each once."""
    roles = (
        str(membership.get_role_display())
        for membership in (*member.held, *member.ended)
        if membership.since_at.astimezone(zone).date() <= day
        and (membership.ended_at is None or membership.ended_at.astimezone(zone).date() > day)
    )
    return tuple(dict.fromkeys(roles))


def _cell(title: str, heading: str, found: list[tuple[Certificate, Standing]]) -> Cell:
    """A valid certificate if there is one, else the latest."""
    if not found:
        return Cell(scope_title=title, heading=heading)
    certificate, standing = next((pair for pair in reversed(found) if pair[1].is_valid), found[-1])
    return Cell(scope_title=title, heading=heading, certificate=certificate, standing=standing)
