"""What a decision says to a person: sentences a technician at the machine can act on, the verdict before all else."""

import re
from typing import Any

import pytest

from tests.rulebook.cases import CLEAN, SHELF, an_examined_case, without_injury
from training.rulebook import FINDINGS, decide, decision_text, is_tire_rejected, load_edition, parse_case, told
from training.trade.speech import in_language

US, UK = load_edition("north-america"), load_edition("united-kingdom")


def text_of(case: dict[str, Any], prefer: str = "mm") -> str:
    return decision_text(decide(case, prefer=prefer), parse_case(case))


def lines_after(text: str, title: str) -> list[str]:
    lines = text.splitlines()
    return lines[lines.index(title) + 1 :]


def test_the_verdict_stands_first() -> None:
    assert text_of(an_examined_case(findings={**CLEAN, "bulge": True})).startswith(
        "REJECT: the tire is out of service\n"
    )


def test_what_was_not_looked_at_is_no_verdict() -> None:
    text = text_of(an_examined_case(findings={}))

    assert text.startswith("NOT DECIDED YET\n")
    assert lines_after(text, "Still to look at, the quickest first:")[0].startswith("  - outside: ")
    assert "If the rest is in order: repair. Not before." in text
    assert "Plan for" not in text
    assert "INSPECT" not in text


def test_what_decides_comes_before_what_is_still_open_and_that_before_the_plan() -> None:
    decided = text_of(an_examined_case())

    assert decided.index("What decides:") < decided.index("Plan for injury") < decided.index("Checked and in order:")


# no published source: this is how the house speaks
@pytest.mark.parametrize("edition", [US, UK], ids=lambda one: one.name)
@pytest.mark.parametrize("slug", FINDINGS)
def test_a_finding_is_told_by_name(edition: Any, slug: str) -> None:
    case = {"edition": edition.name, "tire": {"casing": "passenger"}, "purpose": "fit-used"}

    found = decide({**case, "findings": {slug: True}}, edition=edition, rest_in_order=True)
    not_found = decide({**case, "findings": {slug: False}}, edition=edition, rest_in_order=True)

    named = edition.essentials.facts[f"finding.{slug}"].words
    for ruling in found.rulings:
        if edition.clauses[ruling.clause].quantity == f"finding.{slug}":
            (line,) = told([ruling], edition)
            assert line.sentence == f"On this tire: {named}. Allowed: none."
    spoken = [one for one in not_found.rulings if edition.clauses[one.clause].quantity == f"finding.{slug}"]
    for ruling in spoken:  # of marks that nobody spoke of other clauses speak
        (line,) = told([ruling], edition)
        assert (line.found, line.because) == ("none", "")
        assert line.about == edition.clauses[ruling.clause].title


def test_cracks_in_the_liner_read_as_a_person_says_it() -> None:
    text = text_of(an_examined_case(findings={**CLEAN, "liner-cracked": True}))

    assert "On this tire: cracks in the liner. Allowed: none." in text


def test_doubt_names_what_is_in_doubt() -> None:
    text = text_of(an_examined_case(findings={**CLEAN, "liner-separation": "doubt"}))

    assert "In doubt: a loose liner. Allowed: no doubt left." in text


def test_a_reason_for_failing_is_not_given_where_the_rule_holds() -> None:
    decision = decide(an_examined_case(proposed="two-piece"))

    # the clause on the proposal explains why a proposal is refused
    (ruling,) = (one for one in decision.rulings if one.clause == "proposed-repair")
    assert ruling.holds
    assert "refused" in ruling.because or "rejected" in ruling.because
    assert ruling.because not in decision_text(decision, parse_case(an_examined_case(proposed="two-piece")))


# retread and repair materials group, recommended practice 2017: over 25 degrees no one-piece unit, a stem and a patch
def test_a_way_refused_is_not_a_tire_refused() -> None:
    text = text_of(an_examined_case(injury={"angle": "32 deg"}, proposed="one-piece"))

    assert text.startswith("NOT THIS WAY: a two-piece repair is allowed instead\n")
    assert "out of service" not in text


def test_another_way_is_not_promised_before_all_was_looked_at() -> None:
    text = text_of(an_examined_case(injury={"angle": "32 deg"}, proposed="one-piece", findings={}))

    assert text.startswith(
        "NOT THIS WAY: a two-piece repair is allowed instead, if what was not looked at is in order\n"
    )


def test_a_tire_that_fails_of_itself_is_refused_whatever_was_proposed() -> None:
    text = text_of(
        an_examined_case(injury={"angle": "32 deg"}, proposed="one-piece", findings={**CLEAN, "bulge": True})
    )

    assert text.startswith("REJECT: the tire is out of service\n")


# what refuses a tire where it stands, or until something is put right, is not the end of the tire: its words must not
# say so. 49 CFR 393.75(b): 4/32 in on the front wheels of a truck, 2/32 in on its other wheels; 393.75(a)(3): no leak
# that can be heard; Motor Vehicle Tyres (Safety) Regulations 1994, regulation 7: sold when marked PART-WORN
NOT_THE_END: tuple[tuple[str, dict[str, Any], str], ...] = (
    ("truck", {"purpose": "service", "tread_depths": ["3/32 in"],
               "position": {"vehicle": "truck", "axle": "front", "dual": False, "gross_mass": "12000 kg"}},
     "NOT IN THIS POSITION: "),
    ("truck", {"purpose": "service", "dual_mate": {"diameter": "41.2 in", "own_diameter": "42 in"},
               "position": {"vehicle": "truck", "axle": "drive", "dual": True, "gross_mass": "12000 kg"}},
     "NOT IN THIS POSITION: "),
    ("passenger", {"purpose": "service", "findings": {**CLEAN, "mixed-on-axle": True}}, "NOT IN THIS POSITION: "),
    ("passenger", {"purpose": "service", "findings": {**CLEAN, "audible-leak": True}}, "NOT AS IT IS: do not run it"),
    ("passenger", {"purpose": "fit-used", "edition": "united-kingdom",
                   "tire": {"approval_mark": True, "part_worn_mark": False}}, "NOT AS IT IS: do not sell it"),
)  # fmt: skip


@pytest.mark.parametrize(("casing", "facts", "opening"), NOT_THE_END, ids=[case[2] for case in NOT_THE_END])
def test_a_position_refused_or_a_tire_as_it_is_is_not_its_end(casing: str, facts: dict[str, Any], opening: str) -> None:
    case = without_injury(casing, **facts)
    decision = decide(case)

    assert decision.verdict == "reject"
    assert not is_tire_rejected(decision, load_edition(decision.edition))
    assert text_of(case).startswith(opening)


@pytest.mark.parametrize(("casing", "facts", "opening"), NOT_THE_END, ids=[case[2] for case in NOT_THE_END])
def test_what_is_broken_besides_is_the_end_of_it(casing: str, facts: dict[str, Any], opening: str) -> None:
    case = without_injury(casing, **facts)
    decision = decide(case | {"findings": {**case["findings"], "casing-separation": True}})

    assert is_tire_rejected(decision, load_edition(decision.edition))


def test_nothing_to_repair_does_not_say_that_the_tire_may_run() -> None:
    text = text_of(without_injury())

    assert text.startswith("NOTHING TO REPAIR: ask whether the tire may stay in service\n")
    assert "may run" not in text


def test_a_used_tire_is_told_to_be_sold_or_not() -> None:
    worn = without_injury(purpose="fit-used", findings={**CLEAN, "bulge": True})

    assert text_of(without_injury(purpose="fit-used", on="2021-01-01")).startswith(
        "ACCEPT: the tire may be sold or fitted\n"
    )
    assert text_of(worn).startswith("REJECT: the tire may not be sold or fitted\n")


def test_nobody_is_told_to_take_off_the_wheel_what_is_off_it() -> None:
    found = {**CLEAN, "sealant-residue": True}

    assert text_of(an_examined_case(findings=found)).startswith("INSPECT: look at it again")
    assert text_of(an_examined_case(findings=found, on_wheel=True)).startswith("INSPECT: take the tire off the wheel")


def test_a_rejected_tire_is_not_told_what_to_ask_after_its_repair() -> None:
    text = text_of(an_examined_case(findings={**CLEAN, "bulge": True, "wheel-damaged": True}))

    assert "speed symbol" not in text.lower()
    assert "A puncture is repaired from inside" not in text
    assert "The wheel is out of service" in text


def test_what_is_to_be_looked_at_is_not_called_needless() -> None:
    text = text_of(an_examined_case(findings={}, on_wheel=True))

    assert "Still to look at, the quickest first:" in text
    assert "not needed" not in text


def test_a_way_refused_is_not_among_what_is_in_order() -> None:
    text = text_of(an_examined_case(injury={"angle": "32 deg"}, proposed="one-piece"))

    assert "  - Repair proposed" not in text[text.index("Checked and in order:") :]


# Utah Administrative Code R714-160-8(1)(g)(ii)(A), two adjacent grooves; Virginia has a law of its own
def test_law_is_called_law_where_another_state_is_named_too() -> None:
    case = without_injury(purpose="service", jurisdiction="US-UT", tread_depths=["1/32 in"])
    (worn,) = [one for one in decide(case).rulings if one.clause == "tread-depth"]

    (line,) = told([worn], US)

    assert worn.kind == "law"
    assert line.source.startswith("Law: Utah Administrative Code")


# 49 CFR 393.75(b) and (c): at least 4/32 in on the front wheels of a truck, 2/32 in on others
def test_what_one_rule_finds_fault_with_another_does_not_tell_as_in_order() -> None:
    steer = {"vehicle": "truck", "axle": "front", "dual": False, "wheel": "single-piece", "gross_mass": "12000 kg"}
    text = text_of(without_injury("truck", purpose="service", position=steer, tread_depths=["3/32 in"]))

    assert "  - Tread depth of a truck tire, steer axle: 3/32 in. Allowed: at least 4/32 in." in text
    assert "Tread depth" not in text.partition("Checked and in order:")[2]


def test_what_several_rules_say_of_one_pressure_is_told_once() -> None:
    pressure = {"recommended": "800 kPa", "found": "800 kPa"}
    held = lines_after(text_of(without_injury("truck", purpose="service", pressure=pressure)), "Checked and in order:")

    assert len([line for line in held if line.endswith("(800 kPa of 800 kPa)")]) == 1


def test_asked_of_a_repair_without_an_injury_it_says_so() -> None:
    case = an_examined_case()
    del case["injuries"]

    assert "No injury was given, so this says nothing about a repair" in text_of(case)


def test_what_cannot_both_be_true_is_looked_at_again() -> None:
    case = an_examined_case()
    case["tire"] |= {"tread_width": "170 mm", "outer_groove": "90 mm"}  # the groove lies 85 mm from the middle at most

    text = text_of(case)

    assert text.startswith("INSPECT: look again: what was given cannot all be true\n")
    assert re.search(r"These cannot both be true: .*90 mm", text)


# 49 CFR 570.9 and the owner's manuals name the pressure of the placard; 125 % of it is a reading of ours
def test_what_is_hardly_true_is_looked_at_again_and_not_called_a_contradiction() -> None:
    text = text_of(without_injury(purpose="service", pressure={"recommended": "200 kPa", "found": "260 kPa"}))

    assert text.startswith("INSPECT: look at it again before you decide\n")
    assert (
        "  - Pressure far above the recommended: 260 kPa, 200 kPa recommended. "
        "Allowed: at most 125% of the recommended pressure." in text
    )


# a tire found flat may have a nail in it: it is out of service until that is put right, and no scrap by the gauge alone
def test_a_tire_found_soft_is_refused_as_it_is() -> None:
    case = without_injury(purpose="service", pressure={"recommended": "230 kPa", "found": "100 kPa"})

    assert decide(case).verdict == "reject"
    assert text_of(case).startswith(
        "NOT AS IT IS: do not fill it and do not run it: take it off the wheel and look inside first"
    )


# 25.4 mm an inch: 39.05 mm is 1.537 in, 1 17/32 in is 38.89 mm, 1 9/16 in is 39.69 mm
@pytest.mark.parametrize(("prefer", "words"), [("mm", "39 mm inside"), ("in", "1 17/32 in inside")])
def test_a_computed_length_is_told_in_the_units_of_the_shop_as_a_rule_is_read(prefer: str, words: str) -> None:
    case = an_examined_case(injury={"angle": "32 deg", "lateral": "20 mm", "azimuth": "0 deg"})
    case["tire"] |= {"outer_groove": "62 mm"}  # 62 - 20 - 5 / (2 cos 32 deg) = 39.05

    decision = decide(case, prefer=prefer)

    assert [one.found for one in decision.rulings if one.clause == "crown-at-tread"] == [words]


def test_what_falls_short_never_reads_as_if_it_met_the_limit() -> None:
    # 62 - 59.53 - 2.5 = -0.03 mm: outside, by less than a rule can show
    case = an_examined_case(injury={"lateral": "59.53 mm"})
    case["tire"] |= {"outer_groove": "62 mm"}

    found = [one.found for one in decide(case).rulings if one.clause == "crown-at-tread"]

    assert found == ["0.1 mm outside"]


def test_an_angle_is_told_with_its_sign() -> None:
    ruling = next(
        one for one in decide(an_examined_case(injury={"angle": "32 deg"})).rulings if one.clause == "one-piece-angle"
    )

    assert (ruling.found, ruling.limit) == ("32°", "at most 25°")


def test_the_united_kingdom_reads_its_own_spelling() -> None:
    case = {"edition": "united-kingdom", "tire": {"casing": "passenger"}, "purpose": "service", "on_wheel": False}

    with in_language("en-GB"):
        text = text_of(case)

    assert "tyre" in text
    assert "tread or sidewall" in text
    assert not re.search(r"whether the tire", text, re.IGNORECASE)


@pytest.mark.parametrize("edition", [US, UK], ids=lambda one: one.name)
def test_no_identifier_is_printed(edition: Any) -> None:
    case = an_examined_case(injury={"angle": "32 deg"}, proposed="one-piece", findings={**CLEAN, "bulge": "doubt"})
    text = text_of({**case, "edition": edition.name, "on": "2026-11-30"})

    names = {*edition.clauses, *FINDINGS, *(step.id for step in edition.procedure)}
    hyphened = {name for name in names if "-" in name}
    assert not {name for name in hyphened if re.search(rf"(?<![\w-]){name}(?![\w-])", text)}


# common practice, no published source: a crayon draws no tenths. 75 and 65 mm with 1/2 in (12.7 mm) on each side are
# 100.4 and 90.4 mm; the line is drawn outward, so that the margin is kept
def test_the_outline_is_told_as_a_crayon_draws_it() -> None:
    case = parse_case(an_examined_case())

    text = decision_text(decide(case, units=SHELF), case, units=SHELF)

    assert "  Unit: patch, medium, 75 mm toward the beads, 65 mm around the tire\n" in text
    assert "  Outline to buff: 101 mm by 91 mm\n" in text


# completed years by the calendar: made in the first week of 2025, looked at on 25 November 2026
def test_one_year_is_one_year() -> None:
    assert "Age of the tire: 1 year\n" in text_of(without_injury(purpose="service", tire={"date_code": "0125"}))
