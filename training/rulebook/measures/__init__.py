"""The quantities a clause may name: one function each, computing it from a case, with its unit."""

from training.rulebook.measures import injury, job, job_log, misreadings, repairs, tire
from training.rulebook.measures.registry import MEASURES, NOT_HERE, Apart, Facts, Found, Measure, Read, Reading
