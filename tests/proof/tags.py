"""Whether every option carries exactly the misconceptions whose believers give it: `python -m tests.proof tags`.

A tag is put back to the rulebook as its misconception alters it, or to the rule written for it (`believing.py`); the
family that made the option is not asked.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.sampling import draw
from assessments.questions.items.item import Item
from assessments.questions.mistakes.misconceptions import misconceptions
from tests.proof.believing import BY_RULE, gives
from training.rulebook import Edition

# What no rule tells of a misconception, with the reason. A tag of one that is neither altered, ruled nor named here
# is false.
UNCHECKED: dict[str, str] = {}


@dataclass(frozen=True, slots=True)
class Finding:
    """A tag that does not hold, or one that is missing: on which answer, and of which misconceptions held together."""

    kind: str  # "false" or "missing"
    names: tuple[str, ...]
    answer: str

    @property
    def words(self) -> str:
        """The misconceptions, as a line of the report names them."""
        return " and ".join(self.names)


@dataclass(slots=True)
class Tags:
    """What the tags of a number of draws of one family were worth."""

    family: str
    draws: int = 0
    checked: int = 0
    found: Counter[tuple[str, str]] = field(default_factory=Counter)
    shown_by: dict[tuple[str, str], str] = field(default_factory=dict)

    def count(self, kind: str) -> int:
        """How many tags are "false", or "missing"."""
        return sum(number for (one, _), number in self.found.items() if one == kind)


def is_told(name: str) -> bool:
    """Is there an alteration or a rule that tells what this misconception answers?"""
    return bool(misconceptions()[name].alteration) or name in BY_RULE


def number_of_tags(item: Item) -> int:
    """How many ways lead to wrong answers of this question, and how many right options are left out for a reason."""
    return sum(len(item.routes_to(one)) for one in item.distractors) + sum(map(len, item.omissions.values()))


def wrongly_tagged(item: Item, edition: Edition) -> Iterator[Finding]:
    """The tags of a question that its misconceptions do not bear out, and, where each option stands for itself, those
    that it lacks."""
    for wrong in item.distractors:
        for route in item.routes_to(wrong):
            if UNCHECKED.keys() & set(route):
                continue
            if not all(map(is_told, route)) or not gives(item, edition, route, wrong):
                yield Finding("false", route, wrong)
    for left_out, names in item.omissions.items():
        for name in names:
            if name not in UNCHECKED and (not is_told(name) or gives(item, edition, (name,), left_out)):
                yield Finding("false", (name,), left_out)
    if item.format == "several":
        yield from _missing(item, edition)


def _missing(item: Item, edition: Edition) -> Iterator[Finding]:
    """Whoever holds a misconception that the question names answers so on another option too."""
    routes = {one.id: item.routes_to(one.id) for one in item.options}
    named = {name for ways in routes.values() for way in ways for name in way}
    named |= {name for names in item.omissions.values() for name in names}
    for name in sorted(named - UNCHECKED.keys()):
        for option in item.options:
            is_right = option.id in item.key_ids
            is_tagged = name in item.omissions.get(option.id, ()) if is_right else (name,) in routes[option.id]
            if not is_tagged and gives(item, edition, (name,), option.id) != is_right:
                yield Finding("missing", (name,), option.id)


def check(name: str, *, draws: int, seed: str, edition: Edition) -> Tags:
    """Draw a family in both units and put all its tags back. Raises UnknownFamily and NoSuchLimit."""
    items = (
        draw(name, seed=f"{seed}/{number}", edition=edition, prefer=("in", "mm")[number % 2]) for number in range(draws)
    )
    return check_items(name, items, edition)


def check_items(name: str, items: Iterable[Item], edition: Edition) -> Tags:
    """Put the tags of these questions of a family back."""
    tags = Tags(name)
    for item in items:
        tags.draws += 1
        tags.checked += number_of_tags(item)
        for one in wrongly_tagged(item, edition):
            tags.found[one.kind, one.words] += 1
            tags.shown_by.setdefault((one.kind, one.words), f"seed {item.seed}, {one.answer}")
    return tags


def table(found: list[Tags]) -> Iterator[str]:
    """The families as lines of a table, what is false below it."""
    yield f"{'family':30} {'draws':>6} {'tags':>7} {'false':>6} {'missing':>8}"
    for one in found:
        yield f"{one.family:30} {one.draws:6,} {one.checked:7,} {one.count('false'):6,} {one.count('missing'):8,}"
    for one in found:
        for (kind, words), number in sorted(one.found.items()):
            yield f"{one.family}, {kind}: {words} [{number} x, {one.shown_by[kind, words]}]"


def main(asked: argparse.Namespace) -> int:
    """Check the families asked for, print the table; 0 where every tag holds and none is missing."""
    found: list[Tags] = []
    for name in asked.families:
        try:
            found.append(check(name, draws=asked.draws, seed=asked.seed, edition=asked.edition))
        except NoSuchLimit as problem:  # the edition says nothing on what this family asks
            print(f"left out: {problem}", file=sys.stderr)
    for line in table(found):
        print(line)
    checked, false, missing = (
        sum(one.checked for one in found),
        sum(one.count("false") for one in found),
        sum(one.count("missing") for one in found),
    )
    print(f"{checked:,} tags of {len(found)} families: {false:,} false, {missing:,} missing")
    return 1 if false or missing or not found else 0
