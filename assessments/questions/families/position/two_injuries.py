"""Two holes and the size of the units: is there room on the liner for both?"""

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import crown_bound, usual_hole
from assessments.questions.cases.spacing import DIAMETER, answer_with_units, sizes, station_deg
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import altered
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, states
from assessments.questions.items.item import Item
from training.drawings import crown_plan
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_ONE_ONLY = "one-repair-a-tire"


@item_family(
    "two-injuries",
    title=saying("Room for two repairs"),
    skill="position",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter", "repairs.gap")
    length, width = rng.choice(sizes(draft))
    across = rng.random() < 0.5
    unit = length if across else width
    apart = unit + rng.choice([draft.between(-unit / 3, -5), draft.between(6, unit / 2)])
    room = (crown_bound(draft, model).inner_mm if model.casing in STEEL else model.outer_groove_mm) - 4
    if across and apart > 2 * room:
        raise Redraw("no room across the crown")
    first = draft.between(apart - room, room) if across else draft.between(-20, 20)
    size = usual_hole(draft, model.casing, DIAMETER)
    holes = [hole("A", diameter=size, lateral=draft.told(first))]
    holes.append(hole("B", diameter=size, lateral=draft.told(first - apart if across else first)))
    if not across:
        holes[1]["station"] = f"{station_deg(draft, model, apart):g} deg"
    case = draft.case(looked_at(model, draft.edition, injuries=holes))
    told = (length, width)
    key, ruling = answer_with_units(draft, case, model, told, told)
    beliefs = (
        ("width-and-length-mixed", (width, length), ()),
        ("half-units", (length / 2, width / 2), ()),
        ("holes-not-units", (length, width), ("holes-not-units",)),
        ("outlines-may-not-meet", (length, width), ("outlines-may-not-meet",)),
    )
    wrong = [answer_with_units(draft, case, model, told, taken, *held, why=name)[0] for name, taken, held in beliefs]
    if draft.decide(case, _ONE_ONLY).verdict == "reject":
        units = ((draft.told(length), draft.told(width)),)
        claim = All(
            (Decided(("reject",), units=units), states(altered(draft.edition, _ONE_ONLY).clause(ruling.clause)))
        )
        wrong.append(Choice(say("Out of service: two holes in one tire"), (_ONE_ONLY,), claim=claim))
    if across:
        lie = say(
            "Two nail holes in the crown of a {tire}, each {size} after damage removal and straight through, lie "
            "{distance} apart on the liner, center to center, across the tire, side by side. Nothing else "
            "was found.",
            tire=model.name,
            size=size,
            distance=draft.told(apart),
        )
    else:
        lie = say(
            "Two nail holes in the crown of a {tire}, each {size} after damage removal and straight through, lie "
            "{distance} apart on the liner, center to center, around the tire, one behind the other. Nothing else "
            "was found.",
            tire=model.name,
            size=size,
            distance=draft.told(apart),
        )
    return draft.one(
        stem=[
            lie,
            say(
                "The repair units for them are {length} long, toward the beads, and {width} wide.",
                length=draft.told(length),
                width=draft.told(width),
            ),
            rng.choice([say("Is there room for both?"), say("What becomes of this tire?")]),
        ],
        key=key,
        wrong=wrong,
        case=case,
        rulings=[ruling],
        figure=lambda: crown_plan(case, prefer=draft.prefer),
        features={"distance_mm": round(float(abs(apart - unit)), 1), "across": across},
    )
