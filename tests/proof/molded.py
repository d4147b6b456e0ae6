"""What a marking says, by the readers of the rulebook: date codes, plies of a sidewall, sizes with their service."""

from __future__ import annotations

import re
from fractions import Fraction

from training.rulebook.markings import CONSTRUCTIONS, dimensions, read_date_code, read_designation

Said = float | str | None

# 49 CFR 571.139 S5.5 (from memory): of all that is molded only the material of the sidewall plies tells the body.
_BODY = re.compile(r"SIDEWALL PL(?:Y|IES) \d (\w+)")


def says(marking: str, of: str) -> Said:
    """What a marking says of something: a number in the base unit, or a word; None for what it does not say."""
    if plies := _BODY.fullmatch(marking):
        return ("steel" if plies[1] == "STEEL" else "fabric") if of == "body" else None
    if re.fullmatch(r"\d{4}", marking):
        return _of_date(marking, of)
    if marking.startswith(("TREAD", "LOAD RANGE")):
        return None
    return _of_size(marking, of)


def _of_date(code: str, of: str) -> Said:
    (week,) = read_date_code(code).weeks
    middle = week.first_day + (week.last_day - week.first_day) / 2
    return {"week": week.number, "month": middle.month, "year": week.year}.get(of)


def _of_size(marking: str, of: str) -> Said:
    size = read_designation(marking)
    if of == "construction":
        return CONSTRUCTIONS[size.construction]
    if of == "speed_km_h":
        return None if size.speed is None else size.speed.km_h
    found = getattr(size, of, None)
    found = getattr(dimensions(size), of, None) if found is None else found
    return float(found) if isinstance(found, int | Fraction) else found
