"""Truck tires with an earlier repair, each on its axle: which of them may stay where they run?"""

from typing import Any

from assessments.questions.cases.trucks import SIZES, looked_over
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided, laid_over
from assessments.questions.items.item import Item
from training.rulebook import Case, Decision, Ruling
from training.trade.speech import say, saying

_PLACES = {"front": saying("Steer axle"), "drive": saying("Drive axle"), "trailer": saying("Trailer axle")}
# Kind, zone, is it sound, how it looks.
_Repair = tuple[str, str, bool, str]
_REPAIRS: tuple[_Repair, ...] = (
    ("section", "sidewall", True, saying("a plant's section repair in the sidewall, level and tight")),
    ("section", "shoulder", True, saying("a plant's section repair in the shoulder, level and tight")),
    ("section", "sidewall", False, saying("a plant's section repair in the sidewall, one edge lifting")),
    ("two-piece", "crown", True, saying("a stem under a patch in the crown, every edge bonded")),
    ("one-piece", "crown", True, saying("a one-piece unit in the crown, every edge bonded")),
    ("two-piece", "shoulder", True, saying("a stem under a patch in the shoulder, every edge bonded")),
    ("patch-only", "crown", True, saying("a patch over an open channel in the crown, holding air")),
    ("string", "crown", True, saying("a string plug in the crown, holding air")),
)
_MILD = ("section-on-any-axle", "earlier-repair-anywhere", "earlier-repair-holds", "earlier-repair-not-looked-at")
_STRICT = ("section-repair-scraps", "any-earlier-repair-scraps")
_OFFERED, _SECTIONS = 5, 3


@item_family(
    "repairs-by-axle",
    title=saying("Repaired truck tires, by axle"),
    skill="rejecting-conditions",
    formats=("several",),
    casings=("truck",),
    lesson="steel-bodies/duals-and-axles",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    if "section-repair-in-front" not in draft.edition.clauses:
        raise NoSuchLimit(
            f'family "repairs-by-axle": edition {draft.edition.name} says nothing of section repairs by axle'
        )
    base = looked_over(draft, size=rng.choice(SIZES), axle="drive", depth="9/32 in")
    every = [(axle, repair) for axle in _PLACES for repair in _REPAIRS]
    sections = [one for one in every if one[1][0] == "section"]
    offered = rng.sample(sections, rng.randint(2, _SECTIONS))
    offered += rng.sample([one for one in every if one not in sections], _OFFERED - len(offered))
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    found = [_found(draft, base, axle, repair) for axle, repair in offered]
    staying = sum(decision.verdict == "accept" for _, _, decision in found)
    if not 0 < staying < _OFFERED:
        raise Redraw("all of them, or none")
    for (axle, (*_, look)), (patch, case, decision) in zip(offered, found, strict=True):
        runs = decision.verdict == "accept"
        held = [name for name in (_STRICT if runs else _MILD) if (draft.decide(case, name).verdict == "accept") != runs]
        claim = Decided(("accept",), case=patch)
        (right if runs else wrong).append(Choice(f"{_PLACES[axle]}: {look}", tuple(held), claim=claim))
        rulings += [] if runs else decision.deciding
    return draft.several(
        stem=[
            say(
                "Tires {size} of a truck and its trailer were looked over inside and outside. Each was "
                "repaired once before, and all else is in order.",
                size=base["tire"]["designation"],
            ),
            rng.choice(
                [
                    say("Which of them may stay in service where they run? Choose all."),
                    say("Which of them may go on running in their places? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=draft.case(base),
        features={"sections": sum(kind == "section" for _, (kind, *_) in offered), "running": len(right)},
    )


def _found(draft: Draft, base: dict[str, Any], axle: str, repair: _Repair) -> tuple[dict[str, Any], Case, Decision]:
    """A tire on this axle with this earlier repair: what is said of it beside the base, its case, what is decided."""
    kind, zone, sound, _ = repair
    earlier = {"id": "R1", "kind": kind, "zone": zone, "injury": "6 mm", "sound": sound}
    patch = {"position": {"axle": axle}, "earlier_repairs": [earlier]}
    case = draft.case(laid_over(base, patch))
    return patch, case, draft.decide(case)
