"""Nothing but the question itself tells which option is right: not its place, not its length, not its value."""

from collections import Counter
from collections.abc import Callable

import pytest

from assessments.questions import Item, family, family_names
from tests.present import as_a
from tests.questions.many import DRAWS, items_of

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

ONE = [name for name in family_names() if "one" in family(name).formats]
# Upper 0.01 % points of chi-square with 3 and 5 degrees of freedom (statistical tables), by the number of options; 20
# families are tried at once.
CRITICAL = {4: 21.11, 6: 25.74}


@pytest.mark.parametrize("name", ONE)
def test_the_key_stands_at_every_place_equally_often(name) -> None:
    [(count, _)] = Counter(len(item.options) for item in items_of(name)).most_common(1)
    places = Counter(item.key for item in items_of(name) if len(item.options) == count)

    expected = sum(places.values()) / count
    chi_square = sum((places[str(place)] - expected) ** 2 / expected for place in range(1, count + 1))
    assert chi_square < CRITICAL[count], places
    assert sum(places.values()) > 0.9 * DRAWS


def ranks(items: list[Item], measure: Callable[[str], float]) -> tuple[float, float]:
    """Shares of items in which the key alone has the greatest, and the least, of a measure."""
    most = least = 0
    for item in items:
        own = measure(item.option(as_a(str, item.key)).text)
        others = [measure(option.text) for option in item.options if option.id != item.key]
        most += own > max(others)
        least += own < min(others)
    return most / len(items), least / len(items)


@pytest.mark.parametrize("name", ONE)
def test_choosing_the_longest_or_the_shortest_option_does_not_pay(name) -> None:
    longest, shortest = ranks(items_of(name), len)

    assert longest < 0.45
    assert shortest < 0.45


def test_over_all_families_length_says_nothing() -> None:
    longest, shortest = ranks([item for name in ONE for item in items_of(name)], len)

    assert longest < 0.27
    assert shortest < 0.27


def test_always_rejecting_or_always_repairing_does_not_pay() -> None:
    # What one would answer who never reads: only families whose options are verdicts are counted.
    judged = [item for name in ("tire-verdict", "earlier-repair", "lean-and-exit", "doubt") for item in items_of(name)]

    rejected = sum(item.key_text.startswith("Out of service") for item in judged) / len(judged)
    assert 0.3 < rejected < 0.7


@pytest.mark.parametrize("name", [name for name in family_names() if "several" in family(name).formats])
def test_the_number_of_right_options_varies(name) -> None:
    counts = Counter(len(as_a(tuple, item.key)) for item in items_of(name))

    assert len(counts) >= (2 if name == "proposals" else 3)
