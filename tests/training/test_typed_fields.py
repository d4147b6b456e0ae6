"""A number is typed as people write it, takes the unit shown, and is shown back as it was understood."""

import re
from datetime import date
from urllib.parse import parse_qsl, urlencode, urlsplit

import pytest

from tests.pages import text_of
from tests.training.test_house_rules import entered
from training.forms.check_a_tire import TireForm
from training.forms.measured import Measured
from training.models import Units
from training.rulebook import parse_case

DAY = date(2026, 11, 25)
TIRE = {"casing": "passenger", "purpose": "repair", "on": "2026-11-25"}


def form_of(prefer: str = "in", **found: str) -> TireForm:
    return TireForm({**TIRE, **found}, edition="north-america", today=DAY, prefer=prefer)


def units_of(page: str, name: str) -> list[str]:
    """The units beside a field in their order, a star behind the one that is chosen."""
    shown = re.findall(rf'<input type="radio" name="{name}_u" value="(\w+)"( checked)?>', page)
    return [unit + "*" * bool(star) for unit, star in shown]


def check_of(shop) -> str:
    return f"/shop/{shop.slug}/check/"


class TestTheForm:
    def test_a_bare_number_makes_the_case_that_its_unit_makes(self) -> None:
        form = form_of(
            injury_A_diameter="3/16", injury_A_diameter_u="in",
            injury_A_angle="25",
            injury_A_lateral="-2 1/4", injury_A_lateral_u="in",
            injury_A_station="500 mm", injury_A_station_u="deg",
            outer_groove="62,5", outer_groove_u="mm",
            recommended="2,4 bar", recommended_u="psi",
            found="32", found_u="psi",
            depths_1="6, 5, 6/32", depths_1_u="32nds",
        )  # fmt: skip

        assert form.is_valid(), form.errors
        by_hand = {
            "edition": "north-america",
            "on": "2026-11-25",
            "purpose": "repair",
            "tire": {"casing": "passenger", "outer_groove": "62.5 mm"},
            "pressure": {"recommended": "2.4 bar", "found": "32 psi"},
            "injuries": [
                {"id": "A", "diameter": "3/16 in", "angle": "25 deg", "lateral": "-2 1/4 in", "station": "500 mm"}
            ],
            "tread_depths": ["6/32 in", "5/32 in", "6/32 in"],
        }
        assert form.case == parse_case(by_hand)

    @pytest.mark.parametrize("prefer", Units.values)
    def test_every_number_but_a_few_has_its_unit_beside_it(self, prefer) -> None:
        asked = TireForm(edition="north-america", today=DAY, prefer=prefer)
        without = {name for name, field in asked.fields.items() if type(field).__name__ == "CharField"}

        # sizes, codes and symbols as molded, and what a press remembers
        assert {name for name in without if not name.startswith("pressed_")} == {
            "designation", "date_code", "retreaded_on", "jurisdiction", "asked_size", "asked_load_index", "asked_speed",
        }  # fmt: skip

    @pytest.mark.parametrize(
        ("found", "field", "words"),
        [
            ({"injury_A_diameter": "6"}, "injury_A_diameter", 'Injury A, diameter, prepared: "6" is not a length'),
            ({"gross_mass": "1,234", "gross_mass_u": "lb"}, "gross_mass", '"1,234" can be 1234 or 1.234'),
            ({"crown_thickness": "1/2", "crown_thickness_u": "mm"}, "crown_thickness", '"1/2" is a fraction'),
            ({"depths_1": "5,5", "depths_1_u": "mm"}, "depths_1", '"5,5" can be one reading or several'),
            ({"found": "32", "found_u": "stone"}, "found", 'Pressure as found: "32" is not a pressure'),
            ({"outer_groove": "-62", "outer_groove_u": "mm"}, "outer_groove", '"-62 mm" is not above 0'),
            ({"depths_1": "6" * 300}, "depths_1", "300 characters are too many"),
        ],
    )
    def test_what_cannot_be_understood_is_refused_beside_its_field(self, found, field, words) -> None:
        form = form_of(**found)

        assert not form.is_valid()
        assert list(form.errors) == [field]
        assert words in form.errors[field][0]

    def test_all_refusals_come_in_one_round(self) -> None:
        form = form_of(injury_A_diameter="6", found="x", crown_thickness="-3 mm", find_bulge="perhaps")

        assert set(form.errors) == {"injury_A_diameter", "found", "crown_thickness", "find_bulge"}


class TestThePage:
    def test_the_unit_of_the_shop_stands_first_and_is_chosen(self, own_shop, visit) -> None:
        page = visit(f"{check_of(own_shop)}?casing=passenger&purpose=repair&step=found").content.decode()

        assert units_of(page, "injury_A_diameter") == ["in*", "mm"]
        own_shop.units = Units.METRIC
        own_shop.save()
        page = visit(f"{check_of(own_shop)}?casing=passenger&purpose=repair&step=found").content.decode()
        assert units_of(page, "injury_A_diameter") == ["mm*", "in"]

    def test_a_keypad_without_a_slash_is_asked_for_only_where_no_fraction_is_usual(self) -> None:
        def keypads(prefer: str) -> dict[str, str | None]:
            fields = TireForm(edition="north-america", today=DAY, prefer=prefer).fields
            return {
                name: field.widget.attrs.get("inputmode")
                for name, field in fields.items()
                if isinstance(field, Measured)
            }

        inches, metric = keypads("in"), keypads("mm")
        assert inches["injury_A_diameter"] is inches["depths_1"] is None
        assert inches["found"] == inches["injury_A_angle"] == metric["injury_A_diameter"] == "decimal"
        assert inches["injury_A_lateral"] is metric["injury_A_lateral"] is None  # a keypad has no minus

    def test_how_it_was_understood_stands_before_the_decision_and_beside_the_field(self, own_shop, visit) -> None:
        found = "injury_A_diameter=3/16&injury_A_diameter_u=in&injury_A_angle=12&find_bulge=yes"
        answer = visit(f"{check_of(own_shop)}?casing=passenger&purpose=repair&on=2026-11-25&{found}")

        text, page = text_of(answer), answer.content.decode()
        told = "Injury A, diameter, prepared: 3/16 in (4.8 mm); Injury A, angle: 12°."
        assert told in text
        assert text.index(told) < text.index("Out of service")
        assert "<output" not in page
        hole = visit(f"{check_of(own_shop)}?casing=passenger&purpose=repair&on=2026-11-25&{found}&step=hole")
        assert hole.content.decode().count('<output class="read-as">3/16 in (4.8 mm)</output>') == 1

    def test_what_was_typed_comes_back_as_it_was_typed_with_its_unit(self, own_shop, client_as) -> None:
        typed = TIRE | {
            "injury_A_diameter": "5,5", "injury_A_diameter_u": "mm", "outer_groove": "x", "outer_groove_u": "mm",
        }  # fmt: skip
        answer = client_as("apprentice").get(check_of(own_shop), typed | {"tread_width_u": "mm"}, follow=True)

        kept = dict(parse_qsl(urlsplit(answer.redirect_chain[-1][0]).query))
        assert kept == typed  # and no unit of an empty field
        page = answer.content.decode()
        assert 'name="injury_A_diameter" value="5,5"' in page
        assert 'name="outer_groove" value="x"' in page
        assert units_of(page, "outer_groove") == ["in", "mm*"]

    def test_a_number_that_names_its_unit_is_shown_with_that_unit(self, own_shop, visit) -> None:
        page = visit(
            f"{check_of(own_shop)}?casing=passenger&purpose=repair&outer_groove=62mm&outer_groove_u=in&step=hole"
        )

        assert units_of(page.content.decode(), "outer_groove") == ["in", "mm*"]

    # FMVSS 110 placards give car pressures near 220 kPa, 32 psi: taken in the other unit neither can be true
    @pytest.mark.parametrize(("number", "unit"), [("220", "psi"), ("32", "bar")])
    def test_the_wrong_unit_is_not_turned_round_but_looked_at_again(self, own_shop, visit, number, unit) -> None:
        found = f"casing=passenger&purpose=service&recommended={number}&recommended_u={unit}"
        answer = visit(f"{check_of(own_shop)}?{found}&on=2026-11-25")

        text = text_of(answer)
        assert f"Recommended pressure: {number} {unit} (" in text
        assert "Look again" in text
        assert "Perhaps it was read in the other unit." in text

    def test_the_longest_address_fits_a_server_that_takes_8190_signs(self) -> None:
        form = TireForm(edition="north-america", today=DAY)
        typed: dict[str, str] = {}
        for name, field in form.fields.items():
            if isinstance(field, Measured):
                typed |= {name: "12 31/32 in", f"{name}_u": "32nds"}
            elif name.startswith("pressed_"):
                typed[name] = " ".join(form.findings_in(name.replace("pressed_", "find-")))
            else:
                typed[name] = max((str(word) for word, _ in getattr(field, "choices", ())), key=len, default="x" * 40)

        assert len(typed) > 150
        assert len(urlencode(typed)) < 8000

    def test_a_correction_begins_with_what_was_typed(self, own_shop, client_as) -> None:
        browser = client_as("apprentice")
        found = TIRE | {"injury_A_diameter": "1/2", "injury_A_diameter_u": "in", "injury_A_kind": "puncture"}
        query = "&".join(f"{name}={value}" for name, value in found.items())
        kept = browser.post(
            f"/shop/{own_shop.slug}/checks/keep/?{query}",
            {"ticket": "ticket 4", "press": "6f1c2a7e-0d52-4b7b-9a55-0d8a6b1f2c11"},
        )
        record = browser.get(kept.url)

        assert "1/2 in (12.7 mm)" in text_of(record)
        again = re.findall(r'href="([^"]*corrects=[^"]*)"', record.content.decode())[0].replace("&amp;", "&")
        page = browser.get(again, follow=True).content.decode()
        assert 'name="injury_A_diameter" value="1/2"' in page

    @pytest.mark.parametrize(
        ("query", "words"),
        [
            ("name=a&of=length&a=3/16&a_u=in", "3/16 in (4.8 mm)"),
            ("name=a&of=length&a=3/16+in&a_u=mm", ""),  # it says itself what it is
            ("name=a&of=tread&how_many=readings&a=6, 5&a_u=32nds", "6/32 in (4.8 mm), 5/32 in (4 mm)"),
            ("name=a&of=angle&of=length&a=90&a_u=deg", "90°"),
            ("name=a&of=length&a=", ""),
            ("name=a&of=length&a=1/4&a_u=mm", "is a fraction"),
            ("name=a&of=length&a=<b>&a_u=mm", "&lt;b&gt;"),
        ],
    )
    def test_while_the_form_is_open_anybody_is_told_how_a_number_is_understood(self, client, db, query, words) -> None:
        page = client.get(f"/read/?{query}").content.decode()

        assert page.startswith('<output class="read-as')
        assert words in page
        assert bool(words) == bool(re.sub("<[^>]*>", "", page).strip())

    @pytest.mark.parametrize("query", ["", "name=a&of=smell&a=1", "name=a&of=length&how_many=lots&a=1"])
    def test_a_thing_that_no_field_measures_is_not_found(self, client, db, query) -> None:
        assert client.get(f"/read/?{query}").status_code == 404


class TestTheAudit:
    def test_a_bare_number_takes_the_unit_beside_it(self, own_shop, visit) -> None:
        # carbide cutter in a low-speed drill, at most 1,200 rpm: trade press
        page = f"/shop/{own_shop.slug}/audit/?casing=passenger&method=two-piece"
        answer = visit(page, post={"s8": "8", "s8_speed": "1500", "outer_groove": "2 7/16", "outer_groove_u": "in"})

        text = text_of(answer)
        assert "Centerline to outer groove: 2 7/16 in (61.9 mm)" in text
        assert "1,500 rpm" in text
        assert "Not sound" in text


class TestHouseRulesAndTheShelf:
    def test_a_limit_takes_the_unit_beside_it(self, own_shop, client_as) -> None:
        browser, url = client_as("owner"), f"/shop/{own_shop.slug}/house-rules/"
        page = browser.post(url, entered(browser, url, **{"injury-size": "3/16", "injury-size_u": "in"}))

        text = text_of(page)
        assert "at most 3/16 in" in text
        assert "Show what changes" not in text  # what changes is read before it counts

    def test_a_looser_limit_is_refused_with_both_values(self, own_shop, client_as) -> None:
        # US association puncture repair procedures (wall chart): at most 1/4 in (6 mm)
        browser, url = client_as("owner"), f"/shop/{own_shop.slug}/house-rules/"
        page = browser.post(url, entered(browser, url, **{"injury-size": "1/2", "injury-size_u": "in"}))

        assert "1/2 in is looser than at most 1/4 in (6 mm)" in text_of(page)

    def test_a_unit_for_the_shelf_is_kept_with_its_unit(self, own_shop, client_as) -> None:
        sizes = {
            "length": "3",
            "length_u": "in",
            "width": "65,5",
            "width_u": "mm",
            "injury_max": "1/4",
            "injury_max_u": "in",
        }
        answer = client_as("owner").post(
            f"/shop/{own_shop.slug}/repair-units/add/",
            {"name": "patch, medium", "kind": "patch", "casings": ["passenger"]} | sizes,
            follow=True,
        )

        text = text_of(answer)
        assert "Read as: Length, toward the beads: 3 in (76.2 mm); Width, around the tire: 65.5 mm (2" in text
        for size in ("3 in", "65.5 mm", "1/4 in"):
            assert size in text
