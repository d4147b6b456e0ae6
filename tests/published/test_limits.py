"""What the texts allow just inside a limit and refuse just outside it, row by row; `limits.toml` has them, by hand.

Each row has the sentence of its source in plain words, and values on both sides: as far apart as the source measures,
or, where no source gives a figure, what is ordinary and what is beyond doubt.
"""

import tomllib
from collections.abc import Iterable, Mapping
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from tests.published.test_logs import TRUCK, TRUCK_CASE
from tests.rulebook.cases import decide_as_told
from tests.rulebook.jobs import a_job, a_log
from training.rulebook import MEASURES, audit, load_edition, parse_quantity
from training.rulebook.measures import Found
from training.rulebook.ruling import rule_on

EDITIONS = ("north-america", "united-kingdom")
TABLES: dict[str, Any] = tomllib.loads(Path(__file__).with_name("limits.toml").read_text("utf-8"))
SOURCES: dict[str, str] = TABLES["sources"]
UNSAID = "unsaid"
GROUPS: dict[str, list[str]] = TABLES["groups"]
# what the British standard says of these was not read: none is repaired there
NOT_REPAIRED = {("united-kingdom", "truck"), ("united-kingdom", "motorcycle")}
SLOWLY = {"remove_damage": {"speed": "600 rpm", "passes": 5}}


def rows(table: str) -> list[Any]:
    """Each row of a table, once for each edition and casing that it is about."""
    return [
        pytest.param(row, edition, casing, id=f"{row['says']} ({edition}, {casing})")
        for row in TABLES["rows"].get(table, ())
        for edition in several(row.get("edition", EDITIONS))
        for casing in casings_of(row)
    ]


def casings_of(row: Mapping[str, Any]) -> list[str]:
    named = row.get("casings", "passenger")
    return GROUPS.get(named, [named]) if isinstance(named, str) else named


def several(value: Any) -> list[Any]:
    return list(value) if isinstance(value, list | tuple) else [value]


# --- what a log of the work says


def log_for(row: Mapping[str, Any], casing: str) -> list[dict[str, Any]]:
    """A sound log of the work on this casing, with what the row takes for granted."""
    spoken = TRUCK if casing == "truck" else SLOWLY if casing in GROUPS["steel"] else {}
    log = a_log(row.get("log", "two-piece"), **spoken)
    return [{**step, **row.get("with", {}).get(step["step"], {})} for step in log]


def faults_of(row: Mapping[str, Any], edition: str, casing: str, value: object) -> list[str]:
    """The steps with which something is wrong, besides that this tire may not be for this bench."""
    log = log_for(row, casing)
    log = [{**step, row["key"]: value} if step["step"] == row["step"] else step for step in log]
    case = {**TRUCK_CASE, "casing": casing} if casing == "truck" else {"casing": casing}
    job = a_job(log, **{**case, **row.get("case", {})})
    answer = audit({**job, "edition": edition})
    return [fault.name for fault in answer.faults if fault.fault != "not-repairable"]


@pytest.mark.parametrize(("row", "edition", "casing"), rows("work"))
def test_the_work_keeps_to_what_the_text_says(row: dict[str, Any], edition: str, casing: str) -> None:
    for value in several(row["holds"]):
        assert faults_of(row, edition, casing, value) == [], value
    for value in several(row["fails"]):
        assert faults_of(row, edition, casing, value) == [row.get("fault", row["step"])], value


# --- what lessons and job cards print, and no log states


def keeps(edition: str, quantity: str, casing: str, value: str) -> bool:
    """Does a value keep to everything that the rulebook says of a quantity for a casing? Something must speak of it."""
    dimension = MEASURES[quantity].dimension
    found = Found(value, parse_quantity(value, dimension)) if dimension else Found(value, word=value)
    rulings = [
        rule_on(clause, found, None, "shop")
        for clause in load_edition(edition).clauses_on(quantity)
        if casing in clause.casings
    ]
    assert rulings, f"nothing in {edition} speaks of {quantity} for {casing}"
    return all(ruling is not None and ruling.holds for ruling in rulings)


@pytest.mark.parametrize(("row", "edition", "casing"), rows("shop"))
def test_the_shop_is_told_what_the_text_says(row: dict[str, Any], edition: str, casing: str) -> None:
    for value in several(row["holds"]):
        assert keeps(edition, row["quantity"], casing, value), value
    for value in several(row["fails"]):
        assert not keeps(edition, row["quantity"], casing, value), value


# --- the tire


def put(case: dict[str, Any], path: str, value: object) -> None:
    """Say one thing of a case: `injuries.0.angle`, `position.axle`; UNSAID leaves it unsaid."""
    if value == UNSAID:
        return
    *way, last = path.split(".")
    whole: Any = case
    for name in way:
        whole = whole[int(name)] if name.isdigit() else whole.setdefault(name, {})
    whole[last] = value


def case_of(row: Mapping[str, Any], edition: str, casing: str, value: object) -> dict[str, Any]:
    """The tire that a row is about, with one value for what the row is about."""
    case: dict[str, Any] = {"on": "2026-11-25", "edition": edition, "purpose": "service"}
    case |= deepcopy({**(TABLES["bench"] if row.get("bench") else {}), **row.get("with", {})})
    case["tire"] = {**case.get("tire", {}), "casing": casing}
    put(case, row["at"], value)
    return case


def milder(row: Mapping[str, Any]) -> str:
    """What becomes of the tire just inside: a puncture is repaired, a sound tire runs."""
    return str(row.get("else", "repair" if row.get("bench") else "accept"))


@pytest.mark.parametrize(("row", "edition", "casing"), rows("tire"))
def test_a_tire_is_judged_as_the_text_says(row: dict[str, Any], edition: str, casing: str) -> None:
    inside = [decide_as_told(case_of(row, edition, casing, value)) for value in several(row["holds"])]
    outside = [decide_as_told(case_of(row, edition, casing, value)) for value in several(row["fails"])]

    assert [one.verdict for one in inside] == [milder(row)] * len(inside)
    assert [one.verdict for one in outside] == [row["verdict"]] * len(outside)


@pytest.mark.parametrize(("row", "edition", "casing"), rows("told"))
def test_somebody_is_told_what_the_text_asks_to_be_done(row: dict[str, Any], edition: str, casing: str) -> None:
    """The verdict is the same on both sides, and beyond the limit it comes with something to do."""
    inside = [decide_as_told(case_of(row, edition, casing, value)) for value in several(row["holds"])]
    outside = [decide_as_told(case_of(row, edition, casing, value)) for value in several(row["fails"])]

    before = {text for one in inside for text in one.conditions}
    assert {one.verdict for one in [*inside, *outside]} == {milder(row)}
    for one in outside:
        more = [text for text in one.conditions if text not in before]
        assert any(row["tells"] in text for text in more), one.conditions
    assert not any(row["tells"] in text for text in before)


@pytest.mark.parametrize(("row", "edition", "casing"), rows("finding"))
def test_what_is_found_is_judged_as_the_text_says(row: dict[str, Any], edition: str, casing: str) -> None:
    for purpose in ("repair", "service", "fit-used"):
        if purpose == "repair" and (edition, casing) in NOT_REPAIRED:
            continue
        given = {"injuries": [], **row.get("with", {}), "purpose": purpose}
        for slug in row["found"]:
            about = {"with": given, "at": f"findings.{slug}"}
            found, not_found = (decide_as_told(case_of(about, edition, casing, is_so)) for is_so in (True, False))
            assert (purpose, slug, found.verdict) == (purpose, slug, row[purpose])
            assert (purpose, slug, not_found.verdict) == (purpose, slug, "accept")


@pytest.mark.parametrize(("row", "edition", "casing"), rows("method"))
def test_a_method_is_planned_where_the_text_allows_it(row: dict[str, Any], edition: str, casing: str) -> None:
    def methods(value: object) -> Iterable[str]:
        plan = decide_as_told(case_of({**row, "bench": True}, edition, casing, value)).plan
        assert plan
        return plan[0].methods_allowed

    assert all(row["method"] in methods(value) for value in several(row["holds"]))
    assert not any(row["method"] in methods(value) for value in several(row["fails"]))


@pytest.mark.parametrize(("row", "edition", "casing"), rows("disputed"))
def test_where_texts_disagree_the_answer_says_so(row: dict[str, Any], edition: str, casing: str) -> None:
    """Between two statements the stricter decides, and the ruling says that another would not."""

    def is_between(value: object) -> bool:
        rulings = decide_as_told(case_of(row, edition, casing, value)).rulings
        about = [ruling for ruling in rulings if ruling.subject == row.get("about", ruling.subject)]
        return any(ruling.between_statements for ruling in about)

    assert [is_between(value) for value in several(row["disputed"])] == [True] * len(several(row["disputed"]))
    assert [is_between(value) for value in several(row["settled"])] == [False] * len(several(row["settled"]))


def test_each_row_names_a_source_that_stands_at_the_head_and_each_source_has_a_row() -> None:
    named = {source for table in TABLES["rows"].values() for row in table for source in several(row["source"])}

    assert named == set(SOURCES)
