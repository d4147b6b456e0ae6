"""What texts and common practice say of single tires: citation, verdict and case stand in `cases_<subject>.toml`.

Each was written by hand from the text. The rest of the tire is taken to be in order. `units` is the shelf, as a file of
repair units has it; where it is empty, and `missing` are facts of which the text asks, nothing is taken for granted.
"""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.rulebook.cases import SHELF, decide_as_told
from training.rulebook import decide, units_from

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

FILES = sorted(Path(__file__).parent.glob("cases_*.toml"))
ROWS = {
    f"{file.stem.removeprefix('cases_')}, {table}: {cited}": row
    for file in FILES
    for table, rows in tomllib.loads(file.read_text("utf-8")).items()
    for cited, row in rows.items()
}


@pytest.mark.parametrize("cited", ROWS)
def test_a_text_decides_its_case(cited: str) -> None:
    row: dict[str, Any] = dict(ROWS[cited])
    verdict, missing, shelf = row.pop("verdict"), row.pop("missing", ()), row.pop("units", None)
    units = SHELF if shelf is None else units_from(shelf, "units") if shelf else ()
    case = {"on": "2026-11-25", "purpose": "service", **row}

    if missing:
        decision = decide(case, units=units)
        assert decision.verdict == verdict
        assert set(missing) <= set(decision.missing)
    else:
        assert decide_as_told(case, units=units).verdict == verdict
