"""A page that needs a rulebook which cannot be read says so in plain words; the rest of the site goes on."""

import logging
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from training.access import Place
from training.course import CourseError
from training.rulebook import RulebookError, UnreadableEdition, edition_title

log = logging.getLogger(__name__)


class UnreadableMiddleware:
    """Answers for a view that came upon an edition it cannot read, or on a lesson that does not fit its edition."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, problem: Exception) -> HttpResponse | None:
        """The page that names the rulebook, with status 503; the log says what is wrong with it."""
        if not isinstance(problem, RulebookError | CourseError):
            return None
        place: Place | None = getattr(request, "place", None)
        name = problem.edition if isinstance(problem, UnreadableEdition) else place.shop.edition if place else ""
        log.error("%s cannot be shown: %s", request.path, problem)
        return render(request, "503.html", {"rulebook": edition_title(name)}, status=503)
