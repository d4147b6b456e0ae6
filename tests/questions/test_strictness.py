"""What may count against somebody: no hair over a limit as an unsafe release, no value from memory as the key of an
assessment, and no log that is wrong as a matter of course."""

from collections import Counter
from fractions import Fraction

import pytest

from assessments.questions import Item, blueprint, blueprint_names, draw, families_of, family, mark
from assessments.questions.draws.sampling import rests_on_memory
from assessments.questions.items.numbers import parse_measure
from assessments.questions.items.shapes import Blame, Region
from tests.present import as_a, present
from tests.questions.many import forms_of
from training.rulebook import Edition, load_edition

DRAWS, LOGS = 6, 90
_TIMES = (Fraction(102, 100), Fraction(3, 2), Fraction(19, 10))  # as far off as this times the tolerance
_HAIR_MM = (0.05, 0.5, 0.9)  # as near to what counts as nobody can point


def of_scope(form: str, *formats: str) -> list[tuple[str, Edition, tuple[str, ...]]]:
    """The families that may be asked in a scope, of these formats."""
    plan = blueprint(form)
    edition = load_edition(plan.edition)
    names = families_of(edition, plan.casings)
    return [(name, edition, plan.casings) for name in names if set(formats) & set(family(name).formats)]


def items(name: str, edition: Edition, casings: tuple[str, ...], count: int = DRAWS) -> list[Item]:
    return [
        draw(name, seed=f"hair {number}", edition=edition, casings=casings, prefer=("in", "mm")[number % 2])
        for number in range(count)
    ]


@pytest.mark.parametrize("form", blueprint_names())
def test_a_number_a_hair_over_the_key_is_a_wrong_reading_and_no_unsafe_release(form) -> None:
    tried = 0
    for name, edition, casings in of_scope(form, "number"):
        for item in items(name, edition, casings):
            _, _, unit = str(item.key).rpartition(" ")
            key, margin = parse_measure(str(item.key))[1], parse_measure(present(item.tolerance))[1]
            for off in (sign * times for times in _TIMES for sign in (1, -1)):
                value = (key + off * margin) / parse_measure(f"1 {unit}")[1]
                if value > 0:
                    marked = mark(item, {"value": f"{float(value):.6f}", "unit": unit})
                    assert not marked.unsafe, (name, item.seed, item.key, float(value))
                    tried += not marked.right
    assert tried > 100


@pytest.mark.parametrize("form", blueprint_names())
def test_a_mark_a_hair_beside_what_counts_is_no_unsafe_release(form) -> None:
    tried = unsafe = 0
    for name, edition, casings in of_scope(form, "place"):
        for item in items(name, edition, casings):
            key, frame = as_a(Region, item.key), present(item.frame)
            across, up = key.middle
            for hair in _HAIR_MM:
                beside = (
                    (key.right + hair, up),
                    (key.left - hair, up),
                    (across, key.high + hair),
                    (across, key.low - hair),
                )
                for x, y in beside:
                    if 0 <= x <= frame.width and 0 <= y <= frame.height:
                        marked = mark(item, {"x": f"{x:.3f}", "y": f"{y:.3f}"})
                        assert not marked.unsafe, (name, item.seed, x, y)
                        tried += 1
            unsafe += bool(item.unsafe)
    assert tried > 100
    assert unsafe > 5  # what is far beyond still is


@pytest.mark.parametrize("form", blueprint_names())
def test_no_key_of_an_assessment_rests_on_a_value_from_memory(form) -> None:
    edition = load_edition(blueprint(form).edition)

    assert not [item.family for drawn in forms_of(form) for item in drawn if rests_on_memory(item, edition)]


def test_what_rests_on_memory_is_asked_in_practice_alone(edition) -> None:
    # 49 CFR 570.62(d), which nobody here has read: no repair that reinforces the body on a front wheel
    for name in ("repairs-by-axle", "bus-and-truck-fronts"):
        told = {
            assessed: [draw(name, seed=f"memory {number}", edition=edition, assessed=assessed) for number in range(40)]
            for assessed in (False, True)
        }
        lines = {
            assessed: {line["clause"] for item in drawn for line in item.explanation}
            for assessed, drawn in told.items()
        }
        assert "section-repair-in-front" in lines[False] - lines[True]
        assert lines[True]


@pytest.mark.parametrize("form", blueprint_names())
def test_a_log_is_asked_whether_it_has_a_mistake_and_now_and_then_has_none(form) -> None:
    for name, edition, casings in of_scope(form, "fault"):
        sound = Counter[bool]()
        for item in items(name, edition, casings, LOGS):
            assert item.stem.rpartition("\n")[2].startswith(("Is there ", "Is one of "))
            sound[as_a(Blame, item.key).reason == ""] += 1
        # one in nine; of 90 logs fewer than 2, or more than 24, are sound in one try of a thousand (binomial)
        assert 2 <= sound[True] <= 24, (name, sound)
