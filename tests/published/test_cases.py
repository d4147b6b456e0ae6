"""What texts and common practice say of single tires: citation, verdict and case stand in `cases_<subject>.toml`.

Each was written by hand from the text. The rest of the tire is taken to be in order.
"""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.rulebook.cases import decide_as_told

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
    verdict = row.pop("verdict")

    assert decide_as_told({"on": "2026-11-25", "purpose": "service", **row}).verdict == verdict
