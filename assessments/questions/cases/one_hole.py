"""One hole whose own size and place may decide, so that what else was found decides as often as it does not."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from assessments.questions.cases.casebook import edge_mm, readings
from assessments.questions.cases.crown import Bound, crown_bound, half_tread, passing_hole
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.seeding import Redraw
from training.rulebook import Model
from training.trade.words import STEEL

STATES = ("fine", "place", "size")  # the hole may be repaired, leaves the crown, is too large
_MILD_PLACES = ("tread-is-all-crown", "center-of-hole-counts")
_MILD_SIZES = ("truck-limit-for-all", "half-inch-for-steel", "size-does-not-matter")


@dataclass(frozen=True, slots=True)
class OneHole:
    """A hole by its size and by where it lies from the centerline [mm].

    `mild`: a misconception that repairs it though it leaves the crown or is too large; none where it is fine. `strict`:
    what refuses its place, and what refuses its size, of a hole that may be repaired.
    """

    state: str
    diameter: str
    lateral: Fraction
    bound: Bound
    mild: tuple[str, ...]
    strict: tuple[str, str]

    @property
    def refused(self) -> tuple[tuple[str, ...], ...]:
        """The sets of misconceptions that refuse it for its place or its size, where the other is no matter to them."""
        place, size = self.strict
        return {"fine": ((place,), (size,)), "place": ((*self.mild, size),), "size": ((*self.mild, place),)}[self.state]


def one_hole(draft: Draft, model: Model, state: str) -> OneHole:
    """A hole in this state, of STATES, up to the edge of what decides it. Redraw where the limits leave none."""
    rng = draft.rng
    bound = crown_bound(draft, model)
    lateral, diameter, mild = bound.inner_mm - draft.between(6, 13), "", ""
    if state == "place":
        farthest = half_tread(draft, model) - 2
        # Where sources disagree on the edge, no center lies inside for all of them while the hole leaves it for all.
        mild = rng.choice(_MILD_PLACES if bound.sure_mm == bound.lost_mm else _MILD_PLACES[:1])
        if mild == _MILD_PLACES[0]:
            lateral = draft.between(bound.outer_mm + 1, min(bound.outer_mm + 10, farthest))
        else:
            lateral = bound.inner_mm - draft.step_mm
    if state == "size":
        limit = edge_mm(draft.limit("injury.diameter", model.casing))[1]
        beyond = readings(draft.prefer, limit, limit * Fraction(3, 2))
        if not beyond:
            raise Redraw("no mark of the rule beyond the limit")
        diameter, mild = rng.choice(beyond), rng.choice(_MILD_SIZES)
    return OneHole(
        state,
        diameter or passing_hole(draft, model.casing),
        lateral * rng.choice((-1, 1)),
        bound,
        (mild,) if mild else (),
        (bound.refused_sooner[0], "light-limit-for-steel" if model.casing in STEEL else "stricter-size"),
    )
