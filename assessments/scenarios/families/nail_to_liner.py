"""A nail stands in the tread: where does its channel come out at the liner? Marked on the cross-section."""

from math import radians, tan

from training.drawings import nail_section

from ..casebook import CASING_NAMES, edge_mm, hole, looked_at, pick_model, readings
from ..draft import Draft, Redraw
from ..formats import on_drawing
from ..model import Item
from ..registry import item_family
from ..shapes import Frame, Region, region

_NEAR_MM = 3.0  # as near as one can follow a line by eye on a phone
_DEPTH_MM = 5.0
_LEANS = (20, 22, 24, 36, 38, 40, 42, 45, 48, 50)


@item_family(
    "nail-to-liner",
    title="Where the channel reaches the liner",
    skill="position",
    formats=("place",),
    lesson="measure-and-choose/where-it-may-be",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = pick_model(rng)
    diameter = rng.choice(readings("mm", 3, edge_mm(draft.limit("injury.diameter", model.casing))[0]))
    angle, side, outward = rng.choice(_LEANS), rng.choice((-1, 1)), rng.random() < 0.5
    shift = model.crown_thickness_mm * tan(radians(angle)) * (side if outward else -side)
    lateral = side * rng.randint(22, model.tread_width_mm // 2 - 32)
    if abs(shift) < 2 * _NEAR_MM + 1 or abs(lateral + shift) > model.tread_width_mm / 2 - 14:
        raise Redraw("the mistakes lie too near, or the channel leaves the flat of the liner")
    injury = hole(diameter=diameter, lateral_mm=lateral, angle_deg=angle, outward=outward)
    case = draft.case(looked_at(model, draft.edition, injuries=[injury]))
    placed = draft.placed(case)

    def at(frame: Frame, mm: float) -> Region:
        across, up = mm - frame.left, frame.low - model.crown_thickness_mm
        return region((across - _NEAR_MM, across + _NEAR_MM), (up - _DEPTH_MM, up + _DEPTH_MM))

    return on_drawing(
        draft,
        stem=[
            f"The drawing shows a {CASING_NAMES[model.casing]} in cross-section, to scale, with a nail in its tread. "
            "The channel runs straight on in the line of the nail.",
            rng.choice(["Mark where the channel comes out at the liner.", "Where does the channel reach the liner?"]),
        ],
        drawing=lambda: nail_section(case),
        key=lambda frame: at(frame, placed.exit_lateral),
        wrong=lambda frame: [
            (at(frame, placed.lateral), "lean-ignored"),
            (at(frame, 2 * placed.lateral - placed.exit_lateral), "lean-the-other-way"),
        ],
        case=case,
        clauses=[draft.limit("injury.exit_margin", model.casing).id],
        features={"lean_deg": angle, "shift_mm": round(abs(shift), 1)},
    )
