"""What Check a tire asks: by casing and purpose, out of the examples of the edition's own clauses."""

import re
from datetime import date

import pytest

from training.forms.check_a_tire import TireForm
from training.forms.tire_needs import _paths, asked_fields, fields_at
from training.rulebook import CASINGS, PURPOSES, edition_names, load_edition, parse_case

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

DAY = date(2026, 11, 25)
# places of a case that no form field stands for: who chose the rulebook, and what a row or a list gives by itself
NOT_ASKED = {"edition", "tread_depths.groove", "tread_depths.station", "injuries.id", "earlier_repairs.id"}


def form_of(**found: str) -> TireForm:
    return TireForm(found, edition="north-america", today=DAY)


@pytest.mark.parametrize("name", edition_names())
def test_every_place_that_a_clause_looks_at_has_a_field(name) -> None:
    clauses = [clause for clause in load_edition(name).clauses.values() if not clause.is_for_job()]
    looked_at = {path for clause in clauses for example in (*clause.passes, *clause.fails) for path in _paths(example)}
    fields = form_of().fields

    for path in looked_at - NOT_ASKED:
        assert fields_at(path), f"{name}: nothing on the page asks for {path}"
        assert set(fields_at(path)) <= set(fields), path


@pytest.mark.parametrize("name", edition_names())
@pytest.mark.parametrize("casing", CASINGS)
@pytest.mark.parametrize("purpose", PURPOSES)
def test_the_first_step_and_the_day_are_asked_whatever_the_rulebook_covers(name, casing, purpose) -> None:
    asked = asked_fields(load_edition(name), casing=casing, purpose=purpose)

    assert {"casing", "purpose", "on_wheel", "on"} <= asked


class TestNorthAmerica:
    def asked(self, casing: str, purpose: str) -> frozenset[str]:
        return asked_fields(load_edition("north-america"), casing=casing, purpose=purpose)

    # Source: 49 CFR 393.75(d), no retreaded tire on the front wheels of a bus; (b), front wheels 4/32 in
    def test_a_truck_tire_in_service_is_asked_for_axle_and_retread(self) -> None:
        asked = self.asked("truck", "service")

        assert {"vehicle", "axle", "retreaded", "depths_1", "own_diameter", "mate_diameter"} <= asked

    def test_a_passenger_tire_to_repair_is_not_asked_what_only_trucks_need(self) -> None:
        asked = self.asked("passenger", "repair")

        assert {"injury_A_diameter", "injury_C_angle", "outer_groove", "repair_R1_kind", "find_bead-damage"} <= asked
        assert not {"own_diameter", "mate_diameter", "dual"} & asked

    # every punctured tire leaks: low pressure and a leak count for a tire that is to run (DESIGN, "Commands")
    def test_leak_and_pressure_are_asked_for_a_tire_that_is_to_run(self) -> None:
        assert {"found", "recommended", "find_audible-leak"} <= self.asked("passenger", "service")
        assert not {"found", "find_audible-leak"} & self.asked("passenger", "repair")


def test_truck_fields_make_the_case_that_the_same_json_makes() -> None:
    form = form_of(
        casing="truck",
        purpose="service",
        vehicle="bus",
        axle="front",
        gross_mass="26000 lb",
        dual="no",
        wheel="multi-piece",
        retreaded="yes",
        retreaded_on="1022",
        own_diameter="41.9 in",
        mate_diameter="41.2 in",
        depths_1="5/32 in",
        on="2026-11-25",
    )

    assert form.is_valid(), form.errors
    assert form.case == parse_case(
        {
            "edition": "north-america",
            "on": "2026-11-25",
            "purpose": "service",
            "tire": {"casing": "truck", "retreaded": True, "retreaded_on": "1022"},
            "position": {
                "vehicle": "bus",
                "axle": "front",
                "gross_mass": "26000 lb",
                "dual": False,
                "wheel": "multi-piece",
            },
            "tread_depths": ["5/32 in"],
            "dual_mate": {"diameter": "41.2 in", "own_diameter": "41.9 in"},
        }
    )


@pytest.mark.parametrize(
    ("found", "field", "words"),
    [
        ({"gross_mass": "26000"}, "gross_mass", 'Gross mass of the vehicle: "26000" is not a mass'),
        ({"own_diameter": "42"}, "own_diameter", 'Outer diameter of this tire: "42" is not a length'),
        ({"own_diameter": "42 in"}, "mate_diameter", "Outer diameter of its dual mate: "),
        ({"retreaded_on": "9922"}, "retreaded_on", "When it was retreaded: "),
        ({"dual": "perhaps"}, "dual", 'Dual or single: "perhaps" is not accepted'),
    ],
)
def test_a_bad_truck_value_is_named_beside_its_field(found, field, words) -> None:
    form = form_of(casing="truck", purpose="service", **found)

    assert not form.is_valid()
    assert any(words in error for error in form.errors[field]), form.errors


class TestThePage:
    @pytest.fixture
    def names_on(self, own_shop, client_as):
        browser = client_as("apprentice")

        def go(**asked: str) -> set[str]:
            page = browser.get(f"/shop/{own_shop.slug}/check/", asked, follow=True).content.decode()
            return set(re.findall(r'<(?:input|select|textarea)[^>]* name="([^"]+)"', page))

        return go

    def test_asks_first_for_casing_purpose_and_place(self, names_on) -> None:
        assert names_on() == {"casing", "purpose", "on_wheel", "designation", "build", "at", "csrfmiddlewaretoken"}

    def test_then_for_what_they_need(self, names_on) -> None:
        names = set().union(
            *(names_on(casing="truck", purpose="service", step=one) for one in ("hole", "inside", "outside"))
        )

        assert {"axle", "retreaded", "depths_1"} <= names
        assert "injury_A_azimuth" not in names or "injury_A_angle" in names

    def test_asks_for_everything_on_a_press(self, names_on) -> None:
        names = names_on(casing="passenger", purpose="repair", step="all")

        assert {field.name for field in form_of().visible_fields()} <= names

    def test_keeps_showing_what_was_typed_though_the_casing_does_not_need_it(self, names_on) -> None:
        assert "mate_diameter" in names_on(
            casing="passenger", purpose="repair", mate_diameter="41 in", own_diameter="41 in"
        )

    def test_keeps_what_was_typed_when_the_casing_is_still_missing(self, names_on) -> None:
        assert "injury_A_diameter" in names_on(purpose="repair", injury_A_diameter="5 mm")

    def test_decides_nothing_on_the_way(self, own_shop, client_as) -> None:
        answer = client_as("apprentice").get(
            f"/shop/{own_shop.slug}/check/", {"casing": "passenger", "purpose": "repair", "step": "found"}, follow=True
        )

        assert "verdict--" not in answer.content.decode()

    def test_refuses_to_go_on_without_a_casing(self, own_shop, client_as) -> None:
        answer = client_as("apprentice").get(
            f"/shop/{own_shop.slug}/check/", {"casing": "", "purpose": "repair", "step": "found"}, follow=True
        )

        assert "Casing: nothing is chosen; choose one from the list." in answer.content.decode()


def test_what_a_placard_asks_and_the_road_did_reaches_the_case() -> None:
    form = form_of(
        casing="passenger", purpose="service", asked_size="205/55R16 91V", asked_load_index="91", max_load="1356 lb",
        for_load="36 psi", ran_without_air="no", roadside="sealant", roadside_driven="30 mi",
    )  # fmt: skip

    assert form.is_valid(), form.errors
    case = form.case
    assert (case.position.asked_size, case.position.asked_load_index) == ("205/55R16 91V", 91)
    assert (str(case.tire.max_load), str(case.pressure.for_load)) == ("1356 lb", "36 psi")
    assert case.tire.ran_without_air is False
    assert case.roadside is not None
    assert (case.roadside.means, str(case.roadside.driven)) == ("sealant", "30 mi")


def test_a_load_index_that_is_in_no_table_is_refused_beside_its_field() -> None:
    form = form_of(casing="passenger", purpose="service", asked_load_index="291")

    assert not form.is_valid()
    assert "give a whole number from 0 to 180" in str(form.errors["asked_load_index"])
