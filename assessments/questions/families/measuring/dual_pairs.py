"""Pairs of dual tires and their diameters: which may run side by side?"""

from fractions import Fraction

from assessments.questions.cases.casebook import depths
from assessments.questions.cases.trucks import SIZES, in_service
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Ruling, quantity, severity
from training.trade.speech import say, saying

_PAIRS, _TOGETHER = 4, ("accept", "advise")
_STANDING = {"11R22.5": 415, "295/75R22.5": 400, "275/80R22.5": 402, "285/75R24.5": 412}  # tenths of an inch, invented

_ANY_MATE, _TWINS_ONLY = ("one-size-is-a-pair",), ("duals-must-be-twins",)


@item_family(
    "dual-pairs",
    title=saying("Which tires may run as duals"),
    skill="measuring",
    formats=("several",),
    casings=("truck",),
    lesson="steel-bodies/duals-and-axles",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    clause = next((one for one in draft.edition.clauses.values() if one.quantity == "dual.difference"), None)
    if clause is None or "truck" not in clause.casings:
        raise NoSuchLimit(f'family "dual-pairs": edition {draft.edition.name} has no limit for dual pairs')
    size, metric = rng.choice(SIZES), draft.prefer == "mm"
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    case = None
    depth = rng.choice(depths("in", 5, 10))
    gaps = rng.sample((1, 2, 3, 4, 6, 7, 8, 9), _PAIRS)
    beyond = sum(not clause.strictest.permits(quantity(Fraction(gap, 10), "in")) for gap in gaps)
    draft.foretell(beyond, of=_PAIRS)
    for gap in gaps:
        own = _STANDING[size] + rng.randint(-4, 4)
        other = own + gap * rng.choice((-1, 1))
        read = [f"{round(2.54 * one)} mm" if metric else f"{one / 10:.1f} in" for one in (other, own)]
        mate = {"diameter": read[0], "own_diameter": read[1]}
        data, decision = in_service(draft, size=size, axle="drive", depth=depth, dual=True, mate=mate)
        case = case or draft.case(data)
        parted = severity(decision.verdict) > severity("repair")  # out of service, or sent on as no pair
        text, why = (
            say("{diameter} beside {other}", diameter=mate["own_diameter"], other=mate["diameter"]),
            _ANY_MATE if parted else _TWINS_ONLY,
        )
        (wrong if parted else right).append(Choice(text, why, claim=Decided(_TOGETHER, case={"dual_mate": mate})))
        rulings += [ruling for ruling in decision.rulings if ruling.clause == clause.id]
    if not right or not wrong:
        raise Redraw("all of them, or none")
    told = say("Tires {size} for the dual wheels of a truck, each pair measured inflated, not under load.", size=size)
    if clause.otherwise != "reject":  # where no text of the country states it, the shop does
        most = draft.show(draft.stated(clause))
        allowed = say("In this shop a pair may differ by at most {difference}.", difference=most)
        told = f"{told} {allowed}"
    return draft.several(
        stem=[
            told,
            rng.choice(
                [
                    say("Which of these pairs may run side by side? Choose all."),
                    say("Which of these make a dual pair? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=case,
        features={"pairs": _PAIRS, "mates": len(right)},
    )
