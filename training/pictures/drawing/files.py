"""A computed picture as a file."""

from __future__ import annotations

from PIL import Image

from training.pictures.drawing.noise import Map
from training.pictures.padding import padded

_QUALITIES = (66, 58, 50, 40, 25, 10)


def packed(pixels: Map) -> bytes:
    """As many bytes as every other picture. Raises ValueError for what no quality makes small enough."""
    return padded(Image.fromarray(pixels), qualities=_QUALITIES)
