"""How pages of questions are answered: whole, or only the part that htmx swaps."""

from typing import Any

from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils.cache import patch_vary_headers
from django_htmx.http import HttpResponseClientRedirect, push_url
from django_htmx.middleware import HtmxDetails


def picture_answer(file: bytes) -> HttpResponse:
    """A picture, under the same headers whatever it shows."""
    return HttpResponse(file, content_type="image/webp")


def wants_part(request: HttpRequest) -> bool:
    """Whether htmx asks for a part of the page; when it restores a page from history it wants the whole."""
    htmx: HtmxDetails = getattr(request, "htmx")  # noqa: B009 - set by its middleware
    return bool(htmx) and not htmx.history_restore_request


def go_to_page(request: HttpRequest, page: str, *args: Any) -> HttpResponse:
    """Redirect to a page that is no part to swap in; htmx is told to open it whole."""
    address = reverse(page, args=args)
    return HttpResponseClientRedirect(address) if wants_part(request) else HttpResponseRedirect(address)


def render_page_or_part(request: HttpRequest, name: str, context: dict[str, Any]) -> HttpResponse:
    """Render assessments/<name>.html, or _<name>.html alone for htmx, which then shows this address."""
    part = wants_part(request)
    response = render(request, f"assessments/{'_' if part else ''}{name}.html", {**context, "is_part": part})
    patch_vary_headers(response, ["HX-Request"])
    return push_url(response, request.path) if part else response
