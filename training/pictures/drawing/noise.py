"""Noise that every picture takes its texture from: built once a process, then cut out at a place of the seed."""

from __future__ import annotations

from functools import cache
from typing import Any, TypeAlias

import numpy as np
import numpy.typing as npt

from training.pictures.setting import HEIGHT, WIDTH

Map: TypeAlias = npt.NDArray[Any]  # float32, a value a pixel

_EDGE = 1024  # a field is wider than a picture, so that a cut can lie anywhere in it
# how far neighbors agree, in pixels along and across
_SPREAD = {
    "grain": (0.45, 0.45),
    "fine": (0.8, 0.8),
    "small": (1.6, 1.6),
    "middle": (4.0, 4.0),
    "broad": (12.0, 12.0),
    "wide": (40.0, 40.0),
    "along": (40.0, 0.9),
    "across": (0.9, 40.0),
}
_BANK_SEED = 20  # any number: the same texture in every process


@cache
def bank() -> dict[str, Map]:
    """The fields, each with mean 0 and deviation 1."""
    white = np.random.default_rng(_BANK_SEED).standard_normal((_EDGE, _EDGE), dtype=np.float32)
    spectrum = np.fft.rfft2(white)
    down, right = np.fft.fftfreq(_EDGE).astype(np.float32), np.fft.rfftfreq(_EDGE).astype(np.float32)
    fields = {}
    for name, (along, across) in _SPREAD.items():
        pass_right = np.exp(-2 * (np.pi * along * right) ** 2)
        pass_down = np.exp(-2 * (np.pi * across * down) ** 2)
        field = np.fft.irfft2(spectrum * pass_down[:, None] * pass_right[None, :]).astype(np.float32)
        fields[name] = (field - field.mean()) / field.std()
    return fields


class Noise:
    """Cuts out of the bank and single numbers, all of one seed."""

    def __init__(self, seed: int) -> None:
        self.random = np.random.default_rng(seed)
        self.size = HEIGHT, WIDTH

    def field(self, name: str) -> Map:
        """A cut of a field, mirrored or not, as large as the piece drawn on. It is a view: never write into it."""
        height, width = self.size
        top, left = (int(self.random.integers(0, _EDGE - side + 1)) for side in (HEIGHT, WIDTH))
        cut = bank()[name][top : top + height, left : left + width]
        return cut[:: self._turn(), :: self._turn()]

    def _turn(self) -> int:
        return 1 if self.random.random() < 0.5 else -1

    def between(self, low: float, high: float) -> float:
        return float(self.random.uniform(low, high))

    def either(self, one: float, other: float) -> float:
        return one if self.random.random() < 0.5 else other

    def wiggle(self, length: int, step: float) -> Map:
        """A wandering line of this many values, with a new turn every `step` of them; deviation about 1."""
        turns = int(length / step) + 3
        knots = self.random.standard_normal(turns)
        return np.interp(np.arange(length) / step, np.arange(turns), knots).astype(np.float32)
