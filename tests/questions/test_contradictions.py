"""No question is about a tire of which two facts cannot both be true."""

import pytest

from assessments.questions import draw, family_names
from tests.examples import times
from tests.rulebook.cases import decide_as_told
from training.rulebook import load_edition

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too


@pytest.mark.parametrize("name", ["north-america", "united-kingdom"])
@pytest.mark.parametrize("family", sorted(family_names()))
def test_the_tires_of_a_family_can_be(family: str, name: str) -> None:
    edition = load_edition(name)
    against = {id for id, clause in edition.clauses.items() if clause.file.endswith("contradictions.toml")}
    for number in range(times(3)):
        try:
            item = draw(family, seed=f"can be {number}", edition=edition)
        except LookupError:  # the edition says nothing on what the family asks
            return
        if item.case:
            decision = decide_as_told(item.case, edition=edition)
            assert not [one for one in decision.rulings if not one.holds and one.clause in against]
