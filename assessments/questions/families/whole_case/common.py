"""One tire from inspection to return: what all parts of the case share, drawn from their common seed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import cos, floor, radians, tan

from assessments.questions.cases.bodies import repaired
from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.channel_exit import least_shift_mm
from assessments.questions.cases.crown import crown_bound
from assessments.questions.cases.spacing import Size
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.seeding import DrawRandom, Redraw, seeded
from assessments.questions.work.job_log import recommended
from training.rulebook import UNITS, Case, Model
from training.trade.speech import say

SERIES, PARTS = "whole-case", 6
_CLEAR_MM = 3.0
_MOST_TRIES = 200
_MILD, _STEEPEST = 20, 50
_SIDES_MM, _LONGER_MM = (34, 76), (6, 20)  # of a patch: its width, and how much longer it is


@dataclass(frozen=True, slots=True)
class WholeCase:
    """A tire that can be repaired: its hole leans and stays in the crown. `unit`: its patch, length by width [mm]."""

    model: Model
    case: Case
    diameter: str
    angle_deg: int
    outward: bool
    unit: Size

    @property
    def tire(self) -> str:
        """The tire as the ticket names it."""
        return f"{self.model.name}, {self.model.designation}"

    def opening(self, part: int) -> str:
        """The first sentence of a part: which tire, which part."""
        return say("One tire in {count} questions, question {part}: a {tire}.", count=PARTS, part=part, tire=self.tire)


def _unit(draft: Draft, rng: DrawRandom) -> Size:
    """The sides of a patch as some maker may print them, the longer first: so many that none is usual."""
    step = Fraction(2) if draft.prefer == "mm" else UNITS["length"]["in"] / 16
    wide = rng.randint(floor(_SIDES_MM[0] / step), floor(_SIDES_MM[1] / step)) * step
    return wide + rng.randint(floor(_LONGER_MM[0] / step), floor(_LONGER_MM[1] / step)) * step, wide


def whole_case_of(draft: Draft) -> WholeCase:
    """The tire of this draw's seed, the same in every part. Raises NoSuchLimit where the edition cannot tell it."""
    rng = seeded(SERIES, draft.seed, draft.edition.name, draft.edition.version)
    model = draft.model_of(*repaired(draft), rng=rng)
    bound = crown_bound(draft, model)
    limit = edge_mm(draft.limit("injury.diameter", model.casing))[0]
    mild, steep = edge_mm(draft.limit("injury.angle", model.casing))
    marks = readings(draft.prefer, limit * 2 / 3, limit)
    leans = [some for some in (range(_MILD, int(mild)), range(int(steep) + 1, _STEEPEST + 1)) if some]
    rng.shuffle(leans)  # a mild lean as often as a steep one, where there are both
    if not marks or not leans:
        raise Redraw("the limits leave no mark of the rule, or no lean")
    for tried in range(_MOST_TRIES):
        angle = rng.choice(leans[tried * len(leans) // _MOST_TRIES])
        size, outward = rng.choice(marks), rng.random() < 0.5
        side, lateral = rng.choice((-1, 1)), draft.between(22, bound.inner_mm - 8, rng)
        shift = float(model.crown_thickness_mm) * tan(radians(angle)) * (1 if outward else -1)
        across = length(size).number / cos(radians(angle)) / 2
        if (
            abs(shift) >= least_shift_mm()
            and max(float(lateral), abs(float(lateral) + shift)) + across + _CLEAR_MM <= bound.sure_mm
        ):
            injury = hole(diameter=size, lateral=draft.told(side * lateral), angle_deg=angle, outward=outward)
            pressure = {"recommended": recommended(model.casing, draft.prefer)}
            case = draft.case(looked_at(model, draft.edition, injuries=[injury], pressure=pressure))
            return WholeCase(model, case, size, angle, outward, _unit(draft, rng))
    raise Redraw("no such hole stays in the crown")
