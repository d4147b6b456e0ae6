"""What each part of a molded size says, what people take it for who know it half, and the question on it. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random
from typing import NamedTuple

from assessments.questions.drafts.draft import Choice, Draft
from assessments.questions.families.markings.molded_sizes import line, molded, pick_code, pick_flotation, pick_size
from assessments.questions.items.item import Item
from training.rulebook.markings import CONSTRUCTIONS, Designation

_SAID = {
    "section": "the width of the section", "tread": "the width of the tread", "wheel": "the width of the rim",
    "side": "the height of the sidewall", "tire": "the diameter of the tire", "rim": "the diameter of the rim",
    "radius": "the radius of the rim",
}  # fmt: skip
_PLIES = {
    "radial": "Its body plies run radially", "bias": "Its body plies run on the bias",
    "bias-belted": "Its body plies run on the bias, under belts",
}  # fmt: skip
_USES = {
    "passenger": "Built for passenger cars", "light-truck": "Built for light trucks",
    "commercial": "Built for delivery vans", "motorcycle": "Built for motorcycles", "truck": "Built for heavy trucks",
    "special-trailer": "Built for trailers", "temporary-spare": "Built as a temporary spare",
}  # fmt: skip


_VANS = ("light-truck", "commercial")
_IN_INCHES = {"light-truck": pick_flotation, "truck": pick_code}
_SHARE_IN_INCHES = 0.35


class Part(NamedTuple):
    """A part of a size: the sign asked for, what it says, and what it is taken for by which misconception."""

    sign: str
    right: str
    wrong: tuple[tuple[str, str], ...]


def pick_number(rng: Random, kinds: Sequence[str]) -> tuple[Designation, Part]:
    """A size of one of these kinds, and one of its numbers to ask for."""
    inches = [kind for kind in kinds if kind in _IN_INCHES]
    if inches and rng.random() < _SHARE_IN_INCHES:
        size = _IN_INCHES[rng.choice(inches)](rng)
        return size, _inches(size)
    size = pick_size(rng, *kinds)
    return size, rng.choice((_width, _aspect, _rim))(size)


def pick_letter(rng: Random, kinds: Sequence[str]) -> tuple[Designation, Part]:
    """A size of one of these kinds, and one of its letters to ask for, or the dash in the place of one."""
    size = pick_size(rng, *kinds)
    marked = bool(size.prefix or size.suffix)
    return size, (_use if marked and rng.random() < 0.5 else _build)(size)


def ask_part(draft: Draft, size: Designation, part: Part, reading: str) -> Item:
    """What does this sign in a molded size say? `reading` explains how a size is read."""
    asked = [f"What does the {part.sign} in this size say?", f"How is the {part.sign} in the size read?"]
    return draft.one(
        stem=[f"Molded on a sidewall: {molded(size)}", draft.rng.choice(asked)],
        key=Choice(part.right),
        wrong=[Choice(text, (why,)) for text, why in part.wrong],
        explanation=[line("size", part.sign, part.right, reading, "UN Regulation No. 30 / No. 54 (from memory)")],
        features={"marking": molded(size), "part": part.sign},
    )


def _number(number: str, right: str, **taken: str) -> Part:
    """A dimension, and the dimensions it is taken for."""
    said = {name: f"{number} is {words}" for name, words in _SAID.items()}
    return Part(number.split()[0], said[right], tuple((said[name], why) for name, why in taken.items()))


_WIDTH = {"tread": "tread-for-section", "wheel": "rim-for-section", "side": "width-for-height"}


def _width(size: Designation) -> Part:
    return _number(f"{size.section_width_mm} mm", "section", **_WIDTH)


def _inches(size: Designation) -> Part:
    if size.overall_diameter_code is None:
        return _number(f"{size.section_code} in", "section", **_WIDTH)
    taken = {"section": "width-comes-first", "rim": "rim-for-overall", "side": "width-for-height"}
    return _number(f"{size.overall_diameter_code} in", "tire", **taken)


def _rim(size: Designation) -> Part:
    taken = {"tire": "rim-for-overall", "wheel": "rim-diameter-for-width", "radius": "rim-radius"}
    return _number(f"{size.rim_code} in", "rim", **taken)


def _aspect(size: Designation) -> Part:
    share = f"{size.aspect_percent} %"
    return Part(
        f"{size.aspect_percent}",
        f"Its height is {share} of its width",
        (
            (f"Its height is {size.aspect_percent} mm", "aspect-in-millimeters"),
            (f"Its height is {share} of its rim diameter", "aspect-of-rim"),
            (f"Its width is {share} of its height", "aspect-upside-down"),
        ),
    )


def _build(size: Designation) -> Part:
    letter = "dash" if "-" in size.size else size.construction
    right = _PLIES[CONSTRUCTIONS[size.construction]]
    wrong = [(words, "build-guessed") for words in _PLIES.values() if words != right]
    if letter == "dash":
        wrong.append(("It says nothing of the build", "build-guessed"))
    else:
        wrong.append((f"Its speed symbol is {letter}", "letter-for-service"))
        wrong.append(
            ("The rim diameter follows it", "letter-for-rim") if letter == "R"
            else (f"Its load range is {letter}", "letter-for-service")
        )  # fmt: skip
    return Part(letter, right, tuple(wrong))


def _use(size: Designation) -> Part:
    sign = size.prefix or (size.suffix or "")
    # Vans are light trucks to some, and tires of either kind run on them: neither stands against the other.
    near = _VANS if size.kind in _VANS else (size.kind,)
    wrong = tuple((words, "use-guessed") for kind, words in _USES.items() if kind not in near)
    return Part(sign, _USES[size.kind], wrong)
