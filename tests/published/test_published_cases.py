"""Cases whose verdict somebody outside this project has published, decided by the rulebook.

`published_cases.csv` has the situation, the published verdict and the authority. Below each row is written as a case by
hand, with the published verdict put into our words by hand; nothing here is computed by the code under test.
"""

import csv
from pathlib import Path
from typing import Any

import pytest

from tests.rulebook.cases import decide_as_told

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

ROWS = {row["id"]: row for row in csv.DictReader(Path(__file__).with_name("published_cases.csv").open(newline=""))}

# What a row leaves open ("no other damage, off the wheel") is stated once here, and only where the row says it.
SOUND_CROWN = {"outer_groove": "62 mm", "crown_thickness": "13 mm", "tread_width": "170 mm", "build": "radial"}


def passenger(**rest: Any) -> dict[str, Any]:
    tire = {"casing": "passenger", **rest.pop("tire", {})}
    return {"edition": "north-america", "on": "2026-11-25", "tire": tire, **rest}


def british(**rest: Any) -> dict[str, Any]:
    tire = {"casing": "passenger", **rest.pop("tire", {})}
    return {"edition": "united-kingdom", "on": "2026-11-25", "tire": tire, **rest}


def large(**rest: Any) -> dict[str, Any]:
    tire = {"casing": "truck", **rest.pop("tire", {})}
    return {"edition": "north-america", "on": "2026-11-25", "tire": tire, **rest}


def cycle(**rest: Any) -> dict[str, Any]:
    return {
        "edition": "north-america",
        "on": "2026-11-25",
        "tire": {"casing": "motorcycle"},
        "purpose": "service",
        **rest,
    }


CASES: dict[str, tuple[dict[str, Any], str]] = {
    "1": (
        passenger(
            tire=SOUND_CROWN,
            on_wheel=False,
            injuries=[{"diameter": "1/4 in", "angle": "0 deg", "lateral": "0 mm"}],
        ),
        "repair",
    ),
    # Starts 4 mm inside the groove; 13 mm of crown at 30 deg carries it 7.5 mm outwards: past the groove at the liner.
    "3": (
        passenger(
            tire=SOUND_CROWN,
            injuries=[{"diameter": "4 mm", "angle": "30 deg", "azimuth": "0 deg", "lateral": "56 mm"}],
        ),
        "reject",
    ),
    # 25 mm and 10 deg apart: less than any unit for a 5 mm injury is long and wide.
    "5": (
        passenger(
            tire={**SOUND_CROWN, "designation": "205/55R16 91V"},
            injuries=[
                {"diameter": "5 mm", "angle": "0 deg", "lateral": "0 mm", "station": "90 deg"},
                {"diameter": "5 mm", "angle": "0 deg", "lateral": "25 mm", "station": "95 deg"},
            ],
        ),
        "reject",
    ),
    "6": (passenger(earlier_repairs=[{"kind": "string", "zone": "crown"}]), "reject"),
    "7": (passenger(on_wheel=True, proposed="string", injuries=[{"diameter": "4 mm", "zone": "crown"}]), "reject"),
    "8": (passenger(proposed="patch-only", injuries=[{"diameter": "4 mm", "zone": "crown"}]), "reject"),
    "13": (
        passenger(proposed="one-piece", injuries=[{"diameter": "4 mm", "zone": "crown", "angle": "24 deg"}]),
        "repair",
    ),
    "18": (passenger(purpose="fit-used", jurisdiction="US-CA", tread_depths=["5/32 in", "2/32 in"]), "reject"),
    "24": (passenger(purpose="fit-used", findings=["sealant-residue"], earlier_repairs=[]), "reject"),
    "27": (passenger(purpose="fit-used", findings=["liner-blistered"]), "reject"),
    "28": (passenger(purpose="fit-used", findings=["bulge", "uneven-wear-separation"]), "reject"),
    "29": (
        passenger(purpose="service", jurisdiction="US-UT", findings={"weather-checking": True, "exposed-cord": False}),
        "advise",
    ),
    "31": (
        passenger(purpose="service", jurisdiction="US-UT", earlier_repairs=[{"kind": "stem-only", "zone": "sidewall"}]),
        "reject",
    ),
    "32": (
        passenger(
            purpose="service",
            jurisdiction="US-UT",
            findings=["wear-indicators-flush"],
            tread_depths=["2/32 in"],
        ),
        "advise",
    ),
    "34": (
        passenger(purpose="service", jurisdiction="US-UT", pressure={"recommended": "230 kPa", "found": "114 kPa"}),
        "reject",
    ),
    "45": (passenger(purpose="service", injuries=[{"kind": "cut", "reaches": "cord"}]), "reject"),
    # 10 % of 195 mm is 19.5 mm, so 25 mm counts; no cord: pass and advise.
    "50": (
        british(
            purpose="service",
            tire={"designation": "195/65R15"},
            injuries=[{"kind": "cut", "length": "20 mm", "reaches": "rubber"}],
        ),
        "advise",
    ),
    "51": (
        british(
            purpose="service",
            tire={"designation": "205/55R16"},
            injuries=[{"kind": "cut", "length": "28 mm", "reaches": "cord"}],
        ),
        "reject",
    ),
    "52": (
        british(
            purpose="service",
            tire={"designation": "205/55R16"},
            injuries=[{"kind": "cut", "length": "28 mm", "reaches": "rubber"}],
        ),
        "advise",
    ),
    # 10 % of 315 mm is 31.5 mm: below the limit of length, so no blunt tool is needed to pass and advise.
    "53": (
        british(purpose="service", tire={"designation": "315/35R20"}, injuries=[{"kind": "cut", "length": "28 mm"}]),
        "advise",
    ),
    "56": (
        british(
            tire={"designation": "185/65R15"}, injuries=[{"diameter": "6 mm", "lateral": "50 mm", "angle": "0 deg"}]
        ),
        "repair",
    ),
    "57": (
        british(
            tire={"designation": "185/65R15"}, injuries=[{"diameter": "6 mm", "lateral": "62 mm", "angle": "0 deg"}]
        ),
        "reject",
    ),
    "59": (british(injuries=[{"kind": "surface", "zone": "sidewall"}]), "repair"),
    "60": (british(proposed="tube", injuries=[{"diameter": "4 mm", "zone": "crown"}]), "reject"),
    "61": (british(injuries=[{"zone": "sidewall"}]), "reject"),
    "66": (passenger(findings=["bead-damage"]), "reject"),
    "68": (passenger(on_wheel=True, proposed="string", injuries=[{"zone": "crown"}]), "reject"),
    "9": (
        large(injuries=[{"diameter": "3/8 in", "zone": "crown", "angle": "0 deg"}]),
        "repair",
    ),
    "15": (
        large(
            purpose="service",
            position={"vehicle": "truck", "wheel": "multi-piece"},
            pressure={"recommended": "800 kPa", "found": "600 kPa"},
        ),
        "inspect",
    ),
    "16": (
        large(
            purpose="service",
            on_wheel=True,
            position={"vehicle": "truck", "wheel": "multi-piece"},
            pressure={"recommended": "800 kPa", "found": "720 kPa"},
        ),
        "accept",
    ),
    "35": (cycle(earlier_repairs=[{"kind": "stem-only", "zone": "crown", "sound": True}]), "accept"),
    "36": (cycle(earlier_repairs=[{"kind": "stem-only", "zone": "sidewall", "sound": True}]), "reject"),
    "39": (large(purpose="service", position={"axle": "drive"}, tread_depths=["3/32 in"]), "accept"),
    "41": (
        large(tire={"retreaded": True}, purpose="service", position={"vehicle": "bus", "axle": "front"}),
        "reject",
    ),
    "43": (
        large(
            purpose="service",
            position={"dual": True},
            dual_mate={"diameter": "41.2 in", "own_diameter": "41.9 in"},
        ),
        "reject",
    ),
    "44": (
        large(
            purpose="service",
            position={"vehicle": "truck", "axle": "front", "gross_mass": "10001 lb"},
            tread_depths=["3/32 in"],
        ),
        "reject",
    ),
    "48": (large(purpose="service", findings=["audible-leak"]), "reject"),
}


@pytest.mark.parametrize("row", CASES, ids=lambda row: f"{row}-{ROWS[row]['situation'][:40]}")
def test_a_published_case_is_decided_as_published(row: str) -> None:
    case, verdict = CASES[row]

    assert decide_as_told(case).verdict == verdict, f"{ROWS[row]['published_verdict']} by {ROWS[row]['authority']}"


def test_every_published_row_is_decided() -> None:
    assert set(CASES) == set(ROWS)


@pytest.mark.parametrize(
    ("row", "words"), [("15", ("valve core out", "leaves the axle")), ("16", ("remote control", "nobody"))]
)
def test_what_must_be_done_with_a_low_tire_is_said(row: str, words: tuple[str, ...]) -> None:
    """Rows 15 and 16: 29 CFR 1910.177(f)(2) and (f)(4)."""
    case, _ = CASES[row]

    told = " ".join(decide_as_told(case).conditions)

    assert all(word in told for word in words)


def test_a_one_piece_unit_is_allowed_under_25_degrees() -> None:
    """Row 13: trade press, truck maintenance Q&A (industry consensus)."""
    case, _ = CASES["13"]

    plan = decide_as_told(case).plan

    assert plan is not None
    assert "one-piece" in plan[0].methods_allowed
