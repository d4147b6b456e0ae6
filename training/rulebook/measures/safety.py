"""Quantities of safety at work: lessons and job cards print their limits, and no log states them."""

from training.rulebook.measures.registry import MEASURES, Measure
from training.trade.speech import saying

_SAFETY: tuple[tuple[str, str, tuple[str, ...], str], ...] = (
    ("job.eyes", "", (saying("protected"), saying("bare")), saying("Eye protection.")),
    ("job.vehicle", "", (saying("held"), saying("on a jack alone")), saying("How the vehicle is held off the ground.")),
    ("job.lifted_by_one", "mass", (), saying("Weight that one person lifts alone.")),
    ("job.ignition", "", (saying("kept away"), saying("near")), saying("Flames and sparks near open solvent.")),
    ("job.pouring", "", (saying("bonded"), saying("not bonded")), saying("Cans while solvent is poured.")),
    (
        "job.chlorinated",
        "",
        (saying("away from heat"), saying("near heat")),
        saying("Where chlorinated fluid is used."),
    ),
    ("job.data_sheet", "", (saying("at hand"), saying("locked away")), saying("Where the safety data sheets are.")),
    ("job.eyewash", "", (saying("in the work area"), saying("elsewhere")), saying("Where the eyewash is.")),
    ("job.eye_rinse", "time", (), saying("How long a splashed eye is rinsed.")),
    (
        "job.extinguisher",
        "",
        (saying("within reach"), saying("out of reach")),
        saying("Where the fire extinguisher is."),
    ),
    (
        "job.hot_work",
        "",
        (saying("tire off first"), saying("tire on the wheel")),
        saying("Heat on a wheel, nut or stud."),
    ),
    ("job.air_changed", "count", (), saying("How often the air is changed after a can of sealant.")),
    ("job.weights", "", (saying("without lead"), saying("with lead")), saying("What the balance weights are made of.")),
)
for _name, _dimension, _words, _meaning in _SAFETY:
    MEASURES[_name] = Measure(_name, "job", _dimension, _words, _meaning, None)

NAMES = frozenset(name for name, *_ in _SAFETY)
