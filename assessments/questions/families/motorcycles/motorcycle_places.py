"""Holes and earlier repairs around a motorcycle tire: which of them end it by their place alone?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.cases.crown import half_tread
from assessments.questions.cases.phrases import who_decides
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import tire
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Ruling
from training.trade.speech import say, saying

_OFFERED = 5
_MARGIN_MM = 8
_FOUND = {
    "two-piece": {
        "crown": saying("An old stem and patch in the tread, {distance} from its middle"),
        "shoulder": saying("An old stem and patch in the shoulder, {distance} outside the edge of the tread"),
        "sidewall": saying("An old stem and patch in the sidewall, {distance} above the rim"),
    },
    "one-piece": {
        "crown": saying("An old one-piece unit in the tread, {distance} from its middle"),
        "shoulder": saying("An old one-piece unit in the shoulder, {distance} outside the edge of the tread"),
        "sidewall": saying("An old one-piece unit in the sidewall, {distance} above the rim"),
    },
    "hole": {
        "crown": saying("An open nail hole in the tread, {distance} from its middle"),
        "shoulder": saying("An open nail hole in the shoulder, {distance} outside the edge of the tread"),
        "sidewall": saying("An open nail hole in the sidewall, {distance} above the rim"),
    },
}
_TOO_STRICT = ("motorcycle-any-hole-ends", "motorcycle-plug-ends-it")
_REPAIRS = ("two-piece", "one-piece")


@item_family(
    "motorcycle-places",
    title=saying("Where a motorcycle tire may have been repaired"),
    skill="position",
    formats=("several",),
    casings=MOTORCYCLE,
    lesson="motorcycles/motorcycle-tires",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    edge = half_tread(draft, model)
    # A hole is asked about only where the edition says of its place more than that somebody else decides.
    has_zones = draft.edition.limit("injury.zone", model.casing) is not None
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    seen: set[tuple[str, str, str]] = set()
    while len(seen) < _OFFERED:
        zone = rng.choice(("crown", "crown", "shoulder", "sidewall"))
        away = draft.between(0, edge - _MARGIN_MM) if zone == "crown" else draft.between(4, 30)
        distance = draft.told(
            {"crown": away, "shoulder": draft.near(away / 3 + 2), "sidewall": away + draft.near(8)}[zone]
        )
        kind = rng.choice((*_REPAIRS, *(("hole", "hole") if has_zones else ())))
        if kind == "hole":
            injury = {"id": "A", "kind": "puncture", "zone": zone, "diameter": "3 mm"}
            more = {"injuries": [injury]}
        else:
            repair = {"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": True}
            more = {"earlier_repairs": [repair]}
        if (kind, zone, distance) in seen:
            continue
        seen.add((kind, zone, distance))
        text = say(_FOUND[kind][zone], distance=distance)
        decision = draft.decide(draft.case(tire(draft, model, "repair", **more)))
        claim = Decided(("reject",), case=more)
        if decision.verdict == "reject":
            right.append(Choice(text, ("motorcycle-sidewall-patched",), claim=claim))
            rulings += decision.deciding
        else:
            held = who_decides(draft, draft.case(tire(draft, model, "repair", **more)), ("reject",), _TOO_STRICT)
            far = ("motorcycle-side-of-tread",) if zone == "crown" and away * 2 > edge else ()
            wrong.append(Choice(text, (*held, *far), claim=claim))
    if not right or not wrong:
        raise Redraw("all of them, or none")
    return draft.several(
        stem=[
            say(
                "Five motorcycle tires, {designation}, their tread {width} wide. One thing "
                "was found on each, every repair sound and every hole small.",
                designation=model.designation,
                width=draft.told(model.tread_width_mm),
            ),
            rng.choice(
                [
                    say("Which of these are rejected for their place alone, whatever the maker allows? Choose all."),
                    say("Which can you reject by the place alone, without asking the maker? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(tire(draft, model, "repair")),
        features={"rejecting": len(right)},
    )
