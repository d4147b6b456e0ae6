"""Check a tire to fill in: its parts, what they carry, what stands open."""

import re
from urllib.parse import parse_qsl, urlsplit

from tests.pages import text_of
from tests.tires import LOOKED_AT_ALL, SOUND_TIRE
from training.forms.tire_parts import INJURY_ROWS, REPAIR_ROWS


class TestTheParts:
    def test_empty_says_what_to_do_and_decides_nothing(self, own_shop, visit) -> None:
        answer = visit(f"/shop/{own_shop.slug}/check/")

        assert answer.status_code == 200
        assert "Type in what you found" in text_of(answer)
        assert "counts as not looked at, never as fine" in text_of(answer)
        assert "verdict--" not in answer.content.decode()

    def test_errors_are_told_and_nothing_is_decided(self, ask) -> None:
        answer = ask(SOUND_TIRE, injury_A_diameter="6")

        page = answer.content.decode()
        assert "<title>Error:" in page
        assert "Nothing was decided" in page
        assert 'href="#id_injury_A_diameter"' in page
        assert "result" not in answer.context

    def test_a_folded_row_with_something_in_it_stands_open(self, ask) -> None:
        page = ask(SOUND_TIRE, injury_B_diameter="5 mm", step="hole").content.decode()

        assert re.search(r'<details class="look-fold" open>\s*<summary><span>Injury B', page)
        assert re.search(r'<details class="look-fold">\s*<summary><span>Injury C', page)

    def test_the_address_keeps_only_what_was_found_and_the_day(self, own_shop, client_as) -> None:
        blank = dict.fromkeys([f"injury_{row}_length" for row in INJURY_ROWS], "")
        rows = dict.fromkeys([f"repair_{row}_kind" for row in REPAIR_ROWS], " ")

        answer = client_as("apprentice").get(f"/shop/{own_shop.slug}/check/", SOUND_TIRE | blank | rows)

        kept = dict(parse_qsl(urlsplit(answer.url).query))
        assert kept.pop("on")
        assert kept == SOUND_TIRE

    def test_what_is_wrong_in_a_part_that_is_not_on_the_page_brings_that_part(self, ask) -> None:
        page = ask(SOUND_TIRE, crown_thickness="thick", step="outside").content.decode()

        assert 'id="id_crown_thickness"' in page
        assert 'type="hidden" name="depths_1"' in page

    def test_a_page_carries_what_the_others_hold(self, ask) -> None:
        page = ask(SOUND_TIRE | LOOKED_AT_ALL, step="hole").content.decode()

        carried = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', page))
        assert {name: carried[name] for name in LOOKED_AT_ALL} == LOOKED_AT_ALL
        assert carried["depths_1"] == "6/32 in"
        assert "injury_A_diameter" not in carried
