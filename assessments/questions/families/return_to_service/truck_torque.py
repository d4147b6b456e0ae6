"""The nuts of a truck wheel: which reading of the torque wrench is right for the stud?"""

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.claims import Permitted
from assessments.questions.items.item import Item
from training.rulebook import Quantity, in_unit, parse_quantity, quantity
from training.trade.speech import say, saying

# What others take for right [lbf.ft]: the torque of a car, and what someone pulls who adds to be safe.
_CAR, _TIGHT = ("80 lbf.ft", "120 lbf.ft"), ("575 lbf.ft", "700 lbf.ft")
_STEP = 5


@item_family(
    "truck-torque",
    title=saying("Torque of truck wheel nuts"),
    skill="return-to-service",
    formats=("one",),
    casings=("truck",),
    lesson="steel-bodies/duals-and-axles",
    recall=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    clause, thinner = (draft.edition.clauses.get(f"torque-{stud}") for stud in ("m22", "m20"))
    if clause is None or thinner is None:
        raise NoSuchLimit(f'family "truck-torque": edition {draft.edition.name} gives no torque for studs of trucks')
    unit, other = ("lbf.ft", "N.m") if draft.prefer == "in" else ("N.m", "lbf.ft")

    def reading(low: Quantity, high: Quantity, of: str = unit) -> Quantity:
        """A reading between two torques, its number in one unit, and told in another where units are mixed."""
        least, most = (int(in_unit(end, of)) for end in (low, high))
        return quantity(rng.randrange(-(-least // _STEP) * _STEP, most + 1, _STEP), unit)

    def ends(statement_of: str) -> tuple[Quantity, Quantity]:
        statement = draft.clause(statement_of).strictest
        pairs = list(zip(statement.quantities, statement.upper, strict=True))
        return next(((low, high) for low, high in pairs if low.unit == unit), pairs[0])

    def said(torque: Quantity, *why: str) -> Choice:
        claim = Permitted(clause.id, torque.text)
        return Choice(say("{torque} on the wrench", torque=torque.text), why, value=torque.value, claim=claim)

    right = reading(*ends(clause.id))
    car, tight = (tuple(parse_quantity(end, "torque") for end in pair) for pair in (_CAR, _TIGHT))
    rivals = [
        (reading(*ends(thinner.id)), "torque-of-a-thinner-stud"),
        (reading(car[0], car[1]), "truck-nuts-as-car-nuts"),
        (reading(tight[0], tight[1]), "tighter-is-safer"),
        (reading(*ends(clause.id), of=other), "units-of-torque-mixed"),
    ]
    return draft.one(
        stem=[
            say(
                "A hub-piloted wheel goes back on a truck: M22 studs, one flange nut on each. The "
                "vehicle maker's sheet gives what is usual for these studs."
            ),
            rng.choice(
                [say("Which reading of the torque wrench is right?"), say("Which of these do you tighten the nuts to?")]
            ),
        ],
        key=said(right),
        wrong=[said(one, why) for one, why in rivals if not clause.strictest.permits(one)],
        clauses=[clause.id],
        features={"unit": unit},
    )
