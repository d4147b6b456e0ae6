"""Questions drawn fresh from the rulebook, each with a computed key and computed wrong answers. Pure: no Django."""

from assessments.questions.blueprints.blueprint import (
    Blueprint,
    Cell,
    UnknownBlueprint,
    blueprint,
    blueprint_names,
    blueprints_in,
    broken_blueprints,
    draw_form,
)
from assessments.questions.draws.registry import Family, UnknownFamily, family, family_names, parts_of
from assessments.questions.draws.sampling import draw, draw_practice, draw_series, series_in
from assessments.questions.items.item import FORMATS, SERIES, Item, Mark, OpenItem, Option, Picture
from assessments.questions.items.marking import (
    Answer,
    AnswerError,
    canonical,
    check_answer,
    from_canonical,
    mark,
    right_answer,
)
from assessments.questions.items.numbers import parse_number
from assessments.questions.items.shapes import Blame, Frame, Region
from assessments.questions.mistakes.misconceptions import Misconception, MisconceptionError, misconceptions

__all__ = [
    "FORMATS",
    "SERIES",
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
    "blueprints_in",
    "broken_blueprints",
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
