"""An earlier repair lies on the liner: how near may the next unit lie? Marked on a plan of the liner."""

from assessments.questions.cases.casebook import length
from assessments.questions.cases.spacing import DIAMETER, MILLIMETERS, nearest
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.formats import on_drawing
from assessments.questions.items.claims import Spot
from assessments.questions.items.item import Item
from assessments.questions.items.shapes import Frame, Region, region
from training.drawings import repair_plan
from training.rulebook import length_mm
from training.trade.speech import say, saying

_FAR_MM, _NEAR_MM = 4.0, 2.0  # how far beyond and short of the least distance a mark still counts
_TOO_NEAR_MM = 2 * _NEAR_MM  # what is less short was read or pointed at wrongly
_BESIDE_MM = 8.0
_AROUND_MM = 40  # on either side at most, so that where a mark lies says nothing
# Where the new hole lies, by the direction across or around the tire.
_NEW_HOLE = {
    (True, 1): saying("A new nail hole lies to the right of it, on the line through its middle"),
    (True, -1): saying("A new nail hole lies to the left of it, on the line through its middle"),
    (False, 1): saying("A new nail hole lies above it, on the line through its middle"),
    (False, -1): saying("A new nail hole lies below it, on the line through its middle"),
}


@item_family(
    "nearest-unit",
    title=saying("How near to an earlier repair"),
    skill="angle-and-method",
    formats=("place",),
    casings=(),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    old, new = rng.choice(MILLIMETERS), rng.choice(MILLIMETERS)
    told = [(length_mm(size[0]), length_mm(size[1])) for size in (old, new)]
    across, way = rng.random() < 0.5, rng.choice((-1, 1))
    clause = draft.limit("repairs.gap")
    between = float(draft.stated(clause).value)  # 0 unless a shop keeps them farther apart
    side = 0 if across else 1
    apart = (old[side] + new[side]) / 2 + between
    # The farthest mistake and the whole old unit lie on the drawing, and some liner around them.
    before, beyond, below, above = (float(rng.randint(0, _AROUND_MM)) for _ in range(4))
    run = float(old[side] // 2 + old[side] + new[side] + 12) + before + beyond
    start = float(old[side] // 2 + 6 if way > 0 else old[side] + new[side] + 6) + before
    wide = float(max(old[1 - side], 40) + 24)
    middle, other = wide / 2 + below, wide + below + above
    at, size = ((start, middle), (run, other)) if across else ((middle, start), (other, run))

    def on(distance: float) -> Region:
        one, two = sorted((start + way * (distance - _NEAR_MM), start + way * (distance + _FAR_MM)))
        along, aside = (one, two), (middle - _BESIDE_MM, middle + _BESIDE_MM)
        return region(along, aside) if across else region(aside, along)

    def too_near(frame: Frame) -> Region:
        one, two = sorted((start, start + way * (apart - _TOO_NEAR_MM)))
        return region((one, two), (0, frame.height)) if across else region((0, frame.width), (one, two))

    return on_drawing(
        draft,
        stem=[
            say(
                "The drawing shows a piece of liner from inside, the beads to the left and right. The "
                "hatched unit of an earlier repair is sound. {new_hole}; the unit for it is {length} long, "
                "toward the beads, and {width} wide, centered on the hole.",
                new_hole=_NEW_HOLE[across, way],
                length=draft.show(told[1][0]),
                width=draft.show(told[1][1]),
            ),
            rng.choice(
                [
                    say("Mark the nearest place for the new hole at which it may still be repaired."),
                    say("How near may the new hole lie, so that it may still be repaired? Mark the place."),
                ]
            ),
        ],
        drawing=lambda unit: repair_plan(old, at=at, size=size, prefer=unit),
        key=lambda frame: on(apart),
        wrong=lambda frame: [
            (on((old[1 - side] + new[1 - side]) / 2 + between), "width-and-length-mixed"),
            (on(apart / 2), "half-units"),
            (on(float(length(DIAMETER).value)), "holes-not-units"),
            (on(old[side] + new[side]), "whole-units-added"),
        ],
        unsafe=lambda frame: [too_near(frame)],
        asks=Spot(
            nearest(clause, *((long.text, wide.text) for long, wide in told), across=across),
            "across" if across else "up",
            way,
            at,
        ),
        clauses=[clause.id],
        features={"across": across, "sizes_differ": old != new},
    )
