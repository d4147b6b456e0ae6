"""Working without getting hurt: ways enough to ask of it in every scope, each answer right as often as any other."""

from collections import Counter

import pytest
from scipy.stats import chisquare

from assessments.questions import Item, blueprint, blueprint_names, draw, family
from assessments.questions.draws.coverage import families_of
from assessments.questions.items.wordings import plain
from tests.proof.shown import seated
from tests.questions.solvers_safety import SAFETY
from training.rulebook import HouseRule, HouseRules, lay_over, load_edition

DRAWS, RARE = 240, 5e-4  # what is meant to be even looks as uneven as this in 5 of 10,000 tries
NOTES = [name for name in SAFETY if family(name).formats == ("one",)]
LISTS = [name for name in SAFETY if name not in NOTES]


def drawn(name: str, form: str, count: int = DRAWS) -> list[Item]:
    plan = blueprint(form)
    edition = load_edition(plan.edition)
    return [draw(name, seed=f"safety {n}", edition=edition, casings=plan.casings) for n in range(count)]


@pytest.mark.parametrize("form", blueprint_names())
def test_every_scope_has_six_families_on_safety_that_rest_on_three_clauses(form) -> None:
    plan = blueprint(form)
    edition = load_edition(plan.edition)
    names = [one for one in families_of(edition, plan.casings) if family(one).skill == "safety"]
    clauses = {line["clause"] for name in names for item in drawn(name, form, 8) for line in item.explanation}

    assert len(names) >= 6
    assert len(clauses - {""}) >= 3
    assert {"bead-seating-pressure", "vehicle-held", "no-ignition", "eye-rinse", "eye-protection"} <= clauses


@pytest.mark.parametrize("form", blueprint_names())
@pytest.mark.parametrize("name", NOTES)
def test_of_two_notes_each_answer_is_right_as_often(name, form) -> None:
    items = drawn(name, form)

    keys = Counter(plain(item.key_text) for item in items)
    assert len(keys) == len(items[0].options) == 4
    assert chisquare(list(keys.values())).pvalue > RARE, keys


@pytest.mark.parametrize("form", blueprint_names())
@pytest.mark.parametrize("name", LISTS)
def test_of_a_list_letters_alone_are_offered_and_each_is_right_as_often_as_wrong(name, form) -> None:
    items = drawn(name, form)

    assert {"".join(one.text for one in item.options) for item in items} == {"ABCDE"}
    right = sum(len(item.key_ids) for item in items)
    assert 0.46 < right / (5 * DRAWS) < 0.54
    [(_, usual)] = Counter(item.key for item in items).most_common(1)
    assert usual < 0.15 * DRAWS


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_seating_limit_of_the_house_moves_the_answer(unit) -> None:
    # A shop that stops at 30 psi, where 8 CCR 3325(e) allows 40.
    edition = load_edition("north-america")
    strict = lay_over(edition, HouseRules((HouseRule("bead-seating-pressure", ("30 psi",)),)))
    for number in range(40):
        item = draw("beads-being-seated", seed=f"house {number}", edition=strict, prefer=unit)
        ends = [int(a) + int(b) for a, b in _filled(item)]
        allowed = {"psi": 30} if " psi" in item.stem else {"kPa": 206}
        [most] = allowed.values()
        right = plain(item.key_text)
        for letter, end in zip("AB", ends, strict=True):
            if end > most:
                assert f"Right for {letter}" not in right


def _filled(item: Item) -> list[tuple[str, str]]:
    notes = [line for line in item.stem.split("\n") if line.startswith(("A: ", "B: "))]
    return [(words.split(" shows ")[1].split()[0], words.split(" lets in ")[1].split()[0]) for words in notes]


def test_who_misreads_the_seating_limit_judges_by_what_goes_in_or_by_the_sidewall() -> None:
    stem = "Two tires, marked for 50 psi at most.\nA: The gauge shows 20 psi; he waits and lets in 28 psi more."

    assert seated("48 psi", stem, frozenset({"limit-not-what-is-left"})) == "right"
    assert seated("48 psi", stem, frozenset({"running-pressure-seats"})) == "right"
    assert seated("48 psi", stem.replace("50 psi", "44 psi"), frozenset({"running-pressure-seats"})) == "wrong"
    assert seated("48 psi", stem, frozenset({"stand-over-it"})) == ""
    assert seated("47 psi", stem, frozenset({"limit-not-what-is-left"})) == ""
