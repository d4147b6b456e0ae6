"""What is the same for a condition and for what is taken for it: lamp, exposure and place, by the seed alone."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians

from training.pictures.seeds import draws

WIDTH, HEIGHT = 640, 480  # pixels


@dataclass(frozen=True)
class Setting:
    """Angles in radians, the azimuth from the right and counterclockwise; mean and deviation in gray levels."""

    azimuth: float
    elevation: float
    brightness: float
    contrast: float
    place: tuple[float, float]

    @property
    def lit_from(self) -> str:
        """The side the lamp stands on: "left" or "right"."""
        return "left" if cos(self.azimuth) < 0 else "right"

    @property
    def above(self) -> str:
        """Whether the place lies "above" the middle of the picture, or "below"."""
        return "above" if self.place[1] < HEIGHT / 2 else "below"


# gray levels: about what the surface has by itself, so that little is added or taken
_CONTRAST = {"sidewall": (28.0, 33.0), "bead": (27.0, 32.0), "tread": (34.0, 40.0), "liner": (21.0, 26.0)}
# half of it smooth rubber, or worn until little shadow is left
_LESS = {"tread-separation": (31.0, 37.0), "wear-indicators-flush": (29.0, 34.0)}
# what keeps to a line of the surface does not lie higher or lower, but about there
_LINE = {"ozone-cracking": 205.0, "bead-damage": 225.0}


def setting_of(name: str, surface: str, seed: int | str) -> Setting:
    """The setting of a condition's pictures with this seed."""
    random = draws(name, seed, "setting")
    side = random.uniform(112, 150)
    return Setting(
        azimuth=radians(side if random.random() < 0.5 else 180 - side),
        elevation=radians(random.uniform(24, 27)),
        brightness=random.uniform(92, 120),
        contrast=random.uniform(*_LESS.get(name, _CONTRAST[surface])),
        place=(random.uniform(190, WIDTH - 190), _LINE.get(name) or random.uniform(170, HEIGHT - 170)),
    )
