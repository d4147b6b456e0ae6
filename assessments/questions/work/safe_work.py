"""What somebody does at work, told as scenes: each tells some things of which clauses speak, and keeps to all of them
or breaks one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from assessments.questions.cases.bodies import common_limit
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.rules import altered
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Permitted, parts
from assessments.questions.items.item import Item
from assessments.questions.work.facts import permits
from training.rulebook import Clause, in_unit
from training.trade.speech import say

Words = Mapping[str, Sequence[str]]
_OWN = {"in": ("lb", "psi"), "mm": ("kg", "kPa")}


@dataclass(frozen=True, slots=True)
class Told:
    """A thing that a scene tells: of which quantity of the work, and in which words for each of its values.

    Where it is a measure it has no words: one is drawn from `least` to `most` times its limit, in steps of `step`, by
    the unit told.
    """

    quantity: str
    words: Words = field(default_factory=lambda: MappingProxyType({}))
    least: float = 0.4
    most: float = 1.8
    step: int = 1


@dataclass(frozen=True, slots=True)
class Scene:
    """A sentence with places for what it tells; one without places is itself what is told of its only thing."""

    told: Mapping[str, Told]
    says: str = "{done}"


def limits(draft: Draft, scenes: Iterable[Scene]) -> dict[str, Clause]:
    """The clauses that the scenes speak of, by quantity. Raises NoSuchLimit where the edition lacks one."""
    return {told.quantity: common_limit(draft, told.quantity) for scene in scenes for told in scene.told.values()}


def listed(
    draft: Draft,
    *,
    situation: str,
    asked: Sequence[str],
    scenes: Sequence[Scene],
    beliefs: Sequence[str],
    count: int = 5,
) -> Item:
    """An item `several` over a list of scenes, of which any number is right as often as any other. Every quantity that
    they speak of comes up as often."""
    rng, clauses = draft.rng, limits(draft, scenes)
    right = rng.randint(1, count - 1)
    offered = list[Choice]()
    for place in range(count):
        about = rng.choice(sorted({next(iter(scene.told.values())).quantity for scene in scenes}))
        scene = rng.choice([one for one in scenes if next(iter(one.told.values())).quantity == about])
        offered.append(played(draft, scene, clauses, beliefs, is_right=place < right))
    if not any(one.why for one in offered):
        raise Redraw("nobody takes it otherwise")
    spoken = dict.fromkeys(part.clause for one in offered for part in parts(one.claim) if isinstance(part, Permitted))
    return draft.several(
        stem=[situation, rng.choice(asked)],
        right=offered[:right],
        wrong=offered[right:],
        is_listed=True,
        clauses=spoken,
        features={"right": right, "clauses": len(spoken)},
    )


def paired(
    draft: Draft, *, situation: str, asked: Sequence[str], scenes: Sequence[Scene], beliefs: Sequence[str]
) -> Item:
    """An item `one` over two notes of one scene, each right as often as wrong."""
    clauses, scene = limits(draft, scenes), draft.rng.choice(scenes)
    first, second = (_noted(draft, scene, clauses, beliefs) for _ in range(2))
    return compared(
        draft, first, second, stem=[situation], asked=asked, clauses=[clause.id for clause in clauses.values()]
    )


def _noted(draft: Draft, scene: Scene, clauses: Mapping[str, Clause], beliefs: Sequence[str]) -> Note:
    """A scene as one of two notes, right as often as wrong."""
    is_right = draft.rng.random() < 0.5
    shown = played(draft, scene, clauses, beliefs, is_right=is_right)
    return Note(shown.text, shown.claim, is_right, shown.why)


def played(
    draft: Draft, scene: Scene, clauses: Mapping[str, Clause], beliefs: Sequence[str], *, is_right: bool
) -> Choice:
    """A scene in which all that is told keeps to its clauses, or all but one thing. Redraw where it cannot be so."""
    broken = "" if is_right else draft.rng.choice(sorted(scene.told))
    said: dict[str, str] = {}
    claims: list[Permitted] = []
    for place, told in scene.told.items():
        clause = clauses[told.quantity]
        value, text = _told(draft, clause, told, keeps=place != broken)
        said[place] = text
        claims.append(Permitted(clause.id, value))
    text = said["done"] if scene.says == "{done}" else say(scene.says, **said)
    return Choice(
        text,
        believing(draft, claims, beliefs, is_right=is_right),
        claim=claims[0] if len(claims) == 1 else All(tuple(claims)),
    )


def believing(draft: Draft, claims: Sequence[Permitted], beliefs: Sequence[str], *, is_right: bool) -> tuple[str, ...]:
    """Those misconceptions of `beliefs` that take a scene for wrong where it is right, or for right where it is not."""

    def takes(name: str) -> bool:
        clauses = altered(draft.edition, name).clauses
        return all(one.clause not in clauses or permits(clauses[one.clause], one.value) for one in claims)

    return tuple(name for name in beliefs if takes(name) != is_right)


def _told(draft: Draft, clause: Clause, told: Told, *, keeps: bool) -> tuple[str, str]:
    """A value that keeps to a clause or does not, and its words."""
    values = [value for value in told.words if permits(clause, value) == keeps]
    if not told.words:
        edge, unit = limit_told(draft, clause)
        first, last = (round(edge * times / told.step) * told.step for times in (told.least, told.most))
        measured = [f"{number} {unit}" for number in range(max(first, told.step), last + 1, told.step)]
        values = [value for value in measured if permits(clause, value) == keeps]
    if not values:
        raise Redraw(f"{told.quantity}: no such value")
    value = draft.rng.choice(values)
    return value, str(draft.rng.choice(told.words[value])) if told.words else value


def limit_told(draft: Draft, clause: Clause) -> tuple[int, str]:
    """The limit of a clause in the unit of the shop, where its source states it so: number and unit."""
    wanted = _OWN[draft.prefer]
    found = next((one for one in clause.strictest.quantities if one.unit in wanted), draft.stated(clause))
    return int(in_unit(found, found.unit)), found.unit
