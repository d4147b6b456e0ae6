"""Pictures of conditions as files: computed once, then read from the data folder. They can always be computed again.

Condition and look-alike are computed together, so that how long the first of them takes says nothing of which it is.
"""

import hashlib
import json
import os
import tempfile
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

from django.conf import settings

from training import pictures
from training.pictures import picture_of, render


def picture_file(parameters: Mapping[str, Any]) -> bytes:
    """The WebP file of a picture by its parameters; all are of one size. Raises ValueError for what is not known."""
    pair = {is_other: {**parameters, "look_alike": is_other} for is_other in (False, True)}
    places = {is_other: _place(one) for is_other, one in pair.items()}
    wanted = picture_of(parameters).look_alike
    try:
        return places[wanted].read_bytes()
    except OSError:
        pass  # not there yet, or not to be read: it is computed
    made = {is_other: render(one) for is_other, one in pair.items()}
    for is_other, place in places.items():
        _keep(place, made[is_other])
    return made[wanted]


@lru_cache(maxsize=1)
def drawn_by() -> str:
    """A short name for the renderer as it is now: another one draws other pictures."""
    files = sorted(Path(pictures.__file__).parent.rglob("*.py"))
    return hashlib.sha256(b"\0".join(one.read_bytes() for one in files)).hexdigest()[:12]


def _place(parameters: Mapping[str, Any]) -> Path:
    content = json.dumps([drawn_by(), parameters], sort_keys=True)
    return Path(settings.PICTURES_DIR) / f"{hashlib.sha256(content.encode()).hexdigest()}.webp"


def _keep(place: Path, content: bytes) -> None:
    """Write it whole or not at all; without room for it, it is computed again the next time."""
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(dir=place.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(beside).replace(place)
    except OSError:
        return
