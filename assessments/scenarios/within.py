"""Measurements that keep to the limits in force, however strict a shop has made them."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from .casebook import edge_mm, length, readings
from .draft import Draft, NoSuchLimit, Redraw


def passing_hole(draft: Draft, casing: str, *, least: Fraction | int = Fraction(2, 3)) -> str:
    """A diameter in mm that passes, no smaller than this part of the limit. Redraw where no half mm lies there."""
    limit = edge_mm(draft.limit("injury.diameter", casing))[0]
    found = readings("mm", limit * least, limit)
    if not found:
        raise Redraw("the limit leaves no half millimeter")
    return draft.rng.choice(found)


def usual_hole(draft: Draft, casing: str, usual: str) -> str:
    """The usual diameter where it passes with room to spare, else a smaller one that does."""
    limit = edge_mm(draft.limit("injury.diameter", casing))[0]
    return usual if length(usual).value < limit else passing_hole(draft, casing)


def mild_lean(draft: Draft, limit: Fraction, least: int) -> int:
    """A whole angle under the limit [deg], from `least` on or, under a low limit, from half of it on."""
    most = ceil(limit) - 1
    least = min(least, most // 2 + 1)
    if most < 1:
        raise Redraw("the limit leaves no lean")
    return draft.rng.randint(least, most)


def is_by_groove(draft: Draft, casing: str) -> bool:
    """Does the edition measure the repairable crown to the outermost groove, as drawings and tickets give it?"""
    rule = draft.edition.crowns.get(casing)
    return rule is not None and rule.basis == "outer-groove"


def ask_by_groove(draft: Draft, casing: str) -> None:
    """Go on only where the outermost groove bounds the crown. Raises NoSuchLimit."""
    if not is_by_groove(draft, casing):
        raise NoSuchLimit(
            f'family "{draft.family.name}": edition {draft.edition.name} {draft.edition.version} does not measure the '
            f"crown of this casing to a groove ({casing})"
        )


def edge_inset_mm(draft: Draft, casing: str) -> int:
    """How far inside the outer groove a hole must keep in this shop, in whole mm; 0 by the editions themselves."""
    clauses = (draft.edition.limit(name, casing) for name in ("injury.crown_margin", "injury.exit_margin"))
    limits = [clause.strictest.quantity for clause in clauses if clause is not None]
    return max((ceil(limit.value) for limit in limits if limit is not None), default=0)
