"""Measurements as a drawing prints them and as its description says them."""

from __future__ import annotations

import math
from fractions import Fraction

from training.rulebook import Injury, Quantity, quantity, show
from training.trade.speech import say

_NOTHING = 1e-6  # of the last part printed, lost in computing


def length_label(
    length: Quantity | None,
    *,
    unsigned: bool = False,
    mm: float | None = None,
    unit_like: Quantity | None = None,
    is_outermost: bool = False,
) -> str:
    """A length as printed on the drawing: as it was measured, never converted.

    A computed length comes as `mm` and is written in the unit of `unit_like`, to 1/32 in or 0.1 mm: the nearest, or the
    next longer for what is outermost, so that it is never told nearer than it is.
    """
    if length is None:
        if mm is None:
            return ""
        unit, mm_each, parts = ("in", 25.4, 32) if unit_like is not None and unit_like.unit == "in" else ("mm", 1.0, 10)
        count = abs(mm) / mm_each * parts
        return quantity(Fraction(math.ceil(count - _NOTHING) if is_outermost else round(count), parts), unit).text
    return length.text.lstrip("-") if unsigned else length.text


def said(length: Quantity, prefer: str, *, unsigned: bool = False) -> str:
    """A length in words, the preferred unit first."""
    text = show(length, prefer=prefer)
    return text.replace("-", "") if unsigned else text


def angle_label(angle: Quantity | None, *, seen_deg: float | None, is_direction_known: bool) -> str:
    """An angle as printed: what the section shows, and that the direction is missing where it is."""
    if angle is None:
        return ""
    if seen_deg is not None and is_direction_known:
        return say("{degrees}° seen here", degrees=round(abs(seen_deg)))
    text = angle.printed
    return text if is_direction_known or not angle.number else say("{angle} (which way?)", angle=text)


def in_degrees(angle: str) -> str:
    """An angle as it is spoken, from one as it is printed or typed; a length stays as it is.

    >>> in_degrees("30°"), in_degrees("30 deg"), in_degrees("220 mm")
    ('30 degrees', '30 degrees', '220 mm')
    """
    degrees = angle.removesuffix("°").removesuffix(" deg")
    return angle if degrees == angle else say("{degrees} degrees", degrees=degrees)


def size_of(injury: Injury) -> Quantity | None:
    """A hole's size: after damage removal, or as found where it was not measured again."""
    return injury.diameter or injury.before_removal


def hole_label(size: Quantity | None, name: str, *, several: bool) -> str:
    """A hole's size as printed, its name before it where there are several."""
    text = f"Ø {size.text}" if size is not None else ""
    return f"{name}: {text}".rstrip(": ") if several else text


def beside_center(x: float, length: str) -> str:
    """How far something lies to the right or to the left of the centerline, in words."""
    if x > 0:
        return say("{length} right of the centerline", length=length)
    return say("{length} left of the centerline", length=length)


def from_center(x: float, length: Quantity | None, prefer: str) -> str:
    """Where something lies across the tread, in words."""
    if not x or length is None:
        return say("on the centerline")
    return beside_center(x, said(length, prefer, unsigned=True))
