"""A picture as a WebP file that is as long as every other, so that its size tells nothing.

The container is that of Google's WebP specification (RFC 9649): a reader passes over chunks it does not know.
"""

from __future__ import annotations

from hashlib import shake_256
from io import BytesIO
from struct import pack

from PIL import Image

from training.pictures.drawing.noise import Map
from training.pictures.setting import HEIGHT, WIDTH

BYTES = 64 * 1024
_QUALITIES = (66, 58, 50, 40, 25, 10)  # the next where a picture would not fit
_HEAD = 8  # a chunk's name and length


def packed(pixels: Map) -> bytes:
    """Exactly `BYTES` bytes. Raises ValueError for what no quality makes small enough."""
    for quality in _QUALITIES:
        out = BytesIO()
        Image.fromarray(pixels).save(out, "WEBP", quality=quality, method=0)
        image = out.getvalue()[12:]  # the chunk of the image, after the file's own head
        canvas = _chunk(b"VP8X", bytes(4) + (WIDTH - 1).to_bytes(3, "little") + (HEIGHT - 1).to_bytes(3, "little"))
        room = BYTES - 12 - len(canvas) - len(image) - _HEAD
        if room >= 0:
            # no zeros: what packs the answer of the server would make it short again
            filling = _chunk(b"fill", shake_256(image).digest(room))
            return b"RIFF" + pack("<I", BYTES - 8) + b"WEBP" + canvas + image + filling
    raise ValueError(f"picture: it does not fit into {BYTES} bytes")


def _chunk(name: bytes, content: bytes) -> bytes:
    return name + pack("<I", len(content)) + content
