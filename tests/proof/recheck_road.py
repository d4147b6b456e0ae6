"""Puts the families about tires on the road, and about areas measured by the section width, back to the rulebook."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import judge
from training.trade.days import MONTHS

# How a vehicle is told, and the casing and vehicle of its case.
_VEHICLES = (
    ("Car", "passenger", "car"),
    ("Estate car", "passenger", "car"),
    ("Van", "light-truck-fabric", "light-truck"),
    ("Minibus", "light-truck-fabric", "minibus"),
    ("Bus", "truck", "bus"),
    ("Goods vehicle", "truck", "truck"),
    ("Tractor unit", "truck", "truck"),
)
_AXLES = {"front": "front", "rear": "rear", "drive": "drive", "single rear": "rear", "dual rear": "rear"}


def _case(bench: Bench, text: str, **more: Any) -> dict[str, Any]:
    """The case of the question with the vehicle and axle that an option names."""
    opening, mass, axle = re.findall(r"^(.+?) of ([\d,]+) kg, (.+?) (?:axle|wheels?)", text)[0]
    casing, vehicle = next((casing, vehicle) for words, casing, vehicle in _VEHICLES if words == opening)
    dual = axle == "dual rear" or (casing == "truck" and axle != "front")
    position = {
        "vehicle": vehicle, "axle": _AXLES[axle], "gross_mass": f"{mass.replace(',', '')} kg", "dual": dual,
    }  # fmt: skip
    tire = {"casing": casing, "designation": "215/65R16", **more.pop("tire", {})}
    return {**bench.data, "tire": tire, "position": position, **more}


@judge("age-on-axle")
def _age(bench: Bench) -> Recheck:
    day, month, year = bench.found(r"Today is (\d+ \w+ \d{4})").split()
    today = date(int(year), MONTHS.index(month) + 1, int(day))

    def too_old(text: str) -> bool:
        code, again = re.findall(r": (\d{4})(?:, retreaded (\d{4}))?$", text)[0]
        tire: dict[str, object] = {"date_code": code}
        if again:
            tire |= {"retreaded": True, "retreaded_on": again}
        return bench.decide(_case(bench, text, tire=tire, on=today.isoformat())).verdict == "reject"

    return bench.which(too_old)
