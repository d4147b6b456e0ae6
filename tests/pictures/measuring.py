"""What a machine can tell of pictures: what gives a condition away, and what a small classifier learns."""

from __future__ import annotations

import time
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from typing import Any

import numpy as np
import numpy.typing as npt
from PIL import Image

from training.pictures import Degree, Picture, bare, picture

Numbers = npt.NDArray[Any]

MOST_AREA = 0.6  # the area under the curve of one number alone
LEAST_TOLD_APART = 0.9  # in the gravest degree: there is something to see


@dataclass(frozen=True)
class Taken:
    """What is kept of one picture: the numbers that may tell nothing, what a classifier sees, and what it cost."""

    numbers: dict[str, float]
    features: Numbers | None
    cpu_ms: float
    kib: float  # of the image itself, before the file is filled up


def auc(ones: Iterable[float], others: Iterable[float]) -> float:
    """How often one of the first is above one of the others, at least 0.5: 0.5 tells nothing, 1 tells all."""
    first, second = np.asarray(list(ones))[:, None], np.asarray(list(others))[None, :]
    above = float(np.mean((first > second) + 0.5 * (first == second)))
    return max(above, 1 - above)


def taken(name: str, degree: Degree, seeds: range, *, learning: bool) -> tuple[list[Taken], list[Taken]]:
    """The condition, and what is taken for it on other seeds: no two pictures share a surface."""
    shift = len(seeds)
    return (
        [one_taken(picture(name, degree=degree, seed=seed), learning) for seed in seeds],
        [one_taken(picture(name, degree=degree, look_alike=True, seed=seed + shift), learning) for seed in seeds],
    )


def one_taken(shown: Picture, learning: bool) -> Taken:
    start = time.process_time()
    file = shown.file
    spent = (time.process_time() - start) * 1000
    # a classifier sees the file as it is sent
    seen = features(np.asarray(Image.open(BytesIO(file)).convert("L"))) if learning else None
    return Taken(told(shown), seen, spent, chunk_size(file, b"VP8 ") / 1024)


def told(shown: Picture) -> dict[str, float]:
    """What one number tells without looking at the picture."""
    return {
        "brightness": float(shown.pixels.mean()),
        "contrast": float(shown.pixels.std()),
        "file size": float(len(shown.file)),
        "side": float(shown.side == "left"),
        "from the left": shown.place[0],
        "from the top": shown.place[1],
    }


def areas(ones: list[Taken], others: list[Taken]) -> dict[str, float]:
    """The area under the curve of each number alone."""
    return {
        what: auc((one.numbers[what] for one in ones), (other.numbers[what] for other in others))
        for what in ones[0].numbers
    }


def told_apart(ones: list[Taken], others: list[Taken]) -> float:
    """The share of unseen pictures that a small forest puts right, five times trained on four fifths."""
    from sklearn.ensemble import ExtraTreesClassifier
    from sklearn.model_selection import cross_val_score

    rows = np.array([one.features for one in (*ones, *others)])
    kinds = np.array([0] * len(ones) + [1] * len(others))
    return float(cross_val_score(ExtraTreesClassifier(200, random_state=0), rows, kinds, cv=5).mean())


def chunks(file: bytes) -> dict[bytes, int]:
    """The chunks of a RIFF container and how long each is, read as the format says (RFC 9649)."""
    found, at = {}, 12
    while at < len(file):
        length = int.from_bytes(file[at + 4 : at + 8], "little")
        found[file[at : at + 4]] = length
        at += 8 + length + length % 2
    return found


def chunk_size(file: bytes, name: bytes) -> int:
    return chunks(file)[name]


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
