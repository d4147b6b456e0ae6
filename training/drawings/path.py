"""Points, numbers and words as SVG writes them: path data, polygons, text made safe."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

Point = tuple[float, float]

_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})


def escape(text: str) -> str:
    """Text made safe for element and attribute; characters XML cannot carry become a blank."""
    if not text.isprintable():
        text = "".join(c if c.isprintable() else " " for c in text)
    return text.translate(_ESCAPES)


def num(value: float) -> str:
    """A coordinate with at most two decimals, written the shortest way."""
    return _hundredths(int(value * 100 + (0.5 if value >= 0 else -0.5)))


@lru_cache(maxsize=1 << 16)
def _hundredths(count: int) -> str:
    whole, rest = divmod(abs(count), 100)
    text = f"{whole}.{rest:02}".rstrip("0") if rest else str(whole)
    return f"-{text}" if count < 0 else text


def pen(*parts: str | float | Point) -> str:
    """Path data from commands, coordinates and points.

    >>> pen("M", (1, 2.5), "H", 4)
    'M1 2.5H4'
    """
    data, after_number = "", False
    for part in parts:
        if isinstance(part, str):
            data, after_number = data + part, False
            continue
        for value in part if isinstance(part, tuple) else (part,):
            data += f" {num(value)}" if after_number else num(value)
            after_number = True
    return data


def along(points: Sequence[Point]) -> str:
    """Path data from point to point.

    >>> along([(0, 0), (1, 2), (3, 2)])
    'M0 0L1 2L3 2'
    """
    return "".join(pen("L" if place else "M", point) for place, point in enumerate(points))


# the weights of a Bezier curve's four points at each tenth of the way
_WEIGHTS = [(r**3, 3 * r * r * s, 3 * r * s * s, s**3) for s, r in ((i / 10, 1 - i / 10) for i in range(11))]


def curve(a: Point, b: Point, c: Point, d: Point) -> list[Point]:
    """Eleven points along a Bezier curve, its ends among them."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = a, b, c, d
    return [(e * ax + f * bx + g * cx + h * dx, e * ay + f * by + g * cy + h * dy) for e, f, g, h in _WEIGHTS]


def frame(left: float, top: float, right: float, low: float) -> list[Point]:
    """The four corners of an upright rectangle."""
    return [(left, top), (right, top), (right, low), (left, low)]


def pairs(points: Iterable[Point]) -> str:
    """Points as the `points` attribute wants them."""
    return " ".join([f"{num(x)},{num(y)}" for x, y in points])
