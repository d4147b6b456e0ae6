"""What several conditions are made of: cuts, fine lines, cords, domes, dust and stains."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

import numpy as np
from PIL import Image, ImageDraw

from training.pictures.drawing.noise import Map
from training.pictures.drawing.surface import Surface, blurred, distance, smooth, tables, turned
from training.pictures.setting import HEIGHT, WIDTH

ONE = np.float32(1)
Stroke: TypeAlias = list[tuple[float, float]]


class Cuts:
    """Openings in the rubber, gathered and then cut at once."""

    def __init__(self, surface: Surface) -> None:
        self.surface = surface
        self.depth = np.zeros((HEIGHT, WIDTH), np.float32)

    def cut(
        self, at: tuple[float, float], length: float, half: float, depth: float, wander: float = 1.0, turn: float = 0.0
    ) -> None:
        """One opening with its middle at a place: ragged, widest in the middle."""
        window = self.surface.around(at, (length / 2, half + 9 * wander), turn)
        if window is None:
            return
        along, across = turned(self.surface.along[window], self.surface.across[window], at, turn)
        noise, count = self.surface.noise, max(8, int(length))
        path = wander * (4 * noise.wiggle(count, 34) + 1.5 * noise.wiggle(count, 9) + 0.55 * noise.wiggle(count, 2.4))
        share = np.linspace(-1, 1, count, dtype=np.float32)
        path -= path.mean()
        widths = half * np.sqrt(1 - share**2) * np.clip(1 + 0.35 * noise.wiggle(count, 6), 0.3, 2) + 0.05
        place = along + np.float32(length / 2)
        middle, width = tables(place, path, widths)
        off = (across - middle) / width
        profile = np.clip(np.float32(1.35) * (ONE - off * off), 0, 1)
        profile[(place < 0) | (place > length)] = 0
        part = self.depth[window]
        np.maximum(part, profile * np.float32(depth), out=part)

    def lines(self, drawn: Map, depth: float) -> None:
        np.maximum(self.depth, drawn * np.float32(depth), out=self.depth)

    def done(self, lip: float = 0.3) -> None:
        """Cut: sunk, dark and dull inside, its ground rough, the rim raised and flaking a little."""
        surface, depth = self.surface, self.depth
        middle = surface.noise.field("middle")
        raised = np.float32(lip) * np.clip(np.float32(0.8) + np.float32(0.6) * middle, 0, 2)
        raised *= blurred(depth, 8)
        inside = np.minimum(depth * np.float32(0.4), 1)
        surface.height = surface.height - depth + raised
        surface.height += np.float32(0.9) * inside * surface.noise.field("small")
        ground = np.float32(0.62) - np.float32(0.14) * np.clip(middle, -1.5, 1.5)
        surface.paleness = surface.paleness * (ONE - ground * inside)
        surface.gloss = surface.gloss * (ONE - inside)


def fine_lines(strokes: list[Stroke]) -> Map:
    """Strokes of about a pixel, each a row of points in pixels: 0 to 1 a pixel."""
    sheet = Image.new("L", (WIDTH * 2, HEIGHT * 2), 0)
    pen = ImageDraw.Draw(sheet)
    for stroke in strokes:
        pen.line([(2 * left, 2 * top) for left, top in stroke], fill=255, width=2)
    return np.asarray(sheet.reduce(2), np.float32) / np.float32(255)


def strokes_along(
    surface: Surface, count: int, length: float, spread: float, band: tuple[float, float, float]
) -> list[Stroke]:
    """Short strokes that follow the surface: in a band (middle, deviation, share), the rest anywhere."""
    random = surface.noise.random
    tops, lefts = random.integers(2, HEIGHT - 2, count * 3), random.integers(2, WIDTH - 2, count * 3)
    near = np.abs(surface.across[tops, lefts] - band[0]) < band[1]
    keep = near | (random.random(count * 3) > band[2])
    tops, lefts = tops[keep][:count], lefts[keep][:count]
    # the direction in which the surface runs, from its coordinate across
    down = surface.across[np.minimum(tops + 1, HEIGHT - 1), lefts] - surface.across[tops - 1, lefts]
    right = surface.across[tops, np.minimum(lefts + 1, WIDTH - 1)] - surface.across[tops, lefts - 1]
    heading = np.arctan2(-right, down) + spread * random.standard_normal(len(tops))
    reach = random.gamma(3.0, length / 3, len(tops))
    strokes = []
    for left, top, way, long, bend in zip(
        lefts, tops, heading, reach, random.standard_normal((len(tops), 2)) * 0.35, strict=True
    ):
        points, x, y = [(float(left), float(top))], float(left), float(top)
        for turn in (0.0, bend[0], bend[1]):
            x, y = x + long / 3 * np.cos(way + turn), y + long / 3 * np.sin(way + turn)
            points.append((float(x), float(y)))
        strokes.append(points)
    return strokes


def cords(along: Map, across: Map, pitch: float) -> Map:
    """Twisted cords side by side, 0 to about 1 high, running along."""
    phase = across / np.float32(pitch)
    off = np.float32(2) * (phase - np.floor(phase)) - ONE
    round_top = ONE - off * off
    twist = np.sin(along * np.float32(2 * np.pi / (1.5 * pitch)) + np.float32(2.4) * off)
    return round_top * (np.float32(0.8) + np.float32(0.2) * twist)


def spot(surface: Surface, half: tuple[float, float], ragged: float = 0.0, turn: float = 0.0) -> Map:
    """How far from the place, as a share of the half sides: 0 in the middle, 1 at the edge, which may be ragged."""
    one, other = turned(surface.along, surface.across, surface.here, turn)
    one, other = one / np.float32(half[0]), other / np.float32(half[1])
    far = np.sqrt(one * one + other * other)
    if ragged:
        rough = surface.noise.field("broad") + np.float32(0.35) * surface.noise.field("middle")
        # within bounds, or islands would lie about
        far = far * (ONE + np.float32(ragged) * np.clip(rough, -1.4, 1.8))
    return far


def box(surface: Surface, half: tuple[float, float], corner: float, turn: float = 0.0) -> Map:
    """How far outside of an oblong with round corners, in pixels; less than 0 inside."""
    one, other = turned(surface.along, surface.across, surface.here, turn)
    one = np.abs(one) - np.float32(half[0] - corner)
    other = np.abs(other) - np.float32(half[1] - corner)
    outside = distance(np.maximum(one, 0), np.maximum(other, 0))
    return outside + np.minimum(np.maximum(one, other), 0) - np.float32(corner)


def dust(surface: Surface, where: Map, threshold: float, high: float) -> None:
    """Dark crumbs that lie loose where a map (0 to 1) says."""
    noise = surface.noise
    lumps = np.float32(0.7) * noise.field("small") + np.float32(0.75) * noise.field("middle")
    lumps = np.clip((lumps * where - np.float32(threshold)) * 2, 0, 1)
    surface.height = surface.height + np.float32(high) * lumps
    surface.paleness = surface.paleness * (ONE - np.float32(0.45) * lumps)
    surface.gloss = surface.gloss * (ONE - lumps)


def films(surface: Surface, edge: Map, pale: float, gloss: float) -> None:
    """A dried film with a bright edge where a map is above 0: paleness alone, no height."""
    inside = smooth(edge * np.float32(6))
    rim = np.exp(-((edge * np.float32(18) - ONE) ** 2))
    cloud = np.clip(np.float32(0.75) + np.float32(0.25) * surface.noise.field("broad"), 0, 2)
    surface.paleness = surface.paleness + np.float32(pale) * (inside * cloud * np.float32(0.7) + rim * np.float32(0.9))
    surface.gloss = surface.gloss + np.float32(gloss) * inside


def scattered(surface: Surface, count: int, spread: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """Places around the place of the mark."""
    one, other = surface.here
    for _ in range(count):
        off = surface.noise.random.standard_normal(2)
        yield one + spread[0] * float(off[0]), other + spread[1] * float(off[1])
