"""An item told to a trainer: what is right, and for each wrong answer what it says and who gives it."""

from __future__ import annotations

from dataclasses import dataclass

from assessments.questions.items.item import Item
from assessments.questions.items.rulers import region_in_words, ruler_unit
from assessments.questions.items.shapes import Blame, Region
from training.trade.lists import one_of
from training.trade.measures import as_read
from training.trade.speech import say, saying
from training.trade.words import CASING_WORDS

FORMAT_WORDS = {
    "one": saying("choose one"),
    "several": saying("choose several"),
    "number": saying("give a number"),
    "order": saying("put in order"),
    "place": saying("mark on the drawing"),
    "fault": saying("find the fault"),
}
TOLD_TIRES = {casing: words.label for casing, words in CASING_WORDS.items()} | {"": saying("No tire given")}


@dataclass(frozen=True, slots=True)
class Told:
    """One answer in words: the names of the misconceptions that give it, and whether it releases a rejected tire.

    `letter` is that of its option on paper, "" where the question offers none.
    """

    words: str
    misconceptions: tuple[str, ...]
    is_unsafe: bool
    letter: str = ""


def letter(option_id: str) -> str:
    """The letter of an option on paper: "1" is A, "27" is AA.

    >>> letter("1"), letter("5"), letter("27")
    ('A', 'E', 'AA')
    """
    number, text = int(option_id), ""
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def right_in_words(item: Item) -> tuple[str, ...]:
    """What is right, a line each: the right options, the steps in order, the quantity with its tolerance, the region,
    or the line of the log and what is wrong with it."""
    if isinstance(item.key, Blame):
        lines = one_of(f"{letter(step)}. {item.line_of(item.option(step))}" for step in item.key.steps)
        reason = next((f"{letter(one.id)}. {one.text}" for one in item.reasons if one.id == item.key.reason), "")
        return (lines, reason) if reason else (lines,)
    if item.format == "number":
        return (number_in_words(item),)
    if isinstance(item.key, str | tuple):
        ids = (item.key,) if isinstance(item.key, str) else item.key
        return tuple(f"{letter(one)}. {item.line_of(item.option(one))}" for one in ids)
    return (item.key_text,)


def number_in_words(item: Item) -> str:
    """The quantity that is right, with its tolerance where it has one."""
    if item.tolerance is None or item.tolerance.startswith("0 "):
        return item.key_text
    return say("{quantity}, within {tolerance}", quantity=item.key_text, tolerance=as_read(item.tolerance))


def wrong_in_words(item: Item) -> tuple[Told, ...]:
    """Wrong answers the item knows: every wrong option, or what misconceptions compute; then other unsafe answers."""
    told: dict[str, Told] = {}
    if item.format in ("one", "several"):
        right = (item.key,) if isinstance(item.key, str) else item.key
        for option in item.options:
            if not isinstance(right, tuple) or option.id not in right:
                names = item.distractors.get(option.id, ())
                told[option.id] = Told(item.line_of(option), names, option.id in item.unsafe, letter(option.id))
        for left_out, names in item.omissions.items():
            words = say("Leaves out: {option}", option=item.line_of(item.option(left_out)))
            told[f"without {left_out}"] = Told(words, names, False, letter(left_out))
        return tuple(told.values())
    for answer, names in item.distractors.items():
        told[answer] = Told(_words(item, answer), names, answer in item.unsafe)
    for answer in item.unsafe:
        told.setdefault(answer, Told(_words(item, answer), (), True))
    return tuple(told.values())


def _words(item: Item, answer: str) -> str:
    """A wrong answer as people say it, from how the item names it."""
    if item.format == "order":
        first, then = (item.option(one).text for one in answer.split(" before "))
        return say("{first} – before – {then}", first=first, then=then)
    if item.format == "fault":
        step, _, reason = answer.partition(", ")
        why = next((one.text for one in item.reasons if one.id == reason), "")
        line = item.line_of(item.option(step))
        return f"{line}; {why}" if why else line
    if item.format == "place":
        return region_in_words(Region.from_text(answer), ruler_unit(item.units))
    side, _, limit = answer.partition(" ")
    if side == "above":
        return say("Anything above {limit}", limit=as_read(limit))
    if side == "below":
        return say("Anything below {limit}", limit=as_read(limit))
    return as_read(answer)
