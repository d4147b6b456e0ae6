"""Date codes against weeks worked out outside the project: week 01 is the first full week (49 CFR 574.5)."""

import csv
from datetime import date
from pathlib import Path

import pytest

from training.rulebook.dates import production_week

ROWS = list(csv.DictReader(Path(__file__).with_name("tin_weeks.csv").open(newline="")))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["date_code"])
def test_a_date_code_names_its_week(row: dict[str, str]) -> None:
    first, last = production_week(row["date_code"])

    assert (first, last) == (date.fromisoformat(row["week_start_sunday"]), date.fromisoformat(row["week_end_saturday"]))
