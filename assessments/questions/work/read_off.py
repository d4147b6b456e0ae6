"""What was read of a tire, how it is taken and what is done: each note keeps to some clauses or breaks one of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from assessments.questions.cases.casebook import edge_mm, hole, looked_at, readings
from assessments.questions.cases.two_notes import Note
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.rules import altered
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Not, Permitted
from assessments.questions.work.facts import permits
from training.rulebook import Case, Clause, Model, Ruling
from training.trade.speech import saying
from training.trade.words import STEEL

# What somebody holds the size of a hole against instead of its limit, in a light body and in one of steel.
OF_LIGHT = ("truck-limit-for-all", "stricter-size", "halfway-limit", "size-does-not-matter")
OF_STEEL = ("light-limit-for-steel", "stricter-size", "half-inch-for-steel", "size-does-not-matter")
# Whether A and B are right: what each question draws evenly.
PAIRS = ((True, True), (True, False), (False, True), (False, False))
REPAIRED = saying("the hole may be repaired")
STOPPED = {"reject": saying("the tire is out of service"), "refer": saying("the tire goes to a full-service plant")}
_NAMES, _STATIONS_DEG = "AB", (10, 160)
_MOST_OF_LIMIT = Fraction(7, 4)

Kept = tuple[str, str, bool]  # id of a clause, a value, and whether the note has it that the value keeps to the clause


def beliefs_of_size(casing: str) -> tuple[str, ...]:
    """The misconceptions about the size of a hole in this casing."""
    return OF_STEEL if casing in STEEL else OF_LIGHT


def marks(draft: Draft, clause: Clause) -> tuple[list[str], list[str]]:
    """What a rule shows on either side of the limit of a hole, but for what its statements or units disagree on."""
    low, high = edge_mm(clause)
    return readings(draft.prefer, low / 2, low), readings(draft.prefer, high, high * _MOST_OF_LIMIT)


def noted(draft: Draft, text: str, kept: Sequence[Kept], names: Iterable[str], *, unsafe: bool = False) -> Note:
    """A note that is right where all of `kept` is so, with those of these misconceptions that take it otherwise.

    `unsafe`: to take it for right, where it is wrong, lets a tire go that the rulebook stops.
    """

    def holds(*held: str) -> bool:
        edition = altered(draft.edition, held[0]) if held else draft.edition
        return all(
            (id not in edition.clauses or permits(edition.clauses[id], value)) == keeps for id, value, keeps in kept
        )

    claims = tuple(Permitted(id, value) if keeps else Not(Permitted(id, value)) for id, value, keeps in kept)
    is_right = holds()
    why = tuple(name for name in names if holds(name) != is_right)
    return Note(text, All(claims), is_right, why, unsafe=unsafe and not is_right)


def two_holes(draft: Draft, model: Model, clause: Clause, sizes: Sequence[str]) -> tuple[Case, list[Ruling]]:
    """A tire with two holes far apart, of these sizes, and what the clause says of each."""
    injuries = [
        hole(name, diameter=size, station_deg=station)
        for name, size, station in zip(_NAMES, sizes, _STATIONS_DEG, strict=True)
    ]
    case = draft.case(looked_at(model, draft.edition, injuries=injuries))
    rulings = [one for one in draft.decide(case).rulings if one.clause == clause.id]
    if len(rulings) != len(_NAMES):
        raise Redraw("something else decides on the size")
    return case, rulings
