"""Which editions there are: a folder with a header is one; a broken one is named, and the others go on."""

import json
import shutil
from collections.abc import Iterator, Mapping
from io import StringIO
from pathlib import Path

import pytest
from django.core.checks import run_checks
from django.core.management import call_command

from training import course
from training.course.lessons import parse_lesson
from training.rulebook import (
    EDITIONS,
    RulebookError,
    broken_editions,
    decide,
    default_edition,
    edition_names,
    edition_scopes,
    edition_title,
    editions_in,
    load_edition,
)

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

SENTENCE = 'united-kingdom: tread.toml: clause "tread-depth", at_least: 6 is not a length; give a number and a unit'
# no clause of the United Kingdom: 49 CFR 393.75(b), the front wheels of trucks
LESSON = parse_lesson(
    '+++\ntitle = "A title"\nminutes = 5\nskill = "measuring"\nsummary = "A sentence."\n+++\n'
    "In front {limit:tread-depth-steer-axle}.\n",
    module="some-module",
    slug="some-lesson",
)
CAR = {"tire": {"casing": "passenger"}, "on": "2026-11-25"}


@pytest.fixture
def editions(tmp_path: Path) -> Iterator[Path]:
    """The editions that come with the product, in a folder where a test can break them."""
    folder = shutil.copytree(EDITIONS, tmp_path / "editions")
    with editions_in(folder):
        yield folder


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


@pytest.fixture
def broken_clause(editions: Path) -> None:
    change(editions / "united-kingdom" / "tread.toml", 'at_least = ["1.6 mm"]', "at_least = [6]")


@pytest.fixture
def broken_header(editions: Path) -> None:
    change(editions / "united-kingdom" / "edition.toml", 'units = "mm"', 'units = "cm"')


def lines_of_decide(*cases: Mapping[str, object]) -> list[dict[str, object]]:
    out = StringIO()
    text = "\n".join(map(json.dumps, cases))
    path = Path("cases.jsonl")
    path.write_text(text)
    with pytest.raises(SystemExit):
        call_command("decide", str(path), lines=True, stdout=out)
    return [json.loads(line) for line in out.getvalue().splitlines()]


def test_the_editions_that_come_with_the_product_can_all_be_read() -> None:
    assert edition_names() == tuple(sorted(header.parent.name for header in EDITIONS.glob("*/edition.toml")))
    assert set(edition_names()) >= {"north-america", "united-kingdom"}
    assert broken_editions() == {}
    assert default_edition() == "north-america"


def test_scopes_stand_in_the_order_of_their_edition_and_are_unlike_those_of_others() -> None:
    assert [scope.id for scope in edition_scopes("north-america")] == ["north-america-light", "north-america-steel"]
    assert edition_scopes("atlantis") == ()
    assert edition_title("atlantis") == "atlantis"


@pytest.mark.usefixtures("broken_clause")
class TestOneBrokenClause:
    def test_is_named_in_one_sentence_and_the_others_go_on(self) -> None:
        assert list(broken_editions()) == ["united-kingdom"]
        assert broken_editions()["united-kingdom"].startswith(SENTENCE)
        with pytest.raises(RulebookError, match=r"united-kingdom: tread\.toml"):
            load_edition("united-kingdom")
        assert decide(CAR).edition == "north-america"

    def test_is_a_warning_of_the_check_that_stops_no_command(self) -> None:
        (warning,) = [found for found in run_checks(tags=["training"]) if str(found.id).startswith("training.")]

        assert str(warning.msg).startswith(SENTENCE)
        assert not warning.is_serious()

    def test_is_an_answer_of_decide_beside_the_others(self, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
        monkeypatch.chdir(tmp_path)

        bad, good = lines_of_decide({**CAR, "edition": "united-kingdom"}, CAR)

        assert str(bad["error"]).count(SENTENCE) == 1
        assert good["edition"] == "north-america"

    def test_leaves_the_lists_of_editions_and_of_values_from_memory_to_the_others(self) -> None:
        for command in (("edition", "list"), ("decide", "--from-memory")):
            out, errors = StringIO(), StringIO()

            call_command(*command, stdout=out, stderr=errors)

            listed = {line.partition("\t")[0].partition("@")[0] for line in out.getvalue().splitlines()}
            assert "north-america" in listed
            assert "united-kingdom" not in listed
            assert errors.getvalue().count(SENTENCE) == 1

    def test_leaves_the_lessons_of_the_others(self) -> None:
        course.check(load_edition("north-america"))


@pytest.mark.usefixtures("broken_header")
class TestABrokenHeader:
    def test_takes_the_edition_out_and_says_why(self, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
        monkeypatch.chdir(tmp_path)

        bad, good = lines_of_decide({**CAR, "edition": "united-kingdom"}, CAR)

        assert "north-america" in edition_names()
        assert "united-kingdom" not in edition_names()
        assert bad["error"] == ['edition: united-kingdom: edition.toml: units: "cm" is not accepted; choose in or mm']
        assert good["edition"] == "north-america"


def test_a_broken_default_edition_is_an_error_of_the_check_and_the_others_go_on(editions: Path) -> None:
    change(editions / "north-america" / "tread.toml", "[[clause]]", "[[clause")

    (error,) = [found for found in run_checks(tags=["training"]) if found.is_serious()]

    assert str(error.msg).startswith("north-america: tread.toml: is not TOML")
    assert decide({**CAR, "edition": "united-kingdom"}).edition == "united-kingdom"
    british = load_edition("united-kingdom")
    course.check(british)
    page = course.render(LESSON, edition=british, prefer="mm").html
    assert "In front a limit of the rulebook of North America, which cannot be read now." in page


def test_an_edition_that_lost_its_header_is_named_and_the_lessons_of_the_others_go_on(editions: Path) -> None:
    (editions / "united-kingdom" / "edition.toml").unlink()

    assert broken_editions()["united-kingdom"].startswith("united-kingdom: edition.toml: is not TOML: [Errno 2]")
    course.check(load_edition("north-america"))


def test_without_a_default_edition_the_others_go_on(editions: Path) -> None:
    change(editions / "north-america" / "edition.toml", "default = true", "default = yes")
    british = load_edition("united-kingdom")

    with pytest.raises(RulebookError, match="default: no edition says it is the default one: north-america: edition"):
        default_edition()
    assert decide({**CAR, "edition": "united-kingdom"}).edition == "united-kingdom"
    course.check(british)
    page = course.render(LESSON, edition=british, prefer="mm").html
    assert "In front a limit of the rulebook that the lessons were written for, which cannot be read now." in page


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("deep = " + "[" * 100_000, "tread.toml: is not TOML: maximum recursion depth exceeded"),
        ("long = " + "1" * 5000, "tread.toml: is not TOML: Exceeds the limit"),
        ("\ufeff[[clause]]", "tread.toml: is not TOML: Invalid statement"),
    ],
)
def test_a_file_that_python_cannot_take_in_is_named(editions: Path, text: str, message: str) -> None:
    (editions / "united-kingdom" / "tread.toml").write_text(text)

    assert broken_editions()["united-kingdom"].startswith(f"united-kingdom: {message}")


def test_the_commands_that_need_a_broken_edition_say_so_in_one_sentence(broken_clause: None) -> None:
    del broken_clause
    errors = StringIO()

    with pytest.raises(SystemExit):
        call_command("audit", vocabulary=True, edition="united-kingdom", stderr=errors)
    assert errors.getvalue().startswith(SENTENCE)
    assert errors.getvalue().count("\n") == 1


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('name = "united-kingdom"', 'name = "atlantis"', 'name: "atlantis" stands in a folder of "united-kingdom"'),
        ('units = "mm"', 'units = "mm"\ndefault = true', 'default: true is not accepted; "north-america" is'),
        ("united-kingdom-light", "north-america-light", 'is not accepted; it is a scope of "north-america"'),
        ('"passenger", "light-truck-fabric"]\n\n', '"bicycle"]\n\n', 'scope, casings: "bicycle" is not accepted'),
        ("[worked]\n", '[worked]\n"A tire" = "maybe"\n', 'worked, A tire: "maybe" is not accepted; choose accept'),
    ],
)
def test_what_does_not_go_beside_the_others_is_named(editions: Path, old: str, new: str, message: str) -> None:
    change(editions / "united-kingdom" / "edition.toml", old, new)

    assert message in broken_editions()["united-kingdom"]


def test_a_worked_example_that_no_lesson_has_is_named(editions: Path) -> None:
    change(editions / "united-kingdom" / "edition.toml", "[worked]\n", '[worked]\n"A tire" = "refer"\n')

    (warning,) = run_checks(tags=["training"])

    assert 'united-kingdom: worked: "A tire" is no worked example of the lessons' in str(warning.msg)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('"195/65R15 91H"', '"round"', 'size "round", designation: is not the size of a tire'),
        ('"152 mm"', '"15.2 mm"', 'size "195/65R15 91H", tread_width: "15.2 mm" is not accepted; give whole'),
        ('casing = "passenger"', 'casing = "bicycle"', 'casing: "bicycle" is not accepted; choose passenger'),
        ("[\n", "[\n    5,\n", "size number 1: 5 is not accepted; give a table"),
    ],
)
def test_a_wrong_size_is_named(editions: Path, old: str, new: str, message: str) -> None:
    change(editions / "north-america" / "sizes.toml", old, new)

    assert message in broken_editions()["north-america"]
