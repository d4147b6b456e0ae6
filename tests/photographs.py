"""Photographs for tests: rubber that Pillow makes, sent as a phone sends it, with what a camera writes beside it."""

from datetime import datetime
from io import BytesIO
from typing import Any

from PIL import Image, ImageDraw

from tests.factories import NOW
from training import acts
from training.models import Photograph, Shop, User
from training.pictures import taken

PLACE = "N 41 24.2028, W 73 58.1"  # what a camera could write of where it was
A_VECTOR_DRAWING = b'<svg xmlns="http://www.w3.org/2000/svg" width="900" height="900"><script>1</script></svg>'
ORIENTATION, MAKER, GPS, GPS_TEXT = 0x0112, 0x010F, 0x8825, 0x001D


def picture(seed: int = 0, size: tuple[int, int] = (1200, 900)) -> Image.Image:
    """Dark rubber with a pale line, red at its left upper corner, another one for each seed."""
    image = Image.new("RGB", size, (40, 40, 42))
    draw = ImageDraw.Draw(image)
    draw.line((0, 40 + 7 * seed, size[0], size[1] - 40), fill=(150, 148, 140), width=18)
    draw.rectangle((0, 0, size[0] // 5, size[1] // 5), fill=(200, 20, 20))
    return image


def sent(image: Image.Image, kind: str = "JPEG", **options: Any) -> bytes:
    """The picture as a file."""
    out = BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def a_photograph(seed: int = 0, size: tuple[int, int] = (1200, 900), *, turned: int = 1) -> bytes:
    """A JPEG as a phone sends it; `turned` is the orientation that it notes (Exif: 1 to 8)."""
    image = picture(seed, size)
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKER] = turned, PLACE
    exif.get_ifd(GPS)[GPS_TEXT] = PLACE
    return sent(image, exif=exif, comment=PLACE.encode(), quality=85)


def brought(shop: Shop, by: User, seed: int = 0, *, at: datetime = NOW, **facts: Any) -> Photograph:
    """A draft of a photograph that somebody brought to the shop."""
    given: dict[str, Any] = {"condition": "bulge", "look_alike": False, "casing": "passenger"} | facts
    return acts.bring_photograph(shop=shop, by=by, taken=taken(a_photograph(seed)), at=at, **given)
