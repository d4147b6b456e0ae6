"""The unit and the margin are given: how large is the outline to buff?"""

from fractions import Fraction

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import usual_hole
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Planned
from assessments.questions.items.item import Item
from training.rulebook import UNITS, RepairUnit, parse_quantity, quantity
from training.trade.speech import say, saying

_MM = range(40, 100, 5)
_EIGHTHS = range(12, 31)
_TOLERANCE = "1 mm"


@item_family(
    "outline-to-buff",
    title=saying("Outline to buff"),
    skill="preparation",
    formats=("number",),
    casings=REPAIRED,
    lesson="prepare-install-return/outline-and-buff",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    unit = draft.prefer
    marks = sorted(rng.sample(_MM if unit == "mm" else _EIGHTHS, 2), reverse=True)
    length, width = (quantity(Fraction(mark, 1 if unit == "mm" else 8), unit) for mark in marks)
    draft.units = [
        RepairUnit(kind, kind, length, width, None, (model.casing,), None) for kind in ("patch", "one-piece")
    ]
    size = usual_hole(draft, model.casing, "5 mm")
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=size)]))
    decision = draft.decide(case)
    if decision.plan is None or decision.plan[0].buff is None:
        raise Redraw("something else decides")
    side, asked = rng.choice((("length", length), ("width", width)))
    clause = draft.limit("job.outline_margin", model.casing)
    margin = draft.stated(clause)
    key = parse_quantity(decision.plan[0].buff[side], "length")
    wrong = [
        (asked.value, "outline-is-the-unit"),
        (asked.value + margin.value, "margin-once"),
        (asked.value - 2 * margin.value, "margin-taken-off"),
        ((width if side == "length" else length).value + 2 * margin.value, "width-and-length-mixed"),
    ]
    return draft.number(
        stem=[
            say(
                "The repair unit for a hole in a {tire} is {length} long and {width} wide. In this shop "
                "the outline to buff is drawn {margin} beyond the unit on each side.",
                tire=model.name,
                length=length,
                width=width,
                margin=draft.show(margin),
            ),
            say("What is the length of the outline?") if side == "length" else say("What is the width of the outline?"),
        ],
        key=key.text,
        tolerance=_TOLERANCE,
        units=("in", "mm"),
        wrong=[(quantity(value / UNITS["length"][unit], unit).text, why) for value, why in wrong],
        case=case,
        asks=Planned(side, units=((length.text, width.text),)),
        clauses=[clause.id],
        features={"unit": unit, "side": side},
    )
