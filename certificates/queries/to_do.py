"""What waits for a trainer, a person a line: what it is, why, since when, and the page that deals with it. No query.

Ordered by what it costs to wait: who may not work, who soon may not, who failed, who waits for a trainer, who is late.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from assessments.queries import State
from certificates.queries.ways import FEW_DAYS, Way
from training.models import User
from training.queries import ModuleProgress
from training.trade.days import written_day
from training.trade.speech import say, say_many
from training.trade.words import uncapital

_ENDED, _ENDS, _FAILED, _WAITS, _LATE = range(5)


@dataclass(frozen=True)
class ToDo:
    """One person's line. `days` since it has waited, negative for as many still to run; `page` and `args` the deed."""

    person: User
    title: str
    why: str
    days: int
    button: str
    page: str
    args: tuple[object, ...]
    rank: int

    @property
    def since(self) -> str:
        """The days in words."""
        if self.days < 0:
            return say_many("in {count} day", "in {count} days", -self.days)
        return say_many("for {count} day", "for {count} days", self.days) if self.days else say("today")


def to_do(
    shop: str,
    people: Iterable[tuple[User, Sequence[ModuleProgress], Sequence[Way]]],
    *,
    today: date,
    day_of: Callable[[datetime], date],
    is_trainer: bool,
) -> list[ToDo]:
    """What is to be done for each person, the one thing that costs most; who needs nothing is not named.

    `day_of`: the shop's day of an instant. An owner who is no trainer is led to the person's page, not to the sheet of
    the hands-on.
    """
    found = []
    for person, assigned, own in people:
        matters = [
            *(one for way in own for one in _of_way(shop, person, way, today, day_of, is_trainer=is_trainer)),
            *_of_course(shop, person, assigned, today),
        ]
        if matters:
            found.append(min(matters, key=_order))
    return sorted(found, key=lambda one: (*_order(one), one.person.name))


def _order(one: ToDo) -> tuple[int, int]:
    return one.rank, -one.days


def _of_way(
    shop: str, person: User, way: Way, today: date, day_of: Callable[[datetime], date], *, is_trainer: bool
) -> Iterator[ToDo]:
    if way.held is not None and not (way.is_certified and way.held.days_left > FEW_DAYS):
        yield _of_certificate(shop, person, way, today)
    if way.is_certified:
        return
    tires, at_person, latest = way.scope.tires, (shop, person.reference), way.theory.latest
    passed = way.theory.passed
    if passed is not None and way.state is State.PASSED and not way.is_seen:
        since = today if passed.handed_in_at is None else day_of(passed.handed_in_at)
        why, title = (
            say("{tires}. Theory passed {day}.", tires=tires, day=written_day(since)),
            say("Waiting for hands-on"),
        )
        days = (today - since).days
        if is_trainer:
            where = ("certificates:hands_on_sheet", (*at_person, way.scope.slug))
            yield ToDo(person, title, why, days, say("Open the hands-on"), *where, _WAITS)
        else:
            yield ToDo(person, title, why, days, say("See where they are"), "certificates:person", at_person, _WAITS)
    elif passed is None and way.theory.open is None and latest is not None:
        since = today if latest.handed_in_at is None else day_of(latest.handed_in_at)
        title = say("Theory not passed {day}", day=written_day(since))
        days, button = (today - since).days, say("See what went wrong")
        yield ToDo(person, title, _failed(way), days, button, "certificates:person", at_person, _FAILED)


def _of_certificate(shop: str, person: User, way: Way, today: date) -> ToDo:
    """One that is not valid any more, or not for long."""
    if way.held is None:
        raise ValueError("way: there is no certificate")
    tires, standing, day = way.scope.tires, way.held.standing, written_day(way.held.certificate.expires_date)
    deed = (say("See the certificate"), "certificates:certificate", (shop, way.held.certificate.number))
    if standing.is_valid:
        return ToDo(person, say("Certificate ends {day}", day=day), say("{tires}.", tires=tires), -way.held.days_left,
                    *deed, _ENDS)  # fmt: skip
    title = say("Certificate {status} since {day}", status=standing.status.words, day=written_day(standing.since))
    why = say("{tires}. No job on these under this name.", tires=tires)
    return ToDo(person, title, why, (today - standing.since).days, *deed, _ENDED)


def _failed(way: Way) -> str:
    told = [way.scope.tires + "."]
    if way.failed:
        told.append(say("Below the mark: {skills}.", skills=", ".join(map(uncapital, way.failed))))
    if way.state is State.USED_UP:
        told.append(say("All attempts are used."))
    else:
        told.append(say("{left} of {all} attempts left.", left=way.theory.left, all=way.theory.terms.attempts))
    return " ".join(told)


def _of_course(shop: str, person: User, assigned: Sequence[ModuleProgress], today: date) -> Iterator[ToDo]:
    for module in assigned:
        if module.is_late and module.due_date is not None:
            yield ToDo(
                person,
                say("Late since {day}", day=written_day(module.due_date)),
                say(
                    "{module}: {read} of {total} lessons read.",
                    module=module.title,
                    read=module.read,
                    total=module.total,
                ),
                (today - module.due_date).days,
                say("Ask again"),
                "training:assign",
                (shop,),
                _LATE,
            )
