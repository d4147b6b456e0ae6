"""Check a tire: what is still to be looked at leads to its field, and nothing is decided before."""

import re

import pytest

from tests.pages import text_of
from tests.tires import DAY, LOOKED_AT_ALL, SOUND_TIRE, form_of
from training.forms.check_a_tire import TireForm
from training.forms.tire_needs import asked_fields
from training.pages.verdict import examine
from training.rulebook import CASINGS, PURPOSES, edition_names, load_edition


class TestWhatIsOpen:
    @pytest.mark.parametrize(
        ("change", "says"),
        [({}, True), ({"injuries": "none"}, False), ({"purpose": "service"}, False), ({"find_bulge": "yes"}, False)],
    )
    def test_asked_of_a_repair_without_an_injury_it_says_that_it_says_nothing_of_one(self, ask, change, says) -> None:
        tire = {name: value for name, value in SOUND_TIRE.items() if not name.startswith("injury")}

        text = text_of(ask(tire | LOOKED_AT_ALL | change))

        assert ("No injury was given, so this says nothing about a repair." in text) == says

    def test_nothing_is_decided_before_all_was_looked_at(self, ask) -> None:
        answer = ask(SOUND_TIRE)
        page, text = answer.content.decode(), text_of(answer)

        assert "Not decided yet" in page
        assert "Look outside first" in text
        assert "If they are in order: repair." in text
        assert 'name="find_run-flat-damage"' in page
        assert "verdict--repair" not in page
        assert "verdict--inspect" in page
        assert "Repair nothing before then." in text
        assert '<section class="job-card' not in page

    def test_where_only_the_inside_is_open_the_head_sends_there(self, ask) -> None:
        of_the_inside = ("run-flat-damage", "liner-separation", "liner-cracked", "sealant-residue", "contamination")
        seen = {name: said for name, said in LOOKED_AT_ALL.items() if name.removeprefix("find_") not in of_the_inside}

        text = text_of(ask(SOUND_TIRE | seen))

        assert "Look inside first" in text
        assert "Look outside first" not in text

    def test_nothing_is_left_open_once_all_was_looked_at(self, ask) -> None:
        answer = ask(SOUND_TIRE | LOOKED_AT_ALL | {"date_code": "3219"})

        assert "Not decided" not in text_of(answer)
        assert "verdict--repair" in answer.content.decode()

    @pytest.mark.parametrize("shop_edition", edition_names())
    @pytest.mark.parametrize("casing", CASINGS)
    @pytest.mark.parametrize("purpose", PURPOSES)
    def test_everything_still_to_be_looked_at_leads_to_its_field(self, shop_edition, casing, purpose) -> None:
        edition = load_edition(shop_edition)
        asks = asked_fields(edition, casing=casing, purpose=purpose)
        hole = {"injury_B_kind": "puncture", "repair_R2_kind": "two-piece"}
        for more in ({}, hole):
            form = TireForm({"casing": casing, "purpose": purpose} | more, edition=edition.name, today=DAY, asks=asks)
            assert form.is_valid(), form.errors
            result = examine(form.case, edition=edition, prefer="mm")
            shown = {field.id_for_label for section in form.sections for field in section.fields}

            for look in result.to_look_at:
                for words, path in look.things:
                    if path != "shelf":  # the units in the drawer are the shop's, not the tire's
                        assert form.anchor_of(path) in shown, (words, path)

    def test_a_thing_to_look_at_of_an_injury_leads_to_the_row_that_was_begun(self) -> None:
        assert form_of(casing="passenger", injury_B_kind="puncture").anchor_of("injuries.diameter") == (
            "id_injury_B_diameter"
        )

    def test_what_is_still_to_be_looked_at_is_answered_right_there(self, ask) -> None:
        left = {name: value for name, value in LOOKED_AT_ALL.items() if name != "find_liner-cracked"}

        page = ask(SOUND_TIRE | left).content.decode()

        assert set(re.findall(r'<input type="radio" name="([^"]+)"', page)) == {"find_liner-cracked"}
        carried = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', page))
        assert {name: carried[name] for name in left} == left
        assert "One thing is still to be looked at. If it is in order: repair." in page
