"""What a marking says, by the readers of the rulebook: date codes, plies of a sidewall, sizes with their service."""

from __future__ import annotations

import re
from fractions import Fraction

from assessments.questions.items.claims import Molded
from training.rulebook.markings import CONSTRUCTIONS, dimensions, read_date_code, read_designation

Said = float | str | None

_INCH_MM = Fraction("25.4")
# 49 CFR 571.139 S5.5 (from memory): of all that is molded only the material of the sidewall plies tells the body.
_BODY = re.compile(r"SIDEWALL PL(?:Y|IES) \d (\w+)")


def says(asked: Molded) -> Said:
    """What a marking says of something: a number in the base unit, or a word; None for what it does not say."""
    if plies := _BODY.search(asked.marking):
        return ("steel" if plies[1] == "STEEL" else "fabric") if asked.of == "body_by_sidewall_plies" else None
    return _of_date(asked) if re.fullmatch(r"\d{4}", asked.marking) else _of_size(asked)


def _of_date(asked: Molded) -> Said:
    (week,) = read_date_code(asked.marking).weeks
    middle = week.first_day + (week.last_day - week.first_day) / 2
    return float({"week": week.number, "month": middle.month, "year": week.year}[asked.of])


def _of_size(asked: Molded) -> Said:
    size = read_designation(asked.marking)
    inches = size.section_code if asked.of == "section_width" else getattr(size, asked.of, None)
    if inches is not None and (asked.of == "section_width" or asked.of.endswith("_code")):
        return float(Fraction(inches) * _INCH_MM)
    found = {
        "section_width": size.section_width_mm,
        "construction": CONSTRUCTIONS[size.construction],
        "load_kg": size.load_dual_kg if asked.dual else size.load_single_kg,
        "speed_km_h": None if size.speed is None else size.speed.km_h,
    }.get(asked.of, getattr(size, asked.of, getattr(dimensions(size), asked.of, None)))
    return float(found) if isinstance(found, int | Fraction) else found
