"""What a machine can tell of pictures: what gives a condition away, and what a small classifier learns."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt
from PIL import Image

from training.pictures import Degree, Picture, bare, picture

Numbers = npt.NDArray[Any]


def auc(ones: list[float], others: list[float]) -> float:
    """How often one of the first is above one of the others, at least 0.5: 0.5 tells nothing, 1 tells all."""
    first, second = np.asarray(ones)[:, None], np.asarray(others)[None, :]
    above = float(np.mean((first > second) + 0.5 * (first == second)))
    return max(above, 1 - above)


def told(shown: Picture) -> dict[str, float]:
    """What one number tells without looking at the picture."""
    return {
        "brightness": float(shown.pixels.mean()),
        "contrast": float(shown.pixels.std()),
        "file size": float(len(shown.file)),
        "side": float(shown.side == "left"),
        "place, from the left": shown.place[0],
        "place, from the top": shown.place[1],
    }


def changed(shown: Picture) -> Numbers:
    """Where and by how much a picture differs from the bare surface and from what is taken for the condition."""
    levels = shown.pixels.astype(np.float32)
    from_bare = np.abs(levels - bare(shown.name, seed=shown.seed))
    harmless = picture(shown.name, degree=Degree.SLIGHT, look_alike=True, seed=shown.seed)
    # gray levels beyond those of the grain
    beyond: Numbers = np.maximum(np.minimum(from_bare, np.abs(levels - harmless.pixels)) - 4, 0)
    return beyond


def pair(name: str, degree: Degree, seed: int, other_seed: int | None = None) -> tuple[Picture, Picture]:
    """The condition and what is taken for it."""
    second = seed if other_seed is None else other_seed
    return picture(name, degree=degree, seed=seed), picture(name, degree=degree, look_alike=True, seed=second)


def features(pixels: Numbers) -> Numbers:
    """A row of numbers: how gray levels and edges are spread at three sizes of detail."""
    row: list[Numbers] = []
    image = Image.fromarray(pixels)
    for size in (2, 4, 8):
        small = np.asarray(image.reduce(size), np.float32)
        down, right = np.gradient(small)
        steep = np.hypot(down, right)
        curved = small[1:-1, 1:-1] * 4 - small[:-2, 1:-1] - small[2:, 1:-1] - small[1:-1, :-2] - small[1:-1, 2:]
        for values in (small - small.mean(), steep, curved):
            row.append(np.percentile(values, (0.5, 2, 10, 25, 50, 75, 90, 98, 99.5)))
        turns = np.histogram(np.arctan2(down, right) % np.pi, bins=8, range=(0, np.pi), weights=steep)[0]
        row.append(turns / turns.sum())
    grid = np.asarray(image.reduce(80), np.float32)
    row.append(np.array([grid.std(), grid.max() - grid.mean(), grid.mean() - grid.min()]))
    return np.concatenate(row)
