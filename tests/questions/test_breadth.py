"""Every skill is asked about in many ways in every scope that has a form: by several families, on several rules."""

from collections import defaultdict
from functools import cache

import pytest

from assessments.questions import Item, blueprint, blueprint_names, draw, families_of, family
from training.rulebook import load_edition
from training.trade.words import SKILLS

FAMILIES, RULES, DRAWS = 6, 3, 6
# No rule of its own: what nobody has written down, and a drawing that is read.
NO_RULE = ("common practice", "the drawing itself")


def rules_of(item: Item) -> set[str]:
    """The clauses that explain a question; of a marking, which no clause is about, the paragraph that says it."""
    lines = [(str(line["clause"]), str(line["source"])) for line in item.explanation]
    return {clause or source for clause, source in lines if clause or not source.startswith(NO_RULE)}


@cache
def breadth(plan: str) -> dict[str, dict[str, set[str]]]:
    """By skill the families that ask about it, each with the rules that explain some draws."""
    edition, casings = load_edition(blueprint(plan).edition), blueprint(plan).casings
    found = defaultdict[str, dict[str, set[str]]](dict)
    for one in families_of(edition, casings):
        items = [draw(one, seed=f"breadth {number}", edition=edition, casings=casings) for number in range(DRAWS)]
        found[family(one).skill][one] = set().union(*map(rules_of, items))
    return found


@pytest.mark.parametrize("skill", SKILLS)
@pytest.mark.parametrize("plan", blueprint_names())
def test_a_skill_is_asked_about_by_six_families_on_three_rules(plan: str, skill: str) -> None:
    found = breadth(plan)[skill]

    assert len(found) >= FAMILIES, sorted(found)
    assert len(set().union(*found.values())) >= RULES, found
