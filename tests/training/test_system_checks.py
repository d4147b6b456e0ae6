"""The site does not start with a lesson that the rulebook cannot print."""

import pytest
from django.core.checks import run_checks

from training import course
from training.config.system_checks import lessons_fit_the_rulebook
from training.course import CourseError


def test_all_lessons_fit_all_editions() -> None:
    assert lessons_fit_the_rulebook() == []


def test_a_lesson_naming_an_unknown_clause_stops_the_start(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(edition: object) -> None:
        raise CourseError('measure-and-choose/angle-and-method.md, line 9: clause "no-such" is not known')

    monkeypatch.setattr(course, "check", refuse)

    errors = [found for found in run_checks(tags=["training"]) if found.id == "training.E001"]

    assert errors
    assert 'angle-and-method.md, line 9: clause "no-such" is not known' in errors[0].msg
    assert errors[0].is_serious()
