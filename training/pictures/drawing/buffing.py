"""What is seen of a field that was buffed for a repair. Degree 0 is slight, 2 is grave."""

from __future__ import annotations

import numpy as np

from training.pictures.drawing.marks import ONE, box, cords
from training.pictures.drawing.noise import Map
from training.pictures.drawing.surface import Surface, blurred, distance, smooth, turned

REACH = (178.0, 136.0)


def _buffed(surface: Surface) -> tuple[Map, Map, Map, Map]:
    noise = surface.noise
    turn = noise.between(-0.08, 0.08)
    outside = box(surface, (150, 104), 22, turn) + np.float32(1.5) * noise.field("middle")
    inside = smooth(-outside / 4)
    level = blurred(surface.height, 16)
    velvet = np.float32(0.34) * noise.field("grain") + np.float32(0.1) * noise.field("small") - np.float32(2.4)
    surface.height = surface.height + inside * (level + velvet - surface.height)
    surface.gloss = surface.gloss * (ONE - np.float32(0.9) * inside)
    surface.paleness = surface.paleness + np.float32(0.02) * inside
    off, away = turned(surface.along, surface.across, surface.here, turn)
    return inside, level, off, away


def even_buffing(surface: Surface, degree: int) -> None:
    """A field of one even grain."""
    with surface.part(REACH) as part:
        _buffed(part)


def gouged_buffing(surface: Surface, degree: int) -> None:
    """Arcs of the rasp cut deep, and rubber burnt to a glaze."""
    with surface.part(REACH) as part:
        _gouged(part, degree)


def _gouged(surface: Surface, degree: int) -> None:
    noise = surface.noise
    inside, level, off, away = _buffed(surface)
    glaze = noise.field("broad") + np.float32(0.5) * noise.field("wide") + np.float32(0.15) * noise.field("along")
    burnt = smooth((glaze - np.float32((1.2, 0.8, 0.4)[degree])) * 4) * inside
    # the texture has run together
    melted = level - np.float32(2.6) + np.float32(0.35) * noise.field("middle") + np.float32(0.8) * noise.field("broad")
    surface.height = surface.height + burnt * (melted - surface.height)
    surface.paleness = surface.paleness * (ONE - np.float32(0.7) * burnt)
    surface.gloss = surface.gloss + np.float32(1.1) * burnt
    middle = noise.between(-60, 60), noise.between(-240, -180)
    round_ = distance(off - np.float32(middle[0]), away - np.float32(middle[1]))
    deep = np.zeros_like(off)
    for _ in range((3, 6, 10)[degree]):
        radius = noise.between(130, 320)
        start = noise.between(-90, 60)
        ends = smooth((off - np.float32(start)) / 14) * smooth((np.float32(start + noise.between(60, 130)) - off) / 14)
        groove = np.clip(ONE - ((round_ - np.float32(radius)) / np.float32(noise.between(3, 5.5))) ** 2, 0, 1)
        deep = np.maximum(deep, groove * ends)
    deep = deep * inside * (ONE + np.float32(0.1) * np.sin(off * np.float32(2 * np.pi / 6)))
    surface.height = surface.height - np.float32((4, 7, 11)[degree]) * deep
    surface.paleness = surface.paleness * (ONE - np.float32(0.35) * deep)
    if degree == 2:
        bare = smooth((deep - np.float32(0.8)) * 6)
        surface.height = surface.height + bare * np.float32(1.6) * cords(away, off, 6)


DRAWN = {"poor-buffing": (gouged_buffing, even_buffing)}
