"""What a question shows: a drawing, pictures that are computed from a seed, or a photograph of the shop; and how each
leaves the server."""

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
class Photo:
    """A photograph that the shop keeps, by its reference there: of a condition or what is taken for it, on a casing.

    Nothing of it leaves the server with an open question but whether a second trainer has confirmed what it shows.
    """

    reference: str
    name: str
    look_alike: bool
    casing: str
    is_confirmed: bool

    @property
    def told(self) -> str:
        """What may be known of it: "confirmed" or "one-trainer"."""
        return "confirmed" if self.is_confirmed else "one-trainer"


@dataclass(frozen=True, slots=True)
class OpenPicture:
    """A drawing, or so many pictures, as they may leave the server; `photograph` is what may be known of one."""

    svg: str
    description: str
    pictures: int = 0
    photograph: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as it is shown, with the same measurements in words; or pictures, with words for what they are of that
    say nothing of what is to be seen in them. A photograph stands alone."""

    svg: str
    description: str
    sights: tuple[Sight, ...] = ()
    photo: Photo | None = None

    @property
    def pictures(self) -> int:
        """How many pictures there are; none with a drawing."""
        return len(self.sights) or int(self.photo is not None)

    @property
    def photograph(self) -> str:
        """What may be known of the photograph, empty where there is none."""
        return "" if self.photo is None else self.photo.told

    def open(self) -> OpenPicture:
        """What of it an open question shows."""
        return OpenPicture(self.svg, self.description, self.pictures, self.photograph)

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Picture:
        """What stands in a stored item. Raises KeyError for a missing field."""
        return RECORDS.structure(data, cls)


def _written(one: Picture) -> dict[str, Any]:
    if one.photo is not None:
        return {"photograph": RECORDS.unstructure(one.photo), "description": one.description}
    sights = [RECORDS.unstructure(sight) for sight in one.sights]
    shown = {"svg": one.svg} if not sights else {"picture": sights[0]} if len(sights) == 1 else {"pictures": sights}
    return {**shown, "description": one.description}


def _written_open(one: OpenPicture) -> dict[str, Any]:
    shown: dict[str, Any] = {"pictures": one.pictures} if one.pictures else {"svg": one.svg}
    photograph = {"photograph": one.photograph} if one.photograph else {}
    return {**shown, **photograph, "description": one.description}


def _read(data: Mapping[str, Any], _: object) -> Picture:
    if "photograph" in data:
        return Picture("", data["description"], photo=RECORDS.structure(data["photograph"], Photo))
    sights = [data["picture"]] if "picture" in data else data.get("pictures", [])
    shown = tuple(RECORDS.structure(one, Sight) for one in sights)
    return Picture("" if shown else data["svg"], data["description"], shown)


def _read_open(data: Mapping[str, Any], _: object) -> OpenPicture:
    count = data.get("pictures", 0)
    return OpenPicture("" if count else data["svg"], data["description"], count, data.get("photograph", ""))


RECORDS.register_unstructure_hook(Picture, _written)
RECORDS.register_structure_hook(Picture, _read)
RECORDS.register_unstructure_hook(OpenPicture, _written_open)
RECORDS.register_structure_hook(OpenPicture, _read_open)
