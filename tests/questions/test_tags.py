"""Every option carries exactly the misconceptions whose believers give it, and a false tag is found."""

from __future__ import annotations

from dataclasses import replace

import pytest

from assessments.questions import Item, draw, family_names
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.wordings import plain
from assessments.questions.mistakes.misconceptions import misconceptions
from tests.examples import times
from tests.proof.__main__ import main
from tests.proof.believing import BY_RULE, gives
from tests.proof.tags import UNCHECKED, check, wrongly_tagged
from tests.questions.solving import LENGTH, first, mm
from training.rulebook import Edition, load_edition
from training.trade.words import LIGHT

DRAWS = 4
EDITIONS = ("north-america", "united-kingdom")  # beliefs are checked against the numbers of these


@pytest.mark.walk
@pytest.mark.parametrize("edition_name", EDITIONS)
@pytest.mark.parametrize("name", sorted(family_names()))
def test_believers_give_the_options_that_carry_their_misconception(name: str, edition_name: str) -> None:
    try:
        tags = check(name, draws=times(DRAWS), seed="tags", edition=load_edition(edition_name))
    except NoSuchLimit:  # the edition says nothing on what this family asks
        return

    assert not tags.found, tags.shown_by


@pytest.mark.walk
def test_every_misconception_that_no_alteration_states_has_a_rule_here_or_a_reason() -> None:
    beyond = {one.id for one in misconceptions().values() if one.beyond}

    assert beyond - BY_RULE - UNCHECKED.keys() == set()
    assert UNCHECKED.keys() <= beyond
    assert misconceptions().keys() >= BY_RULE


@pytest.fixture(scope="module")
def light(edition: Edition) -> Item:
    return draw("limit-for-casing", seed="1", edition=edition, casings=LIGHT)


def test_a_tag_of_somebody_who_answers_otherwise_is_found(light, edition) -> None:
    assert list(wrongly_tagged(light, edition)) == []
    # Whoever takes every lean for a steep one has no other limit of size.
    blamed = replace(light, distractors=dict.fromkeys(light.distractors, ("any-lean-is-steep",)), routes={})

    found = list(wrongly_tagged(blamed, edition))
    assert {(one.kind, one.names, one.answer) for one in found} == {
        ("false", ("any-lean-is-steep",), answer) for answer in light.distractors
    }


def test_who_rounds_up_reads_no_size_that_is_far_over_the_limit(edition) -> None:
    # 1/4 in (6 mm): US association wall chart. A 32nd over it is "about" the limit, an eighth is not.
    told = {True: 0, False: 0}
    for number in range(400):
        item = draw("size-verdict", seed=f"far {number}", edition=edition, prefer="in", casings=LIGHT)
        over = float(mm(first(LENGTH + " across after damage removal", item.stem))) - 25.4 / 4
        repairs = [one.id for one in item.options if one.text.startswith("Repair") and "1/4 in (6 mm)" in one.text]
        repairs = [option for option in repairs if option != item.key]
        for option in repairs if over > 0 else ():
            assert gives(item, edition, ("rounded-up",), option) == (over <= 1)
            assert ("rounded-up" in item.distractors[option]) == (over <= 1)
        told[over > 1] += over > 0
    assert min(told.values()) > 3


def test_who_measures_before_removal_repairs_what_was_small_before(edition) -> None:
    # Both holes are within the limit as found, so that both are repaired by whoever goes by what was found.
    seen = {True: 0, False: 0}
    for number in range(60):
        item = draw("before-and-after", seed=f"before {number}", edition=edition, casings=LIGHT)
        for option in item.options:
            if option.id in item.distractors:
                repairs_both = plain(option.text) == "Both A and B may be repaired"
                assert gives(item, edition, ("measured-before-removal",), option.id) == repairs_both
                assert (("measured-before-removal",) in item.routes_to(option.id)) == repairs_both
                seen[repairs_both] += 1
    assert min(seen.values()) > 20


def test_an_option_of_several_that_lacks_a_tag_is_found(edition) -> None:
    forgetful = next(
        one for one in (draw("holes-by-size", seed=f"lack {n}", edition=edition, casings=LIGHT) for n in range(60))
        if sum("stricter-size" in names for names in one.omissions.values()) > 1
    )  # fmt: skip
    kept = next(option for option, names in forgetful.omissions.items() if "stricter-size" in names)
    lacking = replace(forgetful, omissions={kept: forgetful.omissions[kept]})

    assert {one.kind for one in wrongly_tagged(lacking, edition)} == {"missing"}


def test_the_command_prints_a_table_and_fails_for_no_family(capsys) -> None:
    assert main(["tags", "date-code", "--draws", "4"]) == 0
    assert "0 false, 0 missing" in capsys.readouterr().out
