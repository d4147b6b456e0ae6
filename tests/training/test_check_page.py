"""Check a tire decides: the verdict, what it rests on, the drawing, the job card."""

import re

import pytest

from tests.pages import cost_of, queries_of, text_of
from tests.tires import LOOKED_AT_ALL, SOUND_TIRE


class TestTheDecision:
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

    def test_a_rejected_tire_says_that_nothing_more_can_help(self, ask) -> None:
        text = text_of(ask(SOUND_TIRE, find_bulge="yes"))

        assert "This stands whatever else is found." in text
        assert "Not decided" not in text

    # Utah Administrative Code R714-160-8(1)(a)(i): weather checking that shows no cord is passed, with advice
    def test_what_has_only_to_be_told_to_the_customer_stands_under_what_to_do(self, ask) -> None:
        answer = ask(SOUND_TIRE | LOOKED_AT_ALL | {"find_weather-checking": "yes"})

        [listed] = re.findall(r'<section class="next-thing".*?</section>', answer.content.decode(), re.S)
        assert "tell the customer and look again" in listed

    def test_what_has_to_be_told_is_not_said_of_a_tire_out_of_service(self, ask) -> None:
        found = SOUND_TIRE | LOOKED_AT_ALL | {"find_weather-checking": "yes", "find_bulge": "yes"}

        assert not [line for line in ask(found).context["result"].to_do if "The tire passes" in line]

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
