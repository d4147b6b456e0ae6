"""Where people stand with the assessments of their shop, scope by scope: passed, open, waiting, used up."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import Enum

from django.db.models import QuerySet

from assessments.models import COUNTED, Attempt, ExtraRound, Outcome, Purpose
from assessments.queries.blueprints import terms_in
from assessments.questions import Blueprint as Terms
from training.models import Shop, User


class State(Enum):
    """What a person can do about the assessment at an instant."""

    READY = "ready"
    OPEN = "open"
    TIME_UP = "time-up"  # open, and to be handed in
    PAPER = "paper"  # printed, and its answers not typed in yet
    BUSY = "busy"  # an assessment of another scope is open, and one is at a time
    WAIT = "wait"
    USED_UP = "used-up"
    PASSED = "passed"


@dataclass(frozen=True)
class Theory:
    """One person's assessments of one scope. A round is the attempts allowed; a trainer can open a new one.

    `elsewhere` is an open assessment of another scope, `passed` the latest pass of any round; `failed_skills` are the
    skills below the pass mark in `latest`, when that was not a pass; `used` counts those handed in in this round.
    """

    terms: Terms
    open: Attempt | None
    elsewhere: Attempt | None
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
        return State.BUSY if self.elsewhere is not None else State.READY


def below_pass_mark(by_skill: dict[str, list[int]], pass_percent: int) -> tuple[str, ...]:
    """The skills with fewer right answers than the pass mark asks of the whole."""
    return tuple(skill for skill, (right, asked) in by_skill.items() if 100 * right < pass_percent * asked)


def theory_of(shop: Shop, learner: User, terms: Terms) -> Theory:
    """One person's theory of one scope, two queries."""
    return _by_scope(shop, learner, (terms,))[terms.name]


def theories_of(shop: Shop, learner: User) -> dict[str, Theory]:
    """One person's theory by scope, for those the shop works in, two queries; empty where there is no assessment."""
    return _by_scope(shop, learner, terms_in(shop))


def _by_scope(shop: Shop, learner: User, plans: Sequence[Terms]) -> dict[str, Theory]:
    attempts = list(_attempts(shop).filter(form__learner=learner))
    rounds = [(given_at, scope) for _, given_at, scope in _rounds(shop).filter(learner=learner)]
    return {terms.name: _theory(terms, attempts, rounds) for terms in plans}


def theory_of_shop(shop: Shop) -> defaultdict[int, dict[str, Theory]]:
    """The theory of everyone in the shop by the person's key and by scope, two queries; an empty one of who has not
    begun."""
    plans = terms_in(shop)
    attempts: dict[int, list[Attempt]] = defaultdict(list)
    for attempt in _attempts(shop):
        attempts[attempt.form.learner_id].append(attempt)
    rounds: dict[int, list[tuple[datetime, str]]] = defaultdict(list)
    for learner_id, given_at, scope in _rounds(shop):
        rounds[learner_id].append((given_at, scope))
    found: defaultdict[int, dict[str, Theory]] = defaultdict(
        lambda: {terms.name: _theory(terms, [], []) for terms in plans}
    )
    for learner_id, own in attempts.items():
        found[learner_id] = {terms.name: _theory(terms, own, rounds[learner_id]) for terms in plans}
    return found


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


def _scope(attempt: Attempt) -> str:
    return attempt.form.blueprint.scope if attempt.form.blueprint else ""


def _theory(terms: Terms, everything: list[Attempt], rounds: list[tuple[datetime, str]]) -> Theory:
    """`everything` holds the person's attempts of all scopes, oldest first."""
    attempts = [attempt for attempt in everything if _scope(attempt) == terms.name]
    unfinished = [attempt for attempt in everything if attempt.handed_in_at is None]
    round_start = max((given_at for given_at, scope in rounds if scope == terms.name), default=None)
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
        open=next((attempt for attempt in unfinished if _scope(attempt) == terms.name), None),
        elsewhere=next((attempt for attempt in unfinished if _scope(attempt) != terms.name), None),
        latest=latest,
        passed=passed,
        passed_this_round=passed is not None and passed in in_round,
        used=len(in_round),
        failed_skills=failed,
        waits_until=waits_until,
    )
