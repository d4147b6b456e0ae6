"""Questions drawn fresh from the rulebook, each with a computed key and computed wrong answers. Pure: no Django."""

from .blueprint import Blueprint, Cell, UnknownBlueprint, blueprint, blueprint_names, draw_form
from .drawing import draw, draw_practice, draw_series, series_in
from .marking import Answer, AnswerError, canonical, check_answer, from_canonical, mark, right_answer
from .measures import parse_number
from .misconceptions import Misconception, MisconceptionError, misconceptions
from .model import FORMATS, SERIES, SKILLS, Item, Mark, OpenItem, Option, Picture
from .registry import Family, UnknownFamily, family, family_names, parts_of
from .shapes import Blame, Frame, Region

__all__ = [
    "FORMATS",
    "SERIES",
    "SKILLS",
    "Answer",
    "AnswerError",
    "Blame",
    "Blueprint",
    "Cell",
    "Family",
    "Frame",
    "Item",
    "Mark",
    "Misconception",
    "MisconceptionError",
    "OpenItem",
    "Option",
    "Picture",
    "Region",
    "UnknownBlueprint",
    "UnknownFamily",
    "blueprint",
    "blueprint_names",
    "canonical",
    "check_answer",
    "draw",
    "draw_form",
    "draw_practice",
    "draw_series",
    "family",
    "family_names",
    "from_canonical",
    "mark",
    "misconceptions",
    "parse_number",
    "parts_of",
    "right_answer",
    "series_in",
]
