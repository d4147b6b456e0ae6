"""Two notes on what was read or done, each right or wrong: both, one of them or neither is right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Unpack

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.drafts.setting import Setting
from assessments.questions.items.claims import All, Claim, Not
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

SAID: Mapping[tuple[bool, bool], str] = {
    (True, True): saying("Right for A and for B"),
    (True, False): saying("Right for A, wrong for B"),
    (False, True): saying("Wrong for A, right for B"),
    (False, False): saying("Wrong for A and for B"),
}
MAY_BE_DONE: Mapping[tuple[bool, bool], str] = {
    (True, True): saying("A and B may both be done"),
    (True, False): saying("A may be done, B may not"),
    (False, True): saying("B may be done, A may not"),
    (False, False): saying("A may not be done, nor may B"),
}


@dataclass(frozen=True, slots=True)
class Note:
    """What somebody wrote, what it claims, and whether that is so; `why`: the misconceptions that take it otherwise.
    `unsafe`: taking it for right lets a tire go that the rulebook stops."""

    text: str
    claim: Claim
    is_right: bool
    why: tuple[str, ...] = ()
    unsafe: bool = False


def lines(first: Note, second: Note) -> tuple[str, str]:
    """Both notes, as a stem shows them."""
    return say("A: {note}", note=first.text), say("B: {note}", note=second.text)


def judged(first: Note, second: Note, words: Mapping[tuple[bool, bool], str] = SAID) -> tuple[Choice, list[Choice]]:
    """What is right of two notes, and the three other answers, with the misconceptions of what they take for right.

    `words`: what is said where A and B are right, or not.
    """
    both = (first, second)
    names = dict.fromkeys((*first.why, *second.why))

    def said(verdicts: tuple[bool, bool]) -> Choice:
        believed = [note for note, holds in zip(both, verdicts, strict=True) if holds and not note.is_right]
        claims = (note.claim if holds else Not(note.claim) for note, holds in zip(both, verdicts, strict=True))
        why = tuple(name for name in names if verdicts == tuple(note.is_right != (name in note.why) for note in both))
        unsafe = any(note.unsafe for note in believed)
        return Choice(words[verdicts], why, unsafe=unsafe, claim=All(tuple(claims)))

    right = (first.is_right, second.is_right)
    return said(right), [said(one) for one in words if one != right]


def compared(
    draft: Draft,
    first: Note,
    second: Note,
    *,
    stem: Sequence[str],
    asked: Sequence[str],
    **around: Unpack[Setting],
) -> Item:
    """An item `one` over two notes: the paragraphs of `stem`, both notes, one of the questions `asked`.

    How many of the notes are right stands among its features. Raises Redraw where the notes are the same, or nobody
    takes one otherwise.
    """
    if first.text == second.text or not (first.why or second.why):
        raise Redraw("twice the same, or nobody takes it otherwise")
    key, wrong = judged(first, second)
    around["features"] = {"right": first.is_right + second.is_right, **around.get("features", {})}
    return draft.one(
        stem=[*stem, *lines(first, second), draft.rng.choice(asked)], key=key, wrong=wrong, is_even=True, **around
    )
