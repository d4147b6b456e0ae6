"""What is seen at the bead. Degree 0 is slight, 2 is grave."""

from __future__ import annotations

import numpy as np

from training.pictures.drawing.marks import Cuts
from training.pictures.drawing.surface import Surface, smooth, turned


def torn_bead(surface: Surface, degree: int) -> None:
    """One long ragged opening above the rim line with branches, the rubber beside it swollen."""
    noise, cuts = surface.noise, Cuts(surface)
    one, _ = surface.here
    other = noise.between(-5, 35)
    long, half = (210, 340, 520)[degree], (2.0, 3.6, 5.8)[degree]
    cuts.cut((one, other), long, half, 3 * half + 2, 1.7, noise.between(-0.03, 0.03))
    for _ in range(2 + 3 * degree):
        at = one + noise.between(-0.45, 0.45) * long, other + noise.between(-12, 12)
        cuts.cut(at, noise.between(26, 70), half * 0.5, 2 * half, 1.0, noise.between(-0.6, 0.6))
    off, away = turned(surface.along, surface.across, (one, other + 18), 0)
    square = (off / np.float32(long / 2)) ** 2
    swell = np.exp(-square * square - (away / np.float32(20)) ** 2)
    surface.height = surface.height + np.float32((1.5, 3, 5)[degree]) * swell
    cuts.done()


def flash(surface: Surface, degree: int) -> None:
    """A thin even fin of rubber where the parts of the mold met."""
    noise = surface.noise
    _, across = surface.along, surface.across
    other = noise.between(-5, 35)
    count = 1400
    ragged = np.clip(1 + 0.5 * noise.wiggle(count, 14) + 0.3 * noise.wiggle(count, 4), 0.1, 2)
    place = np.clip(surface.along + np.float32(count / 2), 0, count - 1).astype(np.int32)
    high = ragged.astype(np.float32)[place] * np.float32((2.6, 3.6, 4.8)[degree])
    fin = np.exp(-(((across - np.float32(other)) / np.float32(2.0)) ** 2))
    step = smooth((across - np.float32(other)) / np.float32(4))
    surface.height = surface.height + fin * high + np.float32(1.1) * step


DRAWN = {"bead-damage": (torn_bead, flash)}
