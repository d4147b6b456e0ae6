"""The shop's repair units: entered, taken off, and what plans, drawings and questions make of them."""

from typing import Any
from urllib.parse import urlencode

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from assessments.acts import start_assessment
from assessments.models import FormItem
from tests.factories import NOW, RepairUnitFactory
from tests.kept_checks import SMALL_HOLE
from tests.pages import cost_of
from tests.present import present
from tests.rulebook.cases import decide_as_told
from tests.terms import terms_of
from training import acts
from training.models import RepairUnit, Shop
from training.queries.shop_rulebook import units_of
from training.rulebook import decide

pytestmark = pytest.mark.django_db

PATCH = {
    "name": "patch, long",
    "kind": "patch",
    "length": "110 mm",
    "width": "3 1/2 in",
    "stem_diameter": "",
    "injury_max": "6 mm",
    "casings": ["passenger"],
}
STEM = {
    "name": "stem, medium",
    "kind": "stem",
    "length": "",
    "width": "",
    "stem_diameter": "",
    "injury_min": "3 mm",
    "injury_max": "6 mm",
    "casings": ["passenger"],
}
# Two holes of 5 mm on one station, 70 mm apart: units 75 mm long overlap by 5 mm, units 60 mm long leave 10 mm.
TWO_HOLES: dict[str, Any] = {
    "tire": {"casing": "passenger", "designation": "205/55R16", "outer_groove": "62 mm", "crown_thickness": "12 mm"},
    "injuries": [
        {"id": "A", "diameter": "5 mm", "angle": "0 deg", "lateral": "35 mm", "station": "90 deg"},
        {"id": "B", "diameter": "5 mm", "angle": "0 deg", "lateral": "-35 mm", "station": "90 deg"},
    ],
}


class TestTheShelf:
    def test_while_it_is_empty_nothing_is_decided_by_sizes_that_nobody_entered(self, own_shop) -> None:
        assert units_of(own_shop) is None

        decision = decide(TWO_HOLES, units=units_of(own_shop))

        assert decision.verdict == "inspect"
        assert "units-in-the-drawer" in decision.missing
        assert "repair-overlap" in decision.unexamined

    def test_the_plan_takes_the_smallest_that_fits(self, own_shop) -> None:
        for name, length, injury in (
            ("large", "100 mm", "6 mm"),
            ("fits", "60 mm", "5 mm"),
            ("small", "40 mm", "3 mm"),
        ):
            RepairUnitFactory.create(shop=own_shop, name=name, length=length, width="55 mm", injury_max=injury)

        decision = decide_as_told(TWO_HOLES, units=units_of(own_shop))

        assert decision.verdict == "repair"  # 70 - 60 = 10 mm between them
        assert decision.plan is not None
        assert [present(entry.unit)["name"] for entry in decision.plan] == ["fits", "fits"]

    def test_a_shelf_without_a_unit_for_the_injury_says_so(self, own_shop) -> None:
        RepairUnitFactory.create(shop=own_shop, name="small", injury_max="3 mm", length="40 mm", width="40 mm")
        one = {"tire": {"casing": "passenger"}, "injuries": [{"diameter": "5 mm"}]}

        decision = decide_as_told(one, units=units_of(own_shop))

        assert "No repair unit on the shelf fits this injury: get one before the work begins." in decision.conditions

    def test_a_shelf_without_a_stem_for_the_hole_says_so(self, own_shop) -> None:
        RepairUnitFactory.create(shop=own_shop)
        one = {"tire": {"casing": "passenger"}, "injuries": [{"diameter": "5 mm"}]}
        get_one = "No stem on the shelf fills this hole: get one before the work begins."

        without = decide_as_told(one, units=units_of(own_shop))
        RepairUnitFactory.create(shop=own_shop, stem=True, injury_min="2 mm", injury_max="4 mm")
        thin = decide_as_told(one, units=units_of(own_shop))
        RepairUnitFactory.create(shop=own_shop, stem=True, injury_min="5 mm", injury_max="6 mm")
        right = decide_as_told(one, units=units_of(own_shop))

        chart = "No stems are on the shelf that was entered: choose the stem from its maker's chart."
        assert [one.conditions for one in (without, thin, right)] == [(chart,), (get_one,), ()]

    def test_another_shops_units_and_those_taken_off_do_not_count(self, own_shop, other_shop) -> None:
        RepairUnitFactory.create(shop=other_shop)
        RepairUnitFactory.create(shop=own_shop, taken_off=True)

        assert units_of(own_shop) is None


class TestChangingIt:
    def add(self, shop, owner, **changes) -> RepairUnit:
        return acts.add_unit(shop=shop, by=owner, at=NOW, **(PATCH | changes))

    def test_the_same_unit_again_is_one_unit(self, own_shop, owner) -> None:
        assert self.add(own_shop, owner) == self.add(own_shop, owner)
        assert RepairUnit.objects.count() == 1

    def test_another_unit_of_a_name_on_the_shelf_is_refused(self, own_shop, owner) -> None:
        self.add(own_shop, owner)

        with pytest.raises(acts.UnitRefused, match='Name: "Patch, Long" is on the shelf already'):
            self.add(own_shop, owner, name="Patch, Long", length="90 mm")

    def test_taken_off_twice_it_went_off_once_and_its_name_is_free(self, own_shop, owner) -> None:
        unit = self.add(own_shop, owner)

        acts.end_unit(unit=unit, by=owner, at=NOW)
        first = RepairUnit.objects.get(pk=unit.pk).ended_at
        acts.end_unit(unit=unit, by=owner, at=NOW.replace(year=2027))

        assert RepairUnit.objects.get(pk=unit.pk).ended_at == first
        assert self.add(own_shop, owner, length="90 mm").pk != unit.pk

    @pytest.mark.parametrize(
        ("facts", "constraint"),
        [
            ({"kind": "string"}, "repair_unit_kind_known|repair_unit_stem|repair_unit_sides"),
            ({"kind": "one-piece"}, "repair_unit_stem_with_one_piece_only"),
            ({"stem_diameter": "6 mm"}, "repair_unit_stem_with_one_piece_only"),
            ({"length": ""}, "repair_unit_sides_or_smallest_hole"),
            ({"injury_min": "3 mm"}, "repair_unit_sides_or_smallest_hole"),
            ({"kind": "stem"}, "repair_unit_sides_or_smallest_hole"),
            ({"stem": True, "injury_min": ""}, "repair_unit_sides_or_smallest_hole"),
            ({"ended_at": NOW}, "repair_unit_ended_by_someone"),
        ],
    )
    def test_the_database_refuses_what_the_form_refuses(self, own_shop, facts, constraint) -> None:
        with pytest.raises(IntegrityError, match=constraint), transaction.atomic():
            RepairUnitFactory.create(shop=own_shop, **facts)

    def test_the_database_holds_one_unit_of_a_name_on_the_shelf(self, own_shop) -> None:
        RepairUnitFactory.create(shop=own_shop, name="patch")

        with pytest.raises(IntegrityError), transaction.atomic():
            RepairUnitFactory.create(shop=own_shop, name="PATCH")

    def test_the_database_deletes_none(self, own_shop) -> None:
        RepairUnitFactory.create(shop=own_shop)

        with pytest.raises(DatabaseError, match="kept"), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute("DELETE FROM training_repairunit")


class TestThePages:
    def url(self, shop: Shop, rest: str = "") -> str:
        return f"/shop/{shop.slug}/repair-units/{rest}"

    def test_the_owner_adds_one_and_plans_use_it_at_once(self, own_shop, visit) -> None:
        done = visit(self.url(own_shop, "add/"), as_role="owner", post=PATCH)

        assert done.status_code == 302
        unit = RepairUnit.objects.get(shop=own_shop)
        assert (unit.name, unit.length, unit.width, unit.casings) == (
            "patch, long",
            "110 mm",
            "3 1/2 in",
            ["passenger"],
        )
        check = f"/shop/{own_shop.slug}/check/?{urlencode(SMALL_HOLE | {'on': '2026-11-25'})}"
        assert "(110 mm by 3 1/2 in)" in visit(check).content.decode()

    @pytest.mark.parametrize(
        ("changes", "words"),
        [
            ({"name": " "}, "Name: it is empty; give what the shop calls it."),
            ({"name": "x" * 61}, "Name: 61 characters are too many; give at most 60."),
            ({"kind": "string"}, "Kind: &quot;string&quot; is not accepted; choose one of the three."),
            ({"length": ""}, "Length, toward the beads: it is empty; give a length, such as 6 mm."),
            ({"length": "75"}, "Length, toward the beads: &quot;75&quot; is not a length; give a number and a unit"),
            ({"width": "-2 mm"}, "Width, around the tire: -2 mm is not above 0; give more than 0."),
            ({"width": "6 mm"}, "Width, around the tire: 6 mm does not cover an injury of 6 mm; give more than that."),
            ({"injury_max": "big"}, "Largest injury: &quot;big&quot; is not a length"),
            ({"kind": "one-piece"}, "Stem diameter: it is empty; a one-piece unit has a stem, give its diameter."),
            (
                {"stem_diameter": "6 mm"},
                "Stem diameter: only a one-piece unit has a stem of its own; leave this empty.",
            ),
            ({"injury_min": "3 mm"}, "Smallest injury: only a stem has it; leave this empty."),
            ({"kind": "stem"}, "Length, toward the beads: a stem has no sides; leave this empty."),
            (STEM | {"injury_min": ""}, "Smallest injury: it is empty; give the smallest hole the stem fills"),
            (
                STEM | {"injury_min": "7 mm"},
                "Smallest injury: 7 mm is above the largest, 6 mm; give no more than that.",
            ),
            ({"casings": []}, "For which tires: nothing is ticked; tick at least one."),
            ({"casings": ["bicycle"]}, "For which tires: &quot;bicycle&quot; is not accepted"),
        ],
    )
    def test_what_is_not_accepted_is_named_and_nothing_is_stored(self, own_shop, visit, changes, words) -> None:
        page = visit(self.url(own_shop, "add/"), as_role="owner", post=PATCH | changes).content.decode()

        assert page.count(words) == 2  # in the summary and beside the field
        assert not RepairUnit.objects.exists()

    def test_empty_it_says_what_that_leaves_open(self, own_shop, visit) -> None:
        page = visit(self.url(own_shop), as_role="trainer").content.decode()

        assert "A plan then names no unit and draws no outline" in page
        assert "mm" not in page.partition("<main")[2].partition("</main>")[0]  # no size that nobody entered
        assert "Add a unit" not in page  # the owner adds

    def test_the_owner_adds_a_stem_and_plans_name_it(self, own_shop, visit) -> None:
        RepairUnitFactory.create(shop=own_shop)

        assert visit(self.url(own_shop, "add/"), as_role="owner", post=STEM).status_code == 302

        decision = decide_as_told({**TWO_HOLES, "injuries": [TWO_HOLES["injuries"][0]]}, units=units_of(own_shop))
        assert [entry.stem for entry in decision.plan or ()] == [{"name": "stem, medium", "fills": "3 mm to 6 mm"}]
        assert "3 mm" in visit(self.url(own_shop), as_role="owner").content.decode()

    def test_the_owner_takes_a_stem_off_and_puts_it_back(self, own_shop, visit) -> None:
        stem = RepairUnitFactory.create(shop=own_shop, stem=True, name="stem, medium")

        visit(self.url(own_shop, f"{stem.reference}/take-off/"), as_role="owner", post={"x": "1"})

        assert units_of(own_shop) is None
        assert "stem, medium: taken off" in visit(self.url(own_shop), as_role="owner").content.decode()
        visit(self.url(own_shop, "add/"), as_role="owner", post=STEM)
        assert [one.name for one in units_of(own_shop) or ()] == ["stem, medium"]

    def test_gaps_on_the_shelf_are_told(self, own_shop, visit) -> None:
        RepairUnitFactory.create(shop=own_shop, injury_max="6 mm", casings=["passenger"])

        page = visit(self.url(own_shop), as_role="owner").content.decode()

        assert "Passenger, injury of 6 mm: no one-piece unit, no stem." in page
        assert "Fabric-body light truck, injury of 6 mm: no patch, no one-piece unit, no stem." in page

    def test_the_owner_takes_one_off(self, own_shop, visit) -> None:
        unit = RepairUnitFactory.create(shop=own_shop, name="patch, odd")

        visit(self.url(own_shop, f"{unit.reference}/take-off/"), as_role="owner", post={"x": "1"})

        page = visit(self.url(own_shop), as_role="owner").content.decode()
        assert "patch, odd, 75 mm by 65 mm: taken off" in page
        assert "Nothing is entered." in page

    def test_another_shops_unit_does_not_exist_here(self, own_shop, other_shop, visit) -> None:
        unit = RepairUnitFactory.create(shop=other_shop)

        assert visit(self.url(own_shop, f"{unit.reference}/take-off/"), as_role="owner", post={}).status_code == 404
        assert units_of(other_shop)

    def test_costs_the_same_with_three_as_with_thirty(self, own_shop, client_as) -> None:
        browser = client_as("owner")
        RepairUnitFactory.create_batch(3, shop=own_shop)
        RepairUnitFactory.create(shop=own_shop, taken_off=True)
        few = cost_of(browser, self.url(own_shop))
        RepairUnitFactory.create_batch(27, shop=own_shop)
        RepairUnitFactory.create_batch(5, shop=own_shop, taken_off=True)

        assert cost_of(browser, self.url(own_shop)) == few


def test_an_assessment_is_drawn_with_whatever_is_on_the_shelf(own_shop, apprentice) -> None:
    """A shelf with nothing for passenger tires still gives a whole form: the questions state their own sizes."""
    RepairUnitFactory.create(shop=own_shop, casings=["truck"], injury_max="10 mm")
    terms = terms_of(own_shop)
    assert terms is not None

    attempt = start_assessment(shop=own_shop, learner=apprentice, terms=terms, at=NOW)

    assert FormItem.objects.filter(form=attempt.form).count() == terms.count
