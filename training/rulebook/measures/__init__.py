"""The quantities a clause may name: one function each, computing it from a case, with its unit."""

from training.rulebook.measures import (  # isort: skip
    contradictions,
    injury,
    job,
    job_log,
    load,
    plausible,
    reading_off,
    repairs,
    safety,
    service,
    tire,
    tread,
)
from training.rulebook.measures import misreadings  # isort: skip  # after what it misreads
from training.rulebook.measures.registry import MEASURES, NOT_HERE, Apart, Facts, Found, Measure, Read, Reading, a_word

NOT_LOGGED = safety.NAMES | reading_off.NAMES
