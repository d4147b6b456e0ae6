"""Tires that come into a shop: invented cases with plausible numbers, everything looked at, nothing wrong yet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Any

from training.rulebook import Clause, Edition, Quantity, parse_quantity, vocabulary
from training.trade.words import CASING_WORDS

# The casings a family may ask about, as shops work on them.
LIGHT = ("passenger", "light-truck-fabric")
STEEL = ("light-truck-steel", "truck")
MOTORCYCLE = ("motorcycle",)


@dataclass(frozen=True, slots=True)
class Model:
    """A size of tire: half widths and thickness as a technician would measure them. Invented, within what is usual."""

    designation: str
    casing: str
    tread_width_mm: int
    outer_groove_mm: int
    crown_thickness_mm: int

    @property
    def size(self) -> str:
        """The size without load and speed, which would settle the load range."""
        return self.designation.split()[0]

    @property
    def name(self) -> str:
        """What kind of tire it is, for example "passenger tire"."""
        return CASING_WORDS[self.casing].one

    def to_json(self) -> dict[str, object]:
        """The tire of a case."""
        return {
            "designation": self.designation,
            "casing": self.casing,
            "tread_width": f"{self.tread_width_mm} mm",
            "outer_groove": f"{self.outer_groove_mm} mm",
            "crown_thickness": f"{self.crown_thickness_mm} mm",
            "build": "radial",
        }


MODELS = (
    Model("195/65R15 91H", "passenger", 152, 56, 11),
    Model("205/55R16 91V", "passenger", 168, 62, 12),
    Model("215/60R16 95H", "passenger", 172, 63, 12),
    Model("225/65R17 102H", "passenger", 178, 65, 13),
    Model("235/45R18 94W", "passenger", 196, 72, 12),
    Model("P265/70R17 113S", "passenger", 206, 75, 14),
    Model("LT225/75R16 115/112R", "light-truck-fabric", 176, 64, 15),
    Model("LT245/75R16 120/116S", "light-truck-fabric", 190, 69, 16),
    Model("LT265/70R17 121/118S", "light-truck-fabric", 206, 75, 16),
    Model("LT275/65R18 123/120S", "light-truck-fabric", 216, 79, 17),
    Model("LT215/85R16 115/112Q", "light-truck-steel", 168, 60, 17),
    Model("LT235/85R16 120/116R", "light-truck-steel", 184, 66, 18),
    Model("LT225/75R17 116/113Q", "light-truck-steel", 178, 64, 17),
    Model("LT245/75R17 121/118S", "light-truck-steel", 194, 70, 18),
    Model("11R22.5 144/142L", "truck", 212, 78, 26),
    Model("275/80R22.5 146/143L", "truck", 220, 81, 25),
    Model("295/75R22.5 144/141L", "truck", 228, 84, 25),
    Model("285/75R24.5 144/141L", "truck", 224, 82, 26),
    Model("315/80R22.5 154/150M", "truck", 248, 92, 28),
    Model("120/70R17 58H", "motorcycle", 118, 40, 9),
    Model("110/80R19 59V", "motorcycle", 108, 36, 9),
    Model("150/70R17 69V", "motorcycle", 146, 50, 10),
    Model("160/60R17 69H", "motorcycle", 158, 54, 10),
)
# Sizes as an edition's country fits them, where those above are not: no P or LT before them, C for commercial behind.
MODELS_OF = {
    "united-kingdom": (
        Model("175/65R14 82T", "passenger", 130, 46, 10),
        Model("185/65R15 88H", "passenger", 142, 51, 10),
        *(one for one in MODELS if one.casing == "passenger" and not one.designation.startswith("P")),
        Model("275/45R20 110W", "passenger", 226, 82, 13),
        Model("195/70R15C 104/102R", "light-truck-fabric", 148, 52, 13),
        Model("205/65R16C 107/105T", "light-truck-fabric", 160, 57, 13),
        Model("215/65R16C 109/107T", "light-truck-fabric", 170, 60, 14),
        Model("225/65R16C 112/110R", "light-truck-fabric", 178, 63, 14),
        Model("235/65R16C 115/113R", "light-truck-fabric", 186, 66, 15),
        *(one for one in MODELS if one.casing not in LIGHT),
    ),
}
FINDINGS = tuple(word for field, word, _ in vocabulary() if field == "findings")


def pick_model(rng: Random, *casings: str, edition: str = "") -> Model:
    """A size of one of these casings, as an edition's country fits it; of any where none is given."""
    known = MODELS_OF.get(edition, MODELS)
    return rng.choice([model for model in known if not casings or model.casing in casings])


def looked_at(
    model: Model,
    edition: Edition,
    *,
    injuries: Sequence[dict[str, object]] = (),
    found: Sequence[str] = (),
    doubtful: Sequence[str] = (),
    depth: str = "7/32 in",
    **more: Any,
) -> dict[str, object]:
    """A case with everything examined: off the wheel, every finding looked for, no earlier repair unless given."""
    findings: dict[str, object] = dict.fromkeys(FINDINGS, False)
    findings.update(dict.fromkeys(found, True))
    findings.update(dict.fromkeys(doubtful, "doubt"))
    return {
        "edition": edition.name,
        "on": edition.in_force_from.isoformat(),
        "purpose": "repair",
        "tire": model.to_json(),
        "on_wheel": False,
        "tread_depths": [depth],
        "injuries": list(injuries),
        "findings": findings,
        "earlier_repairs": [],
        **more,
    }


def hole(
    name: str = "A",
    *,
    diameter: str,
    lateral_mm: int = 0,
    station_deg: int = 0,
    angle_deg: int = 0,
    outward: bool = True,
    before: str | None = None,
) -> dict[str, object]:
    """A nail hole. One that leans runs straight outward on its way in, or straight inward to the centerline."""
    away = 0 if (lateral_mm >= 0) == outward else 180
    injury: dict[str, object] = {
        "id": name,
        "kind": "puncture",
        "diameter": diameter,
        "angle": f"{angle_deg} deg",
        "azimuth": f"{away} deg",
        "lateral": f"{lateral_mm} mm",
        "station": f"{station_deg} deg",
    }
    if before is not None:
        injury["before_removal"] = before
    return injury


def edge_mm(clause: Clause) -> tuple[Fraction, Fraction]:
    """The least and the greatest value any statement of a clause gives as its limit, in the base unit.

    Between the two the statements, or the two units of one, disagree: nothing is asked there. A house rule settles it.
    """
    counted = clause.statements if clause.house is None else (clause.house,)
    values = [quantity.value for statement in counted for quantity in statement.quantities]
    return min(values), max(values)


def readings(unit: str, above_mm: Fraction | int, below_mm: Fraction | int) -> list[str]:
    """Lengths one can read off a rule strictly between two bounds: whole and half millimeters, or 32nds of an inch."""
    found = []
    step = Fraction(1, 2) if unit == "mm" else Fraction("25.4") / 32
    mark = int(above_mm / step) + 1
    while mark * step < below_mm:
        found.append(f"{_half(mark)} mm" if unit == "mm" else f"{_of_32(mark)} in")
        mark += 1
    return found


def depths(unit: str, above_mm: Fraction | int, below_mm: Fraction | int) -> list[str]:
    """Tread depths strictly between two bounds, inches in 32nds as the trade speaks of tread: "4/32 in"."""
    if unit == "mm":
        return readings(unit, above_mm, below_mm)
    step = Fraction("25.4") / 32
    first = int(above_mm / step) + 1
    return [f"{mark}/32 in" for mark in range(first, first + 64) if mark * step < below_mm]


def _half(mark: int) -> str:
    return f"{mark // 2}.5" if mark % 2 else str(mark // 2)


def _of_32(mark: int) -> str:
    whole, rest = divmod(mark, 32)
    part = Fraction(rest, 32)
    return " ".join(word for word in (str(whole) if whole else "", str(part) if rest else "") if word) or "0"


def length(text: str) -> Quantity:
    """The length that this text states."""
    return parse_quantity(text, "length")


def other_unit(rng: Random, prefer: str, at_home: str = "in") -> str:
    """The unit a measurement was taken in: mostly the shop's own, now and then the other.

    `at_home`: the unit of the edition; where it and the shop say millimeters nobody measures in inches.
    """
    unit = prefer if rng.random() < 0.7 else "mm" if prefer == "in" else "in"
    return "mm" if at_home == prefer == "mm" else unit
