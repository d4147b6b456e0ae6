"""The command `audit`: what it prints, how it refuses, and that it never shows a traceback."""

import io
import json
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest
from django.core.management import call_command

from tests.rulebook.commands import answer_of
from tests.rulebook.jobs import SOUND, a_job, a_log

GOOD = json.dumps(a_job(a_log()))
FAULTY = json.dumps(a_job(a_log(remove_damage={"speed": "1500 rpm"})))
run = partial(answer_of, "audit")


def test_a_sound_job_is_answered_with_nothing_but_that(monkeypatch: pytest.MonkeyPatch) -> None:
    status, out, err = run(monkeypatch, GOOD)

    assert (status, err) == (0, "")
    assert json.loads(out) == SOUND


def test_a_faulty_job_is_an_answer_too(monkeypatch: pytest.MonkeyPatch) -> None:
    status, out, err = run(monkeypatch, FAULTY)

    (fault,) = json.loads(out)["faults"]
    assert (status, err) == (0, "")
    assert (fault["step"], fault["clause"]) == (8, "cutter-speed")


def test_the_text_is_for_people(monkeypatch: pytest.MonkeyPatch) -> None:
    _, sound, _ = run(monkeypatch, GOOD, "--text")
    _, faulty, _ = run(monkeypatch, FAULTY, "--text")

    assert "SOUND: everything that matters is written down" in sound
    assert "NOT SOUND: 1 fault\n" in faulty
    assert (
        "Line 8, Cut the damage out, cutter speed: not as required. Found: 1,500 rpm. Accepted: at most 1,200 rpm."
        in faulty
    )
    assert "does not go back on the road" in faulty


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "job: is not JSON: Expecting value at line 1, column 1"),
        ("[]", "job: [] is not a job; give an object with case, edition or steps"),
        ('{"case": 1, "case": 2}', 'job: "case" is given twice in one object; give it once'),
        ('{"case": NaN}', "job: NaN is not accepted; give quantities as text with their unit"),
        (b'{"case": "\xff"}', "job: byte 10 is not UTF-8 text; give JSON in UTF-8"),
        ("[" * 100_000, "job: is not JSON of a reasonable size; give one object with at most a few levels"),
    ],
)
def test_what_is_not_a_job_is_refused_in_one_line(
    monkeypatch: pytest.MonkeyPatch, text: str | bytes, words: str
) -> None:
    assert run(monkeypatch, text) == (2, "", f"{words}\n")


def test_each_problem_has_its_line(monkeypatch: pytest.MonkeyPatch) -> None:
    job = {"case": {"tire": {"casing": "cart"}}, "steps": [{"step": "buff", "speed": 5}, {"step": "sing"}]}

    status, out, err = run(monkeypatch, json.dumps(job))

    assert (status, out) == (2, "")
    assert [line.partition(":")[0] for line in err.splitlines()] == [
        "case.tire.casing", "steps[0].speed", "steps[1].step"
    ]  # fmt: skip


def test_a_job_without_a_day_is_audited_as_of_today(monkeypatch: pytest.MonkeyPatch) -> None:
    job = a_job(a_log())
    del job["case"]["on"]

    assert run(monkeypatch, json.dumps(job))[0] == 0


def test_files_that_cannot_be_read_are_named(tmp_path: Path) -> None:
    for name, options in ((str(tmp_path / "none.json"), ()), (str(tmp_path), ())):
        err = io.StringIO()
        with pytest.raises(SystemExit) as stop:
            call_command("audit", name, *options, stderr=err)
        assert stop.value.code == 2
        assert err.getvalue().startswith(f'job: "{name}" cannot be read: ')


def test_the_shops_own_units_are_read(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    path = tmp_path / "units.json"
    path.write_text("{}", "utf-8")

    status, _, err = run(monkeypatch, GOOD, "--units", str(path))

    assert (status, err.partition(":")[0]) == (2, "units.json")


def test_the_vocabulary_is_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    status, out, _ = run(monkeypatch, "", "--vocabulary")

    assert status == 0
    assert "remove-damage.direction\tclockwise\tTurning direction of the cutter.\n" in out


def test_the_command_runs_by_itself_without_a_database() -> None:
    done = subprocess.run(
        [sys.executable, "manage.py", "audit", "-"], input=FAULTY, capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["sound"] is False
