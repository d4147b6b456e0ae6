"""What is asked by heart: never much of a form, never all that is asked of a skill; all else tells nothing by looks."""

from collections import Counter
from collections.abc import Iterable, Iterator
from functools import cache, partial

import pytest
from scipy.stats import binom, chisquare

from assessments.questions import Blueprint, Item, blueprint, blueprint_names, draw, family
from assessments.questions.items.wordings import plain
from tests.simulations.pupils import in_silence
from tests.simulations.taught import best_pupil, examine
from training.rulebook import load_edition

EVEN = (
    "after-the-cutter",
    "age-on-axle",
    "axle-load",
    "beads-being-seated",
    "before-and-after",
    "before-cutting",
    "between-marks",
    "bus-and-truck-fronts",
    "caliper-verdict",
    "casing-class",
    "cut-limit",
    "cut-on-road",
    "deciding-finding",
    "doubt",
    "drying",
    "dual-pairs",
    "earlier-repair",
    "edge-to-shoulder",
    "farthest-on-drawing",
    "fault-in-installation",
    "fault-in-preparation",
    "fault-in-return",
    "first-thing",
    "gauge-reading",
    "holes-by-place",
    "holes-repaired",
    "lean-and-exit",
    "load-by-index",
    "method-by-angle",
    "nail-to-liner",
    "nearest-unit",
    "off-the-ground",
    "one-piece-list",
    "open-solvent",
    "outline-to-buff",
    "oval-hole",
    "overall-diameter",
    "passes-by-body",
    "place-on-drawing",
    "pressure-line",
    "proposals",
    "read-size",
    "readings-differ",
    "rejecting-list",
    "repair-area",
    "repairs-by-axle",
    "run-low",
    "seating-pressure-left",
    "section-height",
    "sidewalls-read",
    "size-verdict",
    "tire-age",
    "tire-verdict",
    "torque-recheck",
    "tread-across",
    "tread-by-axle",
    "tread-by-vehicle",
    "tread-gauge",
    "two-injuries",
    "unit-from-shelf",
    "whole-case-exit",
    "whole-case-inspection",
    "whole-case-method",
    "whole-case-outline",
    "whole-case-return",
)
DRAWS, MORE, LEARNED, RARE = 128, 384, 80, 5e-4
PLANS = [blueprint(name) for name in blueprint_names()]


def asks(plan: Blueprint, name: str) -> bool:
    return name in {cell.family for cell in plan.cells}


@pytest.fixture(params=blueprint_names())
def plan(request: pytest.FixtureRequest) -> Blueprint:
    return blueprint(request.param)


def test_at_most_one_question_in_five_asks_recall(plan) -> None:
    assert 0 < sum(plan.recall().values()) <= plan.count / 5


def test_no_skill_is_shown_by_recall_alone(plan) -> None:
    skills = plan.skills()

    assert all(count < skills[skill] for skill, count in plan.recall().items())


def test_every_family_of_a_form_is_asked_by_heart_or_held_here(plan) -> None:
    assert {cell.family for cell in plan.cells if not family(cell.family).recall} <= set(EVEN)


ASKED = [(name, plan.name) for plan in PLANS for name in EVEN if asks(plan, name)]
# Each in the first form of each edition that asks it: to learn takes long.
HELD = sorted({(name, blueprint(form).edition): (name, form) for name, form in reversed(ASKED)}.values())


@cache
def drawn(name: str, form: str) -> list[Item]:
    return list(draws(name, form, range(DRAWS)))


def draws(name: str, form: str, numbers: Iterable[int]) -> Iterator[Item]:
    plan = blueprint(form)
    edition = load_edition(plan.edition)
    return (draw(name, seed=f"taught {number}", edition=edition, casings=plan.casings) for number in numbers)


# Which answers these offer differs from question to question.
OFFER_MORE = ("deciding-finding", "tire-verdict", "unit-from-shelf")


# Chi-square of how often each was right; what is meant to be even looks as uneven as this in 5 of 10,000 tries.
@pytest.mark.parametrize(
    ("name", "form"), [one for one in ASKED if "one" in family(one[0]).formats and one[0] not in OFFER_MORE]
)
def test_where_few_answers_are_all_there_are_each_is_right_as_often_in_every_form(name, form) -> None:
    items = [*drawn(name, form), *draws(name, form, range(DRAWS, MORE))]
    keys = Counter(plain(item.key_text) for item in items)
    [few] = {frozenset(plain(option.text) for option in item.options) for item in items}

    assert chisquare([keys[one] for one in few]).pvalue > RARE, keys


@pytest.mark.parametrize(("name", "form"), [one for one in ASKED if "one" in family(one[0]).formats])
def test_the_same_answers_are_offered_whichever_is_right(name, form) -> None:
    items = drawn(name, form)
    claimed = Counter(len(item.options) for item in items)

    assert claimed[4] > 0.9 * len(items), claimed


# Who sees letters alone can only choose the same ones every time.
@pytest.mark.parametrize(("name", "form"), [one for one in ASKED if "several" in family(one[0]).formats])
def test_a_list_offers_letters_alone_and_no_choice_of_them_is_usual(name, form) -> None:
    items = drawn(name, form)
    [(_, usual)] = Counter(item.key for item in items).most_common(1)

    assert all("".join(one.text for one in item.options) == "ABCDEFGH"[: len(item.options)] for item in items)
    assert usual < 0.15 * len(items)


# Of 48 questions a guesser among four gets 12 right, and 23 or more in 5 of 10,000 tries (binomial distribution). Where
# a guesser has a smaller chance than one in ten, one in ten is let pass. These draws are the same in every run.
@pytest.mark.parametrize(("name", "form"), [one for one in HELD if "several" not in family(one[0]).formats])
def test_options_alone_do_not_tell_what_is_right_even_to_who_has_learned_eighty_keys(name, form) -> None:
    items = drawn(name, form)
    [kind] = {item.format for item in items}
    pupil = in_silence(partial(best_pupil, items[:LEARNED], stems=False, quick=True))

    found = examine({(name, kind): pupil}, blueprint(form), [items[LEARNED:]]).families[name, kind]

    by_chance = max(found.by_chance / found.asked, 0.1)
    assert found.right < binom.isf(RARE, found.asked, by_chance) + 1
