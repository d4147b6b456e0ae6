"""The script that keeps lessons and the questions of an open assessment for when there is no connection."""

from functools import cache
from pathlib import Path

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

SCRIPT = Path(settings.BASE_DIR) / "training" / "static" / "training" / "worker.js"


@cache
def _script() -> bytes:
    return SCRIPT.read_bytes()


@require_GET
def worker(request: HttpRequest) -> HttpResponse:
    """It stands at the root, since it may answer only for addresses below its own; browsers ask each time for a newer
    one."""
    return HttpResponse(_script(), content_type="text/javascript", headers={"Cache-Control": "no-cache"})
