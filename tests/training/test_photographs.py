"""A shop's own photographs: what of a file is kept, what is refused, who may do what, and what a backup holds."""

import sqlite3
import subprocess
import zlib
from contextlib import closing
from io import BytesIO
from pathlib import Path
from struct import pack
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.files.uploadhandler import TemporaryFileUploadHandler
from django.db import DatabaseError, IntegrityError, connection, transaction
from PIL import Image, ImageCms, PngImagePlugin

from tests.factories import NOW, MembershipFactory, PhotographFactory, UserFactory
from tests.pages import cost_of, text_of, url
from tests.photographs import PLACE, a_photograph, picture, sent
from training import acts
from training.management.backup import back_up
from training.models import Photograph
from training.pages.photographs import ruling
from training.pictures import BYTES, HIGH, MOST_BYTES, WIDE, UnfitPhotograph, taken
from training.pictures import picture as computed
from training.queries import photographs_in
from training.rulebook import load_edition


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
        b'<svg xmlns="http://www.w3.org/2000/svg" width="900" height="900"><script>1</script></svg>',
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


def brought(shop, by, seed: int = 0, *, at=NOW, **facts: Any) -> Photograph:
    given: dict[str, Any] = {"condition": "bulge", "look_alike": False, "casing": "passenger"} | facts
    return acts.bring_photograph(shop=shop, by=by, taken=taken(a_photograph(seed)), at=at, **given)


@pytest.fixture
def second(own_shop):
    """Another trainer of the shop."""
    return MembershipFactory.create(shop=own_shop, role="trainer", user=UserFactory.create(name="Sam Second")).user


@pytest.mark.django_db
class TestTheActs:
    def test_a_draft_is_kept_when_it_was_looked_at(self, own_shop, trainer) -> None:
        draft = brought(own_shop, trainer)
        assert not photographs_in(own_shop).exists()

        kept = acts.keep_photograph(photograph=draft, at=NOW)

        assert (kept.kept_at, kept.stands, kept.is_confirmed) == (NOW, True, False)
        assert acts.keep_photograph(photograph=draft, at=NOW).kept_at == NOW
        assert [one.pk for one in photographs_in(own_shop)] == [draft.pk]

    def test_a_new_draft_takes_the_place_of_the_one_before_and_the_same_stays(self, own_shop, trainer) -> None:
        first = brought(own_shop, trainer, 1)

        assert brought(own_shop, trainer, 1).pk == first.pk
        assert brought(own_shop, trainer, 2).pk != first.pk
        assert Photograph.objects.count() == 1

    def test_the_same_file_twice_is_said_and_nothing_is_doubled(self, own_shop, trainer, second) -> None:
        acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)

        with pytest.raises(acts.PhotographRefused, match='has it already, as "A bulge", added by The trainer'):
            brought(own_shop, second, look_alike=True)
        assert Photograph.objects.count() == 1

    def test_two_who_bring_the_same_keep_it_once(self, own_shop, trainer, second) -> None:
        one, other = brought(own_shop, trainer), brought(own_shop, second)
        acts.keep_photograph(photograph=one, at=NOW)

        with pytest.raises(acts.PhotographRefused, match="has it already"):
            acts.keep_photograph(photograph=other, at=NOW)

    def test_another_shop_may_have_the_same(self, own_shop, other_shop, trainer, person) -> None:
        acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
        stranger = person("trainer_of_other_shop")

        assert acts.keep_photograph(photograph=brought(other_shop, stranger), at=NOW).stands

    def test_a_discarded_draft_leaves_nothing_and_what_is_kept_stays(self, own_shop, trainer) -> None:
        draft = brought(own_shop, trainer)
        acts.discard_photograph(photograph=draft)
        acts.discard_photograph(photograph=draft)
        assert not Photograph.objects.exists()

        kept = acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
        acts.discard_photograph(photograph=kept)
        assert photographs_in(own_shop).count() == 1

    def test_at_night_drafts_of_more_than_a_day_go(self, own_shop, trainer, second) -> None:
        PhotographFactory.create(shop=own_shop, added_by=trainer, added_at=NOW - acts.DRAFT_LASTS, draft=True)
        PhotographFactory.create(shop=own_shop, added_at=NOW - 2 * acts.DRAFT_LASTS)
        PhotographFactory.create(shop=own_shop, added_by=second, added_at=NOW - acts.DRAFT_LASTS * 1.01, draft=True)

        assert acts.clear_photograph_drafts(at=NOW) == 1  # `manage.py nightly` presses it
        assert acts.clear_photograph_drafts(at=NOW) == 0
        assert Photograph.objects.count() == 2

    def test_a_second_trainer_confirms_it_and_not_the_first(self, own_shop, trainer, second) -> None:
        kept = PhotographFactory.create(shop=own_shop, added_by=trainer)

        with pytest.raises(acts.PhotographRefused, match="You brought this photograph yourself"):
            acts.confirm_photograph(photograph=kept, by=trainer, at=NOW)
        found = acts.confirm_photograph(photograph=kept, by=second, at=NOW)
        assert (found.confirmed_by, found.confirmed_at) == (second, NOW)
        assert acts.confirm_photograph(photograph=kept, by=UserFactory.create(), at=NOW).confirmed_by == second

    def test_it_is_taken_back_once_with_a_reason_and_confirmed_no_more(self, own_shop, trainer, second) -> None:
        kept = PhotographFactory.create(shop=own_shop, added_by=trainer)
        found = acts.take_back_photograph(photograph=kept, by=trainer, reason="A shadow.", at=NOW)
        again = acts.take_back_photograph(photograph=kept, by=second, reason="Another.", at=NOW)

        assert (found.reason, again.reason, again.taken_back_by) == ("A shadow.", "A shadow.", trainer)
        with pytest.raises(acts.PhotographRefused, match="was taken back"):
            acts.confirm_photograph(photograph=kept, by=second, at=NOW)

    def test_what_was_taken_back_can_be_brought_again_with_what_it_does_show(self, own_shop, trainer) -> None:
        first = acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
        acts.take_back_photograph(photograph=first, by=trainer, reason="A hollow.", at=NOW)

        again = acts.keep_photograph(photograph=brought(own_shop, trainer, look_alike=True), at=NOW)

        assert again.shows == "A hollow from how it was built"
        assert photographs_in(own_shop).count() == 2


@pytest.mark.django_db
class TestTheDatabase:
    @pytest.mark.parametrize(
        "change",
        [
            {"condition": "impact-damage"},
            {"look_alike": True},
            {"content": b"other"},
            {"kept_at": None},
            {"casing": "truck"},
        ],
        ids=str,
    )
    def test_what_is_kept_is_not_rewritten(self, change, own_shop) -> None:
        kept = PhotographFactory.create(shop=own_shop)

        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=kept.pk).update(**change)
        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=kept.pk).delete()

    def test_nor_who_confirmed_it_nor_why_it_was_taken_back(self, own_shop, trainer) -> None:
        confirmed = PhotographFactory.create(shop=own_shop, confirmed=True)
        back = PhotographFactory.create(shop=own_shop, taken_back=True)

        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=confirmed.pk).update(confirmed_by=trainer)
        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=back.pk).update(reason="Another.")

    @pytest.mark.parametrize(
        ("facts", "constraint"),
        [
            ({"condition": "a-new-one"}, "photograph_condition_known"),
            ({"casing": "bicycle"}, "photograph_casing_known"),
            ({"confirmed_at": NOW}, "photograph_confirmed_by_a_second"),
            ({"taken_back_at": NOW}, "photograph_taken_back_with_a_reason"),
        ],
        ids=lambda one: one if isinstance(one, str) else "",
    )
    def test_it_refuses_what_the_forms_refuse(self, facts, constraint, own_shop) -> None:
        with pytest.raises(IntegrityError, match=constraint), transaction.atomic():
            PhotographFactory.create(shop=own_shop, **facts)

    def test_nobody_confirms_their_own(self, own_shop, trainer) -> None:
        with pytest.raises(IntegrityError, match="photograph_confirmed_by_a_second"), transaction.atomic():
            PhotographFactory.create(shop=own_shop, added_by=trainer, confirmed_by=trainer, confirmed_at=NOW)

    def test_the_same_stands_once(self, own_shop) -> None:
        PhotographFactory.create(shop=own_shop, sent="a" * 64)

        with pytest.raises(IntegrityError), transaction.atomic():
            PhotographFactory.create(shop=own_shop, sent="a" * 64)
        assert PhotographFactory.create(shop=own_shop, sent="a" * 64, taken_back=True)


def upload(client, shop, content: bytes | None = None, **given: str) -> Any:
    data: dict[str, Any] = {"shows": "bulge", "casing": "passenger"} | given
    if content is not None:
        data["photograph"] = SimpleUploadedFile("IMG_bulge.jpg", content, content_type="image/jpeg")
    return client.post(url("training:photograph_add", shop), data, follow=True)


@pytest.mark.django_db
class TestThePages:
    def test_it_is_shown_as_it_will_be_and_kept_once_somebody_looked(self, client_as, own_shop, trainer) -> None:
        client = client_as(trainer)
        look = upload(client, own_shop, a_photograph())
        draft = Photograph.objects.get()
        page = text_of(look)

        assert "Keep this photograph?" in page
        assert "is there a face, a license plate or a name in it?" in page
        assert "By your rulebook, with all else in order: Reject. Out of service. Do not run it." in page
        assert f"/photographs/{draft.reference}/picture/" in look.content.decode()
        assert "IMG_bulge" not in look.content.decode()
        at = url("training:photograph_look", own_shop, draft.reference)
        refused = client.post(at, {})
        assert "tick this once there is none" in text_of(refused)
        assert not photographs_in(own_shop).exists()

        kept = text_of(client.post(at, {"is_clean": "on"}, follow=True))
        assert "Kept this photograph: A bulge." in kept
        assert "One trainer says so, The trainer; your shop has no second to confirm it." in kept

    def test_a_draft_is_there_for_nobody_else(self, client_as, own_shop, trainer, second, owner) -> None:
        draft = brought(own_shop, trainer)

        for name in ("photograph_look", "photograph_picture"):
            at = url(f"training:{name}", own_shop, draft.reference)
            assert client_as(trainer).get(at).status_code == 200
            assert {client_as(one).get(at).status_code for one in (second, owner)} == {404}
        for name in ("photograph_confirm", "photograph_take_back"):
            assert client_as(second).post(url(f"training:{name}", own_shop, draft.reference)).status_code == 404
        assert "A bulge" not in text_of(client_as(second).get(url("training:photographs", own_shop)))

    def test_not_to_keep_it_leaves_nothing(self, client_as, own_shop, trainer) -> None:
        draft = brought(own_shop, trainer)

        told = client_as(trainer).post(url("training:photograph_discard", own_shop, draft.reference), follow=True)

        assert "nothing of it is left" in text_of(told)
        assert not Photograph.objects.exists()

    @pytest.mark.parametrize(
        ("given", "told"),
        [
            ({"content": None}, "Photograph: nothing was chosen"),
            ({"content": b""}, "Photograph: the file is empty"),
            ({"content": REFUSED["a vector drawing"][0]}, "Photograph: this file is no photograph in JPEG or PNG"),
            ({"content": a_photograph(), "shows": "a dent"}, 'What it shows: "a dent" is not accepted'),
            ({"content": a_photograph(), "shows": ""}, "What it shows: nothing is chosen"),
            ({"content": a_photograph(), "casing": "bicycle"}, 'On what tire: "bicycle" is not accepted'),
        ],
        ids=["no file", "empty", "vector", "unknown", "nothing said", "no such tire"],
    )
    def test_what_is_wrong_is_said_beside_its_field(self, given, told, client_as, own_shop, trainer) -> None:
        page = upload(client_as(trainer), own_shop, **given)

        assert told in text_of(page)
        assert not Photograph.objects.exists()

    def test_a_huge_file_is_counted_and_not_written(self, client_as, own_shop, trainer, monkeypatch) -> None:
        written: list[int] = []
        whole = TemporaryFileUploadHandler.receive_data_chunk

        def counted(self: TemporaryFileUploadHandler, raw: bytes, start: int) -> None:
            written.append(len(raw))
            whole(self, raw, start)

        monkeypatch.setattr(TemporaryFileUploadHandler, "receive_data_chunk", counted)

        page = upload(client_as(trainer), own_shop, b"\xff\xd8\xff" + bytes(3 * MOST_BYTES))

        assert "Photograph: 37 MiB is too large; give a file of at most 12 MiB." in text_of(page)
        assert MOST_BYTES <= sum(written) <= MOST_BYTES + 2**17

    def test_the_second_trainer_confirms_and_the_first_takes_back(self, client_as, own_shop, trainer, second) -> None:
        kept = PhotographFactory.create(shop=own_shop, added_by=trainer)
        listed = url("training:photographs", own_shop)
        assert "a second has not confirmed it" in text_of(client_as(second).get(listed))
        own = client_as(trainer).get(listed).content.decode()
        assert url("training:photograph_confirm", own_shop, kept.reference) not in own

        confirmed = client_as(second).post(url("training:photograph_confirm", own_shop, kept.reference), follow=True)
        assert "The trainer says so; Sam Second confirmed it." in text_of(confirmed)
        back = url("training:photograph_take_back", own_shop, kept.reference)
        assert "nothing was given; say it in a sentence" in text_of(client_as(trainer).post(back, {"reason": ""}))
        told = text_of(client_as(trainer).post(back, {"reason": "It is a shadow."}, follow=True))
        assert "It is a shadow." in told
        assert "Confirm" not in told

    def test_a_learner_sees_it_once_it_is_confirmed_and_until_it_is_taken_back(
        self, client_as, own_shop, apprentice
    ) -> None:
        def answered(**facts: bool) -> int:
            one = PhotographFactory.create(shop=own_shop, **facts)
            got = client_as(apprentice).get(url("training:photograph_picture", own_shop, one.reference))
            return int(got.status_code)

        assert (answered(), answered(confirmed=True), answered(confirmed=True, taken_back=True)) == (404, 200, 404)

    def test_another_shop_sees_none(self, client_as, own_shop, other_shop) -> None:
        one = PhotographFactory.create(shop=own_shop, confirmed=True)
        client = client_as("trainer_of_other_shop")

        for shop in (own_shop, other_shop):
            for name in ("photograph_picture", "photograph_take_back", "photograph_look"):
                assert client.get(url(f"training:{name}", shop, one.reference)).status_code == 404
            assert client.post(url("training:photograph_confirm", shop, one.reference)).status_code == 404

    def test_no_page_names_in_an_alternative_text_what_is_to_be_seen(self, client_as, own_shop, trainer) -> None:
        PhotographFactory.create(shop=own_shop)

        html = client_as(trainer).get(url("training:photographs", own_shop)).content.decode()

        assert 'alt="A photograph of a sidewall, taken by your shop."' in html

    def test_it_is_said_when_practice_asks_about_it(self, client_as, own_shop, trainer) -> None:
        PhotographFactory.create(shop=own_shop)
        at, client = url("training:photographs", own_shop), client_as(trainer)
        assert 'what it can be taken for, "A hollow from how it was built"' in text_of(client.get(at))

        PhotographFactory.create(shop=own_shop, look_alike=True)

        assert text_of(client.get(at)).count("Asked in practice.") == 2

    def test_a_page_costs_as_many_queries_with_ten_as_with_one(self, client_as, own_shop, trainer) -> None:
        client, at = client_as(trainer), url("training:photographs", own_shop)
        PhotographFactory.create(shop=own_shop, confirmed=True)
        before = cost_of(client, at)
        PhotographFactory.create_batch(9, shop=own_shop, confirmed=True)

        assert cost_of(client, at) == before


@pytest.mark.parametrize("edition", ["north-america", "united-kingdom"])
def test_the_rulebook_says_what_follows_from_it(edition) -> None:
    # published lists of rejecting conditions (common practice)
    told = {
        look_alike: ruling(load_edition(edition), condition="bulge", look_alike=look_alike, casing="passenger")
        for look_alike in (False, True)
    }

    assert told[False].startswith("By your rulebook, with all else in order: Reject.")
    assert told[True].startswith("By your rulebook, with all else in order: Accept.")
    of_a_repair = ruling(load_edition(edition), condition="poor-buffing", look_alike=False, casing="passenger")
    assert "asked by name alone" in of_a_repair


@pytest.mark.django_db
def test_a_backup_holds_it(own_shop, trainer, tmp_path) -> None:
    kept = acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
    database = dict(connection.settings_dict)
    if connection.vendor == "sqlite":  # which stands in memory here
        database |= {"ENGINE": "django.db.backends.sqlite3", "NAME": str(tmp_path / "live.sqlite3")}
        Path(database["NAME"]).write_bytes(connection.connection.serialize())

    manifest = back_up(database=database, secret_key="the secret", target=tmp_path / "copy", at=NOW)

    if connection.vendor == "sqlite":
        with closing(sqlite3.connect(tmp_path / "copy" / "sound-casing.sqlite3")) as copy:
            [content] = copy.execute("SELECT content FROM training_photograph").fetchone()
        assert content == bytes(Photograph.objects.get(pk=kept.pk).content)
    else:  # what no other connection sees yet is not in the copy, its table is
        copied = ["pg_restore", "--list", str(tmp_path / "copy" / "sound-casing.dump")]
        assert "training_photograph" in subprocess.run(copied, capture_output=True, text=True, check=True).stdout
    assert manifest["files"]
