"""Quantities of safety at work: lessons and job cards print their limits, and no log states them."""

from training.rulebook.measures.registry import MEASURES, Measure

_SAFETY: tuple[tuple[str, str, tuple[str, ...], str], ...] = (
    ("job.eyes", "", ("protected", "bare"), "Eye protection."),
    ("job.vehicle", "", ("held", "on a jack alone"), "How the vehicle is held off the ground."),
    ("job.lifted_by_one", "mass", (), "Weight that one person lifts alone."),
    ("job.ignition", "", ("kept away", "near"), "Flames and sparks near open solvent."),
    ("job.pouring", "", ("bonded", "not bonded"), "Cans while solvent is poured."),
    ("job.chlorinated", "", ("away from heat", "near heat"), "Where chlorinated fluid is used."),
    ("job.data_sheet", "", ("at hand", "locked away"), "Where the safety data sheets are."),
    ("job.eyewash", "", ("in the work area", "elsewhere"), "Where the eyewash is."),
    ("job.eye_rinse", "time", (), "How long a splashed eye is rinsed."),
    ("job.extinguisher", "", ("within reach", "out of reach"), "Where the fire extinguisher is."),
    ("job.hot_work", "", ("tire off first", "tire on the wheel"), "Heat on a wheel, nut or stud."),
    ("job.air_changed", "count", (), "How often the air is changed after a can of sealant."),
    ("job.weights", "", ("without lead", "with lead"), "What the balance weights are made of."),
)  # fmt: skip
for _name, _dimension, _words, _meaning in _SAFETY:
    MEASURES[_name] = Measure(_name, "job", _dimension, _words, _meaning, None)

NOT_LOGGED = frozenset(name for name, *_ in _SAFETY)
