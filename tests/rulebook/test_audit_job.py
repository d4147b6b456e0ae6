"""Input that is not a job: each problem names the field, the value and what is accepted."""

from typing import Any

import pytest

from tests.rulebook.jobs import a_job, a_log
from training.rulebook import JobError, job_vocabulary, load_edition, parse_job

CASE = {"tire": {"casing": "passenger"}, "injuries": [{"id": "A", "diameter": "5 mm"}]}


def problems_of(data: Any) -> tuple[str, ...]:
    with pytest.raises(JobError) as refused:
        parse_job(data)
    return refused.value.problems


def with_step(**step: Any) -> dict[str, Any]:
    return {"case": CASE, "steps": [step]}


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ([], "job: [] is not a job; give an object with case, edition or steps"),
        ({"case": CASE}, 'steps: missing; give a list of steps such as [{"step": "deflate"}]'),
        ({"case": CASE, "steps": {}}, 'steps: {} is not accepted; give a list of steps such as [{"step": "deflate"}]'),
        ({"steps": []}, 'case: missing; give the tire as found, with at least {"tire": {"casing": ...}}'),
        ({"case": 5, "steps": []}, 'case: 5 is not a case; give an object with at least {"tire": {"casing": ...}}'),
        ({"case": CASE, "steps": [], "by": "me"}, "by: is not a field; the fields here are case, edition, steps"),
        (
            {"edition": "mars", "case": CASE, "steps": []},
            'edition: "mars" is not accepted; choose north-america or united-kingdom',
        ),
        (
            {"edition": "north-america", "case": {**CASE, "edition": "united-kingdom"}, "steps": []},
            'case.edition: "united-kingdom" is not the job\'s edition "north-america"; give one of them',
        ),
        (
            {"case": {"tire": {"casing": "passenger"}, "injuries": [{"diameter": "7,5"}]}, "steps": []},
            'case.injuries[0].diameter: "7,5" is not a length; give a number and a unit, for example "7.5 mm" or '
            '"1/4 in"',
        ),
        (
            {"case": CASE, "steps": ["buff"]},
            'steps[0]: "buff" is not a step; give an object such as {"step": "deflate"}',
        ),
        (
            with_step(step="buff", speed="fast"),
            'steps[0].speed: "fast" is not a turning speed; give a number and a unit, for example "1200 rpm"',
        ),
        (
            with_step(step="buff", speed=5000),
            'steps[0].speed: 5000 is not a turning speed; give a number and a unit, for example "1200 rpm"',
        ),
        (with_step(step="buff", speed="-5 rpm"), 'steps[0].speed: "-5 rpm" is below 0; a speed here is 0 or more'),
        (
            with_step(step="dry", time="4"),
            'steps[0].time: "4" is not a time; give a number and a unit, for example "4 min"',
        ),
        (with_step(step="dry", humidity="120 %"), 'steps[0].humidity: "120 %" is above 100 %; give 0 % to 100 %'),
        (
            with_step(step="clean-liner", times=2.5),
            'steps[0].times: 2.5 is not a count; give a whole number from 0 to 1000, for example 3 or "3 times"',
        ),
        (
            with_step(step="brush", times=-1),
            'steps[0].times: -1 is not a count; give a whole number from 0 to 1000, for example 3 or "3 times"',
        ),
        (
            with_step(step="remove-damage", passes=True),
            'steps[0].passes: true is not a count; give a whole number from 0 to 1000, for example 3 or "3 passes"',
        ),
        (
            with_step(step="remove-damage", direction="left"),
            'steps[0].direction: "left" is not accepted; choose clockwise or counterclockwise',
        ),
        (
            with_step(step="stitch", direction="clockwise"),
            'steps[0].direction: "clockwise" is not accepted; choose from the center outward or from the edge inward',
        ),
        (
            with_step(step="stitch", strokes=4),
            "steps[0].strokes: is not a field; the fields here are direction, injury, note, step, tool",
        ),
        (
            with_step(step="probe", injury="B"),
            'steps[0].injury: "B" is not an injury of the case; choose A',
        ),
        (
            with_step(step="measure-injury", angle="95 deg"),
            'steps[0].angle: "95 deg" is not accepted; give the angle from the perpendicular, '
            "0° to less than 90°",
        ),
        (
            with_step(step="measure-prepared", size="0 mm"),
            'steps[0].size: "0 mm" is not above 0; a length here is more than 0',
        ),
        (with_step(step="probe", note="x" * 401), None),
        (with_step(step="mark", tool="laser gun"), None),
    ],
)  # fmt: skip
def test_what_is_not_a_job_is_refused_in_words(data: Any, words: str | None) -> None:
    (problem,) = problems_of(data)

    if words is None:
        assert problem.startswith(("steps[0].note: ", "steps[0].tool: "))
        assert "; give a text of at most 400 characters" in problem or "; choose soapy water, " in problem
    else:
        assert problem == words


def test_an_unknown_step_is_refused_with_all_accepted_names() -> None:
    (problem,) = problems_of(with_step(step="polish"))

    assert problem.startswith('steps[0].step: "polish" is not a step; choose deflate, demount, inspect, ')
    assert all(step["step"] in problem for method in ("two-piece", "one-piece") for step in a_log(method))


def test_all_problems_are_told_at_once() -> None:
    log = [{"step": "buff", "speed": 1}, {"stepp": "x"}, None]

    problems = problems_of({"edition": 3, "case": {"tire": {}}, "steps": log})

    assert [line.partition(":")[0] for line in problems] == [
        "edition", "case.tire.casing", "steps[0].speed", "steps[1].step", "steps[2]"
    ]  # fmt: skip


def test_a_log_of_more_lines_than_any_repair_has_is_refused() -> None:
    (problem,) = problems_of({"case": CASE, "steps": [{"step": "probe"}] * 101})

    assert problem == "steps: 101 entries are not accepted; give at most 100"


def test_the_vocabulary_names_every_word_that_is_accepted() -> None:
    rows = job_vocabulary(load_edition("north-america"))

    named = {field: [word for other, word, _ in rows if other == field] for field, _, _ in rows}
    assert {step["step"] for step in [*a_log(), *a_log("one-piece")]} <= set(named["steps[].step"])
    for step in [*a_log(), *a_log("one-piece")]:
        for key in set(step) - {"step"}:
            assert named[f"{step['step']}.{key}"]
    assert named["remove-damage.from"] == ["inside", "outside"]
    assert all(meaning for _, _, meaning in rows)


def test_each_word_of_the_vocabulary_is_accepted_where_it_is_named() -> None:
    for field, word, _ in job_vocabulary(load_edition("north-america")):
        step, _, key = field.partition(".")
        if key and not step.startswith(("(", "steps")) and not word.startswith("give "):
            parse_job(with_step(step=step, **{key: word}))


def test_a_job_may_name_its_edition_once() -> None:
    assert parse_job({**a_job(a_log()), "edition": None}).edition.name == "north-america"
    job = {"case": {**CASE, "edition": "united-kingdom"}, "steps": []}
    assert parse_job(job).edition.name == "united-kingdom"
