"""Measurements that keep to the limits in force, however strict a shop has made them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from training.rulebook import Clause, Model, injury_geometry
from training.trade.speech import say

# What limits the whole hole at the tread and at the liner: the crown itself, or the distance from the shoulders.
_AT_TREAD = ("injury.crown_margin", "injury.shoulder_distance")
_AT_LINER = ("injury.exit_margin", "injury.exit_shoulder_distance")


def passing_hole(draft: Draft, casing: str, *, least: Fraction | int = Fraction(2, 3)) -> str:
    """A diameter that passes, no smaller than this part of the limit. Redraw where no mark of a rule lies there."""
    limit = edge_mm(draft.limit("injury.diameter", casing))[0]
    found = readings(draft.prefer, limit * least, limit)
    if not found:
        raise Redraw("the limit leaves no mark of the rule")
    return draft.rng.choice(found)


def usual_hole(draft: Draft, casing: str, usual: str) -> str:
    """The usual diameter, in the unit told, where it passes with room to spare, else a smaller one that does."""
    limit = edge_mm(draft.limit("injury.diameter", casing))[0]
    usual = draft.told(draft.near(length(usual).value))
    return usual if length(usual).value < limit else passing_hole(draft, casing)


def mild_lean(draft: Draft, limit: Fraction, least: int) -> int:
    """A whole angle under the limit [deg], from `least` on or, under a low limit, from half of it on."""
    most = ceil(limit) - 1
    least = min(least, most // 2 + 1)
    if most < 1:
        raise Redraw("the limit leaves no lean")
    return draft.rng.randint(least, most)


def half_tread(draft: Draft, model: Model) -> Fraction:
    """How far the edge of the tread lies from the middle, to a step of the unit told [mm]."""
    return floor(model.tread_width_mm / 2 / draft.step_mm) * draft.step_mm


def is_by_groove(draft: Draft, casing: str) -> bool:
    """Does the edition measure the repairable crown to the outermost groove, as drawings and tickets give it?"""
    rule = draft.edition.crowns.get(casing)
    return rule is not None and rule.basis == "outer-groove"


@dataclass(frozen=True, slots=True)
class Bound:
    """How far from the crown centerline the whole hole may reach, of one size of tire in an edition and shop [mm].

    `sure_mm`: up to here no source refuses it; `lost_mm`: beyond it every source does. They differ where sources do.
    `step_mm`: what places are told to. `told`: a sentence of a stem that gives what the edition measures by. `edge`:
    what a hole must not cross, in words. `rivals`: where those who take another line for the edge see it, by
    misconception. `at_tread`, `at_liner`: the clauses. `is_drawn`: does a drawing show the edge itself?
    """

    basis: str
    step_mm: Fraction
    sure_mm: Fraction
    lost_mm: Fraction
    told: str
    edge: str
    rivals: tuple[tuple[str, Fraction], ...]
    at_tread: str
    at_liner: str
    is_drawn: bool

    @property
    def inner_mm(self) -> Fraction:
        """The last place that can be told inside for every source."""
        return floor(self.sure_mm / self.step_mm) * self.step_mm

    @property
    def outer_mm(self) -> Fraction:
        """The first place that can be told outside for every source, or on the edge."""
        return ceil(self.lost_mm / self.step_mm) * self.step_mm

    @property
    def refused_sooner(self) -> tuple[str, ...]:
        """The misconceptions that refuse places which this edition allows: too narrow a crown, the groove as edge."""
        narrow = "narrow-crown-steel" if self.basis == "shoulder" else "narrow-crown"
        return (narrow, "groove-is-the-edge") if self.basis == "section-width" else (narrow,)


def limit_told(draft: Draft, bound: Bound) -> str:
    """What a stem says of the limit, where sources disagree and the question lies between them; else nothing."""
    if bound.sure_mm == bound.lost_mm:
        return ""
    clause = draft.clause(bound.at_tread)
    limit = draft.limit_text(clause)
    return say("Nail holes must be {limit} from each shoulder, which is the tread's edge.", limit=limit)


def place_clauses(draft: Draft, casing: str) -> tuple[Clause, Clause]:
    """What limits the place of a hole at the tread and at the liner. Raises NoSuchLimit where nothing does."""
    at_tread, at_liner = (
        next((clause for name in names if (clause := draft.edition.limit(name, casing)) is not None), None)
        for names in (_AT_TREAD, _AT_LINER)
    )
    if at_tread is None or at_liner is None:
        raise NoSuchLimit(
            f'family "{draft.family.name}": edition {draft.edition.name} {draft.edition.version} '
            f"does not say how far out a hole may lie ({casing})"
        )
    return at_tread, at_liner


def crown_bound(draft: Draft, model: Model) -> Bound:
    """How far from the centerline a hole may reach in this size of tire. Raises NoSuchLimit where nothing says so."""
    at_tread, at_liner = place_clauses(draft, model.casing)
    basis = draft.edition.crowns[model.casing].basis
    tread, groove = model.tread_width_mm / 2, model.outer_groove_mm
    by_shoulder = at_tread.quantity == "injury.shoulder_distance"
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter="4 mm")]))
    half_crown = injury_geometry(case, (case.injuries or ())[0], edition=draft.edition).half_crown_mm
    if not by_shoulder and half_crown is None:
        raise Redraw("the size does not give the crown")
    half = tread if by_shoulder else Fraction(str(half_crown))
    edges = [edge_mm(clause) for clause in (at_tread, at_liner)]
    if half <= max(most for _, most in edges):
        raise Redraw("the limits leave no crown")
    rivals: tuple[tuple[str, Fraction], ...] = (("groove-is-the-edge", groove), ("tread-is-all-crown", tread))
    if by_shoulder:
        told, edge = (
            say("Its tread is {width} wide.", width=draft.told(2 * tread)),
            say("the crown, measured from the shoulders"),
        )
    elif basis == "section-width":
        told, edge = (
            say("Its size is {size}.", size=model.size),
            say("the repairable area, measured by the section width"),
        )
    else:
        begins = draft.told(groove)
        told = say("The outermost groove begins {distance} from the crown centerline.", distance=begins)
        edge, rivals = say("the inner edge of the outermost groove"), rivals[1:]
    return Bound(
        basis="shoulder" if by_shoulder else basis,
        step_mm=draft.step_mm,
        sure_mm=half - max(most for _, most in edges),
        lost_mm=half - min(least for least, _ in edges),
        told=told,
        edge=edge,
        rivals=rivals,
        at_tread=at_tread.id,
        at_liner=at_liner.id,
        is_drawn=basis == "outer-groove" and not by_shoulder,
    )
