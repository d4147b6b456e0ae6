"""What a decision says to a person: sentences a technician at the machine can act on, the verdict before all else."""

import re
from typing import Any

import pytest

from tests.rulebook.cases import CLEAN, an_examined_case
from training.rulebook import FINDINGS, decide, decision_text, load_edition, parse_case, told

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
            on_this = "On this tyre" if edition is UK else "On this tire"
            assert told(ruling, edition).sentence == f"{on_this}: {named}. Allowed: none."
    spoken = [one for one in not_found.rulings if edition.clauses[one.clause].quantity == f"finding.{slug}"]
    for ruling in spoken:  # of marks that nobody spoke of other clauses speak
        line = told(ruling, edition)
        assert (line.found, line.because) == ("none", "")
        assert line.about.lower() == named.lower()


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

    assert text.startswith("NOT THIS WAY: a two-piece repair can\n")
    assert "out of service" not in text


def test_another_way_is_not_promised_before_all_was_looked_at() -> None:
    text = text_of(an_examined_case(injury={"angle": "32 deg"}, proposed="one-piece", findings={}))

    assert text.startswith("NOT THIS WAY: a two-piece repair can, if what was not looked at is in order\n")


def test_a_tire_that_fails_of_itself_is_refused_whatever_was_proposed() -> None:
    text = text_of(
        an_examined_case(injury={"angle": "32 deg"}, proposed="one-piece", findings={**CLEAN, "bulge": True})
    )

    assert text.startswith("REJECT: the tire is out of service\n")


def test_asked_of_a_repair_without_an_injury_it_says_so() -> None:
    case = an_examined_case()
    del case["injuries"]

    assert "No injury was given, so this says nothing of a repair" in text_of(case)


def test_what_cannot_both_be_true_is_looked_at_again() -> None:
    case = an_examined_case()
    case["tire"] |= {"tread_width": "170 mm", "outer_groove": "90 mm"}  # the groove lies 85 mm from the middle at most

    text = text_of(case)

    assert text.startswith("INSPECT: look again")
    assert re.search(r"These cannot both be true: .*90 mm", text)


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
