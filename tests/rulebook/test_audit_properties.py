"""Properties of every log: what is left out or turned around is found, what is free is not, and nothing crashes."""

import itertools
import json
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.rulebook.jobs import PUNCTURE_METHODS, SOUND, a_job, a_log, swapped, without
from tests.rulebook.spoiling import spoiled
from training.rulebook import FAULTS, JobError, audit, load_edition

EDITION = load_edition("north-america")
methods = st.sampled_from(PUNCTURE_METHODS)

# What the sources put in order, by hand, independent of the rules in the edition: each chain from first to last.
# Sources: association wall chart (off the wheel, inspected, size after damage removal); trade press of October 2020
# (object out, probed, cleaned, cut); 8 CCR 3325(e) and association guidance (seating, inflating, testing);
# the rest common practice, no published source.
START = [
    "deflate", "demount", "inspect", "remove-object", "measure-injury", "remove-damage", "probe", "measure-prepared",
]  # fmt: skip
END = [
    "stitch", "remove-film", "seal", "inspect-repair", "mount", "seat-beads", "inflate", "leak-test", "install",
    "reset-pressure-monitor",
]  # fmt: skip
BESIDE = [
    ["demount", "mark", "remove-object"],
    ["inspect", "clean-liner", "remove-damage"],
    ["demount", "check-valve", "mount"],
    ["inflate", "balance", "install"],
]
CHAINS = {
    "two-piece": [
        [*START, "cement-channel", "pull-stem", "buff", "brush", "remove-dust", "cement-area", "dry", "apply-unit",
         *END],
        ["measure-prepared", "outline", "buff"],
        ["pull-stem", "trim-stem", "install"],
        *BESIDE,
    ],
    "one-piece": [
        [*START, "outline", "buff", "brush", "remove-dust", "cement-area", "dry", "pull-through", *END],
        ["measure-prepared", "cement-channel", "dry"],
        ["pull-through", "trim-stem", "install"],
        *BESIDE,
    ],
}  # fmt: skip


def ordered_pairs(method: str) -> set[tuple[str, str]]:
    """Every pair that the chains put in order, through one another too."""
    pairs = {pair for chain in CHAINS[method] for pair in itertools.combinations(chain, 2)}
    while True:
        through = {(a, d) for a, b in pairs for c, d in pairs if b == c} - pairs
        if not through:
            return pairs
        pairs |= through


ORDERED = {method: ordered_pairs(method) for method in PUNCTURE_METHODS}


@pytest.mark.parametrize("method", PUNCTURE_METHODS)
def test_the_rules_put_in_order_what_the_sources_do_and_leave_the_rest_free(method: str) -> None:
    rules = EDITION.work
    assert rules is not None

    assert set(rules.order(method, EDITION.orders[method]).rules) == ORDERED[method]


@st.composite
def allowed_orders(draw: st.DrawFn) -> tuple[str, list[dict[str, Any]]]:
    """A sound log in any order that the chains allow."""
    method = draw(methods)
    chance = random.Random(draw(st.integers(0, 2**32)))
    left = a_log(method)
    done: list[dict[str, Any]] = []
    while left:
        names = {step["step"] for step in left}
        ready = [step for step in left if not any((first, step["step"]) in ORDERED[method] for first in names)]
        step = chance.choice(ready)
        left.remove(step)
        done.append(step)
    return method, done


@given(allowed_orders())
@settings(max_examples=150, deadline=None)
def test_steps_that_are_free_may_be_done_in_any_order(logged: tuple[str, list[dict[str, Any]]]) -> None:
    _, log = logged

    assert audit(a_job(log)).to_json() == SOUND


@given(allowed_orders(), st.data())
@settings(max_examples=150, deadline=None)
def test_swapping_two_steps_whose_order_matters_is_found(
    logged: tuple[str, list[dict[str, Any]]], data: st.DataObject
) -> None:
    method, log = logged
    first, then = data.draw(st.sampled_from(sorted(ORDERED[method])))

    faults = audit(a_job(swapped(log, first, then))).faults

    assert faults
    assert {fault.fault for fault in faults} == {"order"}


@given(allowed_orders(), st.data())
@settings(max_examples=150, deadline=None)
def test_dropping_any_steps_is_found_each(logged: tuple[str, list[dict[str, Any]]], data: st.DataObject) -> None:
    method, log = logged
    names = [step["step"] for step in log]
    # Without the last step of its own a log no longer shows its method.
    shows = {"pull-stem", "apply-unit"} if method == "two-piece" else {"pull-through"}
    dropped = data.draw(st.sets(st.sampled_from(names), min_size=1, max_size=6).filter(lambda some: not shows <= some))

    faults = audit(a_job(without(log, *dropped))).faults

    assert {fault.name for fault in faults if fault.fault == "missing"} == dropped
    assert {fault.fault for fault in faults} == {"missing"}


@given(methods, st.integers(50, 5000), st.integers(50, 9000), st.integers(1, 9))
@settings(max_examples=200, deadline=None)
def test_speeds_and_passes_are_held_to_their_limits(method: str, cutter: int, buffer: int, passes: int) -> None:
    # Sources: trade press, 1,200 rpm; recommended practice 2017, 5,000 rpm; 3 passes is common practice.
    log = a_log(method, remove_damage={"speed": f"{cutter} rpm", "passes": passes}, buff={"speed": f"{buffer} rpm"})

    found = {fault.clause for fault in audit(a_job(log)).faults}

    expected = {
        "cutter-speed": cutter > 1200,
        "buffer-speed": buffer > 5000,
        "cutter-passes": passes < 3,
    }
    assert found == {clause for clause, broken in expected.items() if broken}


@given(st.integers(0, 40), st.integers(-10, 40), st.integers(0, 100))
@settings(max_examples=200, deadline=None)
def test_longer_drying_is_never_worse_and_colder_or_damper_never_better(minutes: int, celsius: int, humid: int) -> None:
    def is_sound(time: int, temperature: int, humidity: int) -> bool:
        stated = {"time": f"{time} min", "temperature": f"{temperature} C", "humidity": f"{humidity} %"}
        return audit(a_job(a_log(dry=stated))).sound is True

    sound = is_sound(minutes, celsius, humid)

    if sound:
        assert minutes >= 3  # common practice: 3 to 5 minutes, longer when cold or humid
        assert is_sound(minutes + 1, celsius, humid)
    else:
        assert minutes <= 5
        assert not is_sound(minutes, celsius - 5, min(humid + 5, 100))


_json = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)


@given(_json | spoiled(methods.map(lambda method: a_job(a_log(method))), _json, most=4))
@settings(max_examples=500, deadline=None)
def test_whatever_is_given_is_answered_or_refused_in_words(data: Any) -> None:
    try:
        answer = audit(data)
    except JobError as refusal:
        problems = refusal.problems
    else:
        problems = ()
        assert (answer.sound is False) == bool(answer.faults)
        assert (answer.sound is True) == (not answer.faults and not answer.unstated)
        assert {fault.fault for fault in answer.faults} <= set(FAULTS)
        json.dumps(answer.to_json())

    assert all(line and "\n" not in line and ": " in line for line in problems)
