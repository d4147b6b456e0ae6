"""Room on a drawing: how wide letters run, and where boxes and lines meet. Coordinates are user units, y downward."""

from __future__ import annotations

from functools import lru_cache

Box = tuple[float, float, float, float]  # left, top, right, bottom
Segment = tuple[float, float, float, float]

# Advances of our condensed face as parts of the text size, a little ample; what is not listed takes `_USUAL`.
_USUAL = 0.49
_ADVANCES = {
    letter: part
    for letters, part in (
        ("',.|`ijl", 0.22),
        (" I;:", 0.24),
        ("1ft()!", 0.3),
        ('r"-{}[]', 0.34),
        ("°*z7/\\×", 0.4),
        ("MN", 0.55),
        ("wØ#&", 0.62),
        ("mW", 0.68),
        ("@%", 0.79),
    )
    for letter in letters
}


def text_width(text: str, size: float) -> float:
    """A safe upper estimate of how wide a label runs, in user units."""
    return _ems(text) * size


@lru_cache(maxsize=4096)
def _ems(text: str) -> float:
    """The same in sizes of the letters; the words of drawings return from one to the next."""
    return sum([_ADVANCES.get(letter, _USUAL) for letter in text])


def text_box(x: float, y: float, text: str, size: float, anchor: str) -> Box:
    """The room a label takes, a little air included."""
    width = text_width(text, size)
    left = x if anchor == "start" else x - width if anchor == "end" else x - width / 2
    return (left - size * 0.15, y - size * 0.8, left + width + size * 0.15, y + size * 0.24)


def boxes_meet(a: Box, b: Box) -> bool:
    """True where two boxes share more than an edge."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def segment_meets(box: Box, line: Segment) -> bool:
    """True where a straight line passes through a box (Liang-Barsky clipping)."""
    x1, y1, x2, y2 = line
    left, top, right, low = box
    if (
        (x1 <= left and x2 <= left)
        or (x1 >= right and x2 >= right)
        or (y1 <= top and y2 <= top)
        or (y1 >= low and y2 >= low)
    ):
        return False
    if x1 == x2 or y1 == y2:
        return True
    dx, dy = x2 - x1, y2 - y1
    enter, leave = 0.0, 1.0
    for step, room in ((-dx, x1 - left), (dx, right - x1), (-dy, y1 - top), (dy, low - y1)):
        at = room / step
        if step < 0:
            enter = max(enter, at)
        else:
            leave = min(leave, at)
        if enter >= leave:
            return False
    return True
