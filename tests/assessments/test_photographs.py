"""A shop's photographs in questions: in practice alone, of both or of none; nothing beside them tells the answer."""

from collections import Counter
from typing import Any

import pytest
from django.http import Http404
from django.urls import reverse
from django.utils import timezone

from assessments import acts, queries
from assessments.models import FormItem, Purpose
from assessments.questions import Item, OpenItem, Photo, Picture, draw
from tests.factories import AttemptFactory, FormFactory, PhotographFactory, an_item
from tests.pages import text_of
from tests.present import as_a
from tests.terms import terms_of
from training.acts import take_back_photograph
from training.pictures import BYTES
from training.rulebook import load_edition

FAMILIES = ("picture-named", "picture-verdict")


def photos(*kinds: tuple[str, bool], casing: str = "passenger", confirmed: bool = True) -> tuple[Photo, ...]:
    """A photograph of each kind: a condition, and whether it is what is taken for it."""
    return tuple(Photo(f"reference-{place}", *kind, casing, confirmed) for place, kind in enumerate(kinds))


BOTH = photos(("bulge", False), ("bulge", True))


def drawn(name: str, photographs: tuple[Photo, ...], count: int, edition: str = "north-america") -> list[Item]:
    rulebook = load_edition(edition)
    return [draw(name, seed=f"photo/{n}", edition=rulebook, photographs=photographs) for n in range(count)]


def photo_of(item: Item) -> Photo | None:
    return None if item.figure is None else item.figure.photo


@pytest.mark.parametrize("name", FAMILIES)
class TestADraw:
    def test_shows_a_photograph_of_both_kinds_alike_and_computed_pictures_too(self, name) -> None:
        items = drawn(name, BOTH, 120)

        kinds = Counter(photo.look_alike for item in items if (photo := photo_of(item)))
        # by even odds at each try; those on long names take more tries, and a verdict is asked of other casings too
        assert 0.04 < kinds.total() / len(items) < 0.5 + 4 * 0.5 / len(items) ** 0.5
        # four standard errors of a fair coin
        assert abs(kinds[True] - kinds[False]) <= 4 * kinds.total() ** 0.5

    def test_asks_what_the_photograph_shows(self, name) -> None:
        for item in drawn(name, BOTH, 60):
            if photo := photo_of(item):
                assert item.features["condition"] == "bulge"
                assert item.features["look_alike"] is photo.look_alike
                right = item.key_text
                if name == "picture-named":
                    assert right == ("A hollow from how it was built" if photo.look_alike else "A bulge")
                else:  # published lists of rejecting conditions (common practice)
                    assert right.startswith("Repair" if photo.look_alike else "Out of service")
                    assert item.case is not None
                    assert as_a(dict, item.case["tire"])["casing"] == photo.casing

    def test_shows_none_where_the_shop_has_one_kind_alone(self, name) -> None:
        # else that it is a photograph would give the answer away
        alone = photos(("bulge", False), ("bulge", False), ("impact-damage", True))

        assert not any(map(photo_of, drawn(name, alone, 40)))

    def test_without_photographs_is_the_question_it_was(self, name) -> None:
        rulebook = load_edition("united-kingdom")

        for number in range(5):
            one = draw(name, seed=f"{number}", edition=rulebook)
            assert draw(name, seed=f"{number}", edition=rulebook, photographs=()) == one
            assert photo_of(one) is None

    def test_says_the_same_beside_both(self, name) -> None:
        said: dict[bool, set[str]] = {False: set(), True: set()}
        for item in drawn(name, BOTH, 120):
            if photo := photo_of(item):
                opened = item.open()
                assert opened.figure is not None
                said[photo.look_alike].add(opened.figure.description)
                told = str(opened.to_json()["figure"])
                assert not [one for one in ("reference", "bulge", "hollow") if one in told]

        assert said[False] == said[True] == {"A photograph of a sidewall, taken by your shop."}

    def test_in_british_english_too(self, name) -> None:
        items = drawn(name, BOTH, 40, "united-kingdom")

        assert any(map(photo_of, items)) or name == "picture-verdict"


def test_a_photograph_is_stored_and_read_back_and_what_leaves_is_whether_two_say_so() -> None:
    for is_confirmed, told in ((True, "confirmed"), (False, "one-trainer")):
        [photo] = photos(("bulge", True), confirmed=is_confirmed)
        item = an_item(figure=Picture("", "A photograph.", photo=photo))

        assert Item.from_json(item.to_json()) == item
        assert OpenItem.from_json(item.open().to_json()) == item.open()
        assert item.open().to_json()["figure"] == {"pictures": 1, "photograph": told, "description": "A photograph."}


def asked(shop: Any, learner: Any, photograph: Any) -> tuple[Any, str]:
    """A practice that shows a photograph of the shop, and the address of its question."""
    [photo] = [one for one in queries.photographs_to_ask(shop, None) if one.reference == str(photograph.reference)]
    item = an_item(figure=Picture("", "A photograph of a sidewall, taken by your shop.", photo=photo))
    form = FormFactory.create(shop=shop, learner=learner, items=[item], practice=True)
    attempt = AttemptFactory.create(form=form, started_at=timezone.now(), closes_at=None, open_for="")
    return attempt, reverse("assessments:practice_item", args=[shop.slug, form.reference, 1])


@pytest.mark.django_db
class TestAPractice:
    def test_shows_it_and_says_that_it_is_one(self, client_as, own_shop, apprentice) -> None:
        one = PhotographFactory.create(shop=own_shop, content=b"x" * BYTES, confirmed=True)
        _, at = asked(own_shop, apprentice, one)
        client = client_as(apprentice)

        page = client.get(at).content.decode()

        assert "A photograph of this shop." in text_of(page)
        assert "One trainer" not in text_of(page)
        assert "Computed" not in text_of(page)
        assert f'<img src="{at}picture/1/" alt="A photograph of a sidewall, taken by your shop."' in page
        assert not [word for word in (str(one.reference), "bulge") if word in page]
        got = client.get(f"{at}picture/1/")
        assert (got.status_code, got["Content-Type"], got.content) == (200, "image/webp", one.content)
        assert client.get(f"{at}picture/2/").status_code == 404

    def test_says_that_one_trainer_says_so_until_a_second_does(self, client_as, own_shop, apprentice) -> None:
        _, at = asked(own_shop, apprentice, PhotographFactory.create(shop=own_shop))

        assert "One trainer says what it shows; a second has not confirmed it." in text_of(
            client_as(apprentice).get(at)
        )

    def test_says_after_the_answer_what_it_shows_and_who_says_so(
        self, client_as, own_shop, apprentice, trainer
    ) -> None:
        one = PhotographFactory.create(shop=own_shop, added_by=trainer)
        _, at = asked(own_shop, apprentice, one)
        client = client_as(apprentice)

        told = text_of(client.post(at, {"answer": "2"}, follow=True))

        assert "By your shop it shows: A bulge. One trainer says so, The trainer" in told

    def test_still_shows_it_after_it_was_taken_back_and_says_why(
        self, client_as, own_shop, apprentice, trainer
    ) -> None:
        one = PhotographFactory.create(shop=own_shop, added_by=trainer)
        _, at = asked(own_shop, apprentice, one)
        client = client_as(apprentice)
        client.post(at, {"answer": "2"})

        take_back_photograph(photograph=one, by=trainer, reason="It is a shadow.", at=timezone.now())

        assert "It is a shadow." in text_of(client.get(at))
        assert client.get(f"{at}picture/1/").status_code == 200
        assert queries.photographs_to_ask(own_shop, None) == ()

    def test_both_kinds_come_under_the_same_headers(self, client_as, own_shop, apprentice) -> None:
        client, seen = client_as(apprentice), []
        for look_alike in (False, True):
            one = PhotographFactory.create(shop=own_shop, look_alike=look_alike, content=bytes([look_alike]) * BYTES)
            attempt, at = asked(own_shop, apprentice, one)
            got = client.get(f"{at}picture/1/")
            seen.append((dict(got.headers), len(got.content), FormItem.objects.get(form=attempt.form).open))

        assert seen[0] == seen[1]

    def test_nobody_elses_question_shows_it(self, client_as, own_shop, other_shop, apprentice, trainer) -> None:
        one = PhotographFactory.create(shop=own_shop, confirmed=True)
        _, at = asked(own_shop, apprentice, one)

        for who in (trainer, "trainer_of_other_shop"):
            assert client_as(who).get(f"{at}picture/1/").status_code == 404

    def test_a_photograph_of_another_shop_is_not_found_by_its_reference(self, own_shop, other_shop, apprentice) -> None:
        strange = PhotographFactory.create(shop=other_shop, confirmed=True)
        [photo] = queries.photographs_to_ask(other_shop, None)
        item = an_item(figure=Picture("", "A photograph.", photo=photo))
        form = FormFactory.create(shop=own_shop, learner=apprentice, items=[item], practice=True)
        AttemptFactory.create(form=form, started_at=timezone.now(), closes_at=None, open_for="")

        assert str(strange.reference) == photo.reference
        with pytest.raises(Http404):
            queries.picture_asked(
                own_shop, apprentice, form.reference, 1, 1, purpose=Purpose.PRACTICE, at=timezone.now()
            )
        assert queries.photographs_to_ask(own_shop, None) == ()

    def test_offers_those_of_its_tires(self, own_shop) -> None:
        PhotographFactory.create(shop=own_shop)
        PhotographFactory.create(shop=own_shop, casing="truck")
        PhotographFactory.create(shop=own_shop, taken_back=True)
        PhotographFactory.create(shop=own_shop, draft=True)

        assert [one.casing for one in queries.photographs_to_ask(own_shop, ("passenger", "motorcycle"))] == [
            "passenger"
        ]
        assert len(queries.photographs_to_ask(own_shop, None)) == 2

    def test_comes_to_show_one(self, own_shop, apprentice, monkeypatch) -> None:
        for look_alike in (False, True):
            PhotographFactory.create(shop=own_shop, look_alike=look_alike)
        monkeypatch.setattr("assessments.acts.practice._families", lambda *_: ["picture-named"])

        shown = []
        for place in range(12):
            attempt = acts.start_practice(
                shop=own_shop, learner=apprentice, skill="rejecting-conditions", at=timezone.now()
            )
            shown += [row.open["figure"].get("photograph") for row in FormItem.objects.filter(form=attempt.form)]
            attempt.form.skill = f"over-{place}"  # so that the next one begins anew
            attempt.form.save()

        assert set(shown) == {None, "one-trainer"}

    def test_an_assessment_shows_none(self, own_shop, apprentice) -> None:
        for look_alike in (False, True):
            PhotographFactory.create_batch(8, shop=own_shop, look_alike=look_alike, confirmed=True)

        attempt = acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=timezone.now())

        figures = [row.open["figure"] for row in FormItem.objects.filter(form=attempt.form)]
        assert figures
        assert not [one for one in figures if one and "photograph" in one]
