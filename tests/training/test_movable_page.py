"""The page of a lesson with something to move: its addresses, who gets what, and what it costs."""

import re

import pytest

from tests.pages import ClientAs, cost_of, text_of, url
from tests.present import present
from training.models import Shop

HERE = ("measure-and-choose", "where-it-may-be")
ELSEWHERE = ("inspect-and-reject", "off-the-wheel")
pytestmark = pytest.mark.django_db


def test_the_page_alone_is_moved_by_its_address(own_shop: Shop, client_as: ClientAs) -> None:
    client, page = client_as("apprentice"), url("training:lesson", own_shop, *HERE)

    before, moved = client.get(page), client.get(page, {"lean": "30"})

    assert 'data-verdict="Reject"' in _shown(before.content.decode())
    assert 'data-verdict="Repair"' in _shown(moved.content.decode())
    assert 'name="lean" type="text" inputmode="decimal" value="30"' in moved.content.decode()
    refused = client.get(page, {"lean": "steep", "was": "2 1/4 in;30 deg;9/16 in;3/16 in"})
    assert refused.status_code == 200
    assert 'data-verdict="Repair"' in _shown(refused.content.decode())
    assert 'value="steep" aria-describedby="movable-lean-told" aria-invalid="true"' in refused.content.decode()
    assert 'Lean, outward: "steep" is not an angle' in text_of(refused.content.decode())


def test_what_is_exchanged_is_what_the_page_would_show(own_shop: Shop, client_as: ClientAs) -> None:
    client, asked = client_as("apprentice"), {"place": "2 1/2", "lean": "10", "thickness": "1/2", "hole": "1/8"}

    page = client.get(url("training:lesson", own_shop, *HERE), asked).content.decode()
    part = client.get(url("training:lesson_moved", own_shop, *HERE), asked).content.decode()

    assert _shown(part) in page
    for track in re.findall(r'(?s)<svg class="track".*?</svg>', part):
        assert track in page
    assert "<html" not in part
    assert 'name="lean"' not in part  # the fields are never exchanged


def _shown(html: str) -> str:
    return present(re.search(r'(?s)<div id="movable-shown">.*?<input type="hidden" name="was"[^>]*></div>', html))[0]


def test_the_unit_is_that_of_the_shop(own_shop: Shop, client_as: ClientAs) -> None:
    own_shop.units = "mm"
    own_shop.save()

    page = client_as("apprentice").get(url("training:lesson", own_shop, *HERE)).content.decode()

    assert 'value="57"' in page
    assert "57\N{NO-BREAK SPACE}mm" in page
    assert " in past" not in text_of(_shown(page))


def test_a_lesson_with_nothing_to_move_has_no_such_address(own_shop: Shop, client_as: ClientAs) -> None:
    client = client_as("apprentice")

    assert client.get(url("training:lesson_moved", own_shop, *ELSEWHERE)).status_code == 404
    assert client.get(url("training:lesson_moved", own_shop, "measure-and-choose", "no-such")).status_code == 404
    page = client.get(url("training:lesson", own_shop, *ELSEWHERE), {"lean": "30"}).content.decode()
    assert "movable.js" not in page
    assert "htmx" not in page


def test_moving_costs_a_constant_number_of_queries(own_shop: Shop, client_as: ClientAs) -> None:
    client, moved = client_as("apprentice"), url("training:lesson_moved", own_shop, *HERE)
    page = url("training:lesson", own_shop, *HERE)

    costs = {cost_of(client, f"{moved}{asked}") for asked in ("", "?lean=30", "?lean=steep", "?place=2&hole=1/4")}

    assert len(costs) == 1
    assert costs.pop() < cost_of(client, page) == cost_of(client, f"{page}?lean=30")
