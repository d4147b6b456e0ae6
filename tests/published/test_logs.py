"""What the texts say of a repair as it was done, log by log. `logs.toml` has source, log and outcome, by hand."""

import tomllib
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from tests.rulebook.cases import SHELF
from tests.rulebook.jobs import a_job, a_log, line, moved, without
from training.rulebook import audit

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

TABLES: dict[str, list[dict[str, Any]]] = tomllib.loads(Path(__file__).with_name("logs.toml").read_text("utf-8"))
ROWS = [(f"{table}: {row['text']}", row) for table, rows in TABLES.items() for row in rows]
TRUCK: dict[str, dict[str, Any]] = {
    "remove_damage": {"speed": "600 rpm", "passes": 5},
    "seat_beads": {"restraint": "cage", "capacity": "150 %", "gauge": "in-line", "hose": "outside the trajectory",
                   "chuck": "clip-on"},
    "inflate": {"pressure": "110 psi"},
    "install": {"torque": "475 lbf.ft", "stud": "M22 hub-piloted"},
}  # fmt: skip
TRUCK_CASE: dict[str, Any] = {
    "casing": "truck",
    "tire": {"designation": "11R22.5 148/145L"},
    "pressure": {"recommended": "110 psi", "found": "110 psi"},
    "position": {"vehicle": "truck", "axle": "drive", "wheel": "single-piece"},
}


def log_of(row: dict[str, Any]) -> list[dict[str, Any]]:
    """The log that a row describes."""
    log = a_log("two-piece", **TRUCK) if row["log"] == "truck" else a_log(row["log"])
    if row.get("bare"):
        log = [{"step": step["step"]} for step in log]
    log = [{**step, **row.get("say", {}).get(step["step"], {})} for step in log]
    for named in row.get("unsaid", ()):
        step, _, key = named.partition(".")
        del log[line(log, step) - 1][key]
    log = without(log, *row.get("without", ()))
    for name, said in row.get("first", {}).items():
        at = line(log, name) - 1
        log = [*log[:at], {"step": name, **said}, *log[at:]]
    if "moved" in row:
        log = moved(log, row["moved"][0], before=row["moved"][1])
    if "again" in row:
        at = line(log, row["after"])
        log = [*log[:at], *(log[line(log, name) - 1] for name in row["again"]), *log[at:]]
    if row.get("second") == "left open":
        first, last = line(log, "mark") - 1, line(log, "inspect-repair")
        log = [{**step, "injury": "A"} if first <= place < last else step for place, step in enumerate(log)]
    return log


def job_of(row: dict[str, Any]) -> dict[str, Any]:
    """The job that a row describes; an empty text takes a fact of the tire out."""
    changed = dict(row.get("case", {}))
    leave_out = changed.pop("without", ())
    base = TRUCK_CASE if row["log"] == "truck" else {}
    job = a_job(log_of(row), injury=changed.pop("injury", None), **base)
    job["edition"] = row.get("edition", job["edition"])
    for name, value in changed.items():
        whole = job["case"].get(name, {})
        merged = {**whole, **value} if isinstance(value, dict) else value
        job["case"][name] = {k: v for k, v in merged.items() if v != ""} if isinstance(merged, dict) else merged
    for key in leave_out:
        del job["case"]["injuries"][0][key]
    if "second" in row:
        job["case"]["injuries"].append({**job["case"]["injuries"][0], "id": "B", "station": "270 deg"})
    return job


@pytest.mark.parametrize(("text", "row"), ROWS, ids=[text for text, _ in ROWS])
def test_a_log_is_judged_as_its_text_says(text: str, row: dict[str, Any]) -> None:
    answer = audit(job_of(row), units=SHELF)

    assert answer.sound is {True: True, False: False, "open": None}[row["sound"]], (answer.faults, answer.unstated)
    assert [[fault.name, fault.clause] for fault in answer.faults] == ([row["fault"]] if "fault" in row else [])
    if "unstated" in row:
        assert [one.text for one in answer.unstated] == row["unstated"]


def test_each_outcome_is_there_often_and_each_row_says_what_it_rests_on() -> None:
    counted = Counter(str(row["sound"]) for _, row in ROWS)

    assert min(counted.values()) >= 10
    assert len({text for text, _ in ROWS}) >= 50
    assert all(("fault" in row) == (row["sound"] is False) for _, row in ROWS)
