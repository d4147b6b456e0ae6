"""What is seen on the liner. Degree 0 is slight, 2 is grave."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from training.pictures.drawing.marks import ONE, Cuts, cords, dust, films, spot
from training.pictures.drawing.noise import Map
from training.pictures.drawing.surface import Surface, blurred, smooth, table, turned
from training.pictures.setting import HEIGHT


def _band(surface: Surface, half: float) -> Map:
    """A band around the tire with a wandering edge: above 0 inside, 1 in the middle."""
    noise = surface.noise
    _, other = surface.here
    wander = np.float32(9) * noise.field("wide") + np.float32(4) * noise.field("broad")
    return ONE - np.abs(surface.across - np.float32(other) + wander) / np.float32(half)


def run_flat(surface: Surface, degree: int) -> None:
    """A rubbed ring: ridges gone, wrinkles across it, crumbs of rubber below."""
    noise = surface.noise
    edge = _band(surface, (48, 66, 88)[degree])
    inside = smooth(edge * 3)
    rubbed = np.float32(0.35) * noise.field("along") - np.float32(2)
    level = blurred(surface.height, 16)
    surface.height = surface.height + inside * (level + rubbed - surface.height)
    off = surface.across - np.float32(surface.here[1])
    phase = surface.along + np.float32(0.3) * np.sqrt(off * off + 900) + np.float32(9) * noise.field("broad")
    wave = np.abs(np.sin((phase + np.float32(11) * noise.field("wide")) * np.float32(np.pi / 27)))
    strong = np.clip(np.float32(0.75) + np.float32(0.45) * noise.field("wide"), 0.15, 1.4)
    surface.height = surface.height + np.float32((1.9, 3.6, 5.6)[degree]) * np.sqrt(wave) * inside * strong
    surface.gloss = surface.gloss * (ONE - np.float32(0.9) * inside)
    surface.paleness = surface.paleness + np.float32(0.02) * inside
    one, other = surface.here
    cuts = Cuts(surface)
    if degree:
        cuts.cut((one, other), 240 * degree, 1.2 + 1.3 * degree, 4 + 3 * degree, 1.2)
    cuts.done()
    heap = np.exp(-(((off + np.float32((48, 66, 88)[degree])) / np.float32(34)) ** 2))
    dust(surface, heap, (1.25, 0.85, 0.5)[degree], (1.6, 2.6, 3.6)[degree])


def lubricant(surface: Surface, degree: int) -> None:
    """A film that dried pale, with runs below it; the ridges pass through."""
    noise = surface.noise
    edge = _band(surface, (48, 66, 88)[degree])
    _, other = surface.here
    runs = np.full_like(edge, -1)
    for _ in range(7 + 3 * degree):
        at, long, thin = noise.between(-310, 310), noise.between(30, 110), noise.between(3, 6)
        turns = 3 * noise.wiggle(HEIGHT, 40)
        reach = (48, 66, 88)[degree] + long
        window = surface.around((at, other - reach / 2), (18, reach / 2))
        if window is None:
            continue
        along, across = surface.along[window], surface.across[window]
        side = ONE - np.abs(along - np.float32(at) + table(turns, across + np.float32(HEIGHT / 2))) / np.float32(thin)
        low = (across - np.float32(other - reach)) / np.float32(6)
        np.maximum(runs[window], np.minimum(np.minimum(side, low), np.float32(other) - across), out=runs[window])
    films(surface, np.maximum(edge, runs * np.float32(0.4)), 0.10 + 0.02 * degree, -0.12)


def _seam(surface: Surface) -> tuple[Map, Map]:
    """A seam from bead to bead: how far to the right of it, and how far up the picture it is."""
    noise = surface.noise
    count = 700
    path = 5 * noise.wiggle(count, 120) + 1.2 * noise.wiggle(count, 25)
    one, _ = surface.here
    bend = table(path, surface.across[:, :1] + np.float32(350))  # the rows are all but level
    return surface.along - np.float32(one) - bend, surface.across


def open_splice(surface: Surface, degree: int) -> None:
    """The overlap of the liner has come open; cords stand in the gap."""
    noise = surface.noise
    off, up = _seam(surface)
    middle, half = surface.here[1], np.float32((110, 165, 230)[degree])
    lens = np.clip(ONE - ((up - np.float32(middle)) / half) ** 2, 0, 1)
    torn = 1.2 * noise.wiggle(700, 6) + 1.5 * noise.wiggle(700, 20)
    ragged = table(torn, up[:, :1] + np.float32(350))
    wide = np.float32((11, 22, 40)[degree]) * lens + np.minimum(lens * 6, 1) * ragged
    sheet = smooth(-off / 4)
    curl = np.exp(np.minimum(off, 0) / np.float32(22)) * lens * np.float32((2, 3.5, 5)[degree])
    surface.height = surface.height + np.float32(3) * sheet + curl * (off < 1)
    gap = smooth(off / 2) * smooth((wide - off) / 3)
    floor = np.float32(3.6) * cords(up, off, 6.2) - np.float32(7)
    surface.height = surface.height + gap * (floor - surface.height)
    surface.paleness = surface.paleness * (ONE - np.float32(0.25) * gap)
    surface.gloss = surface.gloss * (ONE - np.float32(0.7) * gap)


def sound_splice(surface: Surface, degree: int) -> None:
    """The overlap of the liner closed: a low step with a fine line; the ridges run through."""
    off, _ = _seam(surface)
    step = smooth((ONE - off / 30) * np.float32(0.8))
    line = np.exp(-(((off - 1) / np.float32(1.3)) ** 2))
    flow = np.exp(-(((off + 3) / np.float32(2.5)) ** 2))
    surface.height = surface.height + np.float32(2.5 + degree) * step + np.float32(1.2) * (flow - line)


def loose_liner(surface: Surface, degree: int) -> None:
    """A flap of the liner stands off, with a hollow under it; the body plies show."""
    noise = surface.noise
    size = 62 + 26 * degree
    first = noise.between(0, 2 * np.pi)
    off, away = turned(surface.along, surface.across, surface.here, first)
    far = np.sqrt((off / np.float32(size * 1.25)) ** 2 + (away / np.float32(size)) ** 2)
    rough = np.clip(noise.field("broad") + np.float32(0.3) * noise.field("middle"), -1.5, 1.8)
    far = far * (ONE + np.float32(0.10) * rough)
    open_side = smooth((off / np.float32(size) + np.float32(0.35)) * np.float32(1.6))
    inside = smooth((ONE - far) * 8)
    gone = inside * smooth((off - np.float32(0.1 * size) + 4 * noise.field("broad")) / 3)
    curl = np.exp(-np.abs(off - np.float32(0.1 * size)) / np.float32(30)) * inside * (ONE - gone)
    round_ = (off / np.float32(size * 1.25)) ** 2 + (away / np.float32(size)) ** 2
    rise = np.exp(round_ * np.float32(-1.1)) * (ONE - open_side) * np.float32(8 + 6 * degree)
    surface.height = surface.height + rise + curl * np.float32((6, 10, 15)[degree])
    floor = np.float32(3) * cords(surface.across, surface.along, 7) - np.float32(8)
    surface.height = surface.height + gone * (floor - surface.height)
    surface.paleness = surface.paleness * (ONE - np.float32(0.2) * gone)
    surface.gloss = surface.gloss * (ONE - np.float32(0.8) * gone)


def pressed_mark(surface: Surface, degree: int) -> None:
    """A flat round mark that the bladder of the mold left: no edge is loose."""
    size = 62 + 26 * degree
    far = spot(surface, (size * 1.25, size), 0.01, surface.noise.between(0, 3))
    rim = np.exp(-(((far - ONE) * np.float32(size / 3.2)) ** 2))
    inner = np.exp(-(((far - np.float32(0.86)) * np.float32(size / 2)) ** 2))
    inside = smooth((ONE - far) * 10)
    surface.height = surface.height + np.float32(2.4) * rim + np.float32(1.2) * inner - np.float32(1.2) * inside


def _rounds(surface: Surface, degree: int) -> Iterator[tuple[Map, float]]:
    """Several round places: the square of how far it is from each, 1 at its edge, and how large each is in pixels."""
    noise = surface.noise
    one, other = surface.here
    for number in range(3 + 2 * degree):
        at = (one + noise.between(-150, 150), other + noise.between(-120, 120)) if number else (one, other)
        size = noise.between(20, 32) + 9 * degree
        off, away = turned(surface.along, surface.across, at, noise.between(0, 3))
        yield (off / np.float32(size)) ** 2 + (away / np.float32(size * 0.85)) ** 2, size


def blistered(surface: Surface, degree: int) -> None:
    """Round domes pushed up from behind."""
    domes = np.zeros_like(surface.height)
    for square, size in _rounds(surface, degree):
        domes = np.maximum(domes, smooth(ONE - square) * np.float32(size * (0.17 + 0.05 * degree)))
    surface.height = surface.height + domes
    surface.gloss = surface.gloss + np.float32(0.2) * (domes > 0)


def drops(surface: Surface, degree: int) -> None:
    """Drops that dried flat: pale rings without height."""
    edge = np.full_like(surface.height, -1)
    for square, _ in _rounds(surface, degree):
        edge = np.maximum(edge, ONE - np.sqrt(square))
    films(surface, edge + np.float32(0.05) * surface.noise.field("broad"), 0.09, -0.1)


DRAWN = {
    "run-flat-damage": (run_flat, lubricant),
    "liner-cracked": (open_splice, sound_splice),
    "liner-separation": (loose_liner, pressed_mark),
    "liner-blistered": (blistered, drops),
}
