"""Where people stand with the assessment of their shop: passed, open, waiting, used up."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import Enum

from django.db.models import QuerySet

from assessments.blueprints import terms_of
from assessments.models import COUNTED, Attempt, ExtraRound, Outcome, Purpose
from assessments.scenarios import Blueprint as Terms
from training.models import Shop, User


class State(Enum):
    """What a person can do about the assessment at an instant."""

    READY = "ready"
    OPEN = "open"
    TIME_UP = "time-up"  # open, and to be handed in
    PAPER = "paper"  # printed, and its answers not typed in yet
    WAIT = "wait"
    USED_UP = "used-up"
    PASSED = "passed"


@dataclass(frozen=True)
class Theory:
    """One person's assessments of one scope. A round is the attempts allowed; a trainer can open a new one.

    `passed` is the latest pass of any round; `failed_skills` are the skills below the pass mark in `latest`, when that
    was not a pass; `used` counts the attempts handed in in this round.
    """

    terms: Terms
    open: Attempt | None
    latest: Attempt | None
    passed: Attempt | None
    passed_this_round: bool
    used: int
    failed_skills: tuple[str, ...]
    waits_until: datetime | None

    @property
    def left(self) -> int:
        """Attempts left in this round."""
        return max(0, self.terms.attempts - self.used)

    def state(self, at: datetime) -> State:
        """What can be done at this instant."""
        if self.open is not None and self.open.form.purpose == Purpose.PAPER:
            return State.PAPER
        if self.open is not None:
            return State.OPEN if self.open.is_open(at) else State.TIME_UP
        if self.passed_this_round:
            return State.PASSED
        if self.left == 0:
            return State.USED_UP
        if self.waits_until is not None and at < self.waits_until:
            return State.WAIT
        return State.READY


def below_pass_mark(by_skill: dict[str, list[int]], pass_percent: int) -> tuple[str, ...]:
    """The skills with fewer right answers than the pass mark asks of the whole."""
    return tuple(skill for skill, (right, asked) in by_skill.items() if 100 * right < pass_percent * asked)


def theory_of(shop: Shop, learner: User) -> Theory:
    """One person's theory, two queries. Raises LookupError when the shop's rulebook has no assessment."""
    attempts = _attempts(shop).filter(form__learner=learner)
    rounds = _rounds(shop).filter(learner=learner)
    terms = _terms(shop)
    return _theory(terms, _of_scope(attempts, terms), [given for _, given, scope in rounds if scope == terms.name])


def theory_of_shop(shop: Shop) -> defaultdict[int, Theory]:
    """The theory of everyone in the shop by the person's key, two queries; whoever has not begun has an empty one."""
    terms = _terms(shop)
    attempts: dict[int, list[Attempt]] = defaultdict(list)
    for attempt in _of_scope(_attempts(shop), terms):
        attempts[attempt.form.learner_id].append(attempt)
    rounds: dict[int, list[datetime]] = defaultdict(list)
    for learner_id, given_at, scope in _rounds(shop):
        if scope == terms.name:
            rounds[learner_id].append(given_at)
    found: defaultdict[int, Theory] = defaultdict(lambda: _theory(terms, [], []))
    for learner_id, own in attempts.items():
        found[learner_id] = _theory(terms, own, rounds[learner_id])
    return found


def _terms(shop: Shop) -> Terms:
    terms = terms_of(shop)
    if terms is None:
        raise LookupError(f'There is no assessment for the rulebook "{shop.edition}" yet.')
    return terms


def _attempts(shop: Shop) -> QuerySet[Attempt]:
    return (
        Attempt.objects.filter(form__shop=shop, form__purpose__in=COUNTED)
        .exclude(handed_in_at__isnull=False, outcome="")  # a paper withdrawn
        .select_related("form__blueprint")
        .defer("form__blueprint__cells", "form__blueprint__standing")
        .order_by("started_at", "pk")
    )


def _rounds(shop: Shop) -> QuerySet[ExtraRound, tuple[int, datetime, str]]:
    return ExtraRound.objects.filter(shop=shop).values_list("learner_id", "given_at", "blueprint__scope")


def _of_scope(attempts: Iterable[Attempt], terms: Terms) -> list[Attempt]:
    return [a for a in attempts if a.form.blueprint is not None and a.form.blueprint.scope == terms.name]


def _theory(terms: Terms, attempts: list[Attempt], rounds: list[datetime]) -> Theory:
    """`attempts` oldest first."""
    round_start = max(rounds, default=None)
    done = [attempt for attempt in attempts if attempt.handed_in_at is not None]
    in_round = [attempt for attempt in done if round_start is None or attempt.started_at >= round_start]
    latest = done[-1] if done else None
    passed = next((attempt for attempt in reversed(done) if attempt.outcome == Outcome.PASSED), None)
    failed: tuple[str, ...] = ()
    waits_until = None
    if latest is not None and latest.outcome == Outcome.NOT_PASSED:
        failed = below_pass_mark(latest.by_skill, (latest.form.blueprint or terms).pass_percent)
        waits_until = latest.handed_in_at and latest.handed_in_at + timedelta(hours=terms.wait_hours)
    return Theory(
        terms=terms,
        open=next((attempt for attempt in attempts if attempt.handed_in_at is None), None),
        latest=latest,
        passed=passed,
        passed_this_round=passed is not None and passed in in_round,
        used=len(in_round),
        failed_skills=failed,
        waits_until=waits_until,
    )
