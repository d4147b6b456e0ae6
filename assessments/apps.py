"""The assessments app."""

from django.apps import AppConfig
from django.core.checks import CheckMessage, Warning, register

from training import sittings


class AssessmentsConfig(AppConfig):
    name = "assessments"

    def ready(self) -> None:
        from assessments import queries  # models can be read only from here on

        register(_blueprints_can_be_read, "assessments")
        sittings.tell(sittings.Finding(sits=queries.sits, sitting=queries.sitting_of))


def _blueprints_can_be_read(**kwargs: object) -> list[CheckMessage]:
    """One warning for each blueprint that cannot be read; the others go on."""
    from assessments.questions import broken_blueprints  # read when the check runs, not at every start

    hint = "Correct the file that the message names."
    return [Warning(problem, hint=hint, id="assessments.W001") for problem in broken_blueprints()]
