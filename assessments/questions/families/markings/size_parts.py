"""What each part of a molded size says, what people take it for who know it half, and the question on it. Pure."""

from __future__ import annotations

import re
from collections.abc import Sequence
from random import Random
from typing import NamedTuple

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.families.markings.load_and_speed import REGULATIONS
from assessments.questions.families.markings.molded_sizes import IN_INCHES, line, molded, pick_size
from assessments.questions.items.claims import Is, Molded
from assessments.questions.items.item import Item
from training.rulebook.markings import CONSTRUCTIONS, Designation
from training.trade.speech import say, saying

# What a number may be said to be, by the names of the reader of sizes; of some a size says nothing.
_SAID = {
    "section_width": saying("{number} is the width of the section"),
    "tread_width": saying("{number} is the width of the tread"),
    "rim_width": saying("{number} is the width of the rim"),
    "sidewall_height": saying("{number} is the height of the sidewall"),
    "overall_diameter_code": saying("{number} is the diameter of the tire"),
    "rim_code": saying("{number} is the diameter of the rim"),
    "rim_radius": saying("{number} is the radius of the rim"),
}
_PLIES = {
    "radial": saying("Its body plies run radially"),
    "bias": saying("Its body plies run on the bias"),
    "bias-belted": saying("Its body plies run on the bias, under belts"),
}
_USES = {
    "passenger": saying("Built for passenger cars"),
    "light-truck": saying("Built for light trucks"),
    "commercial": saying("Built for delivery vans"),
    "motorcycle": saying("Built for motorcycles"),
    "truck": saying("Built for heavy trucks"),
    "special-trailer": saying("Built for trailers"),
    "temporary-spare": saying("Built as a temporary spare"),
}


# What somebody takes a sign for who goes by its first letter, or by what is usual.
_GUESSED = {"T": "truck", "C": "passenger", "ST": "passenger"}
_VANS = ("light-truck", "commercial")
_SHARE_IN_INCHES = 0.35
_HUNDRED_MM = 100
_DASH = "dash"  # stands in the place of the letter of the build
_NUMBERS = re.compile(r"[\d.]+")


class Said(NamedTuple):
    """What a part of a size is said to say: in words, of what by the reader of sizes, and how much, in its unit if any.

    `why`: the misconception that takes it so; none where it is right.
    """

    words: str
    of: str
    value: str
    why: str = ""

    def of_size(self, size: Designation) -> Choice:
        """The option. What stands behind a size, load and speed, is no part of it."""
        within = f"0 {self.value.rpartition(' ')[2]}" if " " in self.value else ""
        claim = Is(Molded(size.size, self.of), self.value, within)
        return Choice(self.words, (self.why,) if self.why else (), claim=claim)


class Part(NamedTuple):
    """A part of a size: the sign asked for, what it says, and what it is taken for."""

    sign: str
    right: Said
    wrong: Sequence[Said]


def pick_number(rng: Random, kinds: Sequence[str]) -> tuple[Designation, Part]:
    """A size of one of these kinds, and one of its numbers to ask for."""
    inches = [IN_INCHES[kind] for kind in kinds if kind in IN_INCHES]
    if inches and rng.random() < _SHARE_IN_INCHES:
        size = pick_size(rng, rng.choice(inches))
        return size, _inches(size)
    size = pick_size(rng, *kinds)
    # 60 % of 100 mm is also 60 mm: then two readings of the same number are right
    asks = (_width, _rim) if size.section_width_mm == _HUNDRED_MM else (_width, _aspect, _rim)
    numbers = _NUMBERS.findall(molded(size))
    # Of 90/90-21 nobody could tell which 90 is meant.
    return size, rng.choice([part for part in (ask(size) for ask in asks) if numbers.count(part.sign) == 1])


def pick_letter(rng: Random, kinds: Sequence[str]) -> tuple[Designation, Part]:
    """A size of one of these kinds, and one of its letters to ask for, or the dash in the place of one."""
    kind = rng.choice(kinds)
    size = pick_size(rng, kind)
    while size.size_speed is not None:  # the Z of ZR says something of speed
        size = pick_size(rng, kind)
    marked = bool(size.prefix or size.suffix)
    return size, (_use if marked and rng.random() < 0.5 else _build)(size)


def ask_part(draft: Draft, size: Designation, part: Part, reading: str) -> Item:
    """What does this sign in a molded size say? `reading` explains how a size is read."""
    sign = say("dash") if part.sign == _DASH else part.sign
    asked = [
        say("What does the {sign} in this size say?", sign=sign),
        say("How is the {sign} in the size read?", sign=sign),
    ]
    return draft.one(
        stem=[say("Molded on a sidewall: {marking}", marking=molded(size)), draft.rng.choice(asked)],
        key=part.right.of_size(size),
        wrong=[one.of_size(size) for one in part.wrong],
        explanation=[
            line(say("size"), sign, part.right.words, reading, say("{published} (from memory)", published=REGULATIONS))
        ],
        features={"marking": molded(size), "part": part.sign},
    )


def _number(number: str, right: str, **taken: str) -> Part:
    """A dimension, and the dimensions it is taken for."""

    def said(of: str, why: str = "") -> Said:
        return Said(say(_SAID[of], number=number), of, number, why)

    return Part(number.split()[0], said(right), [said(of, why) for of, why in taken.items()])


_WIDTH = {"tread_width": "tread-for-section", "rim_width": "rim-for-section", "sidewall_height": "width-for-height"}


def _width(size: Designation) -> Part:
    return _number(f"{size.section_width_mm} mm", "section_width", **_WIDTH)


def _inches(size: Designation) -> Part:
    if size.overall_diameter_code is None:
        return _number(f"{size.section_code} in", "section_width", **_WIDTH)
    taken = {"section_width": "width-comes-first", "rim_code": "", "sidewall_height": "width-for-height"}
    return _number(f"{size.overall_diameter_code} in", "overall_diameter_code", **taken)


def _rim(size: Designation) -> Part:
    taken = {
        "overall_diameter_code": "rim-for-overall", "rim_width": "rim-diameter-for-width", "rim_radius": "rim-radius",
    }  # fmt: skip
    return _number(f"{size.rim_code} in", "rim_code", **taken)


def _aspect(size: Designation) -> Part:
    percent = f"{size.aspect_percent}"
    return Part(
        percent,
        Said(say("Its height is {percent}% of its width", percent=percent), "aspect_percent", percent),
        [
            Said(
                say("Its height is {percent} mm", percent=percent),
                "section_height_mm",
                f"{percent} mm",
                "aspect-in-millimeters",
            ),
            Said(
                say("Its height is {percent}% of its rim diameter", percent=percent),
                "percent_of_rim",
                percent,
                "aspect-of-rim",
            ),
            Said(
                say("Its width is {percent}% of its height", percent=percent),
                "width_percent",
                percent,
                "aspect-upside-down",
            ),
        ],
    )


def _build(size: Designation) -> Part:
    letter = _DASH if "-" in size.size else size.construction
    build = CONSTRUCTIONS[size.construction]
    alike = {CONSTRUCTIONS["R"]: "build-guessed"}  # as most tires are
    wrong = [Said(words, "construction", one, alike.get(one, "")) for one, words in _PLIES.items() if one != build]
    if letter == _DASH:
        wrong.append(Said(say("It says nothing about the build"), "construction", "none", "build-guessed"))
    else:
        wrong.append(
            Said(say("Its speed symbol is {letter}", letter=letter), "speed_symbol", letter, "letter-for-service")
        )
        wrong.append(
            Said(say("The rim diameter follows it"), "sign_of_rim", letter, "letter-for-rim") if letter == "R"
            else Said(say("Its load range is {letter}", letter=letter), "load_range", letter, "letter-for-service")
        )  # fmt: skip
    return Part(letter, Said(_PLIES[build], "construction", build), wrong)


def _use(size: Designation) -> Part:
    sign = size.prefix or (size.suffix or "")
    # Vans are light trucks to some, and tires of either kind run on them: neither stands against the other.
    near = _VANS if size.kind in _VANS else (size.kind,)
    guessed = _GUESSED.get(sign)
    wrong = [
        Said(words, "kind", kind, "use-guessed" if kind == guessed else "")
        for kind, words in _USES.items()
        if kind not in near
    ]
    return Part(sign, Said(_USES[size.kind], "kind", size.kind), wrong)
