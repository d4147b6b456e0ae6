"""The language of a page, a mail or a paper: Django's and the program's own are set together."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from django.http import HttpRequest, HttpResponse
from django.utils import translation
from django.utils.cache import patch_vary_headers

from training.trade.speech import LANGUAGES, SOURCE, in_language

_TAGS = {tag.lower(): tag for tag in LANGUAGES}  # Django writes them small


@contextmanager
def speaking(tag: str) -> Iterator[None]:
    """Everything inside is read in this language."""
    with in_language(tag), translation.override(tag.lower()):
        yield


class SpeakingMiddleware:
    """A stranger reads what their browser asks for, where there is a catalogue; a page of a shop is in the shop's."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        with speaking(_TAGS.get(translation.get_language_from_request(request), SOURCE)):
            response = self.get_response(request)
        patch_vary_headers(response, ["Accept-Language"])
        return response
