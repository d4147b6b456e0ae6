"""How far out may the center of a straight hole lie? Marked on a plan of the crown."""

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at
from assessments.questions.cases.crown import crown_bound, limit_told, passing_hole
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.formats import on_drawing
from assessments.questions.drafts.rules import altered
from assessments.questions.items.claims import Spot, Turning
from assessments.questions.items.item import Item
from assessments.questions.items.shapes import Frame, Region, region
from training.drawings import level_plan
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_IN_MM, _OUT_MM = 3.0, 1.0  # how far inside and outside the limit a mark still counts: as near as one can point
_FAR_OUT_MM = 2 * _OUT_MM  # what is nearer was read or pointed at wrongly, and takes no limit for another
_LEVEL_MM = 8.0
_PAST_MM, _BESIDE_MM = (12, 56), (4, 40)  # of the other side, and beside the tread: where a mark lies says nothing


@item_family(
    "farthest-on-drawing",
    title=saying("How far out, on the drawing"),
    skill="position",
    formats=("place",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    bound = crown_bound(draft, model)
    side, up = rng.choice((-1, 1)), float(rng.choice((24, 28, 32, 36)))
    past, beside = float(rng.randint(*_PAST_MM)), float(rng.randint(*_BESIDE_MM))
    diameter = passing_hole(draft, model.casing)
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=diameter)]))
    half_crown, half = float(bound.sure_mm), float(length(diameter).value) / 2

    # to some the center alone has to be under the tread; and how far inside the edge others want the whole hole
    reach = {"groove-is-the-edge": half, "tread-is-all-crown": 0.0}
    by_far = "narrow-crown" if bound.basis != "shoulder" else "narrow-crown-steel"
    sure = float(edge_mm(draft.clause(bound.at_tread))[1])
    narrow = float(draft.stated(altered(draft.edition, by_far).clause(bound.at_tread)).value)

    def at(frame: Frame, lateral: float) -> Region:
        inner, outer = sorted((side * (lateral - _IN_MM) - frame.left, side * (lateral + _OUT_MM) - frame.left))
        return region((inner, outer), (up - _LEVEL_MM, up + _LEVEL_MM))

    def beyond(frame: Frame) -> Region:
        limit, end = side * (half_crown - half + _FAR_OUT_MM) - frame.left, frame.width if side > 0 else 0.0
        return region((min(limit, end), max(limit, end)), (0, frame.height))

    return on_drawing(
        draft,
        stem=[
            say(
                "The drawing shows one side of the crown of a {tire} from inside. The dashed lines are "
                "the edges of the outermost groove. A nail hole goes straight through and is {size} "
                "across after damage removal; it is drawn on the centerline to show its size.",
                tire=model.name,
                size=diameter,
            ),
            *([] if bound.is_drawn else [f"{bound.told} {limit_told(draft, bound)}".strip()]),
            rng.choice(
                [
                    say(
                        "On the level line, mark the farthest place from the centerline for the center of such a hole."
                    ),
                    say("How far out may the center of such a hole lie? Mark the place on the level line."),
                ]
            ),
        ],
        drawing=lambda unit: level_plan(case, up=up, side=side, past=past, beside=beside, prefer=unit),
        key=lambda frame: at(frame, half_crown - half),
        wrong=lambda frame: [
            (at(frame, half_crown + half), "hole-added"),
            *((at(frame, float(edge) - reach[name]), name) for name, edge in reversed(bound.rivals)),
            (at(frame, half_crown + sure - narrow - half), by_far),
        ],
        unsafe=lambda frame: [beyond(frame)],
        asks=Spot(Turning("injuries.0.lateral", "most", ("repair",)), "across", side),
        case=case,
        clauses=[bound.at_tread],
        features={"side": side, "diameter_mm": 2 * half},
    )
