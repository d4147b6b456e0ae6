"""Questions of a shop with house rules: its own limits are the key, its shelf counts, and no family is left without."""

import re
from typing import Any

import pytest

from assessments.questions import Item, blueprint, draw, draw_form
from assessments.questions.draws.coverage import families_of
from assessments.questions.items.wordings import plain
from tests.homes import at_home_in
from tests.present import as_a, present
from tests.proof.bench import Bench
from tests.proof.holding import claimed
from training.rulebook import Edition, HouseRule, HouseRules, RepairUnit, lay_over, load_edition, parse_quantity
from training.trade.words import LIGHT

BASE = load_edition("north-america")
SEEDS = [f"house/{number}" for number in range(40)]


def shop(**limits: str | tuple[str, ...]) -> Edition:
    """The edition under these house rules: `shop(injury_size="5 mm")`."""
    return lay_over(
        BASE,
        HouseRules(
            tuple(
                HouseRule(name.replace("_", "-"), (given,) if isinstance(given, str) else given)
                for name, given in limits.items()
            )
        ),
    )


# Each stricter than the published limit beside it (facts.md): 1/4 in (6 mm); 25 deg; the whole hole in the crown; units
# do not overlap; 2/32 in; stem-and-patch or one-piece; 1200 rpm and 3 passes; 3 min; 40 psi (275 kPa); 50 to 100 miles.
STRICT = {
    "a hole of 5 mm": {"injury_size": "5 mm"},
    "a hole of 3 mm": {"injury_size": "3 mm"},
    "a hole in both units": {"injury_size": ("3/16 in", "5 mm")},
    "a lean of 5 deg": {"one_piece_angle": "5 deg", "proposed_one_piece_angle": "5 deg"},
    "half an inch from the groove": {"crown_at_tread": "1/2 in", "crown_at_liner": "1/2 in"},
    "room between units": {"repair_overlap": "20 mm"},
    "more tread": {"tread_depth": "4/32 in", "tread_depth_used": "5/32 in"},
    "stem and patch only": {"proposed_repair": ("two-piece",), "method_for_a_puncture": ("two-piece",)},
    "no earlier repair": {
        "earlier_repair_kind": ("stem-only", "patch-only", "string", "ply-repair", "one-piece", "two-piece")
    },
    "slow and thorough": {"cutter_speed": "700 rpm", "cutter_passes": "5 passes", "liner_cleaning": "4 times"},
    "patient": {"drying_time": "10 min", "drying_time_cold": "20 min", "bead_seating_pressure": "30 psi"},
    "back soon": {"torque_recheck": ("50 mi", "60 mi"), "channel_cementing": ("4 times", "5 times")},
}


@pytest.mark.parametrize(
    "rules",
    [
        {"injury_size": "0.4 mm"},
        {"crown_at_tread_steel": "1700 mm", "crown_at_liner_steel": "1700 mm"},
        {"cutter_passes": "9 passes", "liner_cleaning": "9 times"},
    ],
    ids=["no hole", "no crown", "many passes"],
)
def test_limits_that_leave_a_family_nothing_leave_the_others_asking(rules) -> None:
    edition = shop(**rules)

    asked = families_of(edition)

    assert {"date-code", "tread-gauge", "order-of-inspection"} <= set(asked)
    assert set(asked) <= set(families_of(BASE))


@pytest.mark.parametrize("rules", STRICT.values(), ids=STRICT)
@pytest.mark.parametrize("prefer", ["in", "mm"])
def test_a_whole_form_can_be_drawn_however_strict_the_shop_is(rules, prefer) -> None:
    plan = blueprint("north-america-light")

    items = draw_form(plan, secret=b"a secret", form_id=f"form {prefer}", edition=shop(**rules), prefer=prefer)

    assert len(items) == plan.count
    assert len({item.content for item in items}) == plan.count


# Stricter than the published limit beside it: 3/8 in (10 mm); 1.5 in from each shoulder; 500 to 700 rpm, 5 passes; half
# an inch between the tires of a pair; 2/32 in of tread behind and 4/32 in front; 80 percent; 150 percent.
STRICT_STEEL = {
    "a hole of 8 mm": {"injury_size_steel": "8 mm"},
    "a hole of 5 mm": {"injury_size_steel": "5 mm"},
    "two inches from the shoulder": {"crown_at_tread_steel": "2 in", "crown_at_liner_steel": "2 in"},
    "a lean of 5 deg": {"one_piece_angle": "5 deg", "proposed_one_piece_angle": "5 deg"},
    "slow and thorough": {"cutter_speed_steel": ("500 rpm", "600 rpm"), "cutter_passes_steel": "7 passes"},
    "closer pairs and more tread": {"dual_diameter": "1/4 in", "tread_depth_truck": "4/32 in"},
    "more in front": {"tread_depth_steer_axle_truck": "6/32 in"},
    "sooner soft": {"run_low_single_piece": "85 %", "run_low_multi_piece": "85 %"},
    "a stronger cage": {"restraint_capacity": "200 %", "bead_seating_pressure": "30 psi"},
    "a narrower torque": {"torque_m22": ("460 lbf.ft", "490 lbf.ft")},
}


@pytest.mark.parametrize("rules", STRICT_STEEL.values(), ids=STRICT_STEEL)
@pytest.mark.parametrize("prefer", ["in", "mm"])
def test_a_whole_form_on_steel_bodies_can_be_drawn_however_strict_the_shop_is(rules, prefer) -> None:
    plan = blueprint("north-america-steel")

    items = draw_form(plan, secret=b"a secret", form_id=f"form {prefer}", edition=shop(**rules), prefer=prefer)

    assert len(items) == plan.count
    assert len({item.content for item in items}) == plan.count
    assert not [item.family for item in items if not agrees(item, claimed(Bench(item, shop(**rules))))]


def agrees(item: Item, found: Any) -> bool:
    """Does the second look at a question give its key?"""
    if found.complaints is not None or found.number is not None or found.place is not None:
        return not found.complaints
    return bool(found.right == ({item.key} if isinstance(item.key, str) else set(as_a(tuple, item.key))))


@pytest.mark.parametrize("name", at_home_in("north-america"))
def test_the_same_rules_give_the_same_question_and_the_item_names_them(name) -> None:
    rules = {"injury_size": "5 mm", "cutter_speed": "900 rpm"}

    one = draw(name, seed="a", edition=shop(**rules))
    again = draw(name, seed="a", edition=shop(**dict(reversed(rules.items()))))

    assert one.to_json() == again.to_json()
    assert one.version == shop(**rules).version


def test_the_key_for_the_size_limit_is_the_shops() -> None:
    for seed in SEEDS:
        item = draw("limit-for-casing", seed=seed, edition=shop(injury_size="5 mm"), casings=LIGHT)
        texts = {option.id: option.text for option in item.options}

        assert texts.pop(as_a(str, item.key)).endswith(" 5 mm (3/16 in)")
        assert not any(" 5 mm" in text for text in texts.values())
        assert item.explanation[0]["source"] == "house rule of the shop"
        assert "The shop's own limit is stricter: at most 5 mm." in str(item.explanation[0]["because"])


def test_a_hole_between_the_shops_limit_and_the_charts_is_out_of_service() -> None:
    """Computed here: of two holes each of more than 5 mm is out, whatever unit it was measured in."""
    asked_between = 0
    for seed in SEEDS * 3:
        item = draw("size-verdict", seed=f"{seed}/{len(seed)}", edition=shop(injury_size="5 mm"), casings=LIGHT)
        told = re.search(r"A is ([\d/ .]+ (?:mm|in)) across .*, B is ([\d/ .]+ (?:mm|in))\.", item.stem)
        assert told is not None
        across = {name: parse_quantity(size, "length").value for name, size in zip("AB", told.groups(), strict=True)}
        asked_between += any(5 < size <= 6 for size in across.values())
        key = next(option.text for option in item.options if option.id == item.key)

        assert (
            plain(key)
            == {
                (True, True): "Both A and B may be repaired",
                (True, False): "A may be repaired, but B may not",
                (False, True): "B may be repaired, but A may not",
                (False, False): "Neither A nor B may be repaired",
            }[across["A"] <= 5, across["B"] <= 5]
        ), told[0]
        assert "The shop's own limit is stricter: at most 5 mm." in str(item.explanation)
    assert asked_between  # the shop's own limit is asked sharply


def test_the_farthest_center_keeps_the_shops_distance_from_the_groove() -> None:
    for seed in SEEDS:
        item = draw("farthest-center", seed=seed, edition=shop(crown_at_tread="10 mm"), prefer="mm", casings=LIGHT)
        groove, across = (float(number) for number in re.findall(r"([\d.]+) mm", item.stem)[:2])

        assert parse_quantity(item.key, "length").number == pytest.approx(groove - across / 2 - 10)


def test_two_units_lie_as_far_apart_as_the_shop_wants() -> None:
    for seed in SEEDS:
        item = draw("unit-spacing", seed=seed, edition=shop(repair_overlap="20 mm"), prefer="mm")
        sizes = [int(number) for number in re.findall(r"(\d+) mm", item.stem)]
        side = 0 if "across the tire" in item.stem else 1

        assert parse_quantity(item.key, "length").number == (sizes[side] + sizes[2 + side]) / 2 + 20


def test_room_for_two_repairs_is_told_from_the_shops_distance() -> None:
    for seed in SEEDS:
        item = draw("two-injuries", seed=seed, edition=shop(repair_overlap="20 mm"), prefer="mm")
        apart = int(present(re.search(r"lie (\d+) mm apart", item.stem))[1])
        units = re.findall(r"([AB]): (\d+) mm long, toward the beads, and (\d+) mm wide", item.stem)
        fits = {
            name: apart - int(length if "across the tire" in item.stem else width) >= 20
            for name, length, width in units
        }

        assert (
            item.key_text
            == {
                (True, True): "With A and with B",
                (True, False): "With A, but not with B",
                (False, True): "With B, but not with A",
                (False, False): "Neither with A nor with B",
            }[fits["A"], fits["B"]]
        )


def test_the_shops_shelf_changes_no_question_that_states_its_own_units() -> None:
    shelf = [
        RepairUnit("odd", kind, parse_quantity("150 mm", "length"), parse_quantity("140 mm", "length"), None,
                   ("passenger", "light-truck-fabric"), parse_quantity("6 mm", "length"))
        for kind in ("patch", "one-piece")
    ]  # fmt: skip
    for name in ("two-injuries", "unit-spacing", "outline-to-buff"):
        for seed in SEEDS[:5]:
            assert draw(name, seed=seed, edition=BASE, units=shelf) == draw(name, seed=seed, edition=BASE)
