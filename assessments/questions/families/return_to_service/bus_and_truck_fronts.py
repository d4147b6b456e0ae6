"""Tires for the wheels of a bus or a truck: which of them may go where they are meant to?"""

from typing import Any

from assessments.questions.cases.phrases import who_decides
from assessments.questions.cases.trucks import looked_over
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided, patch
from assessments.questions.items.item import Item
from training.rulebook import VERDICTS, Case, Decision, Ruling
from training.trade.speech import say, saying

SIZE = "11R22.5 144/142L"
# How it looks; what the case says of it, depth aside.
TIRES: tuple[tuple[str, dict[str, Any]], ...] = (
    (saying("a retread, bonded all around"), {"retreaded": True}),
    (saying("regrooved, and marked regroovable"), {"found": "regrooved"}),
    (saying("a sound stem and patch in mid-crown"), {"repair": ("two-piece", "crown")}),
    (saying("a sound section repair in the sidewall"), {"repair": ("section", "sidewall")}),
    (saying("3/32 in of tread at its lowest"), {"depth": "3/32 in"}),
    (saying("5/32 in of tread at its lowest"), {"depth": "5/32 in"}),
)
# Who lets one run where it may not, and who forbids it where it may.
_MILD = ("retread-anywhere", "regrooved-anywhere", "section-on-any-axle", "rear-limit-in-front")
_STRICT = ("no-retread-in-front", "no-regrooved-tire", "no-repair-in-front", "truck-steer-tread", "half-tread")
# The depths of these in millimeters.
_METRIC = {
    "3/32 in": (saying("2.5 mm of tread at its lowest"), "2.5 mm"),
    "5/32 in": (saying("4 mm of tread at its lowest"), "4 mm"),
}
# How it is told, the vehicle and the axle.
PLACES = (
    (saying("Front of a bus"), "bus", "front"),
    (saying("Front of a truck"), "truck", "front"),
    (saying("Drive axle"), "truck", "drive"),
)
_OFFERED, _RUNS = 5, ("accept", "advise")
_STOPS = tuple(verdict for verdict in VERDICTS if verdict not in _RUNS)


@item_family(
    "bus-and-truck-fronts",
    title=saying("Front wheels of buses and trucks"),
    skill="return-to-service",
    formats=("several",),
    casings=("truck",),
    lesson="steel-bodies/duals-and-axles",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    if "retread-on-bus-front" not in draft.edition.clauses:
        raise NoSuchLimit(f'family "{draft.family.name}": edition {draft.edition.name} says nothing of front wheels')
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    bare = looked_over(draft, size=SIZE, axle="drive", depth="9/32 in")
    tires: list[tuple[str, dict[str, Any], Case, Decision]] = []
    every = [(place, tire) for place in PLACES for tire in TIRES]
    for (place, vehicle, axle), (look, said) in rng.sample(every, _OFFERED):
        if draft.prefer == "mm" and "depth" in said:
            look, depth = _METRIC[said["depth"]]
            said = said | {"depth": depth}
        data = looked_over(draft, size=SIZE, axle=axle, depth=said.get("depth", "9/32 in"))
        data["position"]["vehicle"] = vehicle
        data["tire"]["retreaded"] = said.get("retreaded", False)
        if "found" in said:
            data["findings"][said["found"]] = True
        if "repair" in said:
            kind, zone = said["repair"]
            data["earlier_repairs"] = [{"id": "R1", "kind": kind, "zone": zone, "injury": "6 mm", "sound": True}]
        case = draft.case(data)
        tires.append((f"{place}: {look}", data, case, draft.decide(case)))
    running = sum(decision.verdict in _RUNS for *_, decision in tires)
    if not 0 < running < _OFFERED:
        raise Redraw("all of them, or none")
    for text, data, case, decision in tires:
        claim = Decided(_RUNS, case=patch(bare, data))
        runs = decision.verdict in _RUNS
        held = who_decides(draft, case, _STOPS if runs else _RUNS, _STRICT if runs else _MILD)
        (right if runs else wrong).append(Choice(text, held, claim=claim))
        rulings += [one for one in decision.deciding if one not in rulings]
    return draft.several(
        stem=[
            say(
                "Truck tires {size} were looked over inside and outside. Apart from what is listed they "
                "are in good order, with plenty of tread.",
                size=SIZE,
            ),
            rng.choice(
                [
                    say("Which of them may be fitted there? Choose all."),
                    say("Which may run in these places? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=draft.case(bare),
        features={"running": len(right)},
    )
