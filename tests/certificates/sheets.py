"""A paper of every format, and the sheet of answers to it."""

from typing import Any

from assessments.questions import Blame, Frame, Option, Region

STEPS = (Option("1", "Buff"), Option("2", "Measure"), Option("3", "Nothing is wrong"))
# what differs from `an_item`, a question each
FACTS: tuple[dict[str, Any], ...] = (
    {},
    {"format": "several", "key": ("1", "2"), "distractors": {}},
    {"format": "number"},
    {
        "format": "order",
        "options": STEPS,
        "key": ("2", "1", "3"),
        "before": (("2", "1"),),
        "distractors": {},
        "unsafe": (),
    },
    {
        "format": "place",
        "options": (),
        "key": Region(59, 65, 4, 12),
        "distractors": {},
        "frame": Frame(0, 0, 90, 40),
        "unsafe": (),
    },
    {
        "format": "fault",
        "options": STEPS,
        "reasons": (Option("1", "Too hot"), Option("2", "Too fast")),
        "key": Blame(("1",), "2"),
        "distractors": {},
        "unsafe": (),
    },
)
SHEET: dict[str, str | list[str]] = {
    "a1": "2",
    "a2": ["1", "2"],
    "a3": "9",
    "a3_u": "mm",
    "a4": "b a C",
    "a5_0": "60",
    "a5_1": "8",
    "a6_0": "1",
    "a6_1": "2",
}
