"""A picture as a WebP file that is as long as every other, so that its size tells nothing.

The container is that of Google's WebP specification (RFC 9649): a reader passes over chunks it does not know.
"""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import shake_256
from io import BytesIO
from struct import pack
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

BYTES = 64 * 1024
_HEAD = 8  # a chunk's name and length


def padded(image: Image, *, qualities: Sequence[int], method: int = 0) -> bytes:
    """Exactly `BYTES` bytes, of the first quality that fits; `image` must hold pixels alone, no metadata.

    Raises ValueError for what no quality makes small enough.
    """
    width, height = image.size
    canvas = _chunk(b"VP8X", bytes(4) + (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little"))
    for quality in qualities:  # the next where a picture would not fit
        out = BytesIO()
        image.save(out, "WEBP", quality=quality, method=method)
        pixels = out.getvalue()[12:]  # the chunk of the image, after the file's own head
        room = BYTES - 12 - len(canvas) - len(pixels) - _HEAD
        if room >= 0:
            # no zeros: what packs the answer of the server would make it short again
            filling = _chunk(b"fill", shake_256(pixels).digest(room))
            return b"RIFF" + pack("<I", BYTES - 8) + b"WEBP" + canvas + pixels + filling
    raise ValueError(f"picture: it does not fit into {BYTES} bytes")


def _chunk(name: bytes, content: bytes) -> bytes:
    return name + pack("<I", len(content)) + content
