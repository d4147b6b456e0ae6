"""Quantities of measuring itself: which reading counts. Lessons and job cards print it, and no log states it."""

from training.rulebook.measures.registry import MEASURES, Measure
from training.trade.speech import saying

_READ: tuple[tuple[str, tuple[str, ...], str], ...] = (
    ("job.size_counted", (saying("after damage removal"), saying("as found")), saying("Which size of a hole decides.")),
    (
        "job.hole_read",
        (saying("at its widest"), saying("at its narrowest"), saying("in the middle")),
        saying("Where a hole that is not round is read."),
    ),
    (
        "job.between_marks",
        (saying("to the careful side"), saying("to the easy side")),
        saying("Where a reading between two marks goes."),
    ),
    (
        "job.reading_kept",
        (saying("the careful one"), saying("the easy one"), saying("the average")),
        saying("Which of several readings is written down."),
    ),
)
for _name, _words, _meaning in _READ:
    MEASURES[_name] = Measure(_name, "job", "", _words, _meaning, None)

NAMES = frozenset(name for name, *_ in _READ)
