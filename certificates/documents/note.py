"""The technical note behind a certificate: what its pass mark lets through, as simulated people did."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.lib.units import mm

from certificates.documents import fonts
from certificates.documents.blocks import HAIRLINE, RUBBER, Column
from training.trade.speech import say

_BAR, _BAR_HEIGHT = 46 * mm, 2.4 * mm


@dataclass(frozen=True)
class Simulated:
    """Who passes in one sitting: what somebody is in words, and how many of 100 pass. `people` sat for each line."""

    ability: Sequence[tuple[str, float]]
    held: Sequence[tuple[str, float]]
    people: int
    forms: int


def draw_note(column: Column, curve: Simulated, *, pass_mark: str) -> Column:
    """The note, from the top of the column down."""
    column.text(say("Technical note: the pass mark"), fonts.HEAD, 15)
    column.text(pass_mark, before=6)
    column.text(say("Who passes in one sitting, by simulation"), fonts.HEAD, 12, before=14)
    column.text(say("Somebody who would get this share of all questions right:"), before=4)
    _bars(column, curve.ability)
    if curve.held:
        column.text(
            say("Somebody who would get 90 percent right, but firmly holds one of these mistaken ideas:"), before=10
        )
        _bars(column, curve.held)
    column.text(
        say(
            "By simulation: {people} invented people for each line, on {forms} forms drawn as that of the holder was. "
            "It is assumed that families of questions differ in difficulty by 0.8 logit, that 15 of 100 guesses are "
            "right and that 3 of 100 answers are slips. Real answers will replace it.",
            people=curve.people,
            forms=curve.forms,
        ),
        size=9,
        before=12,
        is_quiet=True,
    )
    return column


def _bars(column: Column, points: Sequence[tuple[str, float]]) -> None:
    """A line for each: how many of 100 as a number and as a bar, then who."""
    column.skip(4)
    for who, share in points:
        top = column.y
        number = f"{share:.1f}"
        column.text(say("{share} of 100: {who}", share=number, who=who), size=9.5, before=2)
        if column.canvas is not None:
            column.canvas.saveState()
            column.canvas.setFillColor(HAIRLINE)
            column.canvas.rect(column.width - _BAR, top - 11, _BAR, _BAR_HEIGHT, stroke=0, fill=1)
            column.canvas.setFillColor(RUBBER)
            column.canvas.rect(column.width - _BAR, top - 11, _BAR * share / 100, _BAR_HEIGHT, stroke=0, fill=1)
            column.canvas.restoreState()
