"""What a machine can tell of pictures: what gives a condition away, and what a small classifier learns."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
import numpy.typing as npt
from PIL import Image

from training.pictures import Degree, Picture, bare, picture

Numbers = npt.NDArray[Any]

MOST_AREA = 0.6  # the area under the curve of one number alone
LEAST_TOLD_APART = 0.9  # in the gravest degree: there is something to see
_SHARES = (0.005, 0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.98, 0.995)
_WEIGHED = 10  # every so many pictures the file is made too; all files are of one size


@dataclass(frozen=True)
class Taken:
    """What is kept of one picture: the numbers that may tell nothing, what a classifier sees, and what it cost."""

    numbers: dict[str, float]
    features: Numbers | None
    cpu_ms: float | None  # with its file
    kib: float | None  # of the image itself, before the file is filled up


def auc(ones: Iterable[float], others: Iterable[float]) -> float:
    """How often one of the first is above one of the others, at least 0.5: 0.5 tells nothing, 1 tells all."""
    first, second = np.asarray(list(ones))[:, None], np.asarray(list(others))[None, :]
    above = float(np.mean((first > second) + 0.5 * (first == second)))
    return max(above, 1 - above)


def taken(name: str, degree: Degree, seeds: range, *, learning: bool) -> tuple[list[Taken], list[Taken]]:
    """The condition, and what is taken for it on other seeds: no two pictures share a surface."""
    shift = max(1000, len(seeds))
    return (
        [_taken(picture(name, degree=degree, seed=seed), seed, learning) for seed in seeds],
        [_taken(picture(name, degree=degree, look_alike=True, seed=seed + shift), seed, learning) for seed in seeds],
    )


def _taken(shown: Picture, seed: int, learning: bool) -> Taken:
    start = time.process_time()
    numbers = {
        "brightness": float(shown.pixels.mean()),
        "contrast": float(shown.pixels.std()),
        "side": float(shown.side == "left"),
        "from the left": shown.place[0],
        "from the top": shown.place[1],
    }
    cpu_ms = kib = None
    if seed % _WEIGHED == 0:
        numbers["file size"] = float(len(shown.file))
        cpu_ms = (time.process_time() - start) * 1000
        kib = chunks(shown.file)[b"VP8 "] / 1024
    return Taken(numbers, features(shown.pixels) if learning else None, cpu_ms, kib)


def areas(ones: list[Taken], others: list[Taken]) -> dict[str, float]:
    """The area under the curve of each number alone."""
    return {
        what: auc(*([one.numbers[what] for one in side if what in one.numbers] for side in (ones, others)))
        for what in ones[0].numbers
    }


def told_apart(ones: list[Taken], others: list[Taken]) -> float:
    """The share of unseen pictures that a small forest puts right, five times trained on four fifths."""
    from sklearn.ensemble import ExtraTreesClassifier
    from sklearn.model_selection import cross_val_score

    trees = min(200, 4 * len(ones))
    rows = np.array([one.features for one in (*ones, *others)])
    kinds = np.array([0] * len(ones) + [1] * len(others))
    return float(cross_val_score(ExtraTreesClassifier(trees, random_state=0), rows, kinds, cv=5).mean())


def chunks(file: bytes) -> dict[bytes, int]:
    """The chunks of a RIFF container and how long each is, read as the format says (RFC 9649)."""
    found, at = {}, 12
    while at < len(file):
        length = int.from_bytes(file[at + 4 : at + 8], "little")
        found[file[at : at + 4]] = length
        at += 8 + length + length % 2
    return found


def changed(shown: Picture) -> Numbers:
    """Where and by how much a picture differs from the bare surface and from what is taken for the condition."""
    levels = shown.pixels.astype(np.float32)
    unmarked, harmless = _beside(shown.name, shown.seed)
    # gray levels beyond those of the grain
    beyond: Numbers = np.maximum(np.minimum(np.abs(levels - unmarked), np.abs(levels - harmless)) - 4, 0)
    return beyond


@cache
def _beside(name: str, seed: int | str) -> tuple[Numbers, Numbers]:
    return bare(name, seed=seed), picture(name, degree=Degree.SLIGHT, look_alike=True, seed=seed).pixels


def features(pixels: Numbers) -> Numbers:
    """A row of numbers: how gray levels and edges are spread at three sizes of detail."""
    row: list[Numbers] = []
    image = Image.fromarray(pixels)
    for size, step in ((2, 2), (4, 1), (8, 1)):  # of the finest a quarter is enough
        small = np.asarray(image.reduce(size), np.float32)
        down, right = small[2:, 1:-1] - small[:-2, 1:-1], small[1:-1, 2:] - small[1:-1, :-2]
        down, right = down[::step, ::step], right[::step, ::step]
        steep = np.sqrt(down * down + right * right)
        curved = small[1:-1, 1:-1] * 4 - small[:-2, 1:-1] - small[2:, 1:-1] - small[1:-1, :-2] - small[1:-1, 2:]
        for values in ((small - small.mean())[::step, ::step], steep, curved[::step, ::step]):
            ordered = np.sort(values, axis=None)
            row.append(ordered[(np.array(_SHARES) * (len(ordered) - 1)).astype(int)])
        turns = np.histogram(np.arctan2(down, right) % np.pi, bins=8, range=(0, np.pi), weights=steep)[0]
        row.append(turns / turns.sum())
    grid = np.asarray(image.reduce(80), np.float32)
    row.append(np.array([grid.std(), grid.max() - grid.mean(), grid.mean() - grid.min()]))
    return np.concatenate(row)
