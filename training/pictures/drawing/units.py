"""What is seen of an earlier repair and of one in the making, on the liner. Degree 0 is slight, 2 is grave."""

from __future__ import annotations

import numpy as np

from training.pictures.drawing.marks import ONE, box
from training.pictures.drawing.noise import Map
from training.pictures.drawing.surface import Surface, blurred, distance, smooth, turned

HALF = (118.0, 84.0)  # of the unit, in pixels
REACH = (HALF[0] + 58, HALF[1] + 58)  # with the buffed field around it


def _unit(surface: Surface) -> tuple[Map, Map, Map, float]:
    """A repair unit stitched down on a buffed field: how far outside, the coordinates and the turn."""
    noise = surface.noise
    turn = noise.between(-0.12, 0.12)
    off, away = turned(surface.along, surface.across, surface.here, turn)
    outside = box(surface, HALF, 26, turn)
    field = smooth((np.float32(26) + np.float32(3) * noise.field("broad") - outside) / 8)
    level = blurred(surface.height, 16)
    rough = np.float32(0.3) * noise.field("fine") - np.float32(1.2)
    surface.height = surface.height + field * (level + rough - surface.height)
    surface.gloss = surface.gloss * (ONE - np.float32(0.85) * field)
    cement = smooth((np.float32(9) - outside) / 3)
    surface.gloss = surface.gloss + np.float32(0.5) * cement
    surface.paleness = surface.paleness * (ONE - np.float32(0.2) * cement)
    body = smooth(-outside / np.float32(30))
    stitched = np.float32(0.45) * np.cos((off + away * np.float32(0.3)) * np.float32(2 * np.pi / 5.6)) * (outside > -34)
    ring = np.exp(-(((outside + 46) / np.float32(2)) ** 2)) + np.exp(-(((outside + 52) / np.float32(1.4)) ** 2))
    skin = np.float32(0.05) * noise.field("small")
    height = level + np.float32(8) * body + stitched + np.float32(1.2) * ring + skin
    arrow = (np.abs(off) < (np.float32(8) - np.abs(np.abs(away) - np.float32(24)) * np.float32(0.8))).astype(np.float32)
    height = height + np.float32(1.1) * arrow
    on = smooth((ONE - outside) / 2)
    surface.height = surface.height + on * (height - surface.height)
    surface.gloss = surface.gloss + on * (np.float32(0.42) - surface.gloss)
    surface.paleness = surface.paleness + on * (np.float32(0.15) - surface.paleness)
    return outside, off, away, turn


def sound_unit(surface: Surface, degree: int) -> None:
    """A unit that lies close everywhere."""
    with surface.part(REACH) as part:
        _unit(part)


def lifted_edge(surface: Surface, degree: int) -> None:
    """One corner of the unit stands off, a dark gap under it."""
    with surface.part(REACH) as part:
        _lifted(part, degree)


def _lifted(surface: Surface, degree: int) -> None:
    noise = surface.noise
    outside, off, away, _ = _unit(surface)
    at = noise.either(-1, 1) * (HALF[0] - 8), noise.either(-1, 1) * (HALF[1] - 8)
    reach = np.float32((52, 78, 112)[degree])
    near = np.clip(ONE - distance(off - np.float32(at[0]), away - np.float32(at[1])) / reach, 0, 1)
    on = outside < 0
    surface.height = surface.height + np.float32((16, 30, 52)[degree]) * near * near * on
    under = smooth((np.float32(7 + 4 * degree) * near - outside) / 3) * (outside >= 0)
    surface.height = surface.height - np.float32(4) * under
    surface.paleness = surface.paleness * (ONE - np.float32(0.6) * under)
    surface.gloss = surface.gloss * (ONE - under)


def bubble(surface: Surface, degree: int) -> None:
    """Air shut in under the unit: a soft dome in its field."""
    with surface.part(REACH) as part:
        _bubbled(part, degree)


def _bubbled(surface: Surface, degree: int) -> None:
    noise = surface.noise
    _, off, away, _ = _unit(surface)
    at = noise.between(-62, 62), noise.between(-36, 36)
    size = np.float32((26, 36, 50)[degree])
    square = ((off - np.float32(at[0])) / (size * np.float32(1.15))) ** 2 + ((away - np.float32(at[1])) / size) ** 2
    surface.height = surface.height + np.float32((9, 16, 29)[degree]) * np.exp(-(square**1.4))


def string_plug(surface: Surface, degree: int) -> None:
    """A twisted string pushed through from outside: its tails stand in the liner, no unit over it."""
    with surface.part((170, 170)) as part:
        _tails(part, degree)


def _tails(surface: Surface, degree: int) -> None:
    noise = surface.noise
    first = noise.between(0, np.pi)
    high = np.zeros_like(surface.height)
    strand = np.zeros_like(surface.height)
    for number in range(2):
        way = first + number * 2.3 + noise.between(-0.4, 0.4)
        long, thick = 46 + 26 * degree, 9 + 2 * degree
        off, away = turned(surface.along, surface.across, surface.here, way)
        bend = away - np.float32(noise.between(-0.004, 0.004)) * off * off
        frayed = np.float32(0.05) * noise.field("fine") + np.float32(0.10) * noise.field("middle")
        share = np.clip(off / np.float32(long), 0, 1)
        thin = np.float32(thick) * (np.float32(0.8) + np.float32(0.3) * share + frayed * (ONE + 2 * share))
        # loose at the end, where the fibers come apart
        on = smooth((off + np.float32(4)) / 4) * smooth((np.float32(long) - off + 2.5 * noise.field("fine")) / 7)
        round_top = np.sqrt(np.clip(ONE - (bend / thin) ** 2, 0, 1)) * on
        twist = np.sin((off + np.float32(1.6) * bend) * np.float32(2 * np.pi / 12)) * (ONE - np.float32(0.4) * share)
        rope = round_top * (thin + np.float32(1.6) * twist + np.float32(0.14) * noise.field("fine"))
        high = np.maximum(high, rope)
        strand = np.maximum(strand, np.minimum(round_top * 3, 1))
    surface.height = surface.height + high
    ring = np.exp(-(((distance(*turned(surface.along, surface.across, surface.here, 0)) - 20) / np.float32(9)) ** 2))
    surface.height = surface.height + np.float32(2) * ring * (ONE - strand)
    dull = np.float32(0.2) + np.float32(0.03) * noise.field("small")
    surface.paleness = surface.paleness + strand * (dull - surface.paleness)
    surface.gloss = surface.gloss * (ONE - np.float32(0.9) * strand)


def molded_pip(surface: Surface, degree: int) -> None:
    """A pip of rubber from a vent of the mold, with a low collar."""
    with surface.part((90, 90)) as part:
        _pip(part, degree)


def _pip(surface: Surface, degree: int) -> None:
    far = distance(*turned(surface.along, surface.across, surface.here, 0))
    size = np.float32(9 + 3 * degree)
    pip = smooth((size - far) / np.float32(4)) * np.float32(7 + 2 * degree)
    collar = np.exp(-(((far - size * np.float32(2.4)) / np.float32(3)) ** 2))
    surface.height = surface.height + pip + np.float32(1.8) * collar


DRAWN = {
    "lifted-repair-edge": (lifted_edge, sound_unit),
    "bubble-under-unit": (bubble, sound_unit),
    "string-without-unit": (string_plug, molded_pip),
}
