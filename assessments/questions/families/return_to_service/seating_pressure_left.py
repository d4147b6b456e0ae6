"""The beads are not seated yet: how much more air may go in before one has to stop?"""

from fractions import Fraction

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Left
from assessments.questions.items.item import Item
from training.rulebook import in_unit, quantity
from training.trade.speech import say, saying
from training.trade.words import CASING_WORDS, STEEL

_SIDEWALL: dict[str, dict[str, tuple[int, ...]]] = {
    "passenger": {"psi": (44, 50, 51), "kPa": (300, 340, 350)},
    "light-truck-steel": {"psi": (65, 80), "kPa": (450, 550)},
    "truck": {"psi": (105, 110, 120), "kPa": (725, 760, 830)},
}
_TOLERANCE = {"psi": "0.5 psi", "kPa": "3 kPa"}


@item_family(
    "seating-pressure-left",
    title=saying("Air left before the seating limit"),
    skill="return-to-service",
    formats=("number",),
    casings=("passenger", *STEEL),
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    casing = draft.casings[0] if len(draft.casings) == 1 else rng.choice(draft.casings)
    clause = draft.limit("job.seating_pressure", casing)
    own = "psi" if draft.prefer == "in" else "kPa"
    limit = next((one for one in clause.strictest.quantities if one.unit == own), draft.stated(clause))
    unit = limit.unit
    if unit not in _SIDEWALL[casing]:
        raise Redraw("no gauge shows the unit of the limit")
    most, step = in_unit(limit, unit), 1 if unit == "psi" else 5
    found = Fraction(rng.randrange(int(most) // 6 // step * step, int(most) - 2 * step, step))
    sidewall = rng.choice(_SIDEWALL[casing][unit])
    left = most - found
    wrong = [(sidewall - found, "running-pressure-seats"), (most, "limit-not-what-is-left")]
    tire, maximum, shown = CASING_WORDS[casing].one, f"{sidewall} {unit}", quantity(found, unit)
    if casing == "truck":
        told = say(
            "A {tire}, maximum {maximum} by its sidewall, is being seated on its wheel, in a restraining device. "
            "The gauge shows {shown}, and the beads are not seated. Tire maker and wheel maker give no limit of "
            "their own.",
            tire=tire,
            maximum=maximum,
            shown=shown,
        )
    else:
        told = say(
            "A {tire}, maximum {maximum} by its sidewall, is being seated on its wheel. "
            "The gauge shows {shown}, and the beads are not seated. Tire maker and wheel maker give no limit of "
            "their own.",
            tire=tire,
            maximum=maximum,
            shown=shown,
        )
    return draft.number(
        stem=[
            told,
            rng.choice(
                [
                    say("How much more pressure may you add before you have to deflate and lubricate again?"),
                    say("How much more may go in at most, before you stop and let it out again?"),
                ]
            ),
        ],
        key=quantity(left, unit).text,
        tolerance=_TOLERANCE[unit],
        units=("psi", "kPa", "bar"),
        wrong=[(quantity(value, unit).text, why) for value, why in wrong if value > 0],
        clauses=[clause.id],
        asks=Left(clause.id, f"{found} {unit}"),
        features={"unit": unit, "left": float(left)},
    )
