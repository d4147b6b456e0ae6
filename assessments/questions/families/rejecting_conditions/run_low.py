"""A truck tire comes in with less air than it should have: what is done with it where it stands?"""

from dataclasses import replace

from assessments.questions.cases.phrases import who_decides
from assessments.questions.cases.trucks import AXLES, SIZES, WHEELS, in_service
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Before, Decided, Permitted
from assessments.questions.items.item import Item
from training.rulebook import FINDINGS
from training.trade.speech import say, saying

_DOWN = saying("Let all the air out where it stands, take it off and look inside")
_FILL = saying("Fill it where it stands by remote control, and find the cause")
_OFF = saying("Take the wheel off with the air in it, and look at it inside")
_BY_HAND = saying("Fill it by hand, listen, and let it run if it holds")
_SCRAP = saying("Take it out of service, as it has been run soft")
_FILLERS = ("half-pressure-line", "filled-to-see", "air-and-go")
_BELOW, _ABOVE = 25, 14  # as many percent from the line at most; nearer to full, a gauge shows no loss for certain


@item_family(
    "run-low",
    title=saying("Found low on a truck"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=("truck",),
    lesson="steel-bodies/run-soft-and-the-cage",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    clause = draft.edition.clauses.get("run-low-single-piece")
    if clause is None:
        raise NoSuchLimit(f'family "run-low": edition {draft.edition.name} draws no line for pressure as found')
    size, axle, wheel = rng.choice(SIZES), rng.choice(sorted(AXLES)), rng.choice(("single-piece", "multi-piece"))
    state = rng.choice(("low", "fair", "nail"))
    line = int(draft.stated(clause).number)
    percent = line + (-rng.randint(2, _BELOW) if state == "low" else rng.randint(2, _ABOVE))
    unit, wanted = ("psi", 5 * rng.randint(19, 25)) if draft.prefer == "in" else ("kPa", 10 * rng.randint(66, 86))
    found = round(wanted * percent / 100)
    data, _ = in_service(draft, size=size, axle=axle, depth="9/32 in", dual=axle != "front")
    data |= {"on_wheel": True, "pressure": {"recommended": f"{wanted} {unit}", "found": f"{found} {unit}"}}
    data["position"] |= {"wheel": wheel}
    data["findings"] = dict.fromkeys(FINDINGS, False)
    if state == "nail":
        data |= {"purpose": "repair", "injuries": [{"id": "A", "kind": "puncture"}], "findings": {}}
    case = draft.case(data)
    decision = draft.decide(case)
    if decision.verdict != ("accept" if state == "fair" else "inspect"):
        raise Redraw("something else decides")
    filled = () if state == "fair" else who_decides(draft, case, ("accept",), _FILLERS)
    # a tire that may be filled is looked at inside by those who take any loss for running soft
    soft = who_decides(draft, case, ("inspect",), ("any-loss-is-run-soft",)) if state == "fair" else ()
    if state == "fair" and not soft:
        raise Redraw("no gauge shows for certain that any air is lost")
    scraps = (*soft, "judged-unseen")
    lets_go = [one for one in filled if one == "air-and-go"]
    held_on = (*lets_go, "chuck-held-by-hand") if lets_go or state == "fair" else ()
    down, fill = Decided(("inspect",)), Decided(("accept",))
    by_hand = Permitted(draft.limit("job.chuck", "truck").id, "hand-held")
    offered = [
        Choice(_FILL, filled, claim=fill),
        Choice(_DOWN, soft, claim=down),
        Choice(_OFF, (*soft, "air-left-in"), together=True, claim=All((down, Before("demount", "deflate")))),
        Choice(_BY_HAND, held_on, together=True, claim=All((fill, by_hand))),
        Choice(_SCRAP, scraps, together=True, claim=Decided(("reject",))),
    ]
    key = next(one for one in offered if isinstance(one.claim, Decided) and one.claim.verdicts == (decision.verdict,))
    seen = (
        say("A nail sits in its tread, and it is to be repaired.")
        if state == "nail"
        else say("No damage is seen or suspected.")
    )
    return draft.one(
        stem=[
            say(
                "A tire {size} stands on the {axle} of a truck with a trailer, on a {wheel}. "
                "Cold, it should have {wanted} {unit} and is found with {found} {unit}. {seen}",
                size=size,
                axle=AXLES[axle],
                wheel=WHEELS[wheel],
                wanted=wanted,
                unit=unit,
                found=found,
                seen=seen,
            ),
            rng.choice([say("What do you do with it?"), say("What is done with it now?")]),
        ],
        key=replace(key, why=()),
        wrong=[one for one in offered if one is not key],
        case=case,
        rulings=decision.deciding,
        features={"state": state, "percent": percent},
    )
