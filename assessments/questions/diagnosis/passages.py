"""Which section of the course clears up a misconception: what practice shows when somebody holds it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib import resources
from typing import NamedTuple

_FILE = "passages.toml"


class Tie(NamedTuple):
    """A section of a lesson: "module/lesson", and its heading as the course writes it."""

    lesson: str
    heading: str


@lru_cache(maxsize=1)
def passages() -> Mapping[str, Tie]:
    """The section for each misconception by its id. Raises ValueError for one that stands twice."""
    found: dict[str, Tie] = {}
    lessons = tomllib.loads(resources.files(__package__).joinpath(_FILE).read_text("utf-8"))
    for lesson, sections in lessons.items():
        for heading, ids in sections.items():
            for id in ids:
                if id in found:
                    raise ValueError(f'{_FILE}: "{id}" stands under "{found[id].heading}" and under "{heading}"')
                found[id] = Tie(lesson, heading)
    return found
