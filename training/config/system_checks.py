"""What must fit before the site starts: every lesson under every edition."""

from django.core.checks import CheckMessage, Error

from training import course
from training.course import CourseError
from training.rulebook import RulebookError, edition_names, load_edition


def lessons_fit_the_rulebook() -> list[CheckMessage]:
    """One error for each edition that cannot be read, or under which a lesson cannot be printed."""
    found: list[CheckMessage] = []
    for name in edition_names():
        try:
            course.check(load_edition(name))
        except (CourseError, RulebookError) as problem:
            hint = "Correct the file that the message names."
            found.append(Error(f"{name}: {problem}", hint=hint, id="training.E001"))
    return found
