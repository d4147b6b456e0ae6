"""What is seen on the tread. Degree 0 is slight, 2 is grave."""

from __future__ import annotations

import numpy as np

from training.pictures.drawing.marks import Cuts, cords, scattered, spot
from training.pictures.drawing.noise import Map
from training.pictures.drawing.surface import Surface, smooth, table, turned
from training.pictures.setting import HEIGHT

ONE = np.float32(1)


def worn_to_cord(surface: Surface, degree: int) -> None:
    """An oval worn through the tread to the belt; a bar in the grooves is there or not."""
    noise = surface.noise
    if noise.random.random() < 0.5:
        _bar(surface, noise.between(4, 9), noise.between(28, 36), noise.either(-1, 1) * noise.between(170, 260))
    far = spot(surface, (100 + 20 * degree, 84 + 20 * degree), 0.1)
    inside = smooth((ONE - far) * 3)
    rough = np.float32(0.5) * noise.field("small") + np.float32(0.6) * noise.field("middle")
    dish = np.float32(-15) + rough
    surface.height = surface.height + inside * (np.minimum(surface.height, dish) - surface.height)
    bare = smooth((np.float32((0.5, 0.62, 0.74)[degree]) - far) * 7)
    along, across = turned(surface.along, surface.across, surface.here, np.pi / 2 + noise.either(-0.35, 0.35))
    rope = np.float32(5) * cords(along, across, 8.2) - np.float32(23)
    surface.height = surface.height + bare * (rope - surface.height)
    surface.paleness = surface.paleness + bare * np.float32(0.10) - inside * np.float32(0.02)
    surface.gloss = surface.gloss * (ONE - np.float32(0.5) * inside) + bare * np.float32(0.3)


def _bar(surface: Surface, below: float, half: float, away: float = 0.0) -> None:
    """A bar across all grooves, this far below the tread and away from the place of the mark."""
    _, other = surface.here
    off = np.abs(surface.across - np.float32(other + away))
    inside = smooth((np.float32(half) - off) / np.float32(5))
    top = np.maximum(surface.height, np.float32(-below) + np.float32(0.1) * surface.noise.field("small"))
    deep = surface.height < np.float32(-6)
    surface.height = surface.height + inside * deep * (top - surface.height)
    surface.paleness = surface.paleness + inside * deep * np.float32(0.03)


def bar_far_below(surface: Surface, degree: int) -> None:
    """The bar stands clearly lower than the tread."""
    _bar(surface, (15.5, 14, 12.5)[degree], surface.noise.between(28, 36))


def bar_below(surface: Surface, degree: int) -> None:
    """Grooves interrupted by a bar a little lower than the tread: sound rubber all around."""
    _bar(surface, (6.5, 5.0, 4.0)[degree], surface.noise.between(28, 36))


def bar_flush(surface: Surface, degree: int) -> None:
    """The tread worn down to the bar."""
    worn = np.float32((0.46, 0.3, 0.16)[degree])
    surface.height = np.where(surface.height < -2, surface.height * worn, surface.height)
    _, other = surface.here
    off = np.abs(surface.across - np.float32(other))
    inside = smooth((np.float32(surface.noise.between(28, 36)) - off) / np.float32(5))
    surface.height = surface.height + inside * (np.maximum(surface.height, np.float32(-0.4)) - surface.height)
    surface.paleness = surface.paleness + inside * np.float32(0.006)


def torn_out(surface: Surface, degree: int) -> None:
    """Pieces of the blocks gone, the ground ragged and lower."""
    noise = surface.noise
    gone = np.zeros_like(surface.height)
    for number, (one, other) in enumerate(scattered(surface, 2 + degree, (90, 80))):
        at = surface.here if number == 0 else (one, other)
        off, away = turned(surface.along, surface.across, at, noise.between(0, 3))
        size = noise.between(30, 44) + 13 * degree
        far = np.sqrt((off / np.float32(size)) ** 2 + (away / np.float32(size * 0.75)) ** 2)
        torn = noise.field("broad") + np.float32(0.3) * noise.field("middle")
        far = far * (ONE + np.float32(0.2) * np.clip(torn, -1.5, 1.8))
        gone = np.maximum(gone, smooth((ONE - far) * 5))
    rough = np.float32(0.8) * noise.field("small") + np.float32(1.8) * noise.field("middle")
    floor = np.minimum(surface.height, rough - np.float32((9, 13, 17)[degree]))
    surface.height = surface.height + gone * (floor - surface.height)
    surface.gloss = surface.gloss * (ONE - np.float32(0.9) * gone)
    surface.paleness = surface.paleness * (ONE - np.float32(0.12) * gone)


def nicked(surface: Surface, degree: int) -> None:
    """Short nicks of gravel in the skin of the blocks."""
    noise, cuts = surface.noise, Cuts(surface)
    for one, other in scattered(surface, 10 + 6 * degree, (90, 80)):
        cuts.cut((one, other), noise.between(8, 22), noise.between(1.4, 2.6), 2.6, 0.3, noise.between(0, np.pi))
    cuts.done(0.2)


def _shouldered(surface: Surface) -> Map:
    """The tread ends at a line and the sidewall falls away behind it: how far outside of the line."""
    out = (surface.along - np.float32(surface.here[0])) * np.float32(surface.noise.either(-1, 1))
    side = smooth(out / np.float32(10))
    fall = np.float32(0.0009) * np.maximum(out, 0) ** 2
    plain = np.float32(0.09) * surface.noise.field("small") + np.float32(0.12) * surface.noise.field("across")
    surface.height = surface.height + side * (plain - np.float32(5) - surface.height) - fall
    surface.paleness = surface.paleness + side * (np.float32(0.16) - surface.paleness)
    return out


def loose_tread(surface: Surface, degree: int) -> None:
    """The edge of the tread stands off from the body: a dark gap under a lifted lip."""
    noise = surface.noise
    out = _shouldered(surface)
    count = 700
    place = np.clip(surface.across + np.float32(count / 2), 0, count - 1).astype(np.int32)
    middle, half = surface.here[1], np.float32((90, 140, 220)[degree])
    lens = np.clip(ONE - ((surface.across - np.float32(middle)) / half) ** 2, 0, 1)
    ragged = (np.float32(2.2) * noise.wiggle(count, 10) + np.float32(1.2) * noise.wiggle(count, 3))[place]
    wide = np.float32((8, 17, 34)[degree]) * np.sqrt(lens)
    lip = np.exp(np.minimum(out, 0) / np.float32(26)) * (out <= ragged)
    surface.height = surface.height + np.float32((5, 10, 18)[degree]) * lens * lip
    gap = smooth((out - ragged) / 2) * smooth((wide + ragged - out) / 3) * (lens > 0)
    floor = np.float32(-22) + np.float32(1.2) * noise.field("middle")
    surface.height = surface.height + gap * (floor - surface.height)
    surface.paleness = surface.paleness * (ONE - np.float32(0.6) * gap)
    surface.gloss = surface.gloss * (ONE - gap)


def joint(surface: Surface, degree: int) -> None:
    """The line at which tread and sidewall were molded together: a fine even seam."""
    out = _shouldered(surface)
    seam = np.exp(-(((out - np.float32(8)) / np.float32(1.6)) ** 2))
    bead_of_flow = np.exp(-(((out - np.float32(12)) / np.float32(3)) ** 2))
    surface.height = surface.height + np.float32((1.5, 2.2, 3)[degree]) * (bead_of_flow - seam)


def dished(surface: Surface, degree: int) -> None:
    """One spot worn down and feathered while the tread around it stands."""
    far = spot(surface, (130 + 18 * degree, 110 + 18 * degree), 0.03)
    inside = smooth((ONE - far) * 1.5)
    deep = np.float32((7, 12, 18)[degree])
    noise = surface.noise
    rubbed = np.float32(0.25) * noise.field("across") + np.float32(0.15) * noise.field("small")
    steps = table(noise.wiggle(HEIGHT, 14), surface.across + np.float32(HEIGHT / 2))
    worn = (rubbed + np.float32(0.3 + 0.3 * degree) * steps - deep) * inside
    surface.height = np.minimum(surface.height, worn)
    surface.paleness = surface.paleness * (ONE - np.float32(0.1) * inside)
    surface.gloss = surface.gloss * (ONE - np.float32(0.5) * inside)


def muddy(surface: Surface, degree: int) -> None:
    """A cake of dried mud or paint on sound tread."""
    far = spot(surface, (120 + 18 * degree, 100 + 18 * degree), 0.12)
    inside = smooth((ONE - far) * 5)
    noise = surface.noise
    cloud = np.clip(np.float32(0.7) + np.float32(0.35) * noise.field("middle"), 0, 1.3) * inside
    surface.paleness = surface.paleness + np.float32(0.09) * cloud * (ONE + np.float32(0.2 * degree))
    surface.height = surface.height + np.float32(0.35) * cloud
    surface.gloss = surface.gloss * (ONE - np.float32(0.9) * inside)


DRAWN = {
    "excessive-wear": (worn_to_cord, bar_below),
    "wear-indicators-flush": (bar_flush, bar_far_below),
    "chunking": (torn_out, nicked),
    "tread-separation": (loose_tread, joint),
    "uneven-wear-separation": (dished, muddy),
}
