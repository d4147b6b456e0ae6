"""The track of a slider as SVG: white where it holds, hatched where it does not, a line and a number at the turn.

One user unit is a pixel at a desk. All of it is drawn across the whole width, so that the track begins and ends where
the picture does and a slider can be laid over it.
"""

from __future__ import annotations

from dataclasses import dataclass

from training.drawings.boxes import text_width
from training.drawings.path import escape, num, pen

WIDE, HIGH = 400, 62
_TOP, _LOW = 25, 35  # of the track
_WORDS, _NUMBERS = 13, 58  # baselines over and under it
_SIZE, _APART = 17, 6
_HATCH = 6  # from line to line
_LINE, _WORN, _PAPER = "#211f1d", "#5b5853", "#ffffff"
_HERE = ((-9, 18), (9, 18), (9, 34), (0, 42), (-9, 34))


@dataclass(frozen=True, slots=True)
class Mark:
    """Something at a place of a track, 0 at its beginning and 1 at its end, with what is written there."""

    share: float
    text: str


def slider_track(*, least: str, most: str, turn: Mark | None, here: float, holds: str, fails: str,
          all_fail: bool = False, change: Mark | None = None) -> str:  # fmt: skip
    """The track as SVG, hidden from who does not see it: the words beside it say the same.

    Args:
        least, most: the numbers at its ends.
        turn: the last value that holds; None where one thing is so all along.
        here: where the value stands now, drawn in a group "track-here" that a live slider takes the place of.
        holds, fails: what the part before the turn and the part after it come to.
        all_fail: without a turn: does nothing hold?
        change: where something else changes, such as the way to repair.
    """
    at = turn.share * WIDE if turn else 0.0 if all_fail else float(WIDE)
    parts = [
        f'<path d="{pen("M", 0.5, _TOP, "H", WIDE - 0.5, "V", _LOW, "H", 0.5, "Z")}" fill="{_PAPER}" stroke="{_LINE}"/>'
    ]
    if hatched := _hatch(at):
        parts.append(f'<path d="{hatched}" fill="none" stroke="{_LINE}"/>')
    if at > 0:
        parts.append(_text(0, _WORDS, holds, "start"))
    if at < WIDE:
        parts.append(_text(WIDE, _WORDS, fails, "end"))
    taken = []
    if turn:
        parts.append(f'<path d="{pen("M", at, _TOP - 4, "V", _LOW + 8)}" stroke="{_LINE}" stroke-width="1.8"/>')
        half = text_width(turn.text, _SIZE) / 2
        middle = min(max(at, half), WIDE - half)
        taken = [(middle - half, middle + half)]
        parts.append(_text(middle, _NUMBERS, turn.text, "middle"))
    ends = ((0, text_width(least, _SIZE), least, "start", 0), (WIDE - text_width(most, _SIZE), WIDE, most, "end", WIDE))
    for left, right, text, anchor, x in ends:
        if all(right + _APART <= low or left - _APART >= high for low, high in taken):
            parts.append(_text(x, _NUMBERS, text, anchor, _WORN))
    if change:
        where = change.share * WIDE
        parts.append(f'<path d="{pen("M", where, _TOP - 4, "V", _LOW)}" stroke="{_LINE}" stroke-dasharray="3 3"/>')
        parts.append(_text(where, _WORDS, change.text, "middle"))
    stands = here * WIDE
    points = " ".join(f"{num(stands + dx)},{num(dy)}" for dx, dy in _HERE)
    parts.append(f'<g class="track-here"><polygon points="{points}" fill="{_LINE}" stroke="{_PAPER}" '
                 'stroke-width="2"/></g>')  # fmt: skip
    return (
        f'<svg class="track" viewBox="0 0 {WIDE} {HIGH}" aria-hidden="true" focusable="false" '
        f'font-size="{_SIZE}">{"".join(parts)}</svg>'
    )


def _hatch(start: float) -> str:
    """Lines at 45 degrees over the track from here to its end."""
    high, d = float(_LOW - _TOP), ""
    foot = start - high
    while foot < WIDE:
        foot += _HATCH
        left, right = max(foot, start), min(foot + high, WIDE)
        if left < right:
            d += pen("M", left, _LOW - (left - foot), "L", right, _LOW - (right - foot))
    return d


def _text(x: float, y: float, text: str, anchor: str, fill: str = _LINE) -> str:
    where = "" if anchor == "start" else f' text-anchor="{anchor}"'
    return f'<text x="{num(x)}" y="{num(y)}"{where} fill="{fill}">{escape(text)}</text>'
