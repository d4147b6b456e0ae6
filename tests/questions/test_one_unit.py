"""No question mixes customary and metric values: nobody has to convert who is not asked to."""

import re
from collections.abc import Iterator

import pytest

from assessments.questions import Item, draw, families_of
from assessments.questions.cases.casebook import length
from assessments.questions.drafts.draft import Draft
from assessments.questions.draws.registry import family
from tests.examples import times
from tests.present import present
from training.rulebook import load_edition

EDITIONS, UNITS = ("north-america", "united-kingdom"), ("in", "mm")
_NUMBER = r"(?<![\w/.,])(?:\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)*)"
_CUSTOMARY, _METRIC = (
    re.compile(rf"{_NUMBER}(?: to {_NUMBER})? (?:{units})(?!\w)")
    for units in ("in|psi|lb|ft-lb|°F", "mm|cm|kPa|bar|kg|N·m|°C")
)
# a value in one unit with the other in brackets, and whatever else stands in brackets
_TWICE = re.compile(rf"{_NUMBER}(?: to {_NUMBER})? \S+ \({_NUMBER}(?: to {_NUMBER})? [^\s()]+\)")
_BRACKETS = re.compile(r"\([^()]*\)")
# sizes as they are molded
_MOLDED = re.compile(r"\b\d+(?:\.\d+)?[xX]\d+(?:\.\d+)?R\d+(?:\.\d+)?\w*|\b(?:P|LT|ST)?\d{3}/\d{2}R\d+(?:\.\d+)?C?")
_LABELS = re.compile(r"<text[^>]*>([^<]*)</text>")


def read_of(item: Item) -> Iterator[str]:
    """What is read before a question is answered: its words, its options, its drawing and what describes that."""
    yield item.stem
    yield from (option.text for option in (*item.options, *item.reasons))
    if item.figure is not None:
        yield item.figure.description
        yield from _LABELS.findall(item.figure.svg)


def values(item: Item) -> tuple[list[str], list[str]]:
    """The customary and the metric values that stand alone."""
    customary: list[str] = []
    metric: list[str] = []
    for text in read_of(item):
        alone = _BRACKETS.sub("", _TWICE.sub("", _MOLDED.sub("", text)))
        customary += _CUSTOMARY.findall(alone)
        metric += _METRIC.findall(alone)
    return customary, metric


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("country", EDITIONS)
def test_no_question_mixes_units(country: str, unit: str) -> None:
    edition, seen = load_edition(country), {"in": 0, "mm": 0}
    for name in families_of(edition):
        for number in range(times(12)):
            item = draw(name, seed=f"one unit {number}", edition=edition, prefer=unit)
            customary, metric = values(item)

            assert not (customary and metric) or family(name).converts, (name, item.seed, customary, metric)
            seen["in"] += bool(customary)
            seen["mm"] += bool(metric)
    assert seen[unit] > 100  # the units are found at all, and mostly those that were asked for
    assert seen[unit] > 3 * seen["mm" if unit == "in" else "in"]


@pytest.mark.parametrize(
    ("stem", "customary", "metric"),
    [
        ("A hole 9/32 in across, 50 mm from the edge", ["9/32 in"], ["50 mm"]),
        ("At most 1/4 in (6 mm); it is 6.5 mm", [], ["6.5 mm"]),
        ("In a 205/55R16 the gauge shows 450 to 500 ft-lb (610 to 678 N·m)", [], []),
        ("It ran 60 mi at 34 psi, and should have 230 kPa", ["34 psi"], ["230 kPa"]),
    ],
)
def test_a_mixture_is_seen(stem: str, customary: list[str], metric: list[str]) -> None:
    item = draw("tire-age", seed="1", edition=load_edition("north-america"))

    assert values(Item.from_json(item.to_json() | {"stem": stem})) == (customary, metric)


def drafted(unit: str) -> Draft:
    return Draft(family("lean-and-exit"), seed="1", edition=load_edition("north-america"), prefer=unit, units=None)


@pytest.mark.parametrize(("unit", "step"), [("in", "1/16 in"), ("mm", "1 mm")])
def test_a_place_is_drawn_in_steps_of_the_unit_and_told_as_it_is(unit: str, step: str) -> None:
    draft = drafted(unit)
    for _ in range(50):
        place = draft.between(-20, 40)

        assert -20 <= place <= 40
        assert (place / length(step).value).denominator == 1
        assert length(draft.told(place)).value == place


@pytest.mark.parametrize("unit", UNITS)
def test_a_tire_is_measured_in_the_unit_that_its_question_tells(unit: str) -> None:
    model = drafted(unit).pick_model()
    told = {name: str(model.to_json()[name]) for name in ("tread_width", "outer_groove", "crown_thickness")}

    assert all(text.endswith(f" {unit}") for text in told.values())
    assert [length(text).value for text in told.values()] == [
        model.tread_width_mm,
        model.outer_groove_mm,
        model.crown_thickness_mm,
    ]


def test_a_length_that_a_rule_does_not_show_is_not_rounded() -> None:
    with pytest.raises(ValueError, match="cannot be told exactly"):
        drafted("in").told(7)


@pytest.mark.parametrize(
    ("edition", "unit", "told"),
    [
        ("north-america", "in", "at most 1/4 in (6 mm)"),  # US association, wall chart: as it is printed
        ("north-america", "mm", "at most 6 mm (1/4 in)"),
        ("united-kingdom", "mm", "at most 6 mm"),  # BS AU 159g as summarised
        ("united-kingdom", "in", "at most 6 mm (1/4 in)"),  # a conversion decides nothing and stands in brackets
    ],
)
def test_a_limit_is_told_first_as_its_source_states_it_in_that_unit(edition: str, unit: str, told: str) -> None:
    limit = present(load_edition(edition).limit("injury.diameter", "passenger"))

    assert limit.limit_told_in(unit) == told
