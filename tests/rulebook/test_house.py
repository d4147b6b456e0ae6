"""House rules: stricter only, in every unit, beside the edition's own statements; nothing is ever released by one."""

from datetime import date
from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rulebook.cases import decide_as_told
from tests.rulebook.test_properties import cases, many
from training.rulebook import (
    CaseError,
    HouseRule,
    HouseRuleError,
    HouseRules,
    adjustable_clauses,
    audit,
    effective,
    in_words,
    lay_over,
    load_edition,
    parse_quantity,
    read_house_rules,
    settle,
    severity,
    write_house_rules,
)
from training.rulebook.house import limits_from_text, words_to_choose

EDITION = load_edition("north-america")
UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()


def house(**limits: str | tuple[str, ...]) -> HouseRules:
    """`house(injury_size="5 mm")`."""
    return HouseRules(
        tuple(
            HouseRule(name.replace("_", "-"), (given,) if isinstance(given, str) else given)
            for name, given in limits.items()
        )
    )


def verdict(case: dict[str, Any], rules: HouseRules) -> str:
    return decide_as_told({"tire": {"casing": "passenger"}} | case, edition=lay_over(EDITION, rules)).verdict


def hole(diameter: str) -> dict[str, Any]:
    return {"injuries": [{"kind": "puncture", "diameter": diameter}]}


class TestStricterOnly:
    # Printed limits: 1/4 in (6 mm), US association wall chart; 2/32 in, 49 CFR 570.9 and Utah R714-160-8; 25 deg,
    # recommended practice of 2017; 40 psi (275 kPa), association guidance and 8 CCR 3325(e); 1200 rpm, trade press.
    @pytest.mark.parametrize(
        ("clause", "limit", "words"),
        [
            ("injury_size", "7 mm", "injury-size: 7 mm is looser than at most 1/4 in (6 mm); give at most 6 mm"),
            ("injury_size", "6.2 mm", "6.2 mm is looser than at most 1/4 in (6 mm); give at most 6 mm"),
            ("injury_size", "9/32 in", "9/32 in is looser than at most 1/4 in (6 mm); give at most 1/4 in"),
            ("injury_size", ("3/16 in", "7 mm"), "7 mm is looser than at most 1/4 in (6 mm); give at most 6 mm"),
            ("tread_depth", "1/32 in", "1/32 in is looser than at least 2/32 in; give at least 2/32 in"),
            ("tread_depth", "1.5 mm", "1.5 mm is looser than at least 2/32 in; give at least 2/32 in"),
            ("one_piece_angle", "35 deg", "35 deg is looser than at most 25 deg; give at most 25 deg"),
            ("bead_seating_pressure", "300 kPa", "300 kPa is looser than at most 40 psi (275 kPa); give at"),
            ("cutter_speed", "1500 rpm", "1500 rpm is looser than at most 1200 rpm; give at most 1200 rpm"),
            ("channel_cementing", ("2 times", "5 times"), "2 times to 5 times is looser than 3 to 5 times"),
            ("earlier_repair_kind", ("string",), 'without "stem-only" it is looser than one-piece or two-piece'),
        ],
    )  # fmt: skip
    def test_a_looser_limit_is_refused_naming_both(self, clause, limit, words) -> None:
        with pytest.raises(HouseRuleError) as refused:
            lay_over(EDITION, house(**{clause: limit}))

        assert words in str(refused.value)

    @pytest.mark.parametrize(
        ("clause", "limit", "words"),
        [
            ("no_such", "1 mm", "no-such: north-america 2026.1 has no such clause; choose leak-found-first, "),
            ("stem_height", "1/8 in", "stem-height: about 1/8 in has no stricter side; choose leak-found-first, "),
            ("injury_size", "7,5", 'injury-size: "7,5" is not a length; give a number and a unit'),
            ("injury_size", "5 deg", 'injury-size: "5 deg" is not a length'),
            ("injury_size", "0 mm", "0 mm leaves nothing that could hold; give more than 0"),
            ("injury_size", (), "no limit is given"),
            ("injury_size", ("5 mm", "4 mm"), '"5 mm; 4 mm" gives two limits in one unit'),
            ("channel_cementing", "4 times", '"4 times" is not a range; give two ends inside 3 to 5 times'),
            ("channel_cementing", ("5 times", "4 times"), "5 times to 4 times is upside down"),
            ("buff_texture", ("No. 3",), '"No. 3" is not accepted; choose from No. 1, No. 2'),
        ],
    )
    def test_what_cannot_be_read_is_named_with_what_is_accepted(self, clause, limit, words) -> None:
        with pytest.raises(HouseRuleError) as refused:
            lay_over(EDITION, house(**{clause: limit}))

        assert words in str(refused.value)

    def test_every_problem_is_told_at_once(self) -> None:
        with pytest.raises(HouseRuleError) as refused:
            lay_over(EDITION, house(injury_size="7 mm", tread_depth="1/32 in", cutter_passes="4 passes"))

        assert [problem.clause for problem in refused.value.problems] == ["injury-size", "tread-depth"]

    @pytest.mark.parametrize("limit", ["1/4 in", "6 mm", "0.6 cm", ("1/4 in", "6 mm")])
    def test_an_equal_limit_changes_nothing(self, limit) -> None:
        assert lay_over(EDITION, house(injury_size=limit)) is EDITION

    @many
    @given(st.sampled_from([clause.id for clause in adjustable_clauses(EDITION)]), st.fractions(0, 50))
    def test_any_number_is_either_refused_or_stricter(self, name, factor) -> None:
        """The printed limit times a factor, compared by an independent library of units."""
        clause = EDITION.clause(name)
        own = clause.of_edition
        if own.bound not in ("at_most", "below", "at_least", "above") or own.share is not None:
            return
        printed = own.quantities[0]
        if printed.dimension not in ("length", "pressure", "mass", "distance") or not printed.value:
            return
        text = f"{float(printed.value * factor / parse_quantity(f'1 {printed.unit}', printed.dimension).value):.4f}"
        rules = HouseRules((HouseRule(clause.id, (f"{text} {printed.unit}",)),))
        asked, limit = UNITS.Quantity(float(text), printed.unit), UNITS.Quantity(_number(printed), printed.unit)
        is_upper = own.bound in ("at_most", "below")
        is_looser = asked > limit * (1 + 1e-9) if is_upper else asked < limit * (1 - 1e-9)
        try:
            laid = lay_over(EDITION, rules)
        except HouseRuleError:
            assert is_looser or asked.magnitude <= 0
        else:
            assert not is_looser
            assert all(one in laid.clauses[clause.id].statements for one in clause.statements)


def _number(printed) -> float:
    return float(Fraction(parse_quantity(printed.text, printed.dimension).value)
                 / parse_quantity(f"1 {printed.unit}", printed.dimension).value)  # fmt: skip


class TestDeciding:
    @pytest.mark.parametrize(
        ("diameter", "expected"),
        [("4.9 mm", "repair"), ("5 mm", "repair"), ("5.1 mm", "reject"), ("6 mm", "reject"), ("3/16 in", "repair"),
         ("13/64 in", "reject"), ("1/4 in", "reject")],
    )  # fmt: skip
    def test_five_mm_decides_inside_on_and_outside_in_both_units(self, diameter, expected) -> None:
        assert verdict(hole(diameter), house(injury_size="5 mm")) == expected

    # 3/16 in is 4.7625 mm: a shop that prints both limits decides in the unit of the measurement.
    @pytest.mark.parametrize(
        ("diameter", "expected"),
        [("5 mm", "repair"), ("3/16 in", "repair"), ("0.19 in", "reject"), ("5.01 mm", "reject")],
    )
    def test_two_units_are_compared_each_in_its_own(self, diameter, expected) -> None:
        assert verdict(hole(diameter), house(injury_size=("3/16 in", "5 mm"))) == expected

    # 0.24 in is 6.096 mm: the printed 6 mm stays for whoever measures in millimeters.
    @pytest.mark.parametrize(
        ("diameter", "expected"), [("6.05 mm", "reject"), ("0.24 in", "repair"), ("0.245 in", "reject")]
    )
    def test_a_limit_in_one_unit_leaves_the_printed_one_in_the_other(self, diameter, expected) -> None:
        assert verdict(hole(diameter), house(injury_size="0.24 in")) == expected

    def test_the_ruling_names_the_house_rule_and_keeps_the_editions_limit_beside_it(self) -> None:
        edition = lay_over(EDITION, house(injury_size="5 mm"))

        decision = decide_as_told({"tire": {"casing": "passenger"}} | hole("5.5 mm"), edition=edition)

        ruling = next(one for one in decision.rulings if one.clause == "injury-size")
        assert (ruling.kind, ruling.source) == ("house-rule", "house rule of the shop")
        assert ruling.limit == "at most 5 mm"
        assert ruling.because.endswith("The shop's own limit is stricter: at most 5 mm.")
        assert not ruling.between_statements
        assert [one.text for one in edition.clause("injury-size").statements] == [
            "at most 5 mm",
            "at most 1/4 in (6 mm)",
        ]

    # California and South Carolina: 2/32 in or less is unsafe; Utah: less than 2/32 in (used-tire laws, facts.md).
    @pytest.mark.parametrize("jurisdiction", ["US-UT", "US-CA", None])
    def test_it_counts_beside_every_jurisdictions_own_law(self, jurisdiction) -> None:
        case = {"purpose": "fit-used", "jurisdiction": jurisdiction, "tread_depths": ["3/32 in"]}
        rules = house(tread_depth_used="4/32 in")

        assert "tread-depth-used" not in _failing(case, HouseRules())
        assert "tread-depth-used" in _failing(case, rules)

    def test_the_law_of_a_jurisdiction_still_counts_beside_it(self) -> None:
        # more than 3/32 in demanded by the shop; at 2/32 in both the shop and California refuse
        case = {"purpose": "fit-used", "jurisdiction": "US-CA", "tread_depths": ["2/32 in"]}

        assert "tread-depth-used" in _failing(case, house(tread_depth_used="3/32 in"))

    def test_the_crown_can_be_narrowed(self) -> None:
        case = {"tire": {"casing": "passenger", "outer_groove": "60 mm", "crown_thickness": "13 mm"},
                "injuries": [{"diameter": "4 mm", "angle": "0 deg", "lateral": "54 mm"}]}  # fmt: skip

        assert verdict(case, HouseRules()) == "repair"
        assert verdict(case, house(crown_at_tread="4 mm")) == "repair"  # 60 - 54 - 2 = 4 mm inside
        assert verdict(case, house(crown_at_tread="5 mm")) == "reject"

    def test_a_method_can_be_ruled_out(self) -> None:
        steep: dict[str, object] = {"injuries": [{"diameter": "5 mm", "angle": "22 deg", "lateral": "0 mm"}]}

        def allowed(rules: HouseRules) -> tuple[str, ...]:
            plan = decide_as_told({"tire": {"casing": "passenger"}, **steep}, edition=lay_over(EDITION, rules)).plan
            assert plan is not None
            return plan[0].methods_allowed

        assert allowed(HouseRules()) == ("one-piece", "two-piece")
        assert allowed(house(one_piece_angle="20 deg")) == ("two-piece",)
        proposal = {"proposed": "one-piece"} | hole("5 mm")
        assert verdict(proposal, house(proposed_repair=("two-piece",))) == "reject"

    def test_the_plan_and_the_audit_carry_it(self) -> None:
        edition = lay_over(EDITION, house(cutter_speed="800 rpm"))
        plan = decide_as_told({"tire": {"casing": "passenger"}} | hole("5 mm"), edition=edition).plan
        job = {"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "remove-damage", "speed": "1000 rpm"}]}

        assert plan is not None
        assert plan[0].cutter_speed == "at most 800 rpm"
        found = [fault for fault in audit(job, edition=edition).faults if fault.clause == "cutter-speed"]
        assert [(fault.found, fault.limit) for fault in found] == [("1000 rpm", "at most 800 rpm")]
        assert not [fault for fault in audit(job).faults if fault.clause == "cutter-speed"]

    @many
    @given(st.data())
    def test_no_house_rule_ever_makes_a_verdict_milder(self, data) -> None:
        names = [clause.id for clause in adjustable_clauses(EDITION) if not clause.is_for_job()]
        chosen = data.draw(st.lists(st.sampled_from(names), unique=True, max_size=4))
        rules = HouseRules(tuple(_stricter(data.draw, EDITION.clause(name)) for name in chosen))
        laid = lay_over(EDITION, effective(EDITION, rules))
        case = {**data.draw(cases), "edition": "north-america"}
        try:
            before = decide_as_told(case, edition=EDITION)
        except CaseError:
            return
        after = decide_as_told(case, edition=laid)

        assert severity(after.verdict) >= severity(before.verdict)
        # where two clauses limit the same, the house's stricter one may be what is told: that measure still fails
        failed = {(EDITION.clause(one.clause).quantity, one.subject) for one in before.rulings if not one.holds}
        assert failed <= {(laid.clause(one.clause).quantity, one.subject) for one in after.rulings if not one.holds}
        assert set(after.unexamined) <= set(before.unexamined) | {rule.clause for rule in rules}


def _stricter(draw, clause) -> HouseRule:
    own = clause.of_edition
    if own.words:
        words = own.words if own.bound == "must_be" else words_to_choose(clause)
        kept = draw(st.lists(st.sampled_from(words), min_size=1, unique=True))
        return HouseRule(clause.id, tuple(dict.fromkeys(kept if own.bound == "must_be" else (*own.words, *kept))))
    if own.bound == "between":
        low, high = own.quantities[0], own.upper[0]
        return HouseRule(clause.id, (low.text, high.text))
    quantity = own.quantities[0]
    number = Fraction(quantity.text.removesuffix(quantity.unit).strip().split(" ")[-1])
    factor = draw(st.fractions(min_value=0, max_value=1, max_denominator=64))
    changed = number * factor if own.bound in ("at_most", "below") else number + factor * 10
    return HouseRule(clause.id, (f"{float(changed):.4f} {quantity.unit}",))


def _failing(case: dict[str, Any], rules: HouseRules) -> set[str]:
    found = decide_as_told({"tire": {"casing": "passenger"}} | case, edition=lay_over(EDITION, rules))
    return {one.clause for one in found.rulings if not one.holds}


class TestNaming:
    def test_the_version_stands_for_what_the_rules_say(self) -> None:
        one = lay_over(EDITION, house(injury_size="5 mm", tread_depth="4/32 in"))
        same = lay_over(EDITION, house(tread_depth="4/32 in", injury_size="5mm"))
        other = lay_over(EDITION, house(injury_size="4 mm", tread_depth="4/32 in"))

        assert one.version == same.version != other.version
        assert one.version.startswith("2026.1+h")
        assert len(one.version) <= 20  # forms and certificates store it so long
        assert one.released_version == "2026.1"

    def test_the_day_a_rule_began_does_not_change_the_version_and_its_note_does(self) -> None:
        plain = HouseRule("injury-size", ("5 mm",))
        begun = HouseRule("injury-size", ("5 mm",), date(2026, 11, 25))
        noted = HouseRule("injury-size", ("5 mm",), None, "Two comebacks.")

        versions = [lay_over(EDITION, HouseRules((rule,))).version for rule in (plain, begun, noted)]

        assert versions[0] == versions[1] != versions[2]

    def test_in_words_for_a_certificate(self) -> None:
        assert in_words(
            EDITION, house(tread_depth="4/32 in", injury_size=("3/16 in", "5 mm"), crown_at_tread="5 mm")
        ) == (
            "Size of the hole: at most 3/16 in (5 mm) (rulebook: at most 1/4 in (6 mm))",
            "Place of the hole at the tread: the whole hole between the outer grooves, by at least 5 mm "
            "(rulebook: the whole hole between the outer grooves)",
            "Tread depth: at least 4/32 in (rulebook: at least 2/32 in)",
        )

    def test_a_rule_that_the_edition_has_overtaken_is_left_out_and_decides_nothing(self) -> None:
        """As when a newer version of the edition is stricter than the shop, or has dropped a clause."""
        newer = EDITION.altered(limits={"injury-size": ["4 mm"]}, without=["tread-depth-used"])
        rules = house(injury_size="5 mm", tread_depth_used="4/32 in", tread_depth="4/32 in")

        assert [rule.clause for rule in effective(newer, rules)] == ["tread-depth"]

    def test_a_misconception_forgets_the_house_rule_too(self) -> None:
        laid = lay_over(EDITION, house(injury_size="5 mm"))

        believed = laid.altered(limits={"injury-size": ["10 mm"]})

        assert decide_as_told({"tire": {"casing": "passenger"}} | hole("8 mm"), edition=believed).verdict == "repair"


class TestReadingAndWriting:
    def test_json_and_toml_give_back_what_was_set(self) -> None:
        rules = settle(
            EDITION,
            HouseRules(
                (
                    HouseRule("injury-size", ("3/16 in", "5 mm"), date(2026, 11, 25), 'Two "comebacks" \\ one leak'),
                    HouseRule("channel-cementing", ("4 times", "5 times")),
                    HouseRule("buff-texture", ("No. 1",)),
                )
            ),
        )

        assert HouseRules.from_json(rules.to_json()) == rules
        assert read_house_rules(write_house_rules(rules, EDITION), EDITION) == rules

    @pytest.mark.parametrize(
        ("clause", "text", "expected"),
        [
            ("injury-size", "5 mm", ("5 mm",)),
            ("injury-size", "3/16 in (5 mm)", ("3/16 in", "5 mm")),
            ("injury-size", " 3/16 in ; 5 mm ", ("3/16 in", "5 mm")),
            ("injury-size", "  ", ()),
            ("channel-cementing", "4 to 5 times", ("4 times", "5 times")),
            ("channel-cementing", "4 times to 5 times", ("4 times", "5 times")),
            ("channel-cementing", "", ()),
        ],
    )
    def test_one_field_of_a_form(self, clause, text, expected) -> None:
        assert limits_from_text(text, is_range=EDITION.clause(clause).of_edition.bound == "between") == expected
