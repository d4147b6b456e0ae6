"""A job ticket: one tire with several things noted on it, of which none or exactly one takes it out of service."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil, cos, radians
from typing import Any

from assessments.questions.cases.casebook import depths, edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.crown import Bound, crown_bound, half_tread
from assessments.questions.cases.phrases import SEEN, tread_clauses
from assessments.questions.drafts.draft import Draft
from assessments.questions.mistakes.misconceptions import misconceptions
from training.rulebook import Case, Model
from training.trade.speech import say, saying
from training.trade.words import STEEL, capital

ASPECTS: dict[str, str] = {
    "size": saying("The size of the hole"),
    "place": saying("The place of the hole"),
    "lean": saying("The lean of the channel"),
    "tread": saying("The depth of the tread"),
    "rubber": saying("The state of the rubber"),
    "repair": saying("The earlier repair"),
}
_EARLIER = {
    "two-piece": saying("stem and patch, in the crown, nothing lifted"),
    "one-piece": saying("one-piece unit, in the crown, nothing lifted"),
    "stem-only": saying("a stem without a patch, in the crown"),
    "patch-only": saying("a patch over an open channel, in the crown"),
    "string": saying("a string plug put in from outside, in the crown"),
}


@dataclass(frozen=True, slots=True)
class Ticket:
    """The tire and a line for each aspect noted on it.

    `strict`: the misconception by which an innocent aspect ends the evaluation. `mild`: those that let the guilty pass.
    """

    model: Model
    data: dict[str, object]
    case: Case
    lines: dict[str, str]
    strict: dict[str, str]
    mild: tuple[str, ...]


@lru_cache(maxsize=1)
def finding_passed_by() -> dict[str, str]:
    """For each finding that ends the evaluation, the misconception that lets it pass."""
    passing: dict[str, str] = {}
    for name, wrong in misconceptions().items():
        for finding, verdict in wrong.alteration.get("consequences", {}).items():
            if finding in SEEN and verdict in ("repair", "advise"):
                passing.setdefault(finding, name)
    return passing


def write_ticket(draft: Draft, aspects: Sequence[str], guilty: str | None) -> Ticket:
    """A ticket with these aspects noted; `guilty`, if given, is one of them. `place` and `lean` do not go together."""
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    bound = crown_bound(draft, model)
    size, mild_size = _size(draft, model, guilty == "size")
    lateral = draft.between(4, 12) * rng.choice((-1, 1))
    angle, outward, lines, strict, mild = 0, True, {}, {}, mild_size
    if "place" in aspects:
        lateral, line, held = _place(draft, model, bound, guilty == "place")
        lines["place"], mild = line, held or mild
        strict["place"] = "narrow-crown" if bound.basis != "shoulder" else "narrow-crown-steel"
    if "lean" in aspects:
        steep = edge_mm(draft.limit("injury.angle", model.casing))[1]
        angle, outward = rng.randint(int(steep) + 1, 55), True
        if guilty == "lean":
            half = 0 if bound.is_drawn else ceil(float(length(size).value) / 2 / cos(radians(angle))) - 4
            inset = draft.between(half + 5, half + 9)
            lateral, mild = (bound.inner_mm - inset) * rng.choice((-1, 1)), ("lean-ignored",)
        lines["lean"] = say(
            "The channel leans {angle}° outward; its center on the tread is {place}; the crown is {thickness} thick",
            angle=angle,
            place=where_words(draft, model, bound, lateral),
            thickness=draft.told(model.crown_thickness_mm),
        )
        strict["lean"] = "steep-means-scrap"
    more: dict[str, Any] = {}
    if "tread" in aspects:
        more["depth"] = _tread(draft, model, guilty == "tread")
        lines["tread"], strict["tread"] = (
            say("{depth} of tread in the lowest groove", depth=more["depth"]),
            "half-tread",
        )
        mild = ("tread-not-asked",) if guilty == "tread" else mild
    if "rubber" in aspects:
        finding = rng.choice(sorted(finding_passed_by())) if guilty == "rubber" else "weather-checking"
        more["found"] = [finding]
        lines["rubber"], strict["rubber"] = capital(SEEN[finding][0]), "weather-is-ozone"
        mild = (finding_passed_by()[finding],) if guilty == "rubber" else mild
    if "repair" in aspects:
        bad, good = ("stem-only", "patch-only", "string"), ("two-piece", "one-piece")
        kind = rng.choice(bad if guilty == "repair" else good)
        away = rng.choice((150, 180, 210))
        more["earlier_repairs"] = [
            {"id": "R1", "kind": kind, "zone": "crown", "injury": "4 mm", "sound": True, "station": f"{away} deg"}
        ]
        lines["repair"] = say("An earlier repair on the far side: {repair}", repair=_EARLIER[kind])
        strict["repair"], mild = "any-earlier-repair-scraps", ("earlier-repair-holds",) if guilty == "repair" else mild
    injury = hole(diameter=size, lateral=draft.told(lateral), angle_deg=angle, outward=outward)
    strict["size"] = _strict(draft, model, size)
    if "lean" in aspects:
        lines["size"] = say("A nail hole, {size} across after damage removal", size=size)
    else:
        lines["size"] = say("A nail hole straight through, {size} across after damage removal", size=size)
    strict.pop(guilty or "", None)
    data = looked_at(model, draft.edition, injuries=[injury], **more)
    return Ticket(model, data, draft.case(data), {name: lines[name] for name in aspects}, strict, mild)


def _size(draft: Draft, model: Model, is_guilty: bool) -> tuple[str, tuple[str, ...]]:
    low, high = edge_mm(draft.limit("injury.diameter", model.casing))
    unit = draft.prefer
    if is_guilty:
        # what makes twice the larger limit is no nail any more
        most = high * 2 if model.casing not in STEEL else high * 3 / 2
        return draft.rng.choice(readings(unit, high, most)), ("size-does-not-matter",)
    return draft.rng.choice(readings(unit, low * 2 / 3, low)), ()


def _strict(draft: Draft, model: Model, size: str) -> str:
    """The misconception by which this size is too large: that of the light limit, where it is one."""
    clause = draft.limit("injury.diameter", model.casing).id
    light = "light-limit-for-steel"
    return light if not draft.permits(light, clause, length(size)) and model.casing in STEEL else "stricter-size"


def where_words(draft: Draft, model: Model, bound: Bound, lateral: Fraction) -> str:
    """A place across the tread, by what bounds the crown of this tire."""
    if bound.basis == "shoulder":
        edge = draft.told(half_tread(draft, model) - abs(lateral))
        return say("{distance} from the edge of the tread", distance=edge)
    if bound.is_drawn:
        return say(
            "{distance} from the centerline, the outer groove {groove}",
            distance=draft.told(abs(lateral)),
            groove=draft.told(model.outer_groove_mm),
        )
    return say("{distance} from the centerline", distance=draft.told(abs(lateral)))


def _place(draft: Draft, model: Model, bound: Bound, is_guilty: bool) -> tuple[Fraction, str, tuple[str, ...]]:
    rng, groove = draft.rng, bound.inner_mm
    side = rng.choice((-1, 1))
    held: tuple[str, ...] = ()
    if not is_guilty:
        lateral = groove - draft.between(6, 14)
    elif not bound.is_drawn:
        lateral, held = bound.outer_mm + draft.between(2, 8), ("tread-is-all-crown",)
    elif rng.random() < 0.5:
        lateral, held = groove - draft.step_mm, ("center-of-hole-counts",)
    else:
        lateral, held = groove + draft.between(4, 10), ("tread-is-all-crown",)
    if bound.is_drawn:
        line = say(
            "Its center is {distance} from the crown centerline, the outer groove begins at {groove}",
            distance=draft.told(lateral),
            groove=draft.told(groove),
        )
    else:
        line = say("Its center is {place}", place=where_words(draft, model, bound, lateral))
    return lateral * side, line, held


def _tread(draft: Draft, model: Model, is_guilty: bool) -> str:
    clauses = tread_clauses(draft.edition, model.casing, "repair")
    low, high = min(edge_mm(one)[0] for one in clauses), max(edge_mm(one)[1] for one in clauses)
    unit, most = draft.prefer, high * 3
    if model.casing == "truck":  # whatever its axle: above the limit of the steer axle too
        high = max(edge_mm(one)[1] for one in draft.edition.clauses.values()
                   if one.quantity == "tread.least_depth" and "truck" in one.casings)  # fmt: skip
        most = high * 3 / 2
    return draft.rng.choice(depths(unit, 0, low) if is_guilty else depths(unit, high, most))
