"""A picture of a condition, or of what is taken for it: what it is made from, and what it says. numpy only to draw."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

from training.pictures.conditions import CONDITIONS, Condition, Degree
from training.pictures.setting import WIDTH, Setting, setting_of
from training.pictures.words import description

if TYPE_CHECKING:
    from training.pictures.drawing.noise import Map

FIELDS = ("name", "degree", "look_alike", "seed")


@dataclass(frozen=True)
class Picture:
    """Gray, 640 by 480. The same four values make the same picture; nothing is drawn before it is asked for."""

    name: str
    degree: Degree
    look_alike: bool
    seed: int | str

    @property
    def parameters(self) -> dict[str, str | int | bool]:
        """The four values as they go into JSON; `render` takes them back. They say the key: never to a browser."""
        return {"name": self.name, "degree": self.degree.value, "look_alike": self.look_alike, "seed": self.seed}

    @property
    def condition(self) -> Condition:
        return CONDITIONS[self.name]

    @cached_property
    def setting(self) -> Setting:
        """Lamp, exposure and place; the same for the condition and for what is taken for it."""
        return setting_of(self.name, self.condition.surface, self.seed)

    @property
    def place(self) -> tuple[float, float]:
        """Where the eye should go, in pixels from the left and from the top."""
        return self.setting.place

    @property
    def side(self) -> str:
        """The half in which it lies: "left" or "right"."""
        return "left" if self.place[0] < WIDTH / 2 else "right"

    @property
    def description(self) -> str:
        """What is seen, in whole sentences, in the language spoken; its wording is chosen by the seed."""
        return description(self)

    @cached_property
    def pixels(self) -> Map:
        """Gray levels, 0 to 255, a row each line: about 30 ms of a processor."""
        from training.pictures.drawing.scene import drawn

        return drawn(self)

    @cached_property
    def file(self) -> bytes:
        """The picture as it is sent: WebP, as many bytes as every other (`BYTES`), the same for the same values."""
        from training.pictures.drawing.files import packed

        return packed(self.pixels)


def picture(name: str, *, degree: Degree | str, look_alike: bool = False, seed: int | str) -> Picture:
    """The condition, or what is taken for it. The same seed gives both the same surface, lamp and place.

    Raises ValueError for a name, a degree or a seed that is not known.

    >>> picture("bulge", degree="plain", seed=1).parameters
    {'name': 'bulge', 'degree': 'plain', 'look_alike': False, 'seed': 1}
    """
    if name not in CONDITIONS:
        raise ValueError(f"picture: {name!r} is not known; choose from {', '.join(CONDITIONS)}")
    if degree not in list(Degree):
        raise ValueError(f"degree: {degree!r} is not known; choose from {', '.join(Degree)}")
    if not isinstance(look_alike, bool):
        raise ValueError(f"look_alike: {look_alike!r} is neither true nor false")
    if isinstance(seed, bool) or not isinstance(seed, int | str):
        raise ValueError(f"seed: {seed!r} is neither a whole number nor a text")
    return Picture(name, Degree(degree), look_alike, seed)


def picture_of(parameters: Mapping[str, Any]) -> Picture:
    """The picture of parameters as `Picture.parameters` wrote them. Raises ValueError for a field too few or many."""
    if set(parameters) != set(FIELDS):
        raise ValueError(f"picture: {', '.join(sorted(parameters))} given; {', '.join(FIELDS)} are accepted")
    return picture(**parameters)


def render(parameters: Mapping[str, Any]) -> bytes:
    """The WebP file of these parameters, byte for byte the same as long as numpy, Pillow and this package are.

    Keep the bytes where what somebody saw must stay. Raises ValueError.

    >>> len(render(picture("bulge", degree="plain", seed=1).parameters)) // 1024
    64
    """
    return picture_of(parameters).file


def described(name: str, *, degree: Degree | str, look_alike: bool = False, seed: int | str = 0) -> str:
    """What is seen in such a picture, in whole sentences, without a name for it."""
    return picture(name, degree=degree, look_alike=look_alike, seed=seed).description


def bare(name: str, *, seed: int | str) -> Map:
    """The pixels of the surface alone, under the same lamp: neither the condition nor what is taken for it."""
    from training.pictures.drawing.scene import bare

    return bare(picture(name, degree=Degree.SLIGHT, seed=seed))
