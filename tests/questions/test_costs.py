"""What a question and a form cost, in calls of Python functions, which a busy machine does not change.

The milliseconds that follow from them are printed by `python -m tests.benchmarks.questions`. Pictures are computed
later and are no part of it.
"""

from functools import partial
from statistics import fmean, median

import pytest

from assessments.questions import blueprint, blueprint_names, draw, draw_form, families_of
from tests.calls import calls_of
from training.rulebook import edition_names, load_edition
from training.trade.speech import in_language

SEEDS = 7  # of a question: the median stands for the usual draw, since some numbers make no fair question
OF_A_QUESTION, ON_AVERAGE = 9_000, 2_700
FORMS = 3
OF_A_FORM = 300_000


def usual_calls(name: str, edition_name: str) -> float:
    """Calls of the usual draw of a family, in either unit in turns."""
    edition = load_edition(edition_name)

    def once(number: int) -> object:
        return draw(name, seed=f"cost {number}", edition=edition, prefer=("in", "mm")[number % 2])

    for number in range(4):
        once(number)  # what a process does only once is done before
    return median(calls_of(partial(once, number)) for number in range(4, 4 + SEEDS))


@pytest.mark.parametrize("edition_name", edition_names())
def test_a_question_costs_little_and_less_on_average(edition_name: str) -> None:
    edition = load_edition(edition_name)
    with in_language(edition.language):
        costs = {name: usual_calls(name, edition_name) for name in families_of(edition)}

    assert {name: cost for name, cost in costs.items() if cost > OF_A_QUESTION} == {}
    assert fmean(costs.values()) <= ON_AVERAGE


@pytest.mark.parametrize("name", blueprint_names())
def test_a_form_costs_little_more_than_its_questions(name: str) -> None:
    plan = blueprint(name)
    edition = load_edition(plan.edition)

    def form(number: int) -> object:
        return draw_form(plan, secret=b"cost", form_id=str(number), edition=edition)

    with in_language(edition.language):
        form(0)  # what a process does only once is done before
        costs = [calls_of(partial(form, number)) for number in range(1, 1 + FORMS)]

    assert median(costs) <= OF_A_FORM, costs
