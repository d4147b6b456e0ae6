"""Motorcycle questions under both rulebooks: where states differ the law is in the stem; British figures are held."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from assessments.questions import Item, draw, family, family_names, mark
from assessments.questions.items.wordings import plain
from tests.present import present
from tests.proof.proof import Proof, _put_back
from tests.questions.solving import gauge_of
from training.rulebook import load_edition, parse_quantity

DRAWS = 120
OURS = [name for name in family_names() if family(name).casings == ("motorcycle",)]
IN = Fraction("25.4")
ACCEPT, ADVISE = "Leave in service: nothing rules it out", "Leave in service, and tell the rider"
FIT = "Fit it: nothing rules it out"
LOOK, OPEN = "Take the tire off the wheel and look at it from inside", "Open the cut first and look at its bottom"
MAKER, OUT = "Ask the tire maker: it decides", "Out of service: "


@pytest.fixture(scope="module")
def british() -> dict[str, list[Item]]:
    edition = load_edition("united-kingdom")
    return {name: [draw(name, seed=f"uk {n}", edition=edition, prefer=("mm", "in")[n % 2]) for n in range(DRAWS)]
            for name in OURS}  # fmt: skip


def test_eight_skills_are_asked_about_motorcycles_and_the_work_itself_is_not() -> None:
    # Preparation and installation are the tire maker's to describe: nothing published says how.
    assert len({family(name).skill for name in OURS}) == 8
    assert not {family(name).skill for name in OURS} & {"preparation", "installation"}


@pytest.mark.parametrize("name", ["motorcycle-cut", "motorcycle-tread"])
def test_what_states_differ_on_is_asked_only_with_the_law_in_the_stem(name, edition) -> None:
    silent = 0
    for number in range(60):
        item = draw(name, seed=f"law {number}", edition=edition)
        without = replace(item, stem=re.sub(r"(at least|more than) \S+ in|no cut[^.]*", "so much", item.stem))

        assert list(_put_back(item, edition, Proof("", (), 1))) == []
        silent += any("the sources disagree" in line for line in _put_back(without, edition, Proof("", (), 1)))
    assert silent > 10


def test_repairing_or_releasing_before_its_maker_has_decided_is_unsafe(british, edition) -> None:
    items = [draw(name, seed=f"maker {n}", edition=edition) for name in OURS for n in range(40)]
    seen = 0
    for item in (*items, *(one for several in british.values() for one in several)):
        if item.format == "one" and plain(item.key_text) == MAKER:
            for option in item.options:
                releases = plain(option.text).startswith(("Repair", "Prepare", "Push", "Add air", "Leave in", "Fit it"))
                assert mark(item, option.id).unsafe == releases, (item.stem, option.text)
                seen += releases
    assert seen > 50


def answers(items: list[Item]) -> Iterator[tuple[Item, str]]:
    return ((item, plain(item.key_text)) for item in items)


def test_british_tread_is_one_millimeter_in_use_and_two_as_part_worn(british) -> None:
    # C&U Regulations 1986 regulation 27(1)(g), Motor Vehicle Tyres (Safety) Regulations 1994 regulation 7: from memory.
    for item, key in answers(british["motorcycle-tread"]):
        value, unit = gauge_of(present(item.figure).description)
        depth = value * (IN if unit == "in" else 1)
        first_is_use = "A: to stay" in item.stem
        fits = {"in use": depth >= 1, "part-worn": depth >= 2}
        a, b = (fits["in use"], fits["part-worn"]) if first_is_use else (fits["part-worn"], fits["in use"])
        words = {
            (True, True): "For both of them",
            (False, False): "For neither of them",
            (True, False): "For A, not for B",
        }
        assert key == words.get((a, b), "For B, not for A")


def test_a_british_cut_ends_a_tire_where_it_reaches_cord_and_is_longer_than_25_mm(british) -> None:
    # C&U Regulations 1986 regulation 27(1)(c): 25 mm or 10 % of the section width; no motorcycle tire is 250 mm wide.
    for item, key in answers(british["motorcycle-cut"]):
        long = present(re.search(r"a cut ([\d /]+ (?:mm|in))", item.stem))[1]
        is_long = parse_quantity(long, "length").value > 25
        if "rubber only" in item.stem:
            assert key == ADVISE
        elif "shows cord" in item.stem:
            assert key == (OUT + "the cut ends it" if is_long else MAKER)
        else:
            assert is_long
            assert key == OPEN


def test_a_british_earlier_repair_is_referred_or_rejected_but_never_simply_accepted(british) -> None:
    # Common practice: no source there says which repair of a motorcycle tire may stay.
    for item, key in answers(british["motorcycle-earlier-repair"]):
        refers = "in the tread, every edge" in item.stem or "section repair" in item.stem
        assert (key == MAKER) == (refers and "on the liner alone" not in item.stem)
        assert key == MAKER or key.startswith(OUT)


def test_a_british_tire_found_low_is_looked_at_from_inside(british) -> None:
    # Common practice, no published source: 80 % and less of the recommended pressure.
    for item, key in answers(british["motorcycle-pressure"]):
        found, asked = map(
            int, present(re.search(r"shows (\d+) \w+\. The motorcycle maker gives (\d+)", item.stem)).groups()
        )
        assert key == (LOOK if found * 100 <= asked * 80 else ACCEPT)


def test_ten_years_are_told_of_a_british_motorcycle_tire_and_end_a_used_one(british) -> None:
    # Common practice, no published source; the age law of 2021 is for other vehicles.
    seen = set()
    for item, key in answers(british["motorcycle-markings"]):
        code = re.search(r"date code reads (\d\d)(\d\d)", item.stem)
        if code:
            week, year = map(int, code.groups())
            age = (date(2026, 11, 20) - date(2000 + year, 1, 1)).days / 365.25 - week / 52.18
            assert abs(age - 10) > 0.05
            told = age > 10
            assert key == (
                (f"{OUT}it is too old" if told else FIT) if "to be fitted" in item.stem else ADVISE if told else ACCEPT
            )
            seen.add(told)
    assert seen == {True, False}


def test_a_british_hole_is_its_makers_to_decide(british) -> None:
    # BS AU 159g as summarised by a trade association: the minor repair is for cars and light commercials.
    assert {key for _, key in answers(british["motorcycle-method"])} == {MAKER}
