"""What a question shows: a drawing, or pictures that are computed from a seed; and how each leaves the server."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from training.trade.records import RECORDS


@dataclass(frozen=True, slots=True)
class Sight:
    """What a picture is computed from, in the renderer's words: a condition in a degree, or what is taken for it.

    Nothing of it leaves the server with an open question.
    """

    name: str
    degree: str
    look_alike: bool
    seed: str

    @property
    def parameters(self) -> dict[str, str | bool]:
        """As the renderer takes them."""
        return {"name": self.name, "degree": self.degree, "look_alike": self.look_alike, "seed": self.seed}


@dataclass(frozen=True, slots=True)
class OpenPicture:
    """A drawing, or so many pictures, as they may leave the server."""

    svg: str
    description: str
    pictures: int = 0


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as it is shown, with the same measurements in words; or pictures, with words for what they are of that
    say nothing of what is to be seen in them."""

    svg: str
    description: str
    sights: tuple[Sight, ...] = ()

    @property
    def pictures(self) -> int:
        """How many pictures there are; none with a drawing."""
        return len(self.sights)

    def open(self) -> OpenPicture:
        """What of it an open question shows."""
        return OpenPicture(self.svg, self.description, self.pictures)

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Picture:
        """What stands in a stored item. Raises KeyError for a missing field."""
        return RECORDS.structure(data, cls)


def _written(one: Picture) -> dict[str, Any]:
    sights = [RECORDS.unstructure(sight) for sight in one.sights]
    shown = {"svg": one.svg} if not sights else {"picture": sights[0]} if len(sights) == 1 else {"pictures": sights}
    return {**shown, "description": one.description}


def _written_open(one: OpenPicture) -> dict[str, Any]:
    return {**({"pictures": one.pictures} if one.pictures else {"svg": one.svg}), "description": one.description}


def _read(data: Mapping[str, Any], _: object) -> Picture:
    sights = [data["picture"]] if "picture" in data else data.get("pictures", [])
    shown = tuple(RECORDS.structure(one, Sight) for one in sights)
    return Picture("" if shown else data["svg"], data["description"], shown)


def _read_open(data: Mapping[str, Any], _: object) -> OpenPicture:
    count = data.get("pictures", 0)
    return OpenPicture("" if count else data["svg"], data["description"], count)


RECORDS.register_unstructure_hook(Picture, _written)
RECORDS.register_structure_hook(Picture, _read)
RECORDS.register_unstructure_hook(OpenPicture, _written_open)
RECORDS.register_structure_hook(OpenPicture, _read_open)
