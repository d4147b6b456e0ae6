"""The form of Check a tire: what was typed becomes a case, and every bad value is named beside its field."""

from copy import deepcopy
from datetime import date
from typing import Any

import pytest
from django.forms import Field

from tests.tires import form_of
from training.forms.check_a_tire import TireForm
from training.forms.tire_fields import finding_names
from training.forms.tire_parts import GAUGE, INJURY, REPAIR
from training.rulebook import FINDINGS, edition_names, load_edition, parse_case, parse_quantity
from training.speaking import speaking


class TestTheForm:
    def test_every_field_of_the_page_stands_in_one_section(self) -> None:
        form = form_of()

        shown = [field.name for section in form.sections for field in section.fields]

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

    @pytest.mark.parametrize("unit", GAUGE)
    def test_the_gauge_goes_past_every_limit_of_a_hole_so_that_it_suggests_none(self, unit) -> None:
        sizes = [parse_quantity(f"{size} {unit}", "length").value for size in GAUGE[unit]]
        limits = [
            max(one.value for one in clause.of_edition.quantities)
            for name in edition_names()
            for clause in load_edition(name).clauses.values()
            if clause.quantity == "injury.diameter" and clause.of_edition.quantities
        ]

        assert limits
        assert sizes == sorted(sizes)
        assert all(min(sizes) < limit < max(sizes) for limit in limits)


class TestWhatFormsShare:
    """All forms of one language, unit and day have their fields in common: no form may leave anything in them."""

    DAY = date(2026, 11, 20)
    WRONG = {"casing": "cart", "designation": "x" * 500, "injury_A_diameter": "a lot", "find_bulge": "maybe", "on": "x"}

    def form(self, data: dict[str, str] | None = None, *, prefer: str = "in", day: date = DAY) -> TireForm:
        return TireForm(data, edition="north-america", today=day, prefer=prefer)

    def test_a_form_leaves_nothing_behind(self) -> None:
        before = {name: _kept_in(field) for name, field in deepcopy(self.form().fields).items()}
        filled = self.form(
            {"casing": "passenger", "injury_A_diameter": "6 mm", "find_bulge": "yes", "depths_1": "5, 6"}
        )
        refused = self.form(self.WRONG)

        printed = [field.as_field_group() for form in (filled, refused) for field in form.visible_fields()]

        assert printed
        assert refused.errors
        assert {name: _kept_in(field) for name, field in self.form().fields.items()} == before

    def test_each_language_unit_and_day_has_its_own(self) -> None:
        with speaking("en-GB"):
            british = [str(field.label) for field in self.form(prefer="mm").fields.values()]
        american = [str(field.label) for field in self.form(prefer="in").fields.values()]

        assert any("tyre" in label.lower() for label in british)
        assert not any("tyre" in label.lower() for label in american)
        first = {
            prefer: self.form(prefer=prefer).fields["tread_width"].widget.units[0] for prefer in ("in", "mm", "in")
        }
        assert first == {"in": "in", "mm": "mm"}
        days = (self.DAY, date(2026, 11, 21), self.DAY)
        assert [self.form(day=day).fields["on"].initial for day in days] == list(days)

    def test_a_form_may_drop_a_field_of_its_own(self) -> None:
        form = self.form()
        del form.fields["casing"]

        assert "casing" in self.form().fields


def _kept_in(field: Field) -> dict[str, Any]:
    """All that a field and its input keep, as it can be compared."""
    own = {name: repr(value) for name, value in vars(field).items() if name not in ("widget", "validators")}
    return own | {f"widget.{name}": repr(value) for name, value in vars(field.widget).items() if name != "choices"}
