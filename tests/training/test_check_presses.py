"""Check a tire: what one press says of a group of findings, and how it is taken back."""

import re
from urllib.parse import parse_qsl, urlsplit

import pytest

from tests.pages import text_of
from tests.tires import SOUND_TIRE, form_of


class TestPresses:
    def test_one_press_says_of_one_group_that_nothing_else_was_found(self, ask) -> None:
        answer = ask(SOUND_TIRE, nothing_else="find-inside", **{"find_liner-blistered": "doubt"})

        kept = dict(parse_qsl(urlsplit(answer.redirect_chain[-1][0]).query))
        assert kept["find_liner-blistered"] == "doubt"
        assert kept["find_run-flat-damage"] == kept["find_sealant-residue"] == "no"
        assert not {"find_bulge", "find_exposed-cord", "find_tin-unreadable", "find_wheel-damaged"} & set(kept)
        assert "nothing_else" not in kept

    def test_no_press_says_it_of_all_groups(self, ask) -> None:
        pages = [ask(SOUND_TIRE, step=part).content.decode() for part in ("hole", "inside", "outside")]

        pressed = [re.findall(r'name="nothing_else" value="([^"]*)"', page) for page in pages]
        assert pressed == [[], ["find-inside"], ["find-outside", "find-tread", "find-wheel", "find-markings"]]
        answer = ask(SOUND_TIRE, nothing_else="1")
        assert not [name for name, _ in parse_qsl(urlsplit(answer.redirect_chain[-1][0]).query) if name[:5] == "find_"]

    def test_what_one_press_said_is_taken_back_and_only_that(self, ask) -> None:
        said = {"find_liner-blistered": "doubt", "find_sealant-residue": "no"}
        pressed = ask(SOUND_TIRE, nothing_else="find-inside", **said)
        kept = dict(parse_qsl(urlsplit(pressed.redirect_chain[-1][0]).query))

        back = ask(kept, take_back="find-inside")

        left = dict(parse_qsl(urlsplit(back.redirect_chain[-1][0]).query))
        assert {name: left[name] for name in left if name.startswith(("find_", "pressed_"))} == said

    def test_an_answer_changed_after_the_press_is_no_longer_said_by_it(self, ask) -> None:
        pressed = ask(SOUND_TIRE, nothing_else="find-inside")
        kept = dict(parse_qsl(urlsplit(pressed.redirect_chain[-1][0]).query))

        told = dict(form_of(**(kept | {"find_sealant-residue": "yes"})).entered())

        said = told["Inside, by one press"]
        assert "Run-flat damage" in said
        assert "Liquid sealant" not in said
        assert "Sealant residue" not in said

    def test_the_press_counts_its_group_and_is_offered_only_while_all_of_it_is_open(self, ask) -> None:
        assert "I looked at all 8: not found" in text_of(ask(SOUND_TIRE, step="inside"))
        assert "I looked at all" not in text_of(ask(SOUND_TIRE, step="inside", **{"find_liner-blistered": "doubt"}))

    def test_after_the_press_the_page_stands_where_it_was_pressed(self, ask) -> None:
        address = ask(SOUND_TIRE, nothing_else="find-inside", at="inside").redirect_chain[-1][0]

        assert address.endswith("#find-inside")
        assert "step=inside" in address

    def test_what_was_chosen_in_one_group_is_emptied_and_only_that(self, ask) -> None:
        said = {"find_liner-blistered": "doubt", "find_bulge": "no"}
        address = ask(SOUND_TIRE, empty="find-inside", at="inside", **said).redirect_chain[-1][0]

        left = dict(parse_qsl(urlsplit(address).query))
        assert {name: left[name] for name in left if name.startswith("find_")} == {"find_bulge": "no"}

    def test_a_press_of_a_group_that_is_none_says_nothing(self, ask) -> None:
        address = ask(SOUND_TIRE, nothing_else="//elsewhere", take_back="x").redirect_chain[-1][0]

        assert "find_" not in address
        assert "elsewhere" not in address

    @pytest.mark.parametrize(("units", "size", "kept"), [("in", "3/16", "in"), ("mm", "5", "mm")])
    def test_a_size_of_the_gauge_fills_its_field_in_the_unit_of_the_shop(
        self, own_shop, ask, units, size, kept
    ) -> None:
        own_shop.units = units
        own_shop.save()

        answer = ask(SOUND_TIRE, fill=f"injury_A_diameter {size}", at="hole")

        address = answer.redirect_chain[-1][0]
        found = dict(parse_qsl(urlsplit(address).query))
        assert (found["injury_A_diameter"], found["injury_A_diameter_u"]) == (size, kept)
        assert address.endswith("#id_injury_A_diameter")
        assert found["step"] == "hole"
        assert {name: found[name] for name in SOUND_TIRE if name != "injury_A_diameter"} == {
            name: value for name, value in SOUND_TIRE.items() if name != "injury_A_diameter"
        }

    @pytest.mark.parametrize(
        "pressed", ["injury_A_diameter 0", "injury_A_lateral 3/16", "casing truck", "find_bulge no", "no_field 1", ""]
    )
    def test_nothing_else_is_filled_in_by_one_press(self, ask, pressed) -> None:
        found = dict(parse_qsl(urlsplit(ask(SOUND_TIRE, fill=pressed).redirect_chain[-1][0]).query))

        assert {name: found[name] for name in SOUND_TIRE} == SOUND_TIRE
        assert not {"find_bulge", "no_field", "fill"} & set(found)
