"""Sizes as they are molded: made up within what is built, and read back by the rulebook's own reader. Pure.

The ranges are those of common practice, without a published source; what a size means is never computed here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from random import Random

from training.rulebook.markings import (
    Designation,
    load_capacity_kg,
    outer_diameter_mm,
    read_designation,
    section_height_mm,
)

_INDEXES = range(40, 170)
_TRIES = 2000
_LOW = 50
_WHOLE = tuple(map(str, range(13, 23)))


@dataclass(frozen=True, slots=True)
class Series:
    """What is built of one kind of tire: [mm], [%], rim codes, and the diameters between which a size is believable.

    `narrow` and `wide`: the least and the greatest width on a rim, as mm for each inch of it, and mm to add. `share` is
    its load against a passenger tire of the same air volume, `symbols` the usual speed symbols, the slow ones first;
    `dual` how far the index for dual fitting lies below the single one, empty where it runs singly.
    """

    widths: range
    aspects: range
    rims: Sequence[str]
    diameters: range
    narrow: tuple[int, int]
    wide: tuple[int, int]
    share: float
    symbols: str
    marks: Sequence[tuple[str, str]] = (("", ""),)
    letters: Sequence[str] = ("R",)
    dual: Sequence[int] = ()

    def holds(self, width: int, aspect: int, rim_code: str, rim_mm: int) -> bool:
        """Would anyone believe this size?"""
        rim = float(rim_code)
        least, most = (each * rim + more for each, more in (self.narrow, self.wide))
        diameter = outer_diameter_mm(section_width_mm=width, aspect_percent=aspect, rim_mm=rim_mm)
        return least <= width <= most and diameter in self.diameters


SERIES = {
    "passenger": Series(range(155, 336, 10), range(30, 81, 5), _WHOLE, range(540, 811), (8, 40), (11, 95), 1.0,
                        "STUHVWY", (("", ""), ("", ""), ("P", ""))),
    "light-truck": Series(range(205, 336, 10), range(50, 86, 5), _WHOLE[2:], range(690, 911), (11, 35), (11, 120),
                          1.22, "QRST", (("LT", ""),), dual=(3, 4)),
    "commercial": Series(range(165, 246, 10), range(60, 81, 5), _WHOLE[1:5], range(580, 761), (8, 45), (15, 0), 1.35,
                         "NPQRST", (("", "C"),), dual=(2,)),
    "truck": Series(range(215, 326, 10), range(65, 86, 5), ("17.5", "19.5", "22.5", "24.5"), range(740, 1111),
                    (9, 50), (30, -290), 1.7, "JKLMN", dual=(2, 3, 4)),
    "motorcycle": Series(range(100, 191, 10), range(50, 91, 10), _WHOLE[3:7], range(560, 701), (-20, 440),
                         (-50, 1090), 0.71, "SHVW", (("", "M/C"),), ("R", "-", "B")),
    "special-trailer": Series(range(175, 236, 10), range(75, 86, 5), _WHOLE[:4], range(600, 761), (10, 45), (15, 0),
                              1.2, "LMN", (("ST", ""),)),
    "temporary-spare": Series(range(115, 166, 10), range(70, 91, 10), _WHOLE[1:6], range(540, 701), (0, 115),
                              (0, 165), 1.1, "M", (("T", ""),), ("D", "R")),
}  # fmt: skip
# Which kinds a shop meets that works on these casings; the size tells nothing of the body.
KINDS = {
    "passenger": ("passenger", "temporary-spare"),
    "light-truck-fabric": ("light-truck", "commercial", "special-trailer"),
    "light-truck-steel": ("light-truck", "commercial"),
    "truck": ("truck",),
    "motorcycle": ("motorcycle",),
}
# 205/55R16 91 is the point that the loads of all others are scaled from.
_ANCHOR = (205, 113, 406, 615)


def kinds_for(casings: Sequence[str], *, leave_out: Sequence[str] = ()) -> tuple[str, ...]:
    """The kinds of tire that belong to these casings, each once."""
    found = dict.fromkeys(kind for casing in casings for kind in KINDS[casing])
    return tuple(kind for kind in found if kind not in leave_out)


def pick_size(rng: Random, *kinds: str) -> Designation:
    """A believable size of one of these kinds, with its load index and speed symbol."""
    kind = rng.choice(kinds)
    series = SERIES[kind]
    for _ in range(_TRIES):
        width, aspect, rim = rng.choice(series.widths), rng.choice(series.aspects), rng.choice(series.rims)
        prefix, suffix = rng.choice(series.marks)
        size = read_designation(f"{prefix}{width}/{aspect}{rng.choice(series.letters)}{rim}{suffix}")
        if series.holds(width, aspect, rim, size.rim_mm):
            return read_designation(f"{size.size} {_service(rng, size, series)}")
    raise LookupError(f"{kind}: no size within its diameters")


def pick_flotation(rng: Random) -> Designation:
    """A size that names its overall diameter and its width in inches, such as 31x10.50R15LT."""
    return read_designation(
        f"{rng.randrange(29, 38)}x{rng.randrange(9, 13)}.50R{rng.choice(('15', '16', '17', '18'))}LT"
    )


def pick_code(rng: Random) -> Designation:
    """A truck size that names only its section width, in inches, such as 11R22.5."""
    return read_designation(rng.choice(("8R19.5", "9R22.5", "10R22.5", "11R22.5", "12R22.5", "13R22.5", "11R24.5")))


def _service(rng: Random, size: Designation, series: Series) -> str:
    """Load index and speed symbol such as a tire of this volume has."""
    width, aspect = size.section_width_mm or 0, size.aspect_percent or 0
    height = section_height_mm(section_width_mm=width, aspect_percent=aspect)
    own_width, own_height, own_rim, own_load = _ANCHOR
    volume = width * height * (size.rim_mm + height) / (own_width * own_height * (own_rim + own_height))
    load = own_load * volume**0.75 * series.share
    single = min(_INDEXES, key=lambda index: abs(float(load_capacity_kg(index)) - load)) + rng.randint(-1, 2)
    dual = f"/{single - rng.choice(series.dual)}" if series.dual else ""
    symbols = series.symbols if size.construction == "R" else series.symbols[:2]
    # No one builds a low tire for a slow car.
    fast = symbols[3:] if aspect <= _LOW and len(symbols) > len("STUHV") else symbols
    return f"{single}{dual}{rng.choice(fast)}"


def molded(size: Designation) -> str:
    """A size with its service description as it stands on the sidewall."""
    return size.text.replace("M/C", " M/C")


def line(subject: str, found: str, limit: str, because: str, source: str, kind: str = "standard") -> dict[str, object]:
    """A line of an explanation that reads a marking."""
    return {
        "clause": "", "subject": subject, "holds": None, "found": found, "limit": limit, "because": because,
        "kind": kind, "source": source,
    }  # fmt: skip
