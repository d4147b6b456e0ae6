"""One lamp from the side, and a camera: heights become gray."""

from __future__ import annotations

from typing import Any

import numpy as np

from training.pictures.drawing.noise import Map, Noise
from training.pictures.drawing.surface import Surface, X, Y, blurred, enlarged
from training.pictures.setting import HEIGHT, WIDTH, Setting

ONE = np.float32(1)


def lit(surface: Surface, setting: Setting) -> Map:
    """The picture as bytes."""
    height = surface.height
    right, up = np.float32(np.cos(setting.azimuth)), np.float32(np.sin(setting.azimuth))
    level, rise = np.float32(np.cos(setting.elevation)), np.float32(np.sin(setting.elevation))
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
    return _developed(direct, surface.noise, setting)


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


def _developed(light: Map, noise: Noise, setting: Setting) -> Map:
    """Exposed so that every picture is as bright and as contrasty as its seed says, whatever is in it."""
    light = np.maximum(light, 0)
    sample = light[::6, ::6]
    low, high = 0.1, 60.0
    aim = setting.brightness / 255
    for _ in range(12):
        gain = (low * high) ** 0.5
        if float(_tone(sample, gain).mean()) < aim:
            low = gain
        else:
            high = gain
    toned = _tone(light, gain)
    toned *= np.float32(255)
    mean, spread = _spread(toned)
    toned -= mean
    toned *= np.float32(np.clip(setting.contrast / spread, 0.9, 1.15))
    toned += _uneven(toned, noise, setting)
    toned += np.float32(2.0) * noise.field("grain")
    # what is cut off at black and white moves both a little: twice is near enough
    for _ in range(2):
        mean, spread = _spread(toned)
        toned -= mean
        toned *= np.float32(setting.contrast / spread)
        toned += np.float32(setting.brightness)
        np.clip(toned, 0, 255, out=toned)
    toned += np.float32(0.5)
    return toned.astype(np.uint8)


def _spread(values: Map) -> tuple[np.floating[Any], float]:
    """Mean and deviation."""
    mean = values.mean()
    return mean, float(max(np.square(values).mean() - mean * mean, 1e-6)) ** 0.5


def _uneven(toned: Map, noise: Noise, setting: Setting) -> Map:
    """Light that falls unevenly, as much of it as the contrast still lacks."""
    shade = noise.field("wide")[::8, ::8].copy()
    shade -= shade.mean()
    coarse = toned[4::8, 4::8]
    common, own = float((shade * coarse).mean()), float((shade * shade).mean())
    lacking = max(0.0, setting.contrast**2 - _spread(toned)[1] ** 2)
    strength = (np.sqrt(common**2 + own * lacking) - common) / own
    shade *= np.float32(min(strength, 12.0))
    return enlarged(shade, 8)


def _tone(light: Map, gain: float) -> Map:
    toned = ONE - np.exp(light * np.float32(-gain))
    return toned * (np.float32(0.72) + np.float32(0.28) * toned)
