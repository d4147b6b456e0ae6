"""What texts and common practice say of single tires: citation, verdict and case stand in `cases_<subject>.toml`.

Each was written by hand from the text. The rest of the tire is taken to be in order; of a `whole` row it was looked at.
`units` is the shelf, as a file of repair units has it; where it is empty, and `missing` are facts of which the text
asks, nothing is taken for granted. Where a text says "any tire", `casings` names them. The tables that a file names in
`everywhere` rest on the practice of the trade: a row of theirs that names no place is decided in each country.
"""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.rulebook.cases import SHELF, decide_as_told, without_injury
from training.rulebook import decide, units_from

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

COUNTRIES = ("north-america", "united-kingdom")
FILES = sorted(Path(__file__).parent.glob("cases_*.toml"))


def by_groove(grooves: list[list[int]]) -> list[dict[str, Any]]:
    """Readings in 32nds of an inch, groove by groove, at places spread evenly around the tire."""
    return [
        {"groove": number, "station": f"{360 * place // len(depths)} deg", "depth": f"{depth}/32 in"}
        for number, depths in enumerate(grooves, start=1)
        for place, depth in enumerate(depths)
    ]


def cases() -> Iterator[tuple[str, dict[str, Any]]]:
    """Each row, once for every casing that it names, and once for every country where it says what the trade does."""
    for file in FILES:
        tables = tomllib.loads(file.read_text("utf-8"))
        everywhere = tables.pop("everywhere", ())
        for table, rows in tables.items():
            for cited, row in rows.items():
                name = f"{file.stem.removeprefix('cases_')}, {table}: {cited}"
                if table in everywhere and not {"edition", "jurisdiction"} & set(row):
                    for edition in COUNTRIES:
                        yield f"{name} ({edition})", {**row, "edition": edition}
                    continue
                if "casings" not in row:
                    yield name, row
                    continue
                rest = {key: value for key, value in row.items() if key not in ("casings", "grooves")}
                if "grooves" in row:
                    rest["tread_depths"] = by_groove(row["grooves"])
                for casing in row["casings"]:
                    yield f"{name} ({casing})", {**rest, "tire": {"casing": casing, **row.get("tire", {})}}


ROWS = dict(cases())


@pytest.mark.parametrize("cited", ROWS)
def test_a_text_decides_its_case(cited: str) -> None:
    row: dict[str, Any] = dict(ROWS[cited])
    verdict, missing, shelf = row.pop("verdict"), row.pop("missing", ()), row.pop("units", None)
    units = SHELF if shelf is None else units_from(shelf, "units") if shelf else ()
    is_whole = row.pop("whole", False)
    case = {"on": "2026-11-25", "purpose": "service", **row}

    if is_whole:
        tire = dict(case.pop("tire"))
        case = without_injury(tire.pop("casing"), tire=tire, **case)
    if is_whole or missing:
        decision = decide(case, units=units)
        assert decision.verdict == verdict
        assert set(missing) <= set(decision.missing)
    else:
        assert decide_as_told(case, units=units).verdict == verdict
