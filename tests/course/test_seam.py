"""Every word of a lesson is said in the language spoken, or stands in a file that the language has of its own."""

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.course.lessons import HEAD, LESSONS, NAMES, lesson_of, worked
from tests.pages import text_of
from tests.speaking import bracketed, outside
from training.course import Lesson, render
from training.course.lessons import DATA, CourseError, inline_names
from training.course.loader import load_course, modules
from training.course.render import check_lesson
from training.course.texts import spoken, texts
from training.rulebook import edition_names, load_edition
from training.trade.speech import LANGUAGES, in_language, marked, say

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

# read in every language as they stand: letters molded into a sidewall, and the title of a publication
AS_WRITTEN = re.compile(r"\b[A-Z]*\d[\w./-]*[A-Z0-9]\b|\b[A-Z]{1,2}\d\b|\bLT\b|Fleet Maintenance, Patch or plug")
MODULE = 'title = "One"\nsummary = "It."\nskills = ["position"]\nlessons = ["first"]\n'
WORDS = HEAD + "Under the tire lies {limit:injury-size}.\n\n::limit injury-size\n\n::stop\n- It leaks.\n::end\n"


def read_aloud(html: str) -> Iterator[str]:
    """What one reads or hears of a page: its words, without those of drawings, and its labels."""
    yield text_of(re.sub(r"(?s)<svg.*?</svg>", " ", html))
    yield from re.findall(r'(?:aria-label|data-label)="(.*?)"', html)


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
@pytest.mark.parametrize("edition", edition_names())
def test_every_word_of_a_lesson_passes_the_seam(lesson, edition) -> None:
    with bracketed():
        html = render(lesson, edition=load_edition(edition)).html
        said = (str(lesson.title), str(lesson.summary))

    assert [word for text in (*read_aloud(html), *said) for word in outside(AS_WRITTEN.sub("", text))] == []


def test_titles_of_modules_pass_the_seam() -> None:
    with bracketed():
        said = [text for module in modules() for text in (str(module.title), str(module.summary))]

    assert [word for text in said for word in outside(text)] == []


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_every_text_of_a_lesson_is_marked_for_translation(lesson) -> None:
    told = [text for block in lesson.blocks if block.kind not in DATA for _, text in texts(block.body) if text]

    assert {*told, lesson.title, lesson.summary} <= set(marked())
    assert not [text for text in told if text != text.strip() or "\n\n" in text or text.startswith(("#", "- "))]


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_a_text_cut_in_pieces_is_the_same_text(lesson) -> None:
    for block in lesson.blocks:
        assert "".join(before + text for before, text in texts(block.body)) == block.body


@pytest.mark.parametrize("tag", LANGUAGES)
def test_a_translation_keeps_the_limits_and_lessons_that_a_text_names(tag) -> None:
    told = [text for lesson in LESSONS for block in lesson.blocks for _, text in texts(block.body) if "{" in text]
    assert told

    with in_language(tag):
        assert [text for text in told if Counter(inline_names(say(text))) != Counter(inline_names(text))] == []


def test_headings_paragraphs_and_items_are_translated_one_by_one() -> None:
    with bracketed():
        told = spoken("## Cut\n\nFrom inside,\nfirst.\n\n- Slow.\n- {limit:cutter-speed}\n\n1. One.\n2. Two.\n")

    assert told == (
        "## ⟦Cut⟧\n\n⟦From inside,\nfirst.⟧\n\n- ⟦Slow.⟧\n- ⟦{limit:cutter-speed}⟧\n\n1. ⟦One.⟧\n2. ⟦Two.⟧\n"
    )


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_the_version_of_a_lesson_is_the_same_in_every_language(lesson) -> None:
    edition = load_edition("north-america")
    with bracketed():
        other = render(lesson, edition=edition)
    ours = render(lesson, edition=edition)

    assert other.html != ours.html
    assert (other.content_version, other.clauses) == (ours.content_version, ours.clauses)


def loaded(folder: Path, **files: str) -> Lesson:
    """The lesson of a course in a folder: `first` is its text, `en_GB` that of the file which British English has."""
    (folder / "one").mkdir()
    (folder / "course.toml").write_text('modules = ["one"]\n')
    (folder / "one" / "module.toml").write_text(MODULE)
    for name, text in files.items():
        file = "first.md" if name == "first" else f"first.{name.replace('_', '-')}.md"
        (folder / "one" / file).write_text(text)
    ((lesson,),) = (module.lessons for module in load_course(folder))
    return lesson


class TestAFileThatALanguageHasOfItsOwn:
    BRITISH = (
        HEAD.replace('"A title"', '"A heading"').replace("A sentence.", "In short.")
        + "Beneath the tyre there is {limit:injury-size}.\n\n::limit injury-size\n\n::stop\n- Air escapes.\n::end\n"
    )

    def test_is_taken_whole_when_that_language_is_spoken(self, tmp_path) -> None:
        lesson, edition = loaded(tmp_path, first=WORDS, en_GB=self.BRITISH), load_edition("united-kingdom")
        with in_language("en-GB"):
            british = text_of(render(lesson, edition=edition).html)
            head = (str(lesson.title), str(lesson.summary))
        american = text_of(render(lesson, edition=edition).html)

        assert head == ("A heading", "In short.")
        assert (str(lesson.title), str(lesson.summary)) == ("A title", "A sentence.")
        assert "Beneath the tyre there is" in british
        assert "Air escapes." in british
        assert "Under the tire" not in british
        assert "Under the tire lies" in american
        assert "Beneath" not in american

    def test_changes_the_version_of_the_lesson_in_every_language(self, tmp_path) -> None:
        edition = load_edition("united-kingdom")
        lessons = []
        for name, british in (("a", self.BRITISH), ("b", self.BRITISH.replace("Beneath", "Under"))):
            (tmp_path / name).mkdir()
            lessons.append(loaded(tmp_path / name, first=WORDS, en_GB=british))
        versions = [render(lesson, edition=edition).content_version for lesson in lessons]
        with in_language("en-GB"):
            assert versions == [render(lesson, edition=edition).content_version for lesson in lessons]

        assert versions[0] != versions[1]

    def test_is_not_asked_of_a_translator(self, tmp_path) -> None:
        loaded(tmp_path, first=WORDS, en_GB=self.BRITISH)

        assert "Under the tire lies {limit:injury-size}." in marked()
        assert not [text for text in marked() if "Beneath the tyre" in text]

    def test_may_not_be_in_a_language_without_a_catalogue(self, tmp_path) -> None:
        with pytest.raises(CourseError, match=r'one/first\.xx-YY\.md: language: "xx-YY" is not accepted; choose en-GB'):
            loaded(tmp_path, first=WORDS, xx_YY=self.BRITISH)

    def test_of_no_lesson_is_named(self, tmp_path) -> None:
        (tmp_path / "one").mkdir()
        (tmp_path / "one" / "second.en-GB.md").write_text(self.BRITISH)
        (tmp_path / "one" / "first.md").write_text(WORDS)
        (tmp_path / "one" / "module.toml").write_text(MODULE)
        (tmp_path / "course.toml").write_text('modules = ["one"]\n')

        with pytest.raises(CourseError, match=r"lessons: second\.md is not listed"):
            load_course(tmp_path)

    @pytest.mark.parametrize(
        ("change", "message"),
        [
            (("::limit injury-size", "::limit crown-at-tread"), r"line 9: ::limit crown-at-tread: not what stands at"),
            (("::limit injury-size\n", ""), r"line 10: ::stop : not what stands at this place in one/first\.md"),
            (("::end\n", "::end\n\n::limit injury-size\n"), r"first\.en-GB\.md: 3 directives, and 2 in one/first\.md"),
            (("minutes = 5", "minutes = 6"), r"first\.en-GB\.md: minutes: not those of one/first\.md"),
            (('"position"', '"safety"'), r"first\.en-GB\.md: skills: not those of"),
            (("{limit:", "{limt:"), r"one/first\.en-GB\.md, from line 7: \{limt:\.\.\.\} is not known"),
            (("Beneath", "{lesson:second} and"), r"first\.en-GB\.md, from line 7: lesson 'second' is not known"),
        ],
    )
    def test_keeps_to_the_rules_of_the_lesson(self, tmp_path, change, message) -> None:
        with pytest.raises(CourseError, match=message):
            loaded(tmp_path, first=WORDS, en_GB=self.BRITISH.replace(*change))

    def test_is_checked_by_each_edition(self, tmp_path) -> None:
        lesson = loaded(tmp_path, first=WORDS, en_GB=self.BRITISH.replace("{limit:injury-size}", "{limit:injury-sise}"))

        with pytest.raises(CourseError, match=r"one/first\.en-GB\.md, line 7: .*injury-sise"):
            check_lesson(lesson, edition=load_edition("north-america"))

    def test_has_the_worked_examples_of_the_lesson(self, tmp_path) -> None:
        with pytest.raises(CourseError, match=r"line 14: ::worked : not what stands at this place"):
            loaded(tmp_path, first=WORDS + worked("4 mm", "repair"), en_GB=self.BRITISH + worked("5 mm", "repair"))


class TestWhatIsReadUnderOneEditionAlone:
    TEXT = (
        "- For all.\n::only north-america\n- By the states.\n::limit tread-depth\n::end\n"
        "::only united-kingdom\n- By the Crown.\n::end\n- For all again.\n"
    )

    @pytest.mark.parametrize(
        ("edition", "read", "unread"),
        [("north-america", "By the states.", "By the Crown."), ("united-kingdom", "By the Crown.", "By the states.")],
    )
    def test_stands_in_the_lesson_under_that_edition(self, edition, read, unread) -> None:
        lesson = lesson_of(self.TEXT)

        rendered = render(lesson, edition=load_edition(edition))

        assert read in text_of(rendered.html)
        assert unread not in text_of(rendered.html)
        assert "For all." in text_of(rendered.html)
        assert "For all again." in text_of(rendered.html)
        assert ("tread-depth" in rendered.clauses) == (edition == "north-america")

    def test_does_not_break_a_list_in_two(self) -> None:
        lesson = lesson_of(self.TEXT)

        html = render(lesson, edition=load_edition("united-kingdom")).html

        assert html.count("<ul>") == 1
        assert html.count("<li>") == 3

    def test_may_be_a_worked_example_that_the_other_does_not_decide(self) -> None:
        lesson = lesson_of("::only north-america\n" + worked("1/4 in", "repair") + "::end\nWords.\n")

        # US association wall chart: at most 1/4 in; BS AU 159 as summarised: at most 6 mm, and 1/4 in is 6.35 mm
        check_lesson(lesson, edition=load_edition("north-america"))
        check_lesson(lesson, edition=load_edition("united-kingdom"))
        assert "Repair" in text_of(render(lesson, edition=load_edition("north-america")).html)
        assert "nail" not in text_of(render(lesson, edition=load_edition("united-kingdom")).html)

    @pytest.mark.parametrize(
        ("text", "message"),
        [
            ("::only\nWords.\n::end\n", r"line 7: ::only needs a name after it"),
            ("::only north-america\nWords.\n", r"line 7: ::only north-america has no ::end"),
            ("::only north-america\n::only north-america\n::end\n", r"line 8: no ::only may stand inside ::only"),
            ("::only north-america\n::stop\n- It.\n::end\n", r"line 7: ::only north-america has no ::end"),
        ],
    )
    def test_is_opened_and_closed(self, text, message) -> None:
        with pytest.raises(CourseError, match=message):
            lesson_of(text)

    @pytest.mark.parametrize("under", ["north-america", "united-kingdom"])
    def test_is_of_an_edition_that_there_is(self, under) -> None:
        lesson = lesson_of("::only north-amercia\nWords.\n::end\n")

        with pytest.raises(CourseError, match=r"line 8: edition 'north-amercia' is not known; choose .*north-america"):
            check_lesson(lesson, edition=load_edition(under))
