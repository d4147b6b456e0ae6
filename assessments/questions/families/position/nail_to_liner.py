"""A nail stands in the tread: where does its channel come out at the liner? Marked on the cross-section."""

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.channel_exit import mark_exit
from assessments.questions.cases.crown import half_tread, passing_hole
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_LEANS = (20, 22, 24, 36, 38, 40, 42, 45, 48, 50)
_FLAT_MM = 14  # so far from the edge of the tread the liner is drawn flat


@item_family(
    "nail-to-liner",
    title=saying("Where the channel reaches the liner"),
    skill="position",
    formats=("place",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    angle, side, outward = rng.choice(_LEANS), rng.choice((-1, 1)), rng.random() < 0.5
    lateral = side * draft.between(22, half_tread(draft, model) - 20)
    injury = hole(
        diameter=passing_hole(draft, model.casing), lateral=draft.told(lateral), angle_deg=angle, outward=outward
    )
    case = draft.case(looked_at(model, draft.edition, injuries=[injury]))
    if abs(draft.placed(case).exit_lateral) > model.tread_width_mm / 2 - _FLAT_MM:
        raise Redraw("the channel leaves the flat of the liner")
    if any(ruling.between_statements for ruling in draft.decide(case).rulings):
        raise Redraw("the sources disagree on this place")
    return mark_exit(
        draft,
        case,
        situation=[
            say(
                "The drawing shows a {tire} in cross-section, to scale, with a nail in its tread. The "
                "channel runs straight on in the line of the nail.",
                tire=model.name,
            )
        ],
        features={"lean_deg": angle},
    )
