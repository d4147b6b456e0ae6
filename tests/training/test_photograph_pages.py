"""The pages of a shop's own photographs: to bring, look at, confirm and take back, and who sees them."""

from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.files.uploadhandler import TemporaryFileUploadHandler

from tests.factories import PhotographFactory
from tests.pages import cost_of, text_of, url
from tests.photographs import A_VECTOR_DRAWING, a_photograph, brought
from training.models import Photograph
from training.pictures import MOST_BYTES
from training.queries import photographs_in


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
            ({"content": A_VECTOR_DRAWING}, "Photograph: this file is no photograph in JPEG or PNG"),
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
