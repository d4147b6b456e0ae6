"""The site's addresses and one bare view beside them: the yardstick of the page benchmarks."""

from django.http import HttpRequest, HttpResponse
from django.urls import include, path

from training.models import Membership, Shop, User


def bare(request: HttpRequest) -> HttpResponse:
    """Three trivial queries and a line of text, through the same middleware."""
    found = [model.objects.order_by("pk").values_list("pk").first() for model in (User, Shop, Membership)]
    return HttpResponse(f"{len(found)} rows")


urlpatterns = [path("bare/", bare), path("", include("training.config.urls"))]
