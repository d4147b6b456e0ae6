"""An answer beside the right one, as an explanation shows it in each format."""

from collections.abc import Mapping
from dataclasses import dataclass

from assessments.questions import (
    Answer,
    Blame,
    Item,
    Line,
    Option,
    Picture,
    Region,
    edges_on,
    number_in_words,
    parse_number,
    place_in_words,
    ruler_unit,
)
from training.trade.measures import as_read
from training.trade.speech import say

_MARK = (
    '<rect x="{x:g}" y="{y:g}" width="{width:g}" height="{height:g}" fill="none" stroke="#17613a" '
    'stroke-width="{line:g}" stroke-dasharray="{dash:g}"/>'
)
_CROSS = (
    '<path d="M{left:g} {y:g}H{right:g}M{x:g} {top:g}V{low:g}" fill="none" stroke="{ink}" stroke-width="{line:g}"/>'
)


@dataclass(frozen=True)
class Choice:
    """An option as an explanation shows it; `line` says what the rulebook says of it."""

    text: str
    is_right: bool
    is_chosen: bool
    line: Line | None = None


@dataclass(frozen=True)
class Shown:
    """What was answered and what is right. Which fields are filled follows from the format; the rest are empty.

    `choices` (and `second` for a fault's reasons) are lists of options; the orders are steps in words; the texts are a
    number or a place in words. `figure` is the drawing, a place marked on it.
    """

    figure: Picture | None
    choices: tuple[Choice, ...] = ()
    second: tuple[Choice, ...] = ()
    answer_order: tuple[str, ...] = ()
    key_order: tuple[Choice, ...] = ()
    answer_text: str = ""
    key_text: str = ""


def show_answer(item: Item, answer: Answer, lines: Mapping[str, Line] | None = None) -> Shown:
    """The answer, None for none, beside what is right, each line with its reason from `lines` by option."""
    key, lines = item.key, lines or {}
    if isinstance(key, Blame):
        given = answer if isinstance(answer, dict) else {"step": "", "reason": ""}
        return Shown(
            item.figure,
            choices=_choices(item.options, set(key.steps), {given["step"]}, lines),
            second=_choices(item.reasons, {key.reason}, {given["reason"]}, {}) if key.reason or given["reason"] else (),
        )
    if isinstance(key, Region):
        return _place(item, key, answer)
    if item.format == "order":
        return Shown(
            item.figure,
            answer_order=tuple(item.option(one).text for one in answer or ()),
            key_order=tuple(Choice(item.option(one).text, True, False, lines.get(one)) for one in key),
        )
    if item.format == "number":
        return Shown(
            item.figure,
            answer_text=as_read(f"{answer['value']} {answer['unit']}") if isinstance(answer, dict) else "",
            key_text=number_in_words(item),
        )
    chosen = {answer} if isinstance(answer, str) else set(answer or ())
    right = {key} if isinstance(key, str) else set(key)
    return Shown(item.figure, choices=_choices(item.options, right, chosen, lines))


def _choices(
    options: tuple[Option, ...], right: set[str], chosen: set[str], lines: Mapping[str, Line]
) -> tuple[Choice, ...]:
    return tuple(
        Choice(option.text, option.id in right, option.id in chosen, lines.get(option.id)) for option in options
    )


def _place(item: Item, key: Region, answer: Answer) -> Shown:
    """The place in words, and on the drawing: a dashed box around what is right, a cross where the answer lies."""
    unit = ruler_unit(item.units)
    left, beyond, low, high = edges_on(key, unit)
    if unit == "in":
        right = say("{left} to {right} in across, {low} to {high} in up", left=left, right=beyond, low=low, high=high)
    else:
        right = say("{left} to {right} mm across, {low} to {high} mm up", left=left, right=beyond, low=low, high=high)
    text = place_in_words(answer, unit) if isinstance(answer, dict) else ""
    figure, frame = item.figure, item.frame
    if figure is None or frame is None:
        return Shown(figure, answer_text=text, key_text=right)
    marks = _MARK.format(
        x=frame.left + key.left,
        y=frame.low - key.high,
        width=key.right - key.left,
        height=key.high - key.low,
        line=frame.width * 0.008,
        dash=frame.width * 0.015,
    )
    if isinstance(answer, dict):
        x, y, arm = frame.left + _plain(answer["x"]), frame.low - _plain(answer["y"]), frame.width * 0.03
        ends = {"left": x - arm, "right": x + arm, "top": y - arm, "low": y + arm, "x": x, "y": y}
        marks += "".join(
            _CROSS.format(**ends, ink=ink, line=frame.width * share)
            for ink, share in (("#211f1d", 0.02), ("#f5c400", 0.012))
        )
    return Shown(
        Picture(figure.svg.replace("</svg>", f"{marks}</svg>"), figure.description), answer_text=text, key_text=right
    )


def _plain(text: str) -> float:
    return float(parse_number(text))
