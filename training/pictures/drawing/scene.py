"""A picture as gray levels: surface, mark, lamp and camera."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeAlias

from training.pictures.conditions import Degree
from training.pictures.drawing import bead, buffing, liner, sidewall, tread, units
from training.pictures.drawing.light import lit
from training.pictures.drawing.noise import Map, Noise
from training.pictures.drawing.surface import Surface
from training.pictures.drawing.surfaces import SURFACES
from training.pictures.seeds import number

if TYPE_CHECKING:
    from training.pictures.picture import Picture

Draw: TypeAlias = Callable[[Surface, int], None]

# the condition, and what is taken for it
DRAWN: Mapping[str, tuple[Draw, Draw]] = MappingProxyType(
    {**sidewall.DRAWN, **bead.DRAWN, **tread.DRAWN, **liner.DRAWN, **units.DRAWN, **buffing.DRAWN}
)
_DEGREES = tuple(Degree)


def drawn(picture: Picture) -> Map:
    """The gray levels of a picture, 0 to 255."""
    surface = _surface(picture)
    surface.noise = _noise(picture, "mark")
    DRAWN[picture.name][picture.look_alike](surface, _DEGREES.index(picture.degree))
    return _taken(surface, picture)


def bare(picture: Picture) -> Map:
    """The gray levels of its surface without anything on it, under the same lamp."""
    return _taken(_surface(picture), picture)


def _surface(picture: Picture) -> Surface:
    return SURFACES[picture.condition.surface](_noise(picture, "surface"), picture.place)


def _taken(surface: Surface, picture: Picture) -> Map:
    surface.noise = _noise(picture, "camera")
    return lit(surface, picture.setting)


def _noise(picture: Picture, use: str) -> Noise:
    return Noise(number(picture.name, picture.seed, use))
