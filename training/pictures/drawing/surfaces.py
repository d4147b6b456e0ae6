"""The four surfaces that a technician looks at: liner, sidewall, tread and bead, without anything on them."""

from __future__ import annotations

from functools import cache
from typing import TypeAlias

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

from training.pictures.drawing.noise import Map, Noise
from training.pictures.drawing.surface import Surface, X, Y, distance, smooth, table
from training.pictures.setting import HEIGHT, WIDTH

ONE = np.float32(1)
Place: TypeAlias = tuple[float, float]
# words that stand on any tire; no maker's name
_MOLDED = ("TUBELESS", "RADIAL", "STEEL BELTS", "LOAD RANGE", "OUTSIDE")
GROOVE_GAP, GROOVE_HALF, GROOVE_DEPTH = 165.0, 17.0, 26.0


def _plain(height: Map, paleness: float, gloss: float, along: Map, across: Map, noise: Noise, place: Place) -> Surface:
    cloud = noise.field("wide")
    shade = np.float32(paleness) * (ONE + np.float32(0.07) * cloud + np.float32(0.05) * noise.field("small"))
    shine = np.float32(gloss) * (ONE + np.float32(0.15) * noise.field("broad"))
    return Surface(height, shade, shine, along, across, noise, place)


def _arc(noise: Noise, radius: float, middle: float) -> tuple[Map, Map]:
    """Coordinates that run around the axle, with the axle below or above the picture."""
    lean = np.float32(noise.between(-90, 90))
    x = X - np.float32(WIDTH / 2) - lean
    y = np.float32(radius) - (Y - np.float32(HEIGHT / 2))
    away = distance(x, y)
    part = x / y
    square = part * part
    angle = part * (ONE - square * (np.float32(1 / 3) - square * np.float32(0.2)))
    return np.float32(radius) * angle, away - np.float32(radius + middle)


def _ridge(line: Map, low: float, high: float, rise: float, edge: float = 4.0) -> Map:
    up, down = smooth((line - np.float32(low)) / np.float32(edge)), smooth((line - np.float32(high)) / np.float32(edge))
    return np.float32(rise) * (up - down)


def sidewall(noise: Noise, place: Place) -> Surface:
    along, across = _arc(noise, noise.between(720, 1000), noise.between(-30, 30))
    line = np.arange(-420, 420, 0.5, dtype=np.float32)
    rib = noise.between(58, 78)
    relief = -13 * (line / 250) ** 2 + _ridge(line, rib, rib + 26, 7)
    for low in (-128, -146):
        relief = relief + _ridge(line, low, low + 4, 2, 2)
    relief = relief + np.float32(0.12) * noise.wiggle(len(line), 3)
    height = table(relief.astype(np.float32), (across + 420) * 2)
    height = height + np.float32(0.06) * noise.field("small") + np.float32(0.1) * noise.field("broad")
    band = np.flatnonzero(across > rib + 85)
    ribbed = np.cos(along.ravel()[band] * np.float32(2 * np.pi / 9.5))
    height.ravel()[band] += np.float32(1.6) * np.clip(ribbed * 2, -1, 1)
    vent = along - np.float32(noise.between(-250, 250)) + np.float32(0.06) * across
    near = np.flatnonzero((np.abs(vent) < 5) & (across < np.float32(rib)))
    height.ravel()[near] += np.float32(1.1) * np.exp(-((vent.ravel()[near] / np.float32(1.6)) ** 2))
    _letters(height, along, across - np.float32(rib + 54), noise)
    surface = _plain(height, 0.17, 0.5, along, across, noise, place)
    surface.marks["rib"] = rib
    return surface


def _letters(height: Map, along: Map, off: Map, noise: Noise) -> None:
    """Molded words around the sidewall."""
    strip = _words()
    band = np.flatnonzero(np.abs(off) < 19)
    rows = (np.float32(38) - off.ravel()[band] * 2).astype(np.int32)
    start = int(noise.random.integers(0, strip.shape[1]))
    columns = (along.ravel()[band] * 2).astype(np.int32) + start
    height.ravel()[band] += np.float32(2.6) * strip[rows, columns % strip.shape[1]]


@cache
def _words() -> Map:
    pen_font = ImageFont.load_default(52)
    sheet = Image.new("L", (420 * len(_MOLDED), 78), 0)
    pen = ImageDraw.Draw(sheet)
    for number, word in enumerate(_MOLDED):
        pen.text((420 * number + 20, 8), word, fill=255, font=pen_font)
    return np.asarray(sheet.filter(ImageFilter.GaussianBlur(1.6)), np.float32) / np.float32(255)


def liner(noise: Noise, place: Place) -> Surface:
    lean = np.float32(noise.between(-0.12, 0.12))
    along = (X - np.float32(WIDTH / 2)) + lean * (Y - np.float32(HEIGHT / 2))
    across = (np.float32(HEIGHT / 2) - Y) + lean * (X - np.float32(WIDTH / 2))
    across = across - along * along * np.float32(noise.between(-0.00025, 0.00025))
    bowl = np.float32(noise.between(0.00008, 0.00016)) * (along * along + across * across)
    slant = np.float32(noise.either(-1, 1) * noise.between(0.35, 0.75))
    pitch = noise.between(26, 31)
    phase = (along * slant + across + np.float32(1.5) * noise.field("wide")) / np.float32(pitch)
    off = np.abs(phase - np.round(phase)) * np.float32(pitch)
    height = bowl + np.float32(1.6) * smooth(ONE - off / np.float32(3.4))
    height += np.float32(0.06) * np.cos(along * np.float32(2 * np.pi / 5.2))
    height += np.float32(0.08) * noise.field("small") + np.float32(0.25) * noise.field("broad")
    return _plain(height, 0.16, 0.38, along, across, noise, place)


def bead(noise: Noise, place: Place) -> Surface:
    along, across = _arc(noise, noise.between(560, 700), noise.between(-25, 25))
    line = np.arange(-420, 420, 0.5, dtype=np.float32)
    relief = _ridge(line, 96, 112, 5) + _ridge(line, 124, 129, 2.5, 2) + _ridge(line, 137, 142, 2.5, 2)
    relief = relief - 30 * smooth((-90 - line) / 150) - 6 * ((line + 10) / 200) ** 2
    relief = relief + np.float32(0.10) * noise.wiggle(len(line), 3)
    height = table(relief.astype(np.float32), (across + 420) * 2)
    height += np.float32(0.07) * noise.field("small") + np.float32(0.15) * noise.field("broad")
    toe = np.flatnonzero(across < -95)
    woven_along, woven_across = along.ravel()[toe], across.ravel()[toe]
    height.ravel()[toe] += np.float32(0.8) * (
        np.cos(woven_along * np.float32(2 * np.pi / 6)) * np.cos(woven_across * np.float32(2 * np.pi / 6))
    )
    surface = _plain(height, 0.17, 0.5, along, across, noise, place)
    surface.gloss *= ONE + np.float32(0.5) * np.exp(-(((across + 50) / np.float32(34)) ** 2))
    return surface


def tread(noise: Noise, place: Place) -> Surface:
    # a line each: the tread lies square to the picture
    along, across = X - np.float32(WIDTH / 2), np.float32(HEIGHT / 2) - Y
    shift = np.float32(noise.between(0, GROOVE_GAP))
    swing = noise.between(9, 14)
    turn = np.float32(noise.between(70, 96))
    saw = np.abs((across / turn + np.float32(noise.between(0, 1))) % ONE - np.float32(0.5)) * 4 - ONE
    phase = (along + shift + np.float32(swing) * np.clip(saw * 1.6, -1, 1)) / np.float32(GROOVE_GAP)
    off = np.abs(phase - np.round(phase)) * np.float32(GROOVE_GAP)
    wall = smooth((off - np.float32(GROOVE_HALF)) / np.float32(6))
    sipe_gap = np.float32(noise.between(40, 50))
    zig = np.abs((along / np.float32(26)) % ONE - np.float32(0.5)) * np.float32(16)
    row = (across + zig) / sipe_gap
    sipe = np.abs(row - np.round(row)) * sipe_gap
    height = np.float32(GROOVE_DEPTH) * (wall - ONE)
    top = np.float32(0.09) * noise.field("small")
    top += np.float32(0.08) * noise.field("across")
    top -= np.float32(4) * np.clip(np.float32(1.6) - sipe, 0, 1)
    top *= wall
    height += top
    height += np.float32(0.15) * noise.field("broad")
    level = np.zeros((HEIGHT, WIDTH), np.float32)
    surface = _plain(height, 0.17, 0.34, along + level, across + level, noise, place)
    surface.paleness *= np.float32(0.7) + np.float32(0.3) * wall
    return surface


SURFACES = {"liner": liner, "sidewall": sidewall, "tread": tread, "bead": bead}
