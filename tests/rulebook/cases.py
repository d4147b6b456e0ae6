"""Cases for the rulebook's tests: what does not matter is filled in here, what matters stands in the test."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from training.rulebook import Decision, decide, read_units
from training.rulebook.case_words import FINDINGS

FABRIC = ("passenger", "light-truck-fabric", "light-truck")  # bodies of fabric, or taken for one

# invented sizes: patches of 45 by 45 and 75 by 65 mm, one-piece units of 50 by 50 and 70 by 60 mm, larger for steel
SHELF = read_units(Path(__file__).parents[2] / "fixtures" / "shelf.toml")

# what each casing runs on, and one molded size for it, so that nothing speaks against it
SIZES = {"passenger": "205/55R16 91V", "truck": "11R22.5 144/142L", "motorcycle": "120/70R17 58W"}
TREADS = {"motorcycle": {"tread_width": "110 mm", "outer_groove": "40 mm", "crown_thickness": "9 mm"}}
POSITIONS: dict[str, dict[str, Any]] = {
    "passenger": {"vehicle": "car", "axle": "rear"},
    "truck": {"vehicle": "truck", "axle": "drive", "dual": False, "wheel": "single-piece", "gross_mass": "12000 kg"},
    "motorcycle": {"vehicle": "motorcycle", "axle": "rear"},
}
VAN: dict[str, Any] = {"vehicle": "light-truck", "axle": "rear", "dual": False, "gross_mass": "3000 kg"}
PRESSURES = {"truck": "760 kPa"}
CLEAN = dict.fromkeys(FINDINGS, False)


def a_case(casing: str = "passenger", *, tire: Mapping[str, Any] | None = None, **rest: Any) -> dict[str, Any]:
    """A tire of which nothing is known but what is given."""
    return {"tire": {"casing": casing, **(tire or {})}, "on": "2026-11-25", **rest}


def an_examined_case(
    casing: str = "passenger",
    *,
    tire: Mapping[str, Any] | None = None,
    injury: Mapping[str, Any] | None = None,
    **rest: Any,
) -> dict[str, Any]:
    """A sound tire off the wheel with one small straight puncture on the centerline, everything looked at."""
    puncture = {
        "id": "A",
        "kind": "puncture",
        "diameter": "5 mm",
        "angle": "0 deg",
        "lateral": "0 mm",
        "station": "90 deg",
        **(injury or {}),
    }
    whole = {
        "designation": SIZES.get(casing, "LT245/75R16 120/116S"),
        "retreaded": False,
        "date_code": "3219",
        "tread_width": "170 mm",
        "outer_groove": "62 mm",
        "crown_thickness": "13 mm",
        "build": "radial",
        **TREADS.get(casing, {}),
        **(tire or {}),
    }
    case: dict[str, Any] = {
        "on_wheel": False,
        "position": POSITIONS.get(casing, VAN),
        "tread_depths": ["6/32 in"],
        "injuries": [puncture],
        "findings": dict(CLEAN),
        "earlier_repairs": [],
        "pressure": dict.fromkeys(("recommended", "found"), PRESSURES.get(casing, "230 kPa")),
        **rest,
    }
    return a_case(casing, tire=whole, **case)


def without_injury(casing: str = "passenger", **rest: Any) -> dict[str, Any]:
    """The same examined tire with no puncture in it."""
    return {**an_examined_case(casing, **rest), "injuries": []}


def ruling_of(decision: Any, clause: str, subject: str | None = None) -> Any:
    """The one ruling of a clause (on a subject)."""
    (found,) = [one for one in decision.rulings if one.clause == clause and subject in (None, one.subject)]
    return found


def decide_as_told(case: Any, **how: Any) -> Decision:
    """The decision where the source that tells the case says nothing of the rest, and means that it is in order."""
    return decide_with_units(case, rest_in_order=True, **how)


def decide_with_units(case: Any, **how: Any) -> Decision:
    """The decision of somebody with units in the drawer: the invented sizes of the demo's shop."""
    return decide(case, units=how.pop("units", SHELF), **how)
