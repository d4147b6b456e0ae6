"""A picture in words, as its alternative text: surface and lamp, where to look, what is seen, and how readily.

Wordings are chosen by the seed. Those of where to look differ in length more than what is seen does, so that the
length of a text says nothing of which of two kinds it tells of.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from training.pictures.conditions import Degree
from training.pictures.seeds import draws
from training.trade.speech import say, saying

if TYPE_CHECKING:
    from training.pictures.picture import Picture

_SURFACES = {
    ("liner", "left"): saying("A computed picture of the liner, lit from the left."),
    ("liner", "right"): saying("A computed picture of the liner, lit from the right."),
    ("sidewall", "left"): saying("A computed picture of the sidewall, lit from the left."),
    ("sidewall", "right"): saying("A computed picture of the sidewall, lit from the right."),
    ("tread", "left"): saying("A computed picture of the tread, lit from the left."),
    ("tread", "right"): saying("A computed picture of the tread, lit from the right."),
    ("bead", "left"): saying("A computed picture of the bead, lit from the left."),
    ("bead", "right"): saying("A computed picture of the bead, lit from the right."),
}
_PLACES = {
    ("left", "above"): (
        saying("Look at the upper left."),
        saying("Look to the left of the middle and a little up."),
        saying("What is to be seen lies to the left, in the upper half of the picture."),
    ),
    ("left", "below"): (
        saying("Look at the lower left."),
        saying("Look to the left of the middle and a little down."),
        saying("What is to be seen lies to the left, in the lower half of the picture."),
    ),
    ("right", "above"): (
        saying("Look at the upper right."),
        saying("Look to the right of the middle and a little up."),
        saying("What is to be seen lies to the right, in the upper half of the picture."),
    ),
    ("right", "below"): (
        saying("Look at the lower right."),
        saying("Look to the right of the middle and a little down."),
        saying("What is to be seen lies to the right, in the lower half of the picture."),
    ),
}
_LINES = {
    "rib": (
        saying("Look along the rib."),
        saying("Look along the rib, all the way over the picture."),
        saying("What is to be seen lies at the rib of the sidewall, from one side to the other."),
    ),
    "heel": (
        saying("Look along the heel."),
        saying("Look along the heel of the bead, over the picture."),
        saying("What is to be seen lies above the heel of the bead, in the middle of the picture."),
    ),
}
_READILY = {
    Degree.SLIGHT: saying("It takes a close look."),
    Degree.PLAIN: saying("It is plain to see."),
    Degree.GRAVE: saying("It is seen at once."),
}


def description(picture: Picture) -> str:
    """Four sentences in the language spoken, without a name for what is seen."""
    condition, random = picture.condition, draws(picture.name, picture.seed, "words")
    place = random.choice(_LINES.get(condition.line) or _PLACES[picture.side, picture.setting.above])
    seen = random.choice(condition.look_alike if picture.look_alike else condition.shown)
    surface = _SURFACES[condition.surface, picture.setting.lit_from]
    return " ".join(say(text) for text in (surface, place, seen, _READILY[picture.degree]))
