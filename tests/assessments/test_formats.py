"""Answering and explaining steps in order, a place on the drawing, a fault in a log; and that no page tells the key."""

import re
from dataclasses import replace
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone

from assessments.models import Attempt, FormItem, Response
from assessments.questions import Blame, Frame, Option, Region
from assessments.questions.items.item import Item
from tests.factories import AttemptFactory, FormFactory, an_item
from training.models import Shop, User

pytestmark = pytest.mark.django_db

STEPS = ("Let it dry", "Clean the liner", "Buff the liner")
BARE: dict[str, Any] = {"distractors": {}, "unsafe": (), "tolerance": None, "units": ()}
ORDER = replace(
    an_item(), format="order", options=tuple(Option(str(n), text) for n, text in enumerate(STEPS, 1)),
    key=("2", "3", "1"), before=(("2", "3"), ("2", "1"), ("3", "1")), **BARE,
)  # fmt: skip
PLACE = replace(
    an_item(), format="place", options=(), key=Region(40, 46, 4, 14), frame=Frame(0, 40, 100, 40),
    **BARE | {"distractors": {"across 60 to 66 mm, up 4 to 14 mm": ("lean-ignored",)}},
)  # fmt: skip
FAULT = replace(
    an_item(),
    format="fault",
    options=(
        Option("1", "Buff: 9000 rpm"),
        Option("2", "Brush: twice"),
        Option("3", "Missing"),
        Option("4", "Nothing"),
    ),
    reasons=(Option("1", "Too often"), Option("2", "Too fast")),
    key=Blame(("1",), "2"),
    **BARE | {"distractors": {"4": ("buffer-at-grinder-speed",)}},
)
ITEMS = {"order": ORDER, "place": PLACE, "fault": FAULT}
RIGHT = {
    "order": {"answer_2": "1", "answer_3": "2", "answer_1": "3"},
    "place": {"answer_x": "43.5", "answer_y": "9"},
    "fault": {"answer_step": "1", "answer_reason": "2"},
}
STORED = {
    "order": '["2","3","1"]',
    "place": '{"x":"43.5","y":"9"}',
    "fault": '{"reason":"2","step":"1"}',
}


def sit(shop: Shop, learner: User, item: Item, *, practice: bool = False) -> tuple[Attempt, str]:
    form = FormFactory.create(
        shop=shop, learner=learner, items=[item, an_item()], **({"practice": True} if practice else {})
    )
    more = {"closes_at": None, "open_for": ""} if practice else {}
    attempt = AttemptFactory.create(form=form, started_at=timezone.now(), **more)
    name = "assessments:practice_item" if practice else "assessments:item"
    return attempt, reverse(name, args=[shop.slug, form.reference, 1])


@pytest.mark.parametrize("name", ITEMS)
def test_an_answer_is_stored_in_its_shape_and_shown_again(client_as, own_shop, apprentice, name) -> None:
    _, address = sit(own_shop, apprentice, ITEMS[name])
    client = client_as(apprentice)

    saved = client.post(address, {**RIGHT[name], "revision": "0", "go": "next"})
    page = client.get(address).content.decode()

    assert saved.status_code == 302
    assert Response.objects.get().answer == STORED[name]
    if name == "order":
        assert re.findall(r'<label for="id_answer_\d">([^<]+)</label>', page) == [STEPS[1], STEPS[2], STEPS[0]]
        assert page.count(" selected>") == 3
    elif name == "place":
        assert 'value="43.5"' in page
        assert 'value="9"' in page
    else:
        assert len(re.findall(r"<input [^>]*checked", page)) == 2


def test_readings_off_the_rulers_may_have_a_decimal_comma_and_their_unit(client_as, own_shop, apprentice) -> None:
    _, address = sit(own_shop, apprentice, PLACE)

    client_as(apprentice).post(address, {"answer_x": "43,5", "answer_y": "9 mm", "revision": "0", "go": "next"})

    assert Response.objects.get().answer == STORED["place"]


@pytest.mark.parametrize(
    ("name", "given", "words"),
    [
        ("order", {"answer_2": "1"}, 'Order: "Let it dry" has no place; give each step a place from 1 to 3'),
        ("order", {**RIGHT["order"], "answer_2": "2"}, 'place 2 is given to "Clean the liner" and "Buff the liner"'),
        ("place", {"answer_x": "43"}, "Up: nothing was given; read it on the ruler beside the drawing"),
        ("place", {"answer_x": "143", "answer_y": "9"}, "Across: 143 is beyond the ruler below the drawing"),
        ("fault", {"answer_step": "1"}, "Reason: nothing was given; choose what is wrong with the line"),
        ("fault", {"answer_reason": "1"}, "Line: nothing was given; choose the line that is wrong, or that none is"),
    ],
)  # fmt: skip
def test_half_an_answer_is_refused_beside_the_field_and_kept_as_it_was_written(
    client_as, own_shop, apprentice, name, given, words
):
    _, address = sit(own_shop, apprentice, ITEMS[name])
    client = client_as(apprentice)

    page = client.post(address, {**given, "revision": "0", "go": "next"}).content.decode().replace("&quot;", '"')
    part = client.post(address, {**given, "revision": "0", "go": "stay"}, headers={"HX-Request": "true"})

    assert page.count(words) == 2
    assert 'href="#id_answer_0"' in page
    assert 'id="id_answer_0"' in page
    assert words in part.content.decode().replace("&quot;", '"')
    assert not Response.objects.exists()
    for value in given.values():
        assert f'value="{value}"' in page


def test_a_place_on_rulers_in_inches_is_typed_and_shown_in_inches(client_as, own_shop, apprentice) -> None:
    _, address = sit(own_shop, apprentice, replace(PLACE, units=("in",)))
    client = client_as(apprentice)

    # 1 11/16 in is 42.8625 mm, 3/8 in 9.525 mm: inside 40 to 46 across and 4 to 14 up
    client.post(address, {"answer_x": "1 11/16", "answer_y": "3/8", "revision": "0", "go": "next"})
    page = client.get(address).content.decode()

    assert Response.objects.get().answer == '{"x":"42.8625","y":"9.525"}'
    assert 'value="1 11/16"' in page
    assert 'value="3/8"' in page
    assert 'data-unit="in"' in page
    assert "half a millimeter" not in page


def test_a_reading_past_an_inch_ruler_is_refused_in_inches_and_one_in_millimeters_is_read_as_such(
    client_as, own_shop, apprentice
) -> None:
    _, address = sit(own_shop, apprentice, replace(PLACE, units=("in",)))
    client = client_as(apprentice)

    # 100 mm are 3 15/16 in, to the nearest 1/32
    page = client.post(
        address, {"answer_x": "4 1/2", "answer_y": "3/8", "revision": "0", "go": "next"}
    ).content.decode()
    client.post(address, {"answer_x": "43.5 mm", "answer_y": "9 mm", "revision": "0", "go": "next"})

    assert "Across: 4 1/2 is beyond the ruler below the drawing; give 0 to 3 15/16" in page
    assert Response.objects.get().answer == STORED["place"]


def test_a_wrong_place_is_explained_in_the_unit_of_its_rulers(client_as, own_shop, apprentice) -> None:
    _, address = sit(own_shop, apprentice, replace(PLACE, units=("in",)), practice=True)
    client = client_as(apprentice)

    client.post(address, {"answer_x": "2 1/2", "answer_y": "3/8", "go": "answer"})
    page = client.get(address).content.decode()

    assert "2 1/2 in across, 3/8 in up" in page
    # 40 to 46 mm, 4 to 14 mm: the marks of 1/32 in that lie inside
    assert "1 19/32 to 1 25/32 in across, 3/16 to 17/32 in up" in page
    assert not Response.objects.get().is_right


@pytest.mark.parametrize("name", ITEMS)
def test_moving_on_without_an_answer_leaves_it_open(client_as, own_shop, apprentice, name) -> None:
    _, address = sit(own_shop, apprentice, ITEMS[name])

    client_as(apprentice).post(address, {"revision": "0", "go": "next"})

    assert not Response.objects.exclude(answer="").exists()


@pytest.mark.parametrize(
    ("name", "given", "shown", "belief"),
    [
        ("order", {"answer_1": "1", "answer_2": "2", "answer_3": "3"}, ["Your order", "A right order"], ""),
        ("place", {"answer_x": "63", "answer_y": "9"}, ["63 mm across, 9 mm up", "40 to 46 mm across"], "lean"),
        ("fault", {"answer_step": "4"}, ["Your answer; not right", "The right answer"], "fast"),
    ],
)
def test_a_wrong_answer_is_explained_beside_what_is_right(
    client_as, own_shop, apprentice, name, given, shown, belief
) -> None:
    _, address = sit(own_shop, apprentice, ITEMS[name], practice=True)
    client = client_as(apprentice)

    client.post(address, {**given, "go": "answer"})
    page = client.get(address).content.decode()

    assert "Not right" in page
    for words in shown:
        assert words in page
    if belief:
        assert "One thought explains your whole answer" in page
    if name == "place":
        assert page.count('stroke-dasharray="1.5"') == 1  # a box around what is right
        assert 'd="M60 31H66M63 28V34"' in page  # and a cross at 63 across, 9 up from 40


@pytest.mark.parametrize("name", ITEMS)
def test_a_right_answer_and_an_explanation_without_one(client_as, own_shop, apprentice, name) -> None:
    _, address = sit(own_shop, apprentice, ITEMS[name], practice=True)
    client = client_as(apprentice)

    client.post(address, {**RIGHT[name], "go": "answer"})
    assert ">Right</h2>" in client.get(address).content.decode()

    _, other = sit(own_shop, apprentice, ITEMS[name], practice=True)
    client.post(other, {"go": "explain"})
    page = client.get(other).content.decode()
    assert "No answer given" in page
    assert "Your answer" not in page


KEYS: dict[str, list[Any]] = {
    "order": [("2", "3", "1"), ("3", "2", "1"), ("3", "1", "2")],
    "place": [Region(40, 46, 4, 14), Region(60, 66, 4, 14), Region(0, 6, 20, 30)],
    "fault": [Blame(("1",), "2"), Blame(("2", "3"), "1"), Blame(("4",), "")],
}


@pytest.mark.parametrize("name", ITEMS)
@pytest.mark.parametrize("practice", [False, True], ids=["assessment", "practice"])
def test_the_page_is_the_same_bytes_whatever_is_right(client_as, own_shop, apprentice, name, practice) -> None:
    attempt, address = sit(own_shop, apprentice, ITEMS[name], practice=practice)
    client = client_as(apprentice)
    row = FormItem.objects.get(form=attempt.form, position=1)
    pages = set()
    for key in KEYS[name]:
        before = tuple((key[a], key[b]) for a, b in ((0, 1), (0, 2), (1, 2))) if name == "order" else ()
        item = replace(ITEMS[name], key=key, before=before, distractors={}, unsafe=())
        row.snapshot, row.open = item.to_json(), item.open().to_json()
        row.save()
        page = re.sub(rb'name="csrfmiddlewaretoken" value="[^"]+"|\d+ min left', b"", client.get(address).content)
        pages.add(page)

    assert len(pages) == 1


def test_a_whole_case_is_practiced_from_its_first_question_to_its_last(client_as, own_shop, apprentice) -> None:
    client = client_as(apprentice)

    page = client.get(reverse("assessments:practice", args=[own_shop.slug])).content.decode()
    started = client.post(reverse("assessments:practice_start", args=[own_shop.slug]), {"skill": "whole-case"})
    again = client.post(reverse("assessments:practice_start", args=[own_shop.slug]), {"skill": "whole-case"})

    assert "One tire from inspection to return" in page
    assert started.url == again.url
    items = FormItem.objects.order_by("position")
    assert [item.family for item in items] == [
        "whole-case-inspection", "whole-case-exit", "whole-case-method",
        "whole-case-outline", "whole-case-work", "whole-case-return",
    ]  # fmt: skip
    for position, item in enumerate(items, 1):
        address = reverse("assessments:practice_item", args=[own_shop.slug, item.form.reference, position])
        client.post(address, {"go": "explain"})
        assert "No answer given" in client.get(address).content.decode()
    end = client.get(reverse("assessments:practice_end", args=[own_shop.slug, items[0].form.reference]))
    assert "One tire from inspection to return" in end.content.decode()


def test_a_case_is_offered_only_where_the_rulebook_can_tell_it(client_as, own_shop, apprentice) -> None:
    # a shop that repairs no hole of half a millimeter or more has no tire to tell the case of
    own_shop.house_rules = [{"clause": "injury-size", "limits": ["0.4 mm"]}]
    own_shop.save()
    client = client_as(apprentice)

    page = client.get(reverse("assessments:practice", args=[own_shop.slug])).content.decode()
    refused = client.post(
        reverse("assessments:practice_start", args=[own_shop.slug]), {"skill": "whole-case"}, follow=True
    )

    assert "One tire from inspection to return" not in page
    assert "has too few rules for it; practice a skill instead" in refused.content.decode().replace("&#x27;", "'")
    assert not FormItem.objects.exists()
