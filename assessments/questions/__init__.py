"""Questions drawn fresh from the rulebook, each with a computed key and computed wrong answers. Pure: no Django."""

from assessments.questions.blueprints.blueprint import (
    CATCHES,
    Blueprint,
    Cell,
    Grave,
    UnknownBlueprint,
    blueprint,
    blueprint_names,
    blueprints_in,
    broken_blueprints,
)
from assessments.questions.blueprints.curve import Curve, curve_of
from assessments.questions.blueprints.drawing import draw_form, short_of
from assessments.questions.blueprints.stand_ins import stand_ins_for, with_stand_ins, with_their_series
from assessments.questions.diagnosis.contrast import Contrast, Side, contrast
from assessments.questions.diagnosis.deciding import deciding_clauses, doubted_clauses
from assessments.questions.diagnosis.diagnosis import Diagnosis, Outlook, diagnose, thoughts
from assessments.questions.diagnosis.lines import Line, lines_of
from assessments.questions.diagnosis.passages import Tie, passages
from assessments.questions.diagnosis.teaching import LIKE_MISTAKES, MASTERED, Teaching, Told, asks_about, teaching
from assessments.questions.drafts.family import Family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.coverage import DRAWS_TO_COVER, coverage, families_of, public_seed, series_in
from assessments.questions.draws.practice import Ahead, draw_again, draw_practice
from assessments.questions.draws.registry import UnknownFamily, family, family_names, parts_of
from assessments.questions.draws.sampling import CannotDraw, draw, draw_different, draw_series
from assessments.questions.draws.traits import Traits, casing_of, traits_of
from assessments.questions.draws.versions import family_version
from assessments.questions.items.claims import Decided, Patch, laid_over
from assessments.questions.items.digest import digest
from assessments.questions.items.figures import OpenPicture, Photo, Picture, Sight
from assessments.questions.items.in_words import (
    FORMAT_WORDS,
    TOLD_TIRES,
    letter,
    number_in_words,
    right_in_words,
    wrong_in_words,
)
from assessments.questions.items.item import FORMATS, SERIES, Item, Mark, OpenItem, Option
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
from assessments.questions.items.rulers import edges_on, in_millimeters, on_ruler, place_in_words, ruler_unit
from assessments.questions.items.shapes import Blame, Frame, Region
from assessments.questions.mistakes.misconceptions import Misconception, MisconceptionError, misconceptions
from assessments.questions.texts import read_texts
