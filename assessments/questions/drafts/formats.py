"""Items of the formats `order`, `place` and `fault`: from what is right and what misconceptions compute to an item."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Protocol, Unpack

from assessments.questions.drafts.choice import Choice, lettered
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.drafts.setting import Answers, Setting
from assessments.questions.items.claims import Faulty, Not
from assessments.questions.items.item import Item, Option
from assessments.questions.items.shapes import Blame, Frame, Region, blame_text, pair_text
from training.trade.speech import say


class _Ruled(Protocol):
    """A drawing with rulers: where their zeros lie and how far they run."""

    @property
    def svg(self) -> str: ...
    @property
    def description(self) -> str: ...
    @property
    def rulers(self) -> tuple[float, float, float, float]: ...


def in_order(
    draft: Draft,
    *,
    stem: Sequence[str],
    steps: Sequence[Choice],
    before: Iterable[tuple[int, int]],
    why: Mapping[tuple[int, int], tuple[str, ...]],
    **around: Unpack[Setting],
) -> Item:
    """An item `order`: `steps` in a right order, `before` the pairs of their indices that every right order keeps.

    `why` gives the misconceptions by which someone breaks a pair. The steps are offered in an order that is not right.
    """
    pairs = tuple(before)
    shuffled = list(range(len(steps)))
    while all(shuffled.index(first) < shuffled.index(then) for first, then in pairs):
        draft.rng.shuffle(shuffled)
    ids = {step: str(place) for place, step in enumerate(shuffled, 1)}
    answers: Answers = {
        "options": _numbered(steps[step] for step in shuffled),
        "key": tuple(ids[step] for step in range(len(steps))),
        "before": tuple((ids[first], ids[then]) for first, then in pairs),
        "distractors": {pair_text(ids[then], ids[first]): why.get((first, then), ()) for first, then in pairs},
        "unsafe": (),
    }
    return draft.assemble("order", stem, answers, around)


def on_drawing(
    draft: Draft,
    *,
    stem: Sequence[str],
    drawing: Callable[[str], _Ruled],
    key: Callable[[Frame], Region],
    wrong: Callable[[Frame], Iterable[tuple[Region, str]]],
    unsafe: Callable[[Frame], Iterable[Region]] = lambda frame: (),
    **around: Unpack[Setting],
) -> Item:
    """An item `place`: a region on the rulers of the drawing is right; `wrong` pairs others with their misconception.

    A wrong region that meets the right one is none; fewer than two that do not make no question. `drawing` is given the
    unit of its rulers, that of the shop; regions are in mm whatever it is.
    """
    drawn = drawing(draft.prefer)
    frame = Frame(*drawn.rulers)
    right = key(frame)
    distractors: dict[str, tuple[str, ...]] = {}
    for region, why in wrong(frame):
        if not region.meets(right):
            distractors[region.text] = (*distractors.get(region.text, ()), why)
    if len(distractors) < 2:
        raise Redraw(f"{draft.family.name}: the mistakes lie too near to what is right")
    answers: Answers = {
        "options": (),
        "key": right,
        "frame": frame,
        "units": ("in",) if draft.prefer == "in" else (),
        "distractors": distractors,
        "unsafe": tuple(region.text for region in unsafe(frame)),
    }
    return draft.assemble("place", stem, answers, around | {"figure": lambda: drawn})


def of_pictures(
    draft: Draft, *, stem: Sequence[str], offered: Sequence[Choice], right: int, **around: Unpack[Setting]
) -> Item:
    """An item `one` of which each option is the picture at its place; `right` is the index of the one that is right."""
    answers: Answers = {
        "options": _numbered(offered),
        "key": str(right + 1),
        "distractors": {str(place): one.why for place, one in enumerate(offered, 1) if place != right + 1},
        "unsafe": tuple(
            str(place) for place, one in enumerate(offered, 1) if place != right + 1 and one.lets_go(offered[right])
        ),
    }
    return draft.assemble("one", stem, answers, around)


def in_log(
    draft: Draft,
    *,
    stem: Sequence[str],
    lines: Sequence[Choice],
    reasons: Sequence[Choice],
    wrong_lines: Sequence[int],
    reason: str,
    is_missing: bool = False,
    why: tuple[str, ...] = (),
    blamed: Mapping[tuple[int, str], tuple[str, ...]] = MappingProxyType({}),
    unsafe: bool = False,
    **around: Unpack[Setting],
) -> Item:
    """An item `fault`: `wrong_lines` (indices) may be named for `reason`, the text of one of `reasons`; none and ""
    where the log is right.

    `is_missing`: the fault is a line that is not there. `why`: the misconceptions by which someone sees no fault, which
    is `unsafe` where it releases a tire that the rulebook takes out of service. `blamed`: the misconceptions by which
    someone names a right line (index) for a reason.
    """
    missing = Choice(say("A line is missing between these"), claim=Faulty("missing"))
    nothing = Choice(say("Nothing is wrong in these lines"), claim=Not(Faulty()))
    # the card stands in the stem, so that no line that is offered tells by its words whether it is right
    letters, listed = lettered(lines)
    options = _numbered([*letters, missing, nothing])
    shuffled = list(reasons)
    draft.rng.shuffle(shuffled)
    offered = _numbered(shuffled)
    numbers = {one.text: one.id for one in offered}
    none = options[-1].id
    if reason:
        places = [len(lines)] if is_missing else list(wrong_lines)
        key = Blame(tuple(options[place].id for place in places), numbers[reason])
        missed = blame_text(none, "")
        distractors, released = ({missed: why} if why else {}), ((missed,) if unsafe else ())
    else:
        key, distractors, released = Blame((none,), ""), {}, ()
    for (place, one), names in blamed.items():
        distractors[blame_text(options[place].id, numbers[one])] = names
    answers: Answers = {
        "options": options,
        "reasons": offered,
        "key": key,
        "distractors": distractors,
        "unsafe": released,
    }
    return draft.assemble("fault", [*stem[:-1], *listed, stem[-1]], answers, around)


def _numbered(choices: Iterable[Choice]) -> tuple[Option, ...]:
    return tuple(Option(str(place), one.text, one.claim) for place, one in enumerate(choices, 1))
