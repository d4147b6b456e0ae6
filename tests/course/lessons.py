"""Lessons for tests: all there are, and a small one with what the test is about written in."""

from training.course import Lesson, render
from training.course.lessons import parse_lesson
from training.course.loader import modules
from training.rulebook import Edition

LESSONS = [lesson for module in modules() for lesson in module.lessons]
NAMES = [lesson.key for lesson in LESSONS]
HEAD = '+++\ntitle = "A title"\nminutes = 5\nskill = "position"\nsummary = "A sentence."\n+++\n'


def lesson_of(text: str) -> Lesson:
    """A lesson that says this."""
    return parse_lesson(HEAD + text, module="some-module", slug="some-lesson")


def html_of(text: str, edition: Edition) -> str:
    """The same as its page shows it."""
    return render(lesson_of(text), edition=edition).html


def worked(diameter: str, expect: str, *, figure: str = "none") -> str:
    """A worked example of a nail hole this wide, mid-crown in a passenger tire; the text counts on this verdict."""
    return f"""::worked
title = "A nail in the middle"
figure = "{figure}"
expect = "{expect}"
[case]
on = "2026-11-25"
purpose = "repair"
on_wheel = false
injuries = [{{ id = "A", kind = "puncture", diameter = "{diameter}", angle = "0 deg", lateral = "0 mm" }}]
[case.tire]
casing = "passenger"
outer_groove = "56 mm"
crown_thickness = "13 mm"
::end
"""
