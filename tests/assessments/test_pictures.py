"""Pictures of questions: who gets them, what their addresses, headers and sizes say, and that each is computed once."""

from datetime import timedelta
from io import BytesIO
from typing import Any, ClassVar

import pytest
from django.conf import settings
from django.db import connection
from django.urls import reverse
from django.utils import timezone
from PIL import Image

from assessments import acts
from assessments.models import Attempt, FormItem, Purpose
from assessments.questions import Item, OpenItem, Picture, Sight
from tests.factories import AttemptFactory, FormFactory, a_pictured_item, an_item
from tests.pages import text_of
from training.queries import pictures as kept
from training.stored import enveloped

pytestmark = pytest.mark.django_db

KINDS = {"assessment": ("assessments:picture", {}), "practice": ("assessments:practice_picture", {"practice": True})}


def begun(own_shop: Any, learner: Any, trait: dict[str, bool], *items: Item) -> Attempt:
    form = FormFactory.create(shop=own_shop, learner=learner, items=list(items), **trait)
    clock = {"closes_at": None, "open_for": ""} if trait else {}
    return AttemptFactory.create(form=form, started_at=timezone.now(), **clock)


def address(page: str, own_shop: Any, attempt: Attempt, number: int = 1) -> str:
    return reverse(page, args=[own_shop.slug, attempt.form.reference, 1, number])


@pytest.mark.parametrize(("page", "trait"), KINDS.values(), ids=KINDS)
class TestWhoGetsAPicture:
    def test_the_page_shows_it_through_an_address_of_a_reference_and_two_numbers(
        self, page, trait, client_as, own_shop, apprentice
    ) -> None:
        attempt = begun(own_shop, apprentice, trait, a_pictured_item(pictures=2))
        client, question = (
            client_as(apprentice),
            page.replace("practice_picture", "practice_item").replace(":picture", ":item"),
        )

        shown = client.get(reverse(question, args=[own_shop.slug, attempt.form.reference, 1])).content.decode()

        folder = "practice" if trait else "assessment"
        for number in (1, 2):
            at = f"/shop/{own_shop.slug}/{folder}/{attempt.form.reference}/1/picture/{number}/"
            assert address(page, own_shop, attempt, number) == at
            assert f'<img src="{at}" alt="Picture {number}"' in shown
        assert "All computed, none photographed." in text_of(shown)
        assert "bulge" not in shown

    def test_it_is_gray_and_of_the_renderers_size(self, page, trait, client_as, own_shop, apprentice) -> None:
        attempt = begun(own_shop, apprentice, trait, a_pictured_item())

        got = client_as(apprentice).get(address(page, own_shop, attempt))

        assert got["Content-Type"] == "image/webp"
        with Image.open(BytesIO(got.content)) as picture:
            assert picture.size == (640, 480)

    def test_nobody_else_gets_it(self, page, trait, client_as, own_shop, apprentice, trainer, owner) -> None:
        at = address(page, own_shop, begun(own_shop, apprentice, trait, a_pictured_item()))

        assert client_as("anonymous").get(at).status_code == 302
        assert {client_as(one).get(at).status_code for one in (trainer, owner)} == {404}

    @pytest.mark.parametrize("number", [0, 2, 7])
    def test_there_is_none_beyond_those_shown(self, page, trait, number, client_as, own_shop, apprentice) -> None:
        attempt = begun(own_shop, apprentice, trait, a_pictured_item())

        assert client_as(apprentice).get(address(page, own_shop, attempt, number)).status_code == 404

    def test_a_drawing_is_no_picture(self, page, trait, client_as, own_shop, apprentice) -> None:
        attempt = begun(own_shop, apprentice, trait, an_item())

        assert client_as(apprentice).get(address(page, own_shop, attempt)).status_code == 404

    def test_condition_and_look_alike_have_one_page_one_header_and_one_size(
        self, page, trait, client_as, own_shop, apprentice
    ) -> None:
        attempt = begun(own_shop, apprentice, trait, a_pictured_item())
        row, seen, client = FormItem.objects.get(form=attempt.form), [], client_as(apprentice)
        for look_alike in (False, True):
            item = a_pictured_item(look_alike=look_alike)
            row.snapshot, row.open = item.to_json(), item.open().to_json()
            row.save()
            got = client.get(address(page, own_shop, attempt))
            seen.append((got.content, dict(got.headers), row.open))

        (one, headers, opened), (other, other_headers, other_opened) = seen
        assert one != other
        assert len(one) == len(other)
        assert headers == other_headers
        assert "private" in headers["Cache-Control"]
        assert opened == other_opened


def test_a_picture_of_an_assessment_is_gone_once_it_is_handed_in_or_over(client_as, own_shop, apprentice) -> None:
    over = begun(own_shop, apprentice, {}, a_pictured_item())
    page, client = KINDS["assessment"][0], client_as(apprentice)
    assert client.get(address(page, own_shop, over)).status_code == 200

    Attempt.objects.filter(pk=over.pk).update(
        started_at=timezone.now() - timedelta(hours=3), closes_at=timezone.now() - timedelta(seconds=1)
    )
    assert client.get(address(page, own_shop, over)).status_code == 404
    Attempt.objects.filter(pk=over.pk).update(
        closes_at=timezone.now() + timedelta(hours=1), handed_in_at=timezone.now(), right_count=0, open_for=""
    )
    assert client.get(address(page, own_shop, over)).status_code == 404


def test_an_assessments_picture_is_not_there_under_the_address_of_practice(client_as, own_shop, apprentice) -> None:
    attempt = begun(own_shop, apprentice, {}, a_pictured_item())
    acts.hand_in(attempt=attempt, at=timezone.now())  # while it is open, practice is closed

    assert client_as(apprentice).get(address(KINDS["practice"][0], own_shop, attempt)).status_code == 404


def test_after_the_answer_practice_says_what_is_to_be_seen(client_as, own_shop, apprentice) -> None:
    attempt = begun(own_shop, apprentice, {"practice": True}, a_pictured_item())
    client, at = (
        client_as(apprentice),
        reverse("assessments:practice_item", args=[own_shop.slug, attempt.form.reference, 1]),
    )
    seen = "It is plain to see."  # how every description of a plain one ends

    assert seen not in client.get(at).content.decode()
    told = client.post(at, {"answer": "2"}, follow=True).content.decode()
    assert seen in told
    assert client.get(address(KINDS["practice"][0], own_shop, attempt)).status_code == 200


class TestKeeping:
    SIGHT: ClassVar[dict[str, Any]] = {"name": "bulge", "degree": "slight", "look_alike": True, "seed": "keep/1"}

    @pytest.fixture(autouse=True)
    def empty(self, monkeypatch, tmp_path) -> None:
        monkeypatch.setattr(settings, "PICTURES_DIR", tmp_path / "kept")

    def test_both_of_a_pair_are_computed_at_once_and_then_never_again(self, monkeypatch) -> None:
        first = kept.picture_file(self.SIGHT)

        def refused(*_: Any, **__: Any) -> None:
            raise AssertionError("computed twice")

        monkeypatch.setattr(kept, "render", refused)
        assert kept.picture_file(self.SIGHT) == first
        assert kept.picture_file({**self.SIGHT, "look_alike": False}) != first

    def test_a_folder_that_cannot_be_written_keeps_nobody_from_the_picture(self, monkeypatch, tmp_path) -> None:
        (tmp_path / "file").write_text("in the way")
        first = kept.picture_file(self.SIGHT)
        monkeypatch.setattr(settings, "PICTURES_DIR", tmp_path / "file" / "kept")

        assert kept.picture_file(self.SIGHT) == first

    def test_what_the_renderer_does_not_know_is_refused(self) -> None:
        with pytest.raises(ValueError, match="'brand-new' is not known"):
            kept.picture_file({**self.SIGHT, "name": "brand-new"})

    def test_another_renderer_draws_it_again(self, monkeypatch) -> None:
        kept.picture_file(self.SIGHT)
        made = len(list(settings.PICTURES_DIR.iterdir()))
        monkeypatch.setattr(kept, "drawn_by", lambda: "another")

        kept.picture_file(self.SIGHT)

        assert len(list(settings.PICTURES_DIR.iterdir())) == 2 * made == 4


class TestStored:
    def test_an_item_with_pictures_is_read_back_as_it_was(self) -> None:
        item = a_pictured_item(pictures=3)

        assert Item.from_json(item.to_json()) == item
        assert OpenItem.from_json(item.open().to_json()) == item.open()

    def test_its_json_is_the_picture_and_the_description_and_what_leaves_is_how_many(self) -> None:
        sight = Sight("bulge", "grave", look_alike=False, seed="7")
        item = an_item(figure=Picture("", "A computed picture of the sidewall.", (sight,)))

        assert item.to_json()["figure"] == {
            "picture": {"name": "bulge", "degree": "grave", "look_alike": False, "seed": "7"},
            "description": "A computed picture of the sidewall.",
        }
        assert item.open().to_json()["figure"] == {
            "pictures": 1,
            "description": "A computed picture of the sidewall.",
        }

    def test_a_form_stored_before_there_were_pictures_is_read_as_it_was(self, own_shop, apprentice) -> None:
        attempt = begun(own_shop, apprentice, {}, an_item())
        new = FormItem.objects.get(form=attempt.form)
        with connection.cursor() as cursor:
            for column, content in (("open", an_item().open().to_json()), ("snapshot", an_item().to_json())):
                assert set(content["figure"]) == {"svg", "description"}
                cursor.execute(
                    f"UPDATE assessments_formitem SET {column} = %s WHERE id = %s",
                    [connection.ops.adapt_json_value(enveloped(content, schema=1), None), new.pk],
                )

        old = FormItem.objects.get(pk=new.pk)

        assert (old.open, old.snapshot) == (new.open, new.snapshot)
        assert attempt.form.purpose == Purpose.ASSESSMENT
