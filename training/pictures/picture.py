"""A picture of a condition, or of what is taken for it, computed from a seed."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cached_property
from io import BytesIO
from math import radians

from PIL import Image

from training.pictures.bases import BASES
from training.pictures.conditions import CONDITIONS, Condition, Degree
from training.pictures.light import Lamp, lit
from training.pictures.noise import HEIGHT, WIDTH, Map, Noise
from training.pictures.surface import Surface
from training.trade.speech import say


@dataclass(frozen=True)
class Picture:
    """Gray, 640 by 480. The place is where in it the eye should go, in pixels from the left and from the top."""

    pixels: Map
    description: str
    place: tuple[float, float]

    @property
    def side(self) -> str:
        """The half in which it lies: "left" or "right"."""
        return "left" if self.place[0] < WIDTH / 2 else "right"

    @cached_property
    def png(self) -> bytes:
        """Stored, not packed: every picture weighs the same, so that its weight tells nothing."""
        out = BytesIO()
        Image.fromarray(self.pixels).save(out, "PNG", compress_level=0)
        return out.getvalue()


def render(name: str, *, degree: Degree | str, look_alike: bool = False, seed: int | str) -> Picture:
    """The condition, or what is taken for it. The same seed gives both the same surface, lamp and place.

    >>> render("bulge", degree="plain", seed=1).pixels.shape
    (480, 640)
    """
    condition, degree = _found(name), Degree(degree)
    kind = condition.look_alike if look_alike else condition.shown
    surface, lamp = _setting(name, condition, seed)
    surface.noise = Noise(_number(name, seed, "mark"))
    kind.draw(surface, list(Degree).index(degree))
    return Picture(_taken(surface, lamp, name, seed), _description(condition, kind.seen, degree), surface.place)


def bare(name: str, *, seed: int | str) -> Map:
    """The pixels of the surface alone, under the same lamp: neither the condition nor what is taken for it."""
    surface, lamp = _setting(name, _found(name), seed)
    return _taken(surface, lamp, name, seed)


def described(name: str, *, degree: Degree | str, look_alike: bool = False) -> str:
    """What is seen in such a picture, in whole sentences, without a name for it."""
    condition = _found(name)
    kind = condition.look_alike if look_alike else condition.shown
    return _description(condition, kind.seen, Degree(degree))


def _found(name: str) -> Condition:
    if name not in CONDITIONS:
        raise ValueError(f"picture: {name!r} is not known; choose from {', '.join(CONDITIONS)}")
    return CONDITIONS[name]


def _setting(name: str, condition: Condition, seed: int | str) -> tuple[Surface, Lamp]:
    surface = BASES[condition.surface](Noise(_number(name, seed, "surface")))
    noise = Noise(_number(name, seed, "lamp"))
    side = noise.between(112, 150)
    lamp = Lamp(
        azimuth=radians(noise.either(side, 180 - side)),
        elevation=radians(noise.between(24, 27)),
        brightness=noise.between(0.36, 0.47),
    )
    return surface, lamp


def _taken(surface: Surface, lamp: Lamp, name: str, seed: int | str) -> Map:
    return lit(surface, lamp, Noise(_number(name, seed, "grain")).field("grain", HEIGHT, WIDTH))


def _number(name: str, seed: int | str, use: str) -> int:
    """A seed of its own for each use, so that what a mark draws shifts nothing else."""
    return int.from_bytes(hashlib.sha256(f"{name}\n{seed}\n{use}".encode()).digest()[:8], "big")


def _description(condition: Condition, seen: str, degree: Degree) -> str:
    where = {
        "liner": say("A computed picture of the liner, lit from one side."),
        "sidewall": say("A computed picture of the sidewall, lit from one side."),
        "tread": say("A computed picture of the tread, lit from one side."),
        "bead": say("A computed picture of the bead, lit from one side."),
    }[condition.surface]
    much = {
        Degree.SLIGHT: say("It is slight."),
        Degree.PLAIN: say("It is plain to see."),
        Degree.GRAVE: say("It is strong and large."),
    }[degree]
    return f"{where} {seen} {much}"
