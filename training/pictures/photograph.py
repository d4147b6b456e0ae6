"""A photograph that somebody sends, made into a picture of ours: upright, of one size, of pixels alone.

What a camera writes beside the pixels (place, time, owner, device, a small copy) is left behind, all of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from io import BytesIO
from typing import TYPE_CHECKING

from training.pictures.padding import padded
from training.trade.speech import say

if TYPE_CHECKING:
    from PIL.Image import Image

MIB = 1024 * 1024
MOST_BYTES = 12 * MIB
MOST_PIXELS = 30_000_000
LEAST_SIDE = 400  # pixels; less shows too little to judge by
WIDE, HIGH = 960, 720  # pixels of every photograph that is kept
ACCEPTED = ("JPEG", "PNG")
_GRAY = (96, 96, 96)  # beside a picture that is not as wide, and behind what is transparent
_QUALITIES = (84, 76, 68, 58, 48, 36, 24, 12, 4)


class UnfitPhotograph(ValueError):
    """It was not taken in: the words name the field, what was found, and what is accepted."""


@dataclass(frozen=True, slots=True)
class Taken:
    """A photograph as it is kept, with its SHA-256 and that of the file that was sent, by which it is known again."""

    file: bytes
    digest: str
    sent: str


@dataclass(frozen=True, slots=True)
class Photographed:
    """A shop's photograph as a page shows it: of what, on which casing, and where its picture is to be had."""

    condition: str
    look_alike: bool
    casing: str
    address: str


def too_large(size: int) -> str:
    """What is said of a file of so many bytes."""
    return say(
        "Photograph: {size} MiB is too large; give a file of at most {most} MiB.",
        size=-(-size // MIB),
        most=MOST_BYTES // MIB,
    )


def taken(content: bytes) -> Taken:
    """The photograph of a JPEG or PNG file. Its size is read before anything is decoded. Raises UnfitPhotograph."""
    if len(content) > MOST_BYTES:
        raise UnfitPhotograph(too_large(len(content)))
    try:
        upright = _upright(content)
    except UnfitPhotograph:
        raise
    except Exception as problem:  # a broken file fails in a decoder in any way it likes
        raise UnfitPhotograph(
            say("Photograph: the file cannot be read to its end; send the photograph again, as JPEG or PNG.")
        ) from problem
    file = padded(_canvas(upright), qualities=_QUALITIES, method=4)
    return Taken(file, sha256(file).hexdigest(), sha256(content).hexdigest())


def _upright(content: bytes) -> Image:
    """The pixels, turned as the camera was held."""
    from PIL import Image, ImageOps, UnidentifiedImageError

    try:
        opened = Image.open(BytesIO(content), formats=ACCEPTED)  # reads the head alone
    except Image.DecompressionBombError:
        raise UnfitPhotograph(_too_many()) from None
    except UnidentifiedImageError:
        raise UnfitPhotograph(
            say("Photograph: this file is no photograph in JPEG or PNG; those two are accepted.")
        ) from None
    with opened:
        width, height = opened.size
        if width * height > MOST_PIXELS:
            raise UnfitPhotograph(_too_many(width, height))
        if min(width, height) < LEAST_SIDE:
            raise UnfitPhotograph(
                say(
                    "Photograph: {width} × {height} pixels show too little; give one of at least {least} pixels on "
                    "its shorter side.",
                    width=width,
                    height=height,
                    least=LEAST_SIDE,
                )
            )
        # a camera's JPEG may hold a second, smaller copy, which is left behind
        if opened.format == "PNG" and getattr(opened, "n_frames", 1) > 1:
            raise UnfitPhotograph(say("Photograph: this picture moves; give one that stands still."))
        opened.draft("RGB", (2 * WIDE, 2 * WIDE))  # no more of a large JPEG is decoded than is needed
        return ImageOps.exif_transpose(opened.copy())


def _too_many(width: int = 0, height: int = 0) -> str:
    most = MOST_PIXELS // 1_000_000
    if not width:
        return say("Photograph: it has too many pixels; give one of at most {most} million.", most=most)
    return say(
        "Photograph: {width} × {height} pixels are too many; give one of at most {most} million.",
        width=width,
        height=height,
        most=most,
    )


def _canvas(upright: Image) -> Image:
    """All of it on a canvas of one size: a new picture, into which nothing but pixels goes."""
    from PIL import Image, ImageOps

    seen = ImageOps.contain(upright.convert("RGBA"), (WIDE, HIGH))
    canvas = Image.new("RGB", (WIDE, HIGH), _GRAY)
    canvas.paste(seen, ((WIDE - seen.width) // 2, (HIGH - seen.height) // 2), seen)
    return canvas
