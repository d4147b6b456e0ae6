"""What regulations say about large vehicles, motorcycles, used tires and inspection, sentence by sentence.

`regulations.toml` has the citation, the verdict and the case, each written by hand from the text.
"""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.rulebook.cases import decide_as_told

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

TABLES = tomllib.loads(Path(__file__).with_name("regulations.toml").read_text("utf-8"))
ROWS = {f"{table}: {cited}": row for table, rows in TABLES.items() for cited, row in rows.items()}
MARKS = ("casing", "designation", "retreaded", "date_code", "crown_thickness", "outer_groove")


def tire(casing: str, **rest: Any) -> dict[str, Any]:
    """A case of which nothing is known but what is given; readings of grooves in 32nds of an inch."""
    marks = {name: rest.pop(name) for name in MARKS if name in rest}
    if "grooves" in rest:
        rest["tread_depths"] = [
            {"groove": number, "station": f"{120 * place} deg", "depth": f"{depth}/32 in"}
            for number, depths in enumerate(rest.pop("grooves"), start=1)
            for place, depth in enumerate(depths)
        ]
    return {"on": "2026-11-25", "purpose": "service", "tire": {"casing": casing, **marks}, **rest}


@pytest.mark.parametrize("cited", ROWS)
def test_a_sentence_of_a_regulation_decides_its_case(cited: str) -> None:
    row = dict(ROWS[cited])
    verdict = row.pop("verdict")

    assert decide_as_told(tire(**row)).verdict == verdict


@pytest.mark.parametrize("wheel", ["multi-piece", "single-piece", None])
def test_a_damaged_large_wheel_is_deflated_before_it_leaves_the_axle(wheel: str | None) -> None:
    """29 CFR 1910.177(f)(2)(ii): obvious or suspected damage."""
    case = tire("truck", on_wheel=True, position={"wheel": wheel}, findings=["bulge"])

    decision = decide_as_told(case)

    assert decision.verdict == "reject"
    assert any("valve core out" in condition for condition in decision.conditions)


def test_a_sound_large_wheel_is_not_told_to_be_deflated() -> None:
    position = {"vehicle": "truck", "wheel": "multi-piece"}

    assert not decide_as_told(tire("truck", on_wheel=True, position=position, findings=["weather-checking"])).conditions
