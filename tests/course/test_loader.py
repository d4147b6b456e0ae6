"""A lesson file that is wrong is refused with file, line, and what is accepted."""

from pathlib import Path

import pytest

from tests.course.lessons import HEAD
from training.course import Lesson
from training.course.lessons import CourseError, parse_lesson
from training.course.loader import UnknownLesson, lesson, load_course, modules


def read(text: str) -> Lesson:
    return parse_lesson(text, module="some-module", slug="some-lesson")


def test_a_lesson_is_read_into_blocks_with_their_lines() -> None:
    found = read(HEAD + "Some words.\n\n::limit injury-size\n\n::stop\n- cord shows\n::end\n\nMore words.\n")

    assert [(block.kind, block.line) for block in found.blocks] == [
        ("text", 7),
        ("limit", 9),
        ("stop", 11),
        ("text", 14),
    ]
    assert found.blocks[1].argument == "injury-size"
    assert found.blocks[2].body == "- cord shows"
    assert (found.title, found.minutes, found.skill, found.key) == ("A title", 5, "position", "some-module/some-lesson")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("Some words.", r"some-module/some-lesson\.md, line 1: a lesson opens with TOML between two lines of \+\+\+"),
        ("+++\ntitle = \n+++\n", r"some-lesson\.md: the TOML at the top cannot be read"),
        (HEAD.replace("minutes = 5", "minutes = 0"), r"minutes: 0 is not accepted; give a whole number from 1 to 30"),
        (HEAD.replace("minutes = 5", "minutes = true"), r"minutes: True is not accepted"),
        (
            HEAD.replace("position", "driving"),
            r'skill: "driving" is not accepted; choose rejecting-conditions, size-limits,',
        ),
        (
            HEAD.replace("summary =", "teaser ="),
            r"teaser: is not a field; the fields here are also, minutes, skill, summary, title",
        ),
        (HEAD.replace('"A title"', '" "'), r'title: " " is not accepted; give a text'),
        (HEAD + "\n# A heading\n", r"line 8: the page has its heading; start headings with ##"),
        (HEAD + "::limt injury-size\n", r"line 7: ::limt is not known; choose ::limit, ::figure"),
        (HEAD + "::Limit injury-size\n", r"line 7: '::Limit injury-size' is not a directive; choose ::limit, ::figure"),
        (HEAD + "::limit\n", r"line 7: ::limit needs a name after it"),
        (HEAD + "::stop\n- a\n", r"line 7: ::stop has no ::end"),
        (HEAD + "::stop\n::end\n", r"line 7: ::stop is empty"),
        (HEAD + "::stop\n- a\n::limit injury-size\n::end\n", r"line 9: no directive may stand inside ::stop"),
        (HEAD + "::end\n", r"line 7: ::end is not known"),
        (HEAD + "Holes of {limt:injury-size}.\n", r"from line 7: \{limt:\.\.\.\} is not known; choose limit or lesson"),
    ],
)
def test_a_mistake_in_a_lesson_is_named(text, message) -> None:
    with pytest.raises(CourseError, match=message):
        read(text)


def write_course(folder: Path, *, module_toml: str, lessons: dict[str, str]) -> None:
    (folder / "course.toml").write_text('modules = ["one"]\n')
    (folder / "one").mkdir()
    (folder / "one" / "module.toml").write_text(module_toml)
    for slug, text in lessons.items():
        (folder / "one" / f"{slug}.md").write_text(text)


MODULE = 'title = "One"\nsummary = "It."\nskills = ["position"]\nlessons = ["first"]\n'


def test_a_course_folder_is_read_in_its_own_order(tmp_path) -> None:
    listed = MODULE.replace('["first"]', '["zebra", "apple"]')
    write_course(tmp_path, module_toml=listed, lessons={"apple": HEAD + "Words.", "zebra": HEAD + "Words."})

    (only,) = load_course(tmp_path)

    assert [found.slug for found in only.lessons] == ["zebra", "apple"]
    assert only.minutes == 10


def test_a_module_about_some_casings_is_for_who_works_on_one_of_them(tmp_path) -> None:
    about = MODULE + 'casings = ["light-truck-steel", "truck"]\n'
    write_course(tmp_path, module_toml=about, lessons={"first": HEAD + "Words."})

    (only,) = load_course(tmp_path)

    assert only.casings == only.lessons[0].casings == ("light-truck-steel", "truck")
    assert only.is_for(["truck"])
    assert not only.is_for(["passenger", "light-truck-fabric"])
    assert not only.is_for([])


def test_a_module_that_names_no_casings_is_for_everybody(tmp_path) -> None:
    write_course(tmp_path, module_toml=MODULE, lessons={"first": HEAD + "Words."})

    (only,) = load_course(tmp_path)

    assert only.casings == ()
    assert only.is_for(["motorcycle"])
    assert only.is_for([])


@pytest.mark.parametrize(
    ("module_toml", "lessons", "message"),
    [
        (MODULE, {}, r"one/first\.md: there is no such file; write it, or take it out of module\.toml"),
        (MODULE, {"first": HEAD, "second": HEAD}, r"one/module\.toml: lessons: second\.md is not listed"),
        (MODULE.replace("position", "safety"), {"first": HEAD}, r"skills: position must be listed here and taught"),
        (MODULE.replace('"first"', '"../first"'), {}, r'lessons: "\.\./first" is not accepted; give a name of small'),
        (MODULE.replace('["first"]', '"first"'), {}, r'lessons: "first" is not accepted; give a list of texts'),
        (
            MODULE + 'casings = ["steel"]\n',
            {"first": HEAD},
            r'one/module\.toml: casings: "steel" is not accepted; choose passenger, light-truck-fabric',
        ),
        (MODULE + "casings = []\n", {"first": HEAD}, r"casings: \[\] is not accepted; give a list of texts"),
        (MODULE, {"first": HEAD + "See {lesson:second}."}, r"one/first\.md, from line 7: lesson 'second' is not known"),
    ],
)
def test_a_mistake_in_a_module_is_named(tmp_path, module_toml, lessons, message) -> None:
    write_course(tmp_path, module_toml=module_toml, lessons=lessons)

    with pytest.raises(CourseError, match=message):
        load_course(tmp_path)


def test_a_lesson_is_found_by_its_names_and_another_name_is_refused() -> None:
    first = modules()[0]

    assert lesson(first.slug, first.lessons[0].slug) is first.lessons[0]
    with pytest.raises(UnknownLesson, match=r"'no-such' is not in inspect-and-reject; choose off-the-wheel,"):
        lesson(first.slug, "no-such")
    with pytest.raises(UnknownLesson, match=r"module: 'no-such' is not known; choose inspect-and-reject,"):
        lesson("no-such", "off-the-wheel")
