"""Shapes that nobody should read in a question: `python -m tests.shapes --draws 2000`. Exit 1 where one is found.

Units as files spell them, doubled words, words of the engine, identifiers, another country's spelling and dates, and
values in two units of which one would have to be converted. Each edition speaks its own language.
"""

from __future__ import annotations

import argparse
import re
import sys
import tomllib
from calendar import month_abbr, month_name
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from assessments.questions import CannotDraw, Item, NoSuchLimit, draw, families_of, family, lines_of
from tests.identifiers import identifiers_in
from tests.questions.test_one_unit import read_of as read_before
from tests.questions.test_one_unit import values
from training.rulebook import Edition, load_edition
from training.trade.speech import FOLDER, SOURCE, in_language, language

EDITIONS = ("north-america", "united-kingdom")
UNITS = ("in", "mm")
BANNED = re.compile(
    r"(?<![\w.])[0-9]+ (?:deg|F|C)\b"  # units as files spell them
    r"|lbf\.ft|N\.m\b|\bunits? per\b"
    r"|\b(?!had\b)([A-Za-z]+) \1\b"  # a word twice
    r"|\bTrue\b|\bFalse\b|[{}]|\bnan\b"
    r"|\d[ \u00a0]%(?!\w)|(?<![\d.,])\d{4,}[ \u00a0]rpm\b"  # not as CLDR writes English numbers
    r"|\b\d+/(?:64|128) in\b|\b\d+\.\d{2,} mm\b"  # finer than anybody reads
)
# what a rule itself says may be finer than an instrument
EXACT = re.compile(r"\(usually [^)]*\)")
_MONTH = "|".join((*month_name[1:], *month_abbr[1:]))
_NO_DATE = r"|\b\d{4}-\d\d-\d\d\b|(?<![\w/])\d{1,2}/\d{1,2}/\d{2,4}(?![\w/])"
# November 20, 2026 in the United States, 20 November 2026 in the United Kingdom, by CLDR
_DATES = {
    "en-US": re.compile(rf"\b\d{{1,2}} (?:{_MONTH})\b{_NO_DATE}"),
    "en-GB": re.compile(rf"\b(?:{_MONTH}) \d{{1,2}}\b{_NO_DATE}"),
}
_BRACKETS = re.compile(r"\([^()]*\)")
# British for one thing and American for another, or written in both countries
_IN_BOTH = frozenset({"torch", "wing", "bonnet", "burnt"})


def read_of(item: Item) -> Iterator[str]:
    """What a learner reads of a question and of its explanation."""
    yield item.stem
    yield from (option.text for option in (*item.options, *item.reasons))
    for line in item.explanation:
        yield from (str(line[name]) for name in ("found", "limit", "because"))
    if item.figure:
        yield item.figure.description


def all_read(item: Item, edition: Edition, prefer: str) -> list[str]:
    """The same, with the reason that each wrong answer is given and the labels of the drawing."""
    reasons = (line.reason for line in lines_of(item, edition, prefer=prefer).values())
    return [EXACT.sub("", text) for text in dict.fromkeys((*read_of(item), *read_before(item), *reasons))]


@cache
def _spelled_elsewhere(tag: str) -> re.Pattern[str]:
    """The words as the other country spells them."""
    words = tomllib.loads((FOLDER / "en_GB" / "spelling.toml").read_text("utf-8"))["words"]
    wrong = words.keys() if tag != SOURCE else set(words.values()) - words.keys() - _IN_BOTH
    return re.compile(rf"(?<![\w/])(?:{'|'.join(map(re.escape, wrong))})(?![\w/])", re.IGNORECASE)


def _searched(pattern: re.Pattern[str]) -> Callable[[str], str]:
    def find(text: str) -> str:
        found = pattern.search(text)
        return found[0] if found else ""

    return find


def _psi_first(text: str) -> str:
    return "psi" if re.search(r"\d psi\b", _BRACKETS.sub("", text)) else ""


def looked_for(prefer: str) -> Mapping[str, Callable[[str], str]]:
    """What finds each fault in a text in the language spoken, by the fault; it returns what it found, or ""."""
    tag = language()
    found = {
        "banned": _searched(BANNED),
        "identifier": lambda text: ", ".join(sorted(identifiers_in(text))),
        "date of elsewhere": _searched(_DATES[tag]),
        "spelling of elsewhere": _searched(_spelled_elsewhere(tag)),
    }
    if tag == "en-GB" and prefer == "mm":
        found["psi first"] = _psi_first
    return found


def faults_of(item: Item, edition: Edition, prefer: str) -> Iterator[tuple[str, str, str]]:
    """What nobody should read of a question in the language spoken: the fault, what shows it, and the text."""
    for fault, find in looked_for(prefer).items():
        for text in all_read(item, edition, prefer):
            if shown := find(text):
                yield fault, shown, text
    customary, metric = values(item)
    if customary and metric and not family(item.family).converts:
        yield "two units", f"{customary[0]} and {metric[0]}", item.stem


@dataclass(slots=True)
class Seen:
    """How often a fault was seen in a family, and once where."""

    count: int
    seed: str
    shown: str
    text: str


def look(edition: Edition, *, draws: int, seed: str) -> tuple[int, dict[tuple[str, str], Seen]]:
    """How many questions were looked at, and the faults by family and kind. Draws take turns between the units."""
    looked, faults = 0, dict[tuple[str, str], Seen]()
    with in_language(edition.language):
        for name in families_of(edition):
            for number in range(draws):
                prefer = UNITS[number % len(UNITS)]
                try:
                    item = draw(name, seed=f"{seed}/{number}", edition=edition, prefer=prefer)
                except (NoSuchLimit, CannotDraw):
                    continue
                looked += 1
                for fault, shown, text in faults_of(item, edition, prefer):
                    seen = faults.setdefault((name, fault), Seen(0, f"{item.seed} {prefer}", shown, text))
                    seen.count += 1
    return looked, faults


def main(arguments: list[str] | None = None) -> int:
    """Draw, look, print what was found; 0 where nothing was."""
    reader = argparse.ArgumentParser(prog="python -m tests.shapes", description=__doc__)
    reader.add_argument("--draws", type=int, default=2000, metavar="N", help="draws of each family (2000)")
    reader.add_argument("--seed", default="1", metavar="S", help="any text; the same text, the same draws (1)")
    reader.add_argument("--edition", choices=EDITIONS, action="append", help="(all of them)")
    asked = reader.parse_args(arguments)
    if asked.draws < 1:
        reader.error(f"--draws: {asked.draws} is not accepted; give a whole number from 1")
    is_clean = True
    for name in asked.edition or EDITIONS:
        edition = load_edition(name)
        looked, faults = look(edition, draws=asked.draws, seed=asked.seed)
        for (of, fault), seen in faults.items():
            print(f"{of}: {fault} [{seen.count} x, seed {seen.seed}]: {seen.shown!r} in {seen.text!r}")
        print(f"{name}, {edition.language}: {looked:,} questions, {sum(one.count for one in faults.values()):,} faults")
        is_clean = is_clean and not faults
    return 0 if is_clean else 1


if __name__ == "__main__":
    sys.exit(main())
