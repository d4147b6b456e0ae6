"""Check a tire: what was found becomes a case, the case a decision, and every bad value is named beside its field."""

import re
from datetime import date
from urllib.parse import parse_qsl, urlsplit

import pytest

from tests.pages import cost_of, queries_of, text_of
from training.forms.check_a_tire import TireForm, finding_names
from training.forms.tire_needs import asked_fields
from training.forms.tire_parts import INJURY, INJURY_ROWS, REPAIR, REPAIR_ROWS
from training.pages.verdict import examine
from training.rulebook import CASINGS, FINDINGS, PURPOSES, edition_names, load_edition, parse_case

DAY = date(2026, 11, 25)
LOOKED_AT_ALL = dict.fromkeys(finding_names(), "no")
SOUND_TIRE = {
    "casing": "passenger",
    "purpose": "repair",
    "on_wheel": "no",
    "build": "radial",
    "outer_groove": "62 mm",
    "crown_thickness": "13 mm",
    "depths_1": "6/32 in",
    "repairs": "none",
    "injury_A_kind": "puncture",
    "injury_A_diameter": "5 mm",
    "injury_A_angle": "10 deg",
    "injury_A_lateral": "20 mm",
    "injury_A_station": "90 deg",
}


def form_of(**found: str) -> TireForm:
    return TireForm(found, edition="north-america", today=DAY)


@pytest.fixture
def ask(own_shop, client_as):
    browser = client_as("apprentice")

    def go(found: dict[str, str], **more: str):
        return browser.get(f"/shop/{own_shop.slug}/check/", found | more, follow=True)

    return go


class TestTheForm:
    def test_every_field_of_the_page_stands_in_one_section(self) -> None:
        form = form_of()

        shown = [field.name for section in form.sections() for field in section.fields]

        assert sorted(shown) == sorted(field.name for field in form.visible_fields())
        assert len(shown) == len(set(shown))

    def test_asks_for_every_finding_the_rulebook_knows(self) -> None:
        assert finding_names() == tuple(f"find_{slug}" for slug in FINDINGS)

    def test_holds_the_whole_of_an_injury_and_of_an_earlier_repair(self) -> None:
        # what DESIGN names for an injury and for an earlier repair, less the id that the row gives
        assert {part.path for part in INJURY} == {
            "kind", "diameter", "before_removal", "angle", "azimuth", "lateral", "station", "zone", "length", "reaches",
        }  # fmt: skip
        assert {part.path for part in REPAIR} == {
            "kind", "zone", "injury", "sound", "lateral", "station", "unit.length", "unit.width",
        }  # fmt: skip

    def test_makes_the_case_that_the_same_json_makes(self) -> None:
        form = form_of(
            casing="light-truck-fabric",
            purpose="service",
            on_wheel="yes",
            jurisdiction="US-UT",
            designation="LT225/75R16",
            date_code="3219",
            vehicle="light-truck",
            axle="front",
            recommended="50 psi",
            found="45 psi",
            injury_B_diameter="1/4 in",
            injury_B_zone="crown",
            repair_R2_kind="one-piece",
            repair_R2_sound="doubt",
            repair_R2_unit_length="75 mm",
            repair_R2_unit_width="65 mm",
            find_bulge="yes",
            **{"find_exposed-cord": "no", "find_bead-damage": "doubt"},
            depths_1="5/32 in, 4/32 in, 5/32 in",
            depths_2="6/32 in, 6/32 in, 5/32 in",
            proposed="string",
            on="2026-11-20",
        )

        assert form.is_valid(), form.errors
        by_hand = {
            "edition": "north-america",
            "jurisdiction": "US-UT",
            "on": "2026-11-20",
            "purpose": "service",
            "tire": {"casing": "light-truck-fabric", "designation": "LT225/75R16", "date_code": "3219"},
            "position": {"vehicle": "light-truck", "axle": "front"},
            "on_wheel": True,
            "pressure": {"recommended": "50 psi", "found": "45 psi"},
            "injuries": [{"id": "B", "diameter": "1/4 in", "zone": "crown"}],
            "earlier_repairs": [
                {"id": "R2", "kind": "one-piece", "sound": "doubt", "unit": {"length": "75 mm", "width": "65 mm"}}
            ],
            "findings": {"bulge": True, "exposed-cord": False, "bead-damage": "doubt"},
            "tread_depths": [
                {"groove": 1, "station": "0 deg", "depth": "5/32 in"},
                {"groove": 1, "station": "120 deg", "depth": "4/32 in"},
                {"groove": 1, "station": "240 deg", "depth": "5/32 in"},
                {"groove": 2, "station": "0 deg", "depth": "6/32 in"},
                {"groove": 2, "station": "120 deg", "depth": "6/32 in"},
                {"groove": 2, "station": "240 deg", "depth": "5/32 in"},
            ],
            "proposed": "string",
        }
        assert form.case == parse_case(by_hand)

    def test_what_is_left_empty_is_not_examined(self) -> None:
        form = form_of(casing="passenger")

        assert form.is_valid()
        assert form.case.injuries is None
        assert form.case.earlier_repairs is None
        assert form.case.findings == {}

    def test_looked_for_and_none_there_is_another_thing(self) -> None:
        form = form_of(casing="passenger", injuries="none", repairs="none")

        assert form.is_valid()
        assert form.case.injuries == ()
        assert form.case.earlier_repairs == ()

    @pytest.mark.parametrize(
        ("found", "field", "words"),
        [
            ({"injury_A_diameter": "6"}, "injury_A_diameter", 'Injury A, diameter, prepared: "6" is not a length'),
            ({"injury_C_diameter": "7,5"}, "injury_C_diameter", 'Injury C, diameter, prepared: "7,5" is not a length'),
            ({"injury_B_angle": "95 deg"}, "injury_B_angle", "less than 90°"),
            ({"injury_A_lateral": "20"}, "injury_A_lateral", '"20" is not a length'),
            ({"crown_thickness": "thick"}, "crown_thickness", 'Crown thickness: "thick" is not a length'),
            ({"outer_groove": "-62 mm"}, "outer_groove", "is not above 0"),
            ({"date_code": "soon"}, "date_code", 'Date code: "soon" is not a date code'),
            ({"found": "140"}, "found", 'Pressure as found: "140" is not a pressure'),
            ({"depths_1": "5/32 in, x"}, "depths_1", '"x" is not a length'),
            ({"depths_1": "5/32 in", "depths_2": "y"}, "depths_2", '"y" is not a length'),
            ({"repair_R2_injury": "4"}, "repair_R2_injury", 'Earlier repair R2, injury it closed: "4" is not a length'),
            ({"repair_R1_unit_length": "75 mm"}, "repair_R1_unit_width", "missing; give a length"),
            ({"find_bulge": "perhaps"}, "find_bulge", 'Bulge: "perhaps" is not accepted'),
            ({"on": "soon"}, "on", "Day of the check: this is not a day"),
            ({"casing": "tractor"}, "casing", 'Casing: "tractor" is not accepted'),
            ({"jurisdiction": "Utah!"}, "jurisdiction", "State whose code applies:"),
            ({"injuries": "none", "injury_A_diameter": "6 mm"}, "injuries", "you say that there is none, and give one"),
        ],
    )
    def test_a_bad_value_is_named_beside_its_field(self, found, field, words) -> None:
        form = form_of(**({"casing": "passenger"} | found))

        assert not form.is_valid()
        assert list(form.errors) == [field]
        assert words in form.errors[field][0]

    def test_all_problems_are_named_in_one_round(self) -> None:
        form = form_of(injury_A_diameter="6", find_bulge="perhaps", found="140")

        assert not form.is_valid()
        assert set(form.errors) == {"casing", "injury_A_diameter", "find_bulge", "found"}


class TestThePage:
    def test_empty_says_what_to_do_and_decides_nothing(self, own_shop, visit) -> None:
        answer = visit(f"/shop/{own_shop.slug}/check/")

        assert answer.status_code == 200
        assert "Type in what you found" in text_of(answer)
        assert "counts as not looked at, never as fine" in text_of(answer)
        assert "verdict--" not in answer.content.decode()

    # US association, puncture repair procedures, passenger and light truck (wall chart): crown only, at most 6 mm
    def test_a_small_hole_in_the_crown_of_a_tire_looked_at_all_over_is_repaired(self, ask) -> None:
        answer = ask(SOUND_TIRE | LOOKED_AT_ALL)

        text = text_of(answer)
        assert "verdict--repair" in answer.content.decode()
        assert "at most 1/4 in (6 mm)" in text
        assert "wall chart" in text
        assert "Job card: injury A" in text

    @pytest.mark.parametrize(
        "change",
        [
            {"injury_A_diameter": "7 mm"},
            {"injury_A_diameter": "", "injury_A_kind": "puncture", "injury_A_zone": "sidewall", "injury_A_lateral": ""},
            {"find_liner-separation": "yes"},
            {"find_run-flat-damage": "doubt"},
            {"repairs": "", "repair_R1_kind": "string"},
        ],
    )
    def test_one_bad_fact_takes_the_same_tire_out_of_service(self, ask, change) -> None:
        found = {name: value for name, value in (SOUND_TIRE | LOOKED_AT_ALL | change).items() if value}

        answer = ask(found)

        assert "verdict--reject" in answer.content.decode()
        assert "Job card" not in text_of(answer)

    @pytest.mark.parametrize(
        ("change", "says"),
        [({}, True), ({"injuries": "none"}, False), ({"purpose": "service"}, False), ({"find_bulge": "yes"}, False)],
    )
    def test_asked_of_a_repair_without_an_injury_it_says_that_it_says_nothing_of_one(self, ask, change, says) -> None:
        tire = {name: value for name, value in SOUND_TIRE.items() if not name.startswith("injury")}

        text = text_of(ask(tire | LOOKED_AT_ALL | change))

        assert ("No injury was given, so this says nothing of a repair." in text) == says

    def test_nothing_is_decided_before_all_was_looked_at(self, ask) -> None:
        answer = ask(SOUND_TIRE)
        page, text = answer.content.decode(), text_of(answer)

        assert "Not decided yet" in page
        assert "Look outside first" in text
        assert "If they are in order: repair." in text
        assert 'name="find_run-flat-damage"' in page
        assert "verdict--repair" not in page
        assert "verdict--inspect" in page
        assert "Nothing is repaired before." in text
        assert '<section class="job-card' not in page

    def test_nothing_is_left_open_once_all_was_looked_at(self, ask) -> None:
        answer = ask(SOUND_TIRE | LOOKED_AT_ALL | {"date_code": "3219"})

        assert "Not decided" not in text_of(answer)
        assert "verdict--repair" in answer.content.decode()

    def test_a_rejected_tire_says_that_nothing_more_can_help(self, ask) -> None:
        text = text_of(ask(SOUND_TIRE, find_bulge="yes"))

        assert "This stands whatever else is found." in text
        assert "Not decided" not in text

    @pytest.mark.parametrize("rules", ["", "1"])
    def test_each_ruling_is_named_and_with_found_limit_and_source_where_all_are_asked_for(self, ask, rules) -> None:
        answer = ask(SOUND_TIRE | LOOKED_AT_ALL, injury_A_diameter="9 mm", **({"rules": rules} if rules else {}))

        result = answer.context["result"]
        printed = [*result.deciding, *result.failing, *result.holding]
        # a value that can be true is nothing to tell, nor how a tire that is rejected would be repaired
        told = [line for line in result.lines if not line.is_plain and (line.holds or line.consequence != "repair")]
        assert sorted(map(id, printed)) == sorted(map(id, told))
        text = text_of(answer)
        for ruling in printed if rules else [*result.deciding, *result.failing]:
            parts = (ruling.found, ruling.allowed, ruling.source)
            assert all(" ".join(part.split()) in text for part in parts if part) or ruling.sentence in text
        for ruling in result.holding:
            assert ruling.about.removeprefix("Injury A, ").lower() in text.lower()

    def test_draws_the_injury_and_says_the_same_in_words(self, ask) -> None:
        answer = ask(SOUND_TIRE)

        (drawing,) = answer.context["result"].drawings
        assert drawing.figure.svg in answer.content.decode()
        assert "5 mm" in drawing.figure.description

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

    # outward is away from the centerline, on either side of it
    @pytest.mark.parametrize(
        ("lateral", "leans", "azimuth"),
        [
            ("20 mm", "out", "0 deg"),
            ("20 mm", "in", "180 deg"),
            ("-20 mm", "out", "180 deg"),
            ("-20 mm", "in", "0 deg"),
        ],
    )
    def test_inward_and_outward_are_read_by_the_side_the_hole_lies_on(self, lateral, leans, azimuth) -> None:
        hole = {"casing": "passenger", "injury_A_angle": "10 deg", "injury_A_lateral": lateral}

        by_word, by_degrees = form_of(**hole, injury_A_lean=leans), form_of(**hole, injury_A_azimuth=azimuth)

        assert by_word.is_valid()
        assert by_degrees.is_valid()
        assert by_word.case == by_degrees.case

    def test_a_side_and_a_direction_in_degrees_are_not_both_given(self) -> None:
        form = form_of(casing="passenger", injury_A_lateral="20 mm", injury_A_azimuth="90 deg", injury_A_lean="out")

        assert list(form.errors) == ["injury_A_lean"]

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

    def test_a_press_of_a_group_that_is_none_says_nothing(self, ask) -> None:
        address = ask(SOUND_TIRE, nothing_else="//elsewhere", take_back="x").redirect_chain[-1][0]

        assert "find_" not in address
        assert "elsewhere" not in address

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
            shown = {field.id_for_label for section in form.sections() for field in section.fields}

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

    def test_the_job_card_stands_alone_where_it_is_asked_for(self, ask) -> None:
        page = ask(SOUND_TIRE | LOOKED_AT_ALL, card="1").content.decode()

        assert page.count('<section class="job-card') == 1
        assert "What decided" not in page
        assert "Job card" not in text_of(ask(SOUND_TIRE | LOOKED_AT_ALL, card="1", find_bulge="yes"))

    # retread and repair materials group, recommended practice 2017: over 25 degrees no one-piece unit
    def test_a_way_refused_is_not_a_tire_refused(self, ask) -> None:
        answer = ask(SOUND_TIRE | LOOKED_AT_ALL | {"injury_A_angle": "32 deg", "proposed": "one-piece"})

        text = text_of(answer)
        assert "Not this way A two-piece repair is allowed instead." in text
        assert "must not go back on the road" not in text
        assert "Out of service" not in text

    def test_what_cannot_all_be_true_is_looked_at_again(self, ask) -> None:
        answer = ask(SOUND_TIRE | LOOKED_AT_ALL | {"tread_width": "170 mm", "outer_groove": "90 mm"})

        assert "Look again: what was given cannot all be true." in text_of(answer)

    def test_computed_lengths_are_told_in_the_units_of_the_shop(self, own_shop, ask) -> None:
        # 62 - 20 - 5 / (2 cos 10 deg) = 39.46 mm = 1.554 in, 1 17/32 in on a rule
        assert own_shop.units == "in"

        assert "1 17/32 in inside" in text_of(ask(SOUND_TIRE | LOOKED_AT_ALL))

    def test_an_address_passed_on_gives_the_decision_of_its_day(self, ask) -> None:
        assert "2026-11-20" in ask(SOUND_TIRE, on="2026-11-20").content.decode()

    def test_a_decision_costs_one_query_the_shelf_of_repair_units(self, own_shop, client_as) -> None:
        browser = client_as("apprentice")
        url = f"/shop/{own_shop.slug}/check/"

        decided = queries_of(lambda: browser.get(url, SOUND_TIRE | {"on": "2026-11-25"}))

        assert decided == cost_of(browser, url) + 1

    # no published rule says how a motorcycle tire is repaired: its maker decides
    def test_a_puncture_in_a_motorcycle_tire_is_referred(self, ask) -> None:
        answer = ask({"casing": "motorcycle", "purpose": "repair", "injury_A_kind": "puncture"} | LOOKED_AT_ALL)

        assert "verdict--refer" in answer.content.decode()
