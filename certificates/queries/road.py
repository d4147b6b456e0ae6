"""The road to a certificate as a row of tread blocks: lessons, skills, theory, hands-on, certificate. No query."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from assessments.queries import SkillResult
from certificates.queries.next_step import Step
from certificates.queries.ways import Way
from training.queries import ModuleProgress
from training.trade.days import written_day
from training.trade.speech import say

DONE, OPEN, FAILED, ENDED = "done", "open", "failed", "ended"
READ, PRACTICED, THEORY, HANDS_ON, CERTIFICATE = "read", "practiced", "theory", "hands-on", "certificate"


@dataclass(frozen=True)
class Stretch:
    """One group of the road: what it is, how far in words, its blocks (DONE and so on), at which of them one is."""

    kind: str
    title: str
    words: str
    blocks: tuple[str, ...]
    here: int | None = None


@dataclass(frozen=True)
class Road:
    """One person's road to the certificate of one scope."""

    way: Way
    stretches: tuple[Stretch, ...]

    @property
    def in_words(self) -> str:
        """The whole road as a sentence, for who does not see it."""
        return "; ".join(f"{one.title}: {one.words}" for one in self.stretches) + "."


def way_at_hand(own: Iterable[Way]) -> Way | None:
    """The way a person is on: the first that is begun and not settled, else one that is settled, else the first."""
    return min(own, key=lambda way: (not way.is_begun, way.is_settled), default=None)


def road_of(
    way: Way, modules: Iterable[ModuleProgress], skills: Iterable[SkillResult] | None, *, step: Step | None = None
) -> Road:
    """Where somebody stands. `skills` None leaves them out; `step` is what comes next, else the first that is open."""
    blocks = _blocks(way, modules, skills)
    here = _here(way, blocks, step)
    words = _words(way, blocks)
    return Road(
        way,
        tuple(
            Stretch(kind, *words[kind], tuple(row), _first_ahead(row) if kind == here else None)
            for kind, row in blocks.items()
        ),
    )


def small_road_of(way: Way, modules: Iterable[ModuleProgress]) -> tuple[Stretch, ...]:
    """The same without skills and without words, for a row that says them otherwise."""
    blocks = _blocks(way, modules, None)
    here = _here(way, blocks, None)
    return tuple(
        [Stretch(kind, "", "", tuple(row), _first_ahead(row) if kind == here else None) for kind, row in blocks.items()]
    )


def _blocks(way: Way, modules: Iterable[ModuleProgress], skills: Iterable[SkillResult] | None) -> dict[str, list[str]]:
    """What is done and what is open, group by group in the order of the road."""
    casings = set(way.scope.casings)
    lessons = [
        lesson
        for module in modules
        if module.is_wanted and (not module.module.casings or not casings.isdisjoint(module.module.casings))
        for lesson in module.lessons
    ]
    blocks = {READ: [DONE if one.read_at else OPEN for one in lessons]}
    if skills is not None:
        blocks[PRACTICED] = sorted([DONE if one.holds() else OPEN for one in skills])
    blocks[THEORY] = [_theory(way)]
    blocks[HANDS_ON] = [DONE if way.is_seen else FAILED if way.hands_on else OPEN]
    blocks[CERTIFICATE] = [DONE if way.is_certified else ENDED if way.held else OPEN]
    return blocks


def _words(way: Way, blocks: dict[str, list[str]]) -> dict[str, tuple[str, str]]:
    """Title and words of each group."""
    done, total = blocks[READ].count(DONE), len(blocks[READ])
    words = {
        READ: (say("Read"), say("{read} of {total} lessons", read=done, total=total)),
        THEORY: (say("Theory"), _theory_words(way)),
        HANDS_ON: (say("Hands-on"), _hands_on_words(way)),
        CERTIFICATE: (say("Certificate"), _certificate_words(way)),
    }
    if PRACTICED in blocks:
        holds, total = blocks[PRACTICED].count(DONE), len(blocks[PRACTICED])
        words[PRACTICED] = (say("Practiced"), say("{holds} of {total} skills hold", holds=holds, total=total))
    return words


def _first_ahead(row: Sequence[str]) -> int | None:
    return next((at for at, one in enumerate(row) if one in (OPEN, FAILED)), None)


def _theory(way: Way) -> str:
    if way.theory.passed is not None:
        return DONE
    return FAILED if way.theory.latest is not None and way.theory.open is None else OPEN


def _here(way: Way, blocks: dict[str, list[str]], step: Step | None) -> str | None:
    """The group with the next step; none once there is a valid certificate."""
    if way.is_certified:
        return None
    if step is not None and step.page == "training:lesson" and OPEN in blocks[READ]:
        return READ
    if step is not None and step.page.startswith("assessments:practice") and PRACTICED in blocks:
        return PRACTICED
    order = (THEORY, HANDS_ON, CERTIFICATE) if way.theory.latest or way.theory.open else (READ, THEORY, HANDS_ON)
    return next((kind for kind in (*order, CERTIFICATE) if _first_ahead(blocks[kind]) is not None), None)


def _theory_words(way: Way) -> str:
    if way.theory.passed is not None:
        return say("passed")
    if way.theory.open is not None:
        return say("under way")
    return say("not passed") if way.theory.latest is not None else say("not yet")


def _hands_on_words(way: Way) -> str:
    if way.hands_on is None:
        return say("with your trainer")
    return say("passed") if way.is_seen else say("not passed")


def _certificate_words(way: Way) -> str:
    if way.held is None:
        return say("after both")
    if way.is_certified:
        return say("until {day}", day=written_day(way.held.certificate.expires_date))
    return str(way.held.standing.status.words)
