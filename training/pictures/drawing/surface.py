"""A piece of a tire as a map of heights, paleness and gloss, in coordinates that run along and across it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np

from training.pictures.drawing.noise import Map, Noise
from training.pictures.setting import HEIGHT, WIDTH

Window: TypeAlias = tuple[slice, slice]

X = np.arange(WIDTH, dtype=np.float32)[None, :]
Y = np.arange(HEIGHT, dtype=np.float32)[:, None]
_STEP = 8  # a coarse grid is enough to find the window of a mark


@dataclass
class Surface:
    """Heights in pixels (as high as a pixel is wide), paleness 0 to 1, gloss 0 to about 1."""

    height: Map
    paleness: Map
    gloss: Map
    along: Map
    across: Map
    noise: Noise
    place: tuple[float, float]  # where a mark belongs, in pixels from the left and from the top
    marks: dict[str, float] = field(default_factory=dict)  # lines of this surface that a mark may keep to

    @property
    def here(self) -> tuple[float, float]:
        """The place of the mark in the coordinates of the surface."""
        left, top = self.place
        return float(self.along[int(top), int(left)]), float(self.across[int(top), int(left)])

    @contextmanager
    def part(self, half: tuple[float, float], turn: float = 0.0) -> Iterator[Surface]:
        """The oblong of these half sides around the place, as a surface: what does not reach farther costs less."""
        window = self.around(self.here, half, turn) or (slice(0, HEIGHT), slice(0, WIDTH))
        # whole squares, for means over them
        rows, columns = (slice(one.start // 16 * 16, -(-one.stop // 16) * 16) for one in window)
        rows, columns = slice(rows.start, min(rows.stop, HEIGHT)), slice(columns.start, min(columns.stop, WIDTH))
        height, paleness, gloss, along, across = (
            one[rows, columns] for one in (self.height, self.paleness, self.gloss, self.along, self.across)
        )
        left, top = self.place
        here = left - columns.start, top - rows.start
        piece = Surface(height, paleness, gloss, along, across, self.noise, here, self.marks)
        whole = self.noise.size
        self.noise.size = piece.height.shape
        yield piece
        self.noise.size = whole
        self.height[rows, columns] = piece.height
        self.paleness[rows, columns] = piece.paleness
        self.gloss[rows, columns] = piece.gloss

    def window(self, near: Map) -> Window | None:
        """The rows and columns in which a coarse map is true."""
        rows, columns = np.flatnonzero(near.any(axis=1)), np.flatnonzero(near.any(axis=0))
        if not len(rows):
            return None
        return (
            slice(max(0, int(rows[0]) - 1) * _STEP, (int(rows[-1]) + 2) * _STEP),
            slice(max(0, int(columns[0]) - 1) * _STEP, (int(columns[-1]) + 2) * _STEP),
        )

    def around(self, at: tuple[float, float], half: tuple[float, float], turn: float = 0.0) -> Window | None:
        """The window of an oblong of these half sides, turned by an angle in radians."""
        near = turned(self.along[::_STEP, ::_STEP], self.across[::_STEP, ::_STEP], at, turn)
        return self.window((np.abs(near[0]) < half[0] + _STEP) & (np.abs(near[1]) < half[1] + _STEP))


def turned(along: Map, across: Map, at: tuple[float, float], turn: float) -> tuple[Map, Map]:
    """The coordinates counted from a place and turned by an angle in radians."""
    one, other = along - np.float32(at[0]), across - np.float32(at[1])
    if turn == 0:
        return one, other
    cosine, sine = np.float32(np.cos(turn)), np.float32(np.sin(turn))
    return one * cosine + other * sine, other * cosine - one * sine


def smooth(rise: Map) -> Map:
    """From 0 to 1 without a corner, for what runs from 0 to 1; beyond it stays."""
    rise = np.clip(rise, 0, 1)
    smoothed: Map = np.float32(3) - np.float32(2) * rise
    smoothed *= rise
    smoothed *= rise
    return smoothed


def distance(one: Map, other: Map) -> Map:
    """How far it is, of two coordinates: a fifth of what np.hypot takes, which guards against overflow."""
    far: Map = np.sqrt(one * one + other * other)
    return far


def blurred(values: Map, size: int) -> Map:
    """The mean over squares of this size, softly joined. The sides must be whole multiples of it."""
    rows, columns = values.shape
    small = values.reshape(rows // size, size, columns).sum(axis=1)
    small = small.reshape(rows // size, columns // size, size).sum(axis=2)
    return enlarged(small * np.float32(1 / size**2), size)


def enlarged(small: Map, size: int) -> Map:
    """Each value as a square of this size, softly joined."""
    return _stretched(_stretched(small.T.copy(), size).T.copy(), size)


def _stretched(lines: Map, size: int) -> Map:
    before, after = np.concatenate((lines[:1], lines[:-1])), np.concatenate((lines[1:], lines[-1:]))
    out = np.empty((len(lines), size, lines.shape[1]), np.float32)
    for step in range(size):
        share = (step + 0.5) / size - 0.5
        out[:, step] = lines + np.float32(abs(share)) * ((after if share > 0 else before) - lines)
    return out.reshape(-1, lines.shape[1])


def table(values: Map, at: Map) -> Map:
    """Values of a line read between its points; before its start and past its end it stays level."""
    return tables(at, values)[0]


def tables(at: Map, *lines: Map) -> list[Map]:
    """Several lines of one length read at the same points."""
    at = np.clip(at, 0, np.float32(len(lines[0]) - 1.001))
    whole = at.astype(np.intp)
    part = at - whole.astype(np.float32)
    read = []
    for values in lines:
        values = values.astype(np.float32)
        rises = np.append(values[1:] - values[:-1], np.float32(0))
        rise = rises.take(whole)
        rise *= part
        rise += values.take(whole)
        read.append(rise)
    return read
