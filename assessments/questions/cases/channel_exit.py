"""Marking where a channel comes out: a nail in a cross-section, its line followed to the liner."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from assessments.questions.cases.crown import place_clauses
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.formats import on_drawing
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Measure, Spot
from assessments.questions.items.item import Item
from assessments.questions.items.shapes import Frame, Region, region
from training.drawings import nail_section
from training.rulebook import Case
from training.trade.speech import say

_NEAR_MM = 3.0  # as near as one can follow a line by eye on a phone
_NEAREST_MM = 2.0
_DEPTH_MM = 5.0
# At most so much more is shown of the crown on either side and of the room under it, so that where a mark lies on the
# drawing says nothing.
_MORE_MM, _BELOW_MM = 50, 30


def least_shift_mm() -> float:
    """How far a channel must run sideways, so that a mark tells whether its lean was followed."""
    return 2 * _NEAREST_MM + 0.4


def mark_exit(draft: Draft, case: Case, *, situation: Sequence[str], features: Mapping[str, object]) -> Item:
    """An item `place`: where the channel of the case's one hole comes out at the liner."""
    placed = draft.placed(case)
    shift = abs(placed.exit_lateral - placed.lateral)
    if shift < least_shift_mm() or case.tire.crown_thickness is None:
        raise Redraw("the mistakes lie too near")
    more = (float(draft.rng.randint(0, _MORE_MM)), float(draft.rng.randint(0, _MORE_MM)))
    below = float(draft.rng.randint(0, _BELOW_MM))
    near, thick = min(_NEAR_MM, shift / 2 - 0.1), case.tire.crown_thickness.number

    def at(frame: Frame, mm: float) -> Region:
        across, up = mm - frame.left, frame.low - thick
        return region((across - near, across + near), (up - _DEPTH_MM, up + _DEPTH_MM))

    return on_drawing(
        draft,
        stem=[
            *situation,
            draft.rng.choice(
                [
                    say("Mark where the channel comes out at the liner."),
                    say("Where does the channel reach the liner? Mark the place."),
                ]
            ),
        ],
        drawing=lambda unit: nail_section(case, more=more, below=below, prefer=unit),
        key=lambda frame: at(frame, placed.exit_lateral),
        wrong=lambda frame: [
            (at(frame, placed.lateral), "lean-ignored"),
            (at(frame, 2 * placed.lateral - placed.exit_lateral), "lean-the-other-way"),
        ],
        asks=Spot(Measure("exit_lateral_mm", (case.injuries or ())[0].id), "across", 1, depth_mm=float(thick)),
        case=case,
        clauses=[place_clauses(draft, case.tire.casing)[1].id],
        features={**features, "shift_mm": round(shift, 1)},
    )
