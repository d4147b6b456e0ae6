"""A list of holes, each as a strip at one ruler: its verdict, what was said of it, and why."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from assessments.pages.lined_by_place import by_place
from assessments.pages.lined_by_size import by_size
from assessments.questions import Item, Line, letter
from training.rulebook import Edition
from training.trade.speech import say


@dataclass(frozen=True)
class Lined:
    """One line: its letter and words, the rulebook's verdict, what the answer said, one reason with its number.

    `said` is "" where nothing was answered.
    """

    option: str
    letter: str
    text: str
    verdict: str
    verdict_word: str
    said: str
    is_wrong: bool
    reason: str
    svg: str


@dataclass(frozen=True)
class LinedUp:
    """The lines in their order under one ruler. `situation` is what the question told before it asked, without the
    lines; `outcome`: which lines were answered wrongly, "" where none was."""

    situation: tuple[str, ...]
    ruler: str
    lines: tuple[Lined, ...]
    key: str
    outcome: str


def lined_up(
    item: Item, edition: Edition, lines: Mapping[str, Line], *, prefer: str, chosen: Collection[str] | None
) -> LinedUp | None:
    """None for a question that is not a list of measured holes, each asked whether it may be repaired.

    `lines`: what the rulebook says of each option; `chosen`: ids of the options that were answered, None for no answer.
    """
    found = by_place(item, edition, lines, prefer) or by_size(item, edition, lines)
    if found is None:
        return None
    judged = found.lines
    wrong = [chosen is not None and (one.option.id in chosen) != (one.option.id in item.key_ids) for one in judged]
    drawn = found.draw([place for place, one in enumerate(judged) if wrong[place] and one.is_past_in_ring])
    told = tuple(
        Lined(
            option=one.option.id,
            letter=letter(one.option.id),
            text=item.line_of(one.option),
            verdict=one.line.verdict,
            verdict_word=one.line.verdict_word,
            said="" if chosen is None else _said(is_chosen=one.option.id in chosen, is_wrong=is_wrong),
            is_wrong=is_wrong,
            reason=one.reason,
            svg=figure.svg,
        )
        for one, is_wrong, figure in zip(judged, wrong, drawn.figures, strict=True)
    )
    past, inside = (
        [letter(one.option.id) for one, is_wrong in zip(judged, wrong, strict=True) if is_wrong and one.is_past == side]
        for side in (True, False)
    )
    listed = {f"{one.option.text}: {item.line_of(one.option)}" for one in judged}
    situation = tuple(one for one in item.open().situation if one not in listed)
    return LinedUp(situation, drawn.ruler, told, drawn.key, found.told(past, inside))


def _said(*, is_chosen: bool, is_wrong: bool) -> str:
    if is_wrong:
        return say("You: repair, wrong") if is_chosen else say("You: no repair, wrong")
    return say("You: repair") if is_chosen else say("You: no repair")
