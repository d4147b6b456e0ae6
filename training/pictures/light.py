"""One lamp from the side, and a camera: heights become gray."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from training.pictures.noise import HEIGHT, WIDTH, Map
from training.pictures.surface import Surface, X, Y, blurred

ONE = np.float32(1)


@dataclass(frozen=True)
class Lamp:
    """Where the light comes from, in radians, how bright the picture turns out (0 to 1)."""

    azimuth: float  # from the right, counterclockwise
    elevation: float
    brightness: float


def lit(surface: Surface, lamp: Lamp, grain: Map) -> Map:
    """The picture as bytes."""
    height = surface.height
    right, up = np.float32(np.cos(lamp.azimuth)), np.float32(np.sin(lamp.azimuth))
    level, rise = np.float32(np.cos(lamp.elevation)), np.float32(np.sin(lamp.elevation))
    slope_x, slope_y = np.empty_like(height), np.empty_like(height)
    np.subtract(height[:, 2:], height[:, :-2], out=slope_x[:, 1:-1])
    slope_x[:, 0], slope_x[:, -1] = slope_x[:, 1], slope_x[:, -2]
    np.subtract(height[2:], height[:-2], out=slope_y[1:-1])
    slope_y[0], slope_y[-1] = slope_y[1], slope_y[-2]
    slope_x *= np.float32(0.5)
    slope_y *= np.float32(0.5)
    toward = right * slope_x - up * slope_y  # how steeply it rises toward the lamp; rows count downward
    steep = slope_x * slope_x
    steep += slope_y * slope_y
    steep += ONE
    norm = ONE / np.sqrt(steep)
    direct = np.maximum((rise - level * toward) * norm, 0)
    half = np.float32(np.hypot(level, rise + 1))
    shine = np.maximum(((rise + ONE) - level * toward) * norm / half, 0)
    shine *= shine
    shine *= shine
    shine *= shine
    direct *= np.float32(0.8) * surface.paleness
    direct += np.float32(0.16) * surface.gloss * shine
    direct *= _shadow(height, right, up, rise / level)
    direct *= _spot(float(right), float(up))
    fill = np.maximum(np.float32(0.75) + np.float32(0.6) * toward * norm, 0)
    direct += np.float32(0.22) * surface.paleness * fill
    direct *= np.clip(ONE - np.float32(0.09) * (blurred(height, 8) - height), np.float32(0.35), np.float32(1.1))
    return _developed(direct, lamp.brightness, grain)


def _shadow(height: Map, right: np.floating[Any], up: np.floating[Any], slope: np.floating[Any]) -> Map:
    """What lies behind something higher: the highest ray that comes over, by doubling the reach."""
    over = height.copy()
    for reach in (1, 2, 4, 8, 16, 32):
        step_x, step_y = round(reach * float(right)), round(-reach * float(up))
        drop = np.float32(np.hypot(step_x, step_y)) * slope
        from_rows, to_rows = _moved(step_y)
        from_columns, to_columns = _moved(step_x)
        ray = over[from_rows, from_columns] - drop
        target = over[to_rows, to_columns]
        over[to_rows, to_columns] = np.maximum(target, ray)
    over -= height
    over *= np.float32(-0.3)
    over += ONE
    return np.maximum(over, np.float32(0.05))


def _moved(step: int) -> tuple[slice, slice]:
    """What lies a step toward the lamp, and what it throws its shadow on."""
    if step > 0:
        return slice(step, None), slice(None, -step)
    if step < 0:
        return slice(None, step), slice(-step, None)
    return slice(None), slice(None)


def _spot(right: float, up: float) -> Map:
    """Nearer to the lamp it is brighter; the corners are darker."""
    across = ((X - np.float32(WIDTH / 2 + 260 * right)) / np.float32(620)) ** 2
    down = ((Y - np.float32(HEIGHT / 2 - 260 * up)) / np.float32(620)) ** 2
    return ONE / (ONE + across + down)


def _developed(light: Map, brightness: float, grain: Map) -> Map:
    """Exposed so that every picture is as bright as its seed says, whatever is in it."""
    sample = np.maximum(light[::6, ::6], 0)
    low, high = 0.1, 60.0
    for _ in range(12):
        gain = (low * high) ** 0.5
        if float(_tone(sample, gain).mean()) < brightness:
            low = gain
        else:
            high = gain
    toned = _tone(np.maximum(light, 0), gain)
    toned += np.float32(brightness) - toned.mean()
    toned *= np.float32(255)
    toned += np.float32(2.4) * grain
    return np.clip(toned, 0, 255).astype(np.uint8)


def _tone(light: Map, gain: float) -> Map:
    toned = ONE - np.exp(light * np.float32(-gain))
    return toned * (np.float32(0.72) + np.float32(0.28) * toned)
