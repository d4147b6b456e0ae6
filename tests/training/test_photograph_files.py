"""A file that somebody sends as a photograph: what of it is kept, and what is refused."""

import zlib
from io import BytesIO
from struct import pack
from typing import Any

import pytest
from PIL import Image, ImageCms, PngImagePlugin

from tests.photographs import A_VECTOR_DRAWING, PLACE, a_photograph, picture, sent
from training.pictures import BYTES, HIGH, MOST_BYTES, WIDE, UnfitPhotograph, taken
from training.pictures import picture as computed


def chunks(file: bytes) -> list[bytes]:
    """The names of a WebP file's chunks, in order (RFC 9649)."""
    found, at = [], 12
    while at < len(file):
        length = int.from_bytes(file[at + 4 : at + 8], "little")
        found.append(file[at : at + 4])
        at += 8 + length + length % 2
    return found


def a_bomb(width: int, height: int) -> bytes:
    """A PNG that is small as a file and huge in its head (ISO/IEC 15948)."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return pack(">I", len(data)) + kind + data + pack(">I", zlib.crc32(kind + data))

    head = chunk(b"IHDR", pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")


class TestWhatIsKept:
    def test_it_is_webp_of_one_size_in_pixels_and_in_bytes_as_a_computed_picture_is(self) -> None:
        files = [taken(a_photograph(1)).file, taken(a_photograph(2, (3000, 4000))).file]

        for file in files:
            with Image.open(BytesIO(file)) as opened:
                assert (opened.format, opened.size, opened.mode) == ("WEBP", (WIDE, HIGH), "RGB")
                opened.load()
        drawn = computed("bulge", degree="plain", seed=1).file
        assert {len(file) for file in (*files, drawn)} == {BYTES} == {64 * 1024}

    def test_nothing_of_what_the_camera_wrote_beside_the_pixels_is_left(self) -> None:
        content = a_photograph()
        assert PLACE.encode() in content

        file = taken(content).file

        assert chunks(file) == [b"VP8X", b"VP8 ", b"fill"]
        with Image.open(BytesIO(file)) as opened:
            assert not opened.getexif()
            assert not {"exif", "xmp", "icc_profile", "comment"} & set(opened.info)

    def test_a_profile_of_colors_and_text_in_a_png_are_left_behind_too(self) -> None:
        text = PngImagePlugin.PngInfo()
        text.add_text("Location", PLACE)
        profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
        content = sent(picture(), "PNG", pnginfo=text, icc_profile=profile)
        assert PLACE.encode() in content

        assert chunks(taken(content).file) == [b"VP8X", b"VP8 ", b"fill"]

    # Exif 2.3, tag Orientation: where the corner that was sent first belongs
    @pytest.mark.parametrize(
        ("turned", "corner"), [(1, "left upper"), (3, "right lower"), (6, "right upper"), (8, "left lower")]
    )
    def test_it_stands_upright(self, turned, corner) -> None:
        with Image.open(BytesIO(taken(a_photograph(turned=turned)).file)) as opened:
            shown = opened.convert("RGB")
        width = WIDE if turned in (1, 3) else HIGH * 3 // 4  # held upright it stands between two gray fields
        left, right = (WIDE - width) // 2 + 20, (WIDE + width) // 2 - 20
        corners = {
            "left upper": (left, 20),
            "right upper": (right, 20),
            "left lower": (left, HIGH - 20),
            "right lower": (right, HIGH - 20),
        }

        reds = shown.getchannel("R")
        red = [name for name, at in corners.items() if int(str(reds.getpixel(at))) > 150]

        assert red == [corner]

    def test_a_small_copy_in_a_cameras_file_is_left_behind(self) -> None:
        content = sent(picture(), "MPO", save_all=True, append_images=[picture(3)])

        assert chunks(taken(content).file) == [b"VP8X", b"VP8 ", b"fill"]

    @pytest.mark.parametrize("mode", ["L", "P", "RGBA", "LA", "CMYK"])
    def test_any_kind_of_pixels_is_read(self, mode) -> None:
        kind = "JPEG" if mode == "CMYK" else "PNG"

        assert len(taken(sent(picture().convert(mode), kind)).file) == BYTES

    def test_the_same_file_makes_the_same_picture(self) -> None:
        one, other = taken(a_photograph(4)), taken(a_photograph(4))

        assert (one, one.digest) == (other, other.digest)
        assert taken(a_photograph(5)).sent != one.sent


# what each must say: the field, what was found, what is accepted
REFUSED = {
    "a vector drawing": (
        A_VECTOR_DRAWING,
        "no photograph in JPEG or PNG",
    ),
    "a text named as a picture": (b"not a picture at all" * 50, "no photograph in JPEG or PNG"),
    "nothing": (b"", "no photograph in JPEG or PNG"),
    "another kind": (sent(picture(), "GIF"), "no photograph in JPEG or PNG"),
    "another kind yet": (sent(picture(), "WEBP"), "no photograph in JPEG or PNG"),
    "a script of printers": (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 900 900\n", "no photograph in JPEG or PNG"),
    "one that moves": (
        sent(picture(), "PNG", save_all=True, append_images=[picture(2)]),
        "this picture moves; give one that stands still",
    ),
    "one that ends too soon": (a_photograph()[:6000], "cannot be read to its end"),
    "a PNG that ends too soon": (sent(picture(), "PNG")[:2000], "cannot be read to its end"),
    "a bomb": (a_bomb(8000, 8000), "8000 × 8000 pixels are too many; give one of at most 30 million"),
    "a bomb beyond Pillow's limit": (a_bomb(60000, 60000), "too many pixels; give one of at most 30 million"),
    "a head without a body": (a_bomb(2000, 2000), "cannot be read to its end"),
    "a small one": (a_photograph(size=(800, 399)), "800 × 399 pixels show too little; give one of at least 400 pixels"),
    "a huge one": (b"\xff\xd8\xff" + bytes(MOST_BYTES), "13 MiB is too large; give a file of at most 12 MiB"),
}


class TestWhatIsRefused:
    @pytest.mark.filterwarnings("ignore::PIL.Image.DecompressionBombWarning")
    @pytest.mark.parametrize(("content", "told"), REFUSED.values(), ids=REFUSED)
    def test_it_is_said_what_was_found_and_what_is_accepted(self, content, told) -> None:
        with pytest.raises(UnfitPhotograph, match=rf"^Photograph: .*{told}"):
            taken(content)

    def test_pixels_are_counted_before_anything_is_decoded(self, monkeypatch) -> None:
        def decoded(*_: Any) -> None:
            raise AssertionError("decoded")

        monkeypatch.setattr(Image.Image, "copy", decoded)
        monkeypatch.setattr("PIL.ImageFile.ImageFile.load", decoded)
        with pytest.raises(UnfitPhotograph, match="too many"):
            taken(a_bomb(8000, 8000))
        with pytest.raises(UnfitPhotograph, match="too little"):
            taken(a_photograph(size=(399, 399)))
