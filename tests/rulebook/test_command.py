"""The command `decide`: what it prints, how it refuses, and that it never shows a traceback."""

import io
import json
import subprocess
import sys
import tracemalloc
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from tests.rulebook.cases import an_examined_case
from tests.rulebook.commands import answer_of
from training.rulebook import vocabulary

GOOD = json.dumps(an_examined_case())
run = partial(answer_of, "decide")


def test_a_case_gives_a_decision(monkeypatch: pytest.MonkeyPatch) -> None:
    status, out, err = run(monkeypatch, GOOD)

    assert (status, err) == (0, "")
    assert json.loads(out)["verdict"] == "repair"


def test_a_file_is_read(tmp_path: Path) -> None:
    path = tmp_path / "case.json"
    path.write_text(GOOD, "utf-8")
    out = io.StringIO()

    call_command("decide", str(path), stdout=out)

    assert json.loads(out.getvalue())["verdict"] == "repair"


def test_the_text_is_for_people(monkeypatch: pytest.MonkeyPatch) -> None:
    status, out, _ = run(monkeypatch, GOOD, "--text")

    assert status == 0
    assert "REPAIR: by the plan below" in out


def test_lines_are_answered_one_by_one_and_a_bad_one_shows_at_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    status, out, _ = run(monkeypatch, f"{GOOD}\n{{}}\n{GOOD}\n", "--lines")

    answers = [json.loads(line) for line in out.splitlines()]
    assert status == 2
    assert [answer.get("verdict") for answer in answers] == ["repair", None, "repair"]
    assert answers[1]["error"][0].startswith("tire.casing: missing")


def test_good_lines_end_well(monkeypatch: pytest.MonkeyPatch) -> None:
    assert run(monkeypatch, f"{GOOD}\n\n{GOOD}", "--lines")[0] == 0


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "case: is not JSON"),
        ("{", "case: is not JSON"),
        ("[]", "case: [] is not a case"),
        ("null", "case: null is not a case"),
        ("{}", "tire.casing: missing"),
        (b"\xff\xfe", "is not UTF-8 text"),
        ('{"tire": {"casing": "passenger"}, "injuries": [{"diameter": NaN}]}', "NaN is not accepted"),
        ('{"tire": {"casing": "passenger"}, "findings": {"bulge": true, "bulge": false}}', '"bulge" is given twice'),
        ("[" * 100_000, "case: is not JSON of a reasonable size"),
        ('{"tire": ' + "9" * 5000 + "}", "case: is not JSON of a reasonable size"),
        (
            '{"tire": {"casing": "passenger"}, "injuries": [{"diameter": 1e999}]}',
            "diameter: inf is not a length",
        ),
        ('{"tire": {"casing": "\\ud800"}}', "tire.casing: "),
    ],
)
def test_what_is_no_case_exits_2_with_a_line_a_problem(
    monkeypatch: pytest.MonkeyPatch, text: str | bytes, words: str
) -> None:
    status, out, err = run(monkeypatch, text)

    assert (status, out) == (2, "")
    assert words in err
    assert "Traceback" not in err
    err.encode("ascii")


def test_two_problems_are_two_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    data = {"tire": {"casing": "passenger"}, "injuries": [{"diameter": "7,5", "zone": "edge"}]}

    _, _, err = run(monkeypatch, json.dumps(data))

    assert err.splitlines() == [
        'injuries[0].diameter: "7,5" is not a length; give a number and a unit, for example "7.5 mm" or "1/4 in"',
        'injuries[0].zone: "edge" is not accepted; choose crown, shoulder, sidewall, bead or doubt',
    ]


def test_a_missing_file_exits_2() -> None:
    err = io.StringIO()

    with pytest.raises(SystemExit) as stop:
        call_command("decide", "no-such-file.json", stderr=err)

    assert stop.value.code == 2
    assert "cannot be read" in err.getvalue()


def test_the_vocabulary_is_printed_in_full() -> None:
    out = io.StringIO()

    call_command("decide", vocabulary=True, stdout=out)

    assert out.getvalue().splitlines() == ["\t".join(entry) for entry in vocabulary()]


@pytest.mark.parametrize("suffix", ["json", "toml"])
def test_units_of_the_shop_are_used(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, suffix: str) -> None:
    path = tmp_path / f"units.{suffix}"
    path.write_text(
        {
            "json": '{"units": [{"name": "ours", "kind": "patch", "length": "60 mm", "width": "55 mm"}]}',
            "toml": '[[unit]]\nname = "ours"\nlength = "60 mm"\nwidth = "55 mm"\n',
        }[suffix],
        "utf-8",
    )

    _, out, _ = run(monkeypatch, GOOD, f"--units={path}")

    assert json.loads(out)["plan"][0]["unit"]["name"] == "ours"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[]", "no repair units in it"),
        ("{", "cannot be read as repair units"),
        ('[{"length": "60 mm"}]', "units[0].width: missing"),
        ('[{"length": "60", "width": "55 mm"}]', 'units[0].length: "60" is not a length'),
        ('[{"length": "60 mm", "width": "55 mm", "kind": "plug"}]', 'units[0].kind: "plug" is not accepted'),
        ('[{"length": "60 mm", "width": "55 mm", "casings": ["car"]}]', "units[0].casings:"),
        ('[{"length": "60 mm", "width": "55 mm", "casings": [["car"]]}]', "units[0].casings:"),
        ('[{"length": "60 mm", "width": "-5 mm"}]', 'units[0].width: "-5 mm" is not above 0'),
        ('[{"length": "60 mm", "width": "55 mm", "brand": "x"}]', "units[0].brand: is not a field"),
    ],
)
def test_wrong_units_exit_2(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "units.json"
    path.write_text(text, "utf-8")

    status, _, err = run(monkeypatch, GOOD, f"--units={path}")

    assert status == 2
    assert words in err


def test_a_stream_takes_constant_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    def lines(number: int) -> bytes:
        return b"".join(
            json.dumps(an_examined_case(injury={"id": f"no {place}", "diameter": f"{1 + place % 197} mm"})).encode()
            + b"\n"
            for place in range(number)
        )

    class Nowhere(io.TextIOBase):
        def write(self, text: str) -> int:
            return len(text)

    def peak(number: int) -> int:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(lines(number))))
        tracemalloc.start()
        call_command("decide", "-", "--lines", stdout=Nowhere())
        most = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        return most

    peak(200)  # fills the caches

    assert peak(900) < peak(300) + 300_000  # half a kilobyte a line, where an answer has several


def test_the_installed_command_exits_with_2_and_without_a_traceback() -> None:
    finished: Any = subprocess.run(
        [sys.executable, "manage.py", "decide", "-"],
        input=b'{"tire": {"casing": "truck"}, "injuries": [{"id": "\xc3\xbc\xf0\x9f\x98\x80", "diameter": 5}]}',
        capture_output=True,
        cwd=Path(__file__).parents[2],
        check=False,
    )

    assert finished.returncode == 2
    assert finished.stderr.decode().startswith("injuries[0].diameter: 5 is not a length")
    assert b"Traceback" not in finished.stderr
