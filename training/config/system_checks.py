"""What must fit before the site starts: every edition can be read, and every lesson printed under it."""

from django.core.checks import CheckMessage, Error, Warning

from training import course
from training.course import CourseError
from training.rulebook import RulebookError, broken_editions, default_edition, edition_names, load_edition

_HINT = "Correct the file that the message names."


def lessons_fit_the_rulebook() -> list[CheckMessage]:
    """One message for each edition that cannot be read, or under which a lesson cannot be printed.

    It is an error for the default edition. For another it is a warning, so that its shops alone are without a rulebook.
    """
    problems = dict(broken_editions())
    for name in edition_names():
        if name not in problems:
            try:
                course.check(load_edition(name))
            except CourseError as problem:
                problems[name] = f"{name}: {problem}"
    try:
        home = default_edition()
    except RulebookError as problem:
        return [Error(str(problem), hint=_HINT, id="training.E001")]
    return [
        Error(problem, hint=_HINT, id="training.E001")
        if name == home
        else Warning(problem, hint=_HINT, id="training.W001")
        for name, problem in problems.items()
    ]
