"""The training app."""

from django.apps import AppConfig
from django.core.checks import CheckMessage, register


class TrainingConfig(AppConfig):
    name = "training"

    def ready(self) -> None:
        register(_lessons_fit_the_rulebook, "training")


def _lessons_fit_the_rulebook(**kwargs: object) -> list[CheckMessage]:
    from training.checks import lessons_fit_the_rulebook  # the course is read when the check runs, not at every start

    return lessons_fit_the_rulebook()
