"""A decision that somebody took before and left to the next: what becomes of it, by what the rulebook says now."""

from __future__ import annotations

from collections.abc import Iterable

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.items.claims import Decided
from training.rulebook import Case, Decision
from training.trade.speech import saying

_BOTH, _STEM_AND_PATCH = ("one-piece", "two-piece"), ("two-piece",)
# What becomes of the decision for a one-piece unit, and what of the rulebook says so.
SAID = {
    "stands": (saying("It stands: a one-piece unit may go in"), Decided(("repair",), methods=_BOTH)),
    "other": (
        saying("It is changed: a stem and a separate patch"),
        Decided(("repair",), methods=_STEM_AND_PATCH),
    ),
    "out": (saying("It is taken back: no repair in this shop"), Decided(("reject", "refer"))),
    "unseen": (saying("It waits: off the wheel, and look inside"), Decided(("inspect",))),
}


def what(decision: Decision) -> str:
    """What a decision makes of the note."""
    if decision.verdict == "repair":
        return "stands" if all("one-piece" in plan.methods_allowed for plan in decision.plan or ()) else "other"
    return {"reject": "out", "refer": "out", "inspect": "unseen"}.get(decision.verdict, "")


def ways(draft: Draft, case: Case, right: str, beliefs: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """By what becomes of the note, the misconceptions each of which comes to it."""
    made = {name: what(draft.decide(case, name)) for name in beliefs}
    return {one: tuple(name for name, found in made.items() if found == one) for one in SAID if one != right}


def said(outcome: str, why: tuple[str, ...] = ()) -> Choice:
    """What becomes of the note, as an option, computed by these misconceptions."""
    text, claim = SAID[outcome]
    return Choice(text, why, claim=claim)
