"""Two holes of one tire, each judged as if it were alone: both, one of them or neither may be repaired."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided
from training.rulebook import Case, Decision
from training.trade.speech import saying

NAMES = ("A", "B")
_AGAINST = ("reject", "refer")
_SAID: Mapping[str, str] = {
    "AB": saying("Both A and B may be repaired"),
    "A": saying("A may be repaired, but B may not"),
    "B": saying("B may be repaired, but A may not"),
    "": saying("Neither A nor B may be repaired"),
}


def passing(decision: Decision) -> str:
    """The holes that would be repaired if each were alone: no ruling on them rejects or refers."""
    failing = {ruling.subject for ruling in decision.rulings if not ruling.holds and ruling.consequence in _AGAINST}
    return "".join(name for name in NAMES if name not in failing)


def answers(draft: Draft, case: Case, beliefs: Iterable[Sequence[str]]) -> tuple[Choice, list[Choice]]:
    """What is right of two holes, and the three other answers, each with the sets of misconceptions that compute it.

    Redraw where none of them is computed.
    """
    right = passing(draft.decide(case))
    ways: dict[str, list[tuple[str, ...]]] = {one: [] for one in _SAID if one != right}
    for held in beliefs:
        said = passing(draft.decide(case, *held))
        if said != right and not any(set(shorter) <= set(held) for shorter in ways[said]):
            ways[said].append(tuple(held))
    if not any(ways.values()):
        raise Redraw("nobody decides otherwise")
    return _said(right), [_said(one, tuple(some)) for one, some in ways.items()]


def alone_and_with(name: str, others: Iterable[str]) -> list[tuple[str, ...]]:
    """Each of these misconceptions alone, then the first together with each of the others."""
    others = tuple(others)
    return [(name,), *((one,) for one in others), *((name, one) for one in others)]


def _said(names: str, ways: tuple[tuple[str, ...], ...] = ()) -> Choice:
    claim = All(tuple(Decided(("repair",) if name in names else _AGAINST, alone=name) for name in NAMES))
    why = tuple(dict.fromkeys(name for way in ways for name in way))
    return Choice(_SAID[names], why, ways=ways, claim=claim)
