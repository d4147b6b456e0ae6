"""Puts the families about tires on the road, and about areas measured by the section width, back to the rulebook."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from tests.proof.recheck import Bench, Recheck, judge
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


@judge("tread-by-vehicle")
def _by_vehicle(bench: Bench) -> Recheck:
    def worn(text: str) -> bool:
        data = _case(bench, text, tread_depths=[text.rpartition(": ")[2]])
        return bench.decide(data).verdict == "reject"

    return bench.which(worn)


@judge("tread-across")
def _across(bench: Bench) -> Recheck:
    middle, *edges = re.findall(r"([\d.]+) mm (?:within|at its)", bench.item.stem)
    sold = "to be sold" in bench.item.stem
    counts = min([middle, *edges], key=float) if sold else middle
    data = {**bench.data, "purpose": "fit-used" if sold else "service", "tread_depths": [f"{counts} mm"]}
    passes = bench.decide(data).verdict in ("accept", "advise")
    opening = {True: ("Stays", "May be sold"), False: ("Off", "May not be sold")}[passes][sold]
    return bench.which(lambda text: text.startswith(opening) and f": {counts} mm" in text)


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


def _cut(bench: Bench, length: float, reaches: str) -> str:
    cut = {"kind": "cut", "length": f"{length:.4f} mm", **({"reaches": reaches} if reaches else {})}
    return bench.decide({**bench.data, "injuries": [cut]}).verdict


@judge("cut-on-road")
def _cut_on_road(bench: Bench) -> Recheck:
    deep = {"shows cord": "cord", "shows rubber": "rubber", "Nobody": ""}
    reaches = next(word for words, word in deep.items() if words in bench.item.stem)
    verdict = _cut(bench, float(bench.found(r"cut (\d+) mm long")), reaches)
    opening = {"reject": "Off the road", "refer": "Send it on", "inspect": "Open the cut", "advise": "Leave it"}[
        verdict
    ]
    return bench.which(lambda text: text.startswith(opening))


@judge("cut-limit")
def _cut_limit(bench: Bench) -> Recheck:
    return bench.number(_halved(lambda length: _cut(bench, length, "cord") != "reject"))


@judge("repair-area")
def _repair_area(bench: Bench) -> Recheck:
    """A hole 2 mm across is carried outward until it is refused."""
    small: Mapping[str, Any] = {"id": "A", "kind": "puncture", "diameter": "2 mm", "angle": "0 deg", "azimuth": "0 deg",
                                "station": "0 deg"}  # fmt: skip
    half = 1 + _halved(
        lambda lateral: bench.decide(
            {**bench.data, "injuries": [{**small, "lateral": f"{lateral:.6f} mm"}]}
        ).verdict == "repair"
    )  # fmt: skip
    return bench.number(half if "centerline does" in bench.item.stem or "Up to what" in bench.item.stem else 2 * half)


def _halved(holds: Callable[[float], bool]) -> float:
    """The greatest value in mm for which something holds, to well below a tenth of a millimeter."""
    low, high = 0.0, 200.0
    for _ in range(22):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
