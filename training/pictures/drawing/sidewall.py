"""What is seen on the sidewall. Degree 0 is slight, 2 is grave."""

from __future__ import annotations

import numpy as np

from training.pictures.drawing.marks import ONE, Cuts, cords, fine_lines, spot, strokes_along
from training.pictures.drawing.noise import Map
from training.pictures.drawing.surface import Surface, blurred, smooth, turned


def ozone(surface: Surface, degree: int) -> None:
    """Deep openings that run around the tire, crowded at the foot of the rib."""
    noise, cuts = surface.noise, Cuts(surface)
    one, _ = surface.here
    rib = surface.marks["rib"]
    half = (2.0, 3.2, 4.8)[degree]
    for count, share, long in ((2 + 2 * degree, 1.0, 130), (5 + 3 * degree, 0.6, 70), (7 + 3 * degree, 0.35, 34)):
        for _ in range(count):
            at = one + noise.between(-230, 230), rib - 7 - abs(noise.random.standard_normal()) * (16 + 14 * degree)
            width = half * share
            cuts.cut(at, long * (0.8 + 0.35 * degree), width, 3 * width + 1.5, 0.9, noise.between(-0.06, 0.06))
    strokes = strokes_along(surface, 60 + 30 * degree, 14, 0.12, (rib - 25, 40, 0.97))
    cuts.lines(fine_lines(strokes), 2)
    cuts.done()
    if degree == 2:
        # where an opening is deepest the body cords run across its ground
        bare = smooth((cuts.depth - np.float32(11)) / 3)
        surface.height += bare * np.float32(2.6) * cords(surface.across, surface.along, 6)
        surface.paleness += bare * np.float32(0.05)


def checking(surface: Surface, degree: int) -> None:
    """A net of fine joined lines in the skin alone, thickest below the rib."""
    noise, cuts = surface.noise, Cuts(surface)
    # two fields are nothing along lines that cross each other: a net with closed meshes
    meshes = np.minimum(np.abs(noise.field("middle")), np.abs(noise.field("middle")))
    low = (surface.across - np.float32(surface.marks["rib"] - 35)) / np.float32((50, 62, 76)[degree])
    skin = np.clip(np.float32(1.3) - low * low + np.float32(0.5) * noise.field("broad"), 0, 1)
    lines = np.clip(ONE - meshes * np.float32(5), 0, 1) * skin
    cuts.lines(lines, (1.5, 2.0, 2.5)[degree])
    cuts.done(0.2)
    surface.paleness = surface.paleness + np.float32(0.015) * skin


def bulged(surface: Surface, degree: int) -> None:
    """A round dome pushed outward; the lines of the sidewall bow over it."""
    far = spot(surface, (100 + 18 * degree, 68 + 14 * degree), turn=surface.noise.between(-0.3, 0.3))
    dome = np.exp(np.float32(-0.9) * far**2.5)
    high = np.float32((24, 38, 58)[degree]) * dome
    surface.height = _bowed(surface.height, np.float32(0.4) * high) + high
    surface.gloss = surface.gloss * (ONE + np.float32(0.15) * dome)


def _bowed(height: Map, down: Map) -> Map:
    """Read a little lower in the picture, as if the surface were stretched upward over something."""
    rows = np.flatnonzero((down > 0.05).any(axis=1))
    if not len(rows):
        return height
    first, last = int(rows[0]), int(rows[-1]) + 1
    bowed = height.copy()
    at = np.arange(first, last, dtype=np.float32)[:, None] + down[first:last]
    whole = np.minimum(at.astype(np.intp), height.shape[0] - 2)
    part = np.minimum(at - whole.astype(np.float32), ONE)
    columns = np.arange(height.shape[1])[None, :]
    upper = height[whole, columns]
    bowed[first:last] = upper + part * (height[whole + 1, columns] - upper)
    return bowed


def hollow(surface: Surface, degree: int) -> None:
    """A shallow valley from shoulder to bead, where the plies overlap."""
    one, _ = surface.here
    off = (surface.along - np.float32(one)) / np.float32(34)
    square = off * off
    valley = np.exp(-square) - np.float32(0.35) * np.exp(-((np.abs(off) - np.float32(1.9)) ** 2))
    surface.height = surface.height - np.float32((4.5, 6.0, 7.5)[degree]) * valley


def _arms(cuts: Cuts, long: float, half: float, depth: float, wander: float) -> None:
    """Three openings that go out from the place of the mark, none as long as another."""
    noise = cuts.surface.noise
    first = noise.between(0, np.pi)
    one, other = cuts.surface.here
    for arm in range(3):
        way = first + arm * 2 * np.pi / 3 + noise.between(-0.55, 0.55)
        reach = long * noise.between(0.65, 1.3)
        middle = one + 0.46 * reach * np.cos(way), other + 0.46 * reach * np.sin(way)
        cuts.cut(middle, reach, half, depth, wander, way)
        fork = one + 0.7 * reach * np.cos(way), other + 0.7 * reach * np.sin(way)
        way += noise.either(-1, 1) * noise.between(0.5, 1)
        cuts.cut(fork, reach * 0.35, half * 0.45, depth * 0.5, wander, way)


def broken(surface: Surface, degree: int) -> None:
    """A split with three arms in a dent, cords torn across."""
    cuts = Cuts(surface)
    half = (2.6, 4.6, 7.5)[degree]
    _arms(cuts, 60 + 34 * degree, half, 3.2 * half, 1.1)
    dent = np.exp(-(spot(surface, (95, 95)) ** 2))
    surface.height = surface.height - np.float32(6 + 5 * degree) * dent
    cuts.done(0.45)
    if degree:
        bare = smooth((cuts.depth - np.float32(8)) / 4)
        surface.height += bare * np.float32(3.5) * cords(surface.across, surface.along, 5.5)
        surface.paleness += bare * np.float32(0.09)


def scratched(surface: Surface, degree: int) -> None:
    """Three pale scratches in the skin, no depth to speak of."""
    noise, cuts = surface.noise, Cuts(surface)
    _arms(cuts, 60 + 34 * degree, (3.4, 6.0, 9.8)[degree], 1.0, 0.8)
    skin = cuts.depth * np.clip(np.float32(0.6) + np.float32(0.5) * noise.field("fine"), 0, 1)
    surface.height = surface.height - np.float32(0.7) * skin
    surface.paleness = surface.paleness + np.float32(0.22) * skin
    surface.gloss = surface.gloss * (ONE - np.float32(0.8) * cuts.depth)


def _rubbed(surface: Surface, degree: int) -> tuple[Map, Map]:
    """A long ragged place: how far from its middle, 1 at its edge, and 0 to 1 inside."""
    far = spot(surface, (95 + 28 * degree, 30 + 13 * degree), 0.18, surface.noise.between(-0.2, 0.2))
    return far, smooth((ONE - far) * 4)


def scuffed(surface: Surface, degree: int) -> None:
    """Rubber rubbed rough along a curb, none of it gone."""
    _, inside = _rubbed(surface, degree)
    noise = surface.noise
    rough = np.float32(0.32) * noise.field("along") + np.float32(0.3) * noise.field("fine")
    surface.height = surface.height + inside * (rough - np.float32(1.2))
    surface.paleness = surface.paleness + np.float32(0.075) * inside
    surface.gloss = surface.gloss * (ONE - np.float32(0.85) * inside)


def cut_to_cord(surface: Surface, degree: int) -> None:
    """Rubber gone, body cords side by side on the ground of the injury, some of them broken."""
    far, inside = _rubbed(surface, degree)
    noise = surface.noise
    rough = np.float32(0.5) * noise.field("small") + np.float32(0.4) * noise.field("along")
    surface.height = surface.height + inside * (rough - np.float32(7))
    open_to = (0.62, 0.74, 0.84)[degree]
    bare = smooth((np.float32(open_to) - far) * 6)
    along, across = turned(surface.along, surface.across, surface.here, np.pi / 2 + 0.03)
    worn = np.clip(np.float32(1.1) + np.float32(0.4) * noise.field("broad"), 0.3, 1)
    rope = np.float32(6) * worn * cords(along, across, 7) - np.float32(13)
    surface.height = surface.height + bare * rope
    surface.paleness = surface.paleness * (ONE - np.float32(0.3) * inside) + np.float32(0.14) * bare * worn
    surface.gloss = surface.gloss * (ONE - np.float32(0.8) * inside)


def swollen(surface: Surface, degree: int) -> None:
    """Softened rubber: raised, dark, greasy and puckered like the skin of an orange."""
    noise = surface.noise
    far = spot(surface, (95 + 22 * degree, 70 + 16 * degree), 0.1)
    inside = smooth((np.float32(1.15) - far) * np.float32(1.3))
    pucker = np.float32(0.6) * noise.field("middle") + np.float32(0.5) * noise.field("broad")
    amount = np.float32((0.5, 0.75, 1.05)[degree])
    surface.height = surface.height + inside * (amount * pucker + np.float32(5 + 4 * degree))
    surface.paleness = surface.paleness * (ONE - np.float32(0.62) * inside)
    surface.gloss = surface.gloss + np.float32(0.35 + 0.15 * degree) * inside


def wet(surface: Surface, degree: int) -> None:
    """Water that lies on sound rubber: dark and shining, the surface under it as it was."""
    far = spot(surface, (95 + 22 * degree, 70 + 16 * degree), 0.1)
    inside = smooth((ONE - far) * 6)
    rim = np.exp(-(((far - ONE) * 14) ** 2))
    level = blurred(surface.height, 8)
    surface.height = surface.height + np.float32(0.5) * inside * (level - surface.height) + np.float32(0.5) * rim
    surface.paleness = surface.paleness * (ONE - np.float32(0.62) * inside)
    surface.gloss = surface.gloss + np.float32(0.35 + 0.15 * degree) * inside


DRAWN = {
    "ozone-cracking": (ozone, checking),
    "bulge": (bulged, hollow),
    "impact-damage": (broken, scratched),
    "exposed-cord": (cut_to_cord, scuffed),
    "contamination": (swollen, wet),
}
