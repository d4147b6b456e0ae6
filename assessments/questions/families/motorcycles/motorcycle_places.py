"""Holes and earlier repairs around a motorcycle tire: which of them end it by their place alone?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.drafts.draft import Choice, Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import tire
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Ruling
from training.trade.speech import say, saying

_OFFERED = 5
_MARGIN_MM = 8
_KINDS = {"two-piece": saying("An old stem and patch"), "one-piece": saying("An old one-piece unit")}


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
    edge = model.tread_width_mm // 2
    # A hole is asked about only where the edition says of its place more than that somebody else decides.
    has_zones = draft.edition.limit("injury.zone", model.casing) is not None
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    texts: set[str] = set()
    while len(texts) < _OFFERED:
        zone = rng.choice(("crown", "crown", "shoulder", "sidewall"))
        away = rng.randint(0, edge - _MARGIN_MM) if zone == "crown" else rng.randint(4, 30)
        where = {
            "crown": say("in the tread, {away} mm from its middle", away=away),
            "shoulder": say("in the shoulder, {away} mm outside the edge of the tread", away=away // 3 + 2),
            "sidewall": say("in the sidewall, {away} mm above the rim", away=away + 8),
        }[zone]
        kind = rng.choice((*_KINDS, *(("hole", "hole") if has_zones else ())))
        if kind == "hole":
            injury = {"id": "A", "kind": "puncture", "zone": zone, "diameter": "3 mm"}
            text, more = say("An open nail hole {where}", where=where), {"injuries": [injury]}
        else:
            repair = {"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": True}
            text, more = f"{_KINDS[kind]} {where}", {"earlier_repairs": [repair]}
        if text in texts:
            continue
        texts.add(text)
        decision = draft.decide(draft.case(tire(draft, model, "repair", **more)))
        claim = Decided(("reject",), case=more)
        if decision.verdict == "reject":
            right.append(Choice(text, ("motorcycle-sidewall-patched",), claim=claim))
            rulings += decision.deciding
        else:
            far = zone == "crown" and away * 2 > edge
            why = "motorcycle-side-of-tread" if far else "motorcycle-any-hole-ends"
            wrong.append(Choice(text, (why,), claim=claim))
    if not right or not wrong:
        raise Redraw(say("all of them, or none"))
    return draft.several(
        stem=[
            say(
                "Five motorcycle tires, {designation}, their tread {tread_width_mm} mm wide. One thing "
                "was found on each, every repair sound and every hole small.",
                designation=model.designation,
                tread_width_mm=model.tread_width_mm,
            ),
            rng.choice(
                [
                    say("Which of them end their tire by their place, whatever its maker allows? Choose all."),
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
