"""Answers as people give them: what is taken, what is refused in which words, what is right."""

from dataclasses import replace
from fractions import Fraction

import pytest

from assessments.scenarios.marking import AnswerError, canonical, check_answer, from_canonical, mark
from assessments.scenarios.measures import NotANumber, parse_measure, parse_number
from assessments.scenarios.model import Item, Option

ONE = Item(
    family="by-hand",
    skill="size-limits",
    edition="north-america",
    version="test",
    seed="1",
    format="one",
    stem="A hole.\nWhat now?",
    figure=None,
    options=(Option("1", "Repair it"), Option("2", "Take it out of service"), Option("3", "Ask a friend")),
    key="2",
    tolerance=None,
    units=(),
    distractors={"1": ("wishful",), "3": ("hearsay", "wishful")},
    unsafe=("1",),
    explanation=(),
    sources=(),
    case=None,
    lesson="measure-and-choose/measure-the-injury",
)
SEVERAL = replace(
    ONE, format="several", key=("1", "3"), distractors={"2": ("wishful",)}, unsafe=("2",), omissions={"1": ("timid",)}
)
NUMBER = replace(
    ONE,
    format="number",
    options=(),
    key="6 mm",
    tolerance="0.5 mm",
    units=("in", "mm"),
    distractors={"8 mm": ("forgot",)},
    unsafe=("above 6.5 mm",),
)


@pytest.mark.parametrize("item", [ONE, SEVERAL, NUMBER])
@pytest.mark.parametrize("nothing", [None, "", []])
def test_no_answer_is_kept_as_none_and_is_neither_right_nor_unsafe(item, nothing):
    answer = check_answer(item.open(), nothing)

    assert answer is None
    assert canonical(answer) == ""
    assert from_canonical("") is None
    assert mark(item, answer) == mark(item, None)
    assert (mark(item, answer).right, mark(item, answer).unsafe) == (False, False)


@pytest.mark.parametrize(
    ("item", "raw", "text"),
    [
        (ONE, "2", '"2"'),
        (SEVERAL, ["3", "1"], '["1","3"]'),
        (SEVERAL, "3", '["3"]'),
        (NUMBER, {"value": " 5.5 ", "unit": "mm"}, '{"unit":"mm","value":"5.5"}'),
        (NUMBER, {"value": "1  1/2", "unit": "in"}, '{"unit":"in","value":"1 1/2"}'),
    ],
)
def test_an_answer_has_one_stored_text(item, raw, text):
    answer = check_answer(item.open(), raw)

    assert canonical(answer) == text
    assert from_canonical(text) == answer


@pytest.mark.parametrize(
    ("item", "raw", "words"),
    [
        (ONE, "9", 'Answer: "9" is not one of the options; choose 1, 2 or 3'),
        (ONE, ["2"], "choose 1, 2 or 3"),
        (SEVERAL, ["1", "7"], 'Answer: "7" is not one of the options; choose 1, 2 or 3'),
        (SEVERAL, 5, "Answer: 5 is not accepted; give a list"),
        (NUMBER, {"value": "5,5", "unit": "mm"}, 'Value: "5,5" is not accepted; write 5.5'),
        (NUMBER, {"value": "six", "unit": "mm"}, 'Value: "six" is not a number; write for example 5.5 or 7/32'),
        (NUMBER, {"value": "-3", "unit": "mm"}, 'Value: "-3" is not a number'),
        (NUMBER, {"value": "nan", "unit": "mm"}, 'Value: "nan" is not a number'),
        (NUMBER, {"value": "1/0", "unit": "mm"}, 'Value: "1/0" divides by zero'),
        (NUMBER, {"value": "5", "unit": "cm"}, 'Unit: "cm" is not accepted; choose in or mm'),
        (NUMBER, {"value": "5"}, "Unit: an empty unit is not accepted; choose in or mm"),
        (NUMBER, {"value": 5, "unit": "mm"}, "Value: 5 is not accepted; give the number as text"),
        (NUMBER, "5 mm", "give a value and a unit (in or mm)"),
    ],
)
def test_a_refusal_names_field_value_and_what_is_accepted(item, raw, words):
    with pytest.raises(AnswerError) as refusal:
        check_answer(item.open(), raw)

    assert words in str(refusal.value)


def test_a_wrong_option_brings_its_misconceptions_and_an_unsafe_one_says_so():
    assert mark(ONE, "2").right
    assert mark(ONE, "1") == mark(replace(ONE), "1")
    assert (mark(ONE, "1").right, mark(ONE, "1").unsafe, mark(ONE, "1").misconceptions) == (False, True, ("wishful",))
    assert (mark(ONE, "3").unsafe, mark(ONE, "3").misconceptions) == (False, ("hearsay", "wishful"))


def test_several_is_right_only_with_all_and_nothing_else():
    assert mark(SEVERAL, ["1", "3"]).right
    assert not mark(SEVERAL, ["1"]).right
    assert not mark(SEVERAL, ["1", "2", "3"]).right
    assert mark(SEVERAL, ["1", "2", "3"]).unsafe
    assert mark(SEVERAL, ["3"]).misconceptions == ("timid",)


# 1 in = 25.4 mm exactly (international yard and pound agreement, 1959): 7/32 in = 5.55625 mm, 1/4 in = 6.35 mm.
@pytest.mark.parametrize(
    ("value", "unit", "right", "unsafe"),
    [
        ("6", "mm", True, False),
        ("5.5", "mm", True, False),
        ("6.5", "mm", True, False),
        ("5.49", "mm", False, False),
        ("6.51", "mm", False, True),
        ("7/32", "in", True, False),
        ("0.25", "in", True, False),
        ("9/32", "in", False, True),
    ],
)
def test_a_number_is_right_within_its_tolerance_in_either_unit(value, unit, right, unsafe):
    marked = mark(NUMBER, {"value": value, "unit": unit})

    assert (marked.right, marked.unsafe) == (right, unsafe)


def test_a_wrong_number_is_traced_to_the_misconception_that_computes_it():
    assert mark(NUMBER, {"value": "8.4", "unit": "mm"}).misconceptions == ("forgot",)
    assert mark(NUMBER, {"value": "20", "unit": "mm"}).misconceptions == ()


def test_numbers_are_read_exactly():
    assert parse_number("1 1/2") == Fraction(3, 2)
    assert parse_number(".5") == parse_number("0.5") == Fraction(1, 2)
    assert parse_measure("1/4 in") == ("length", Fraction("6.35"))
    with pytest.raises(NotANumber):
        parse_number("1e3")
    with pytest.raises(ValueError, match='unit: "furlongs" is not accepted'):
        parse_measure("3 furlongs")


@pytest.mark.parametrize("item", [ONE, SEVERAL, NUMBER])
def test_an_item_survives_its_json(item):
    assert Item.from_json(item.to_json()) == item


def test_a_snapshot_of_an_unknown_format_is_refused():
    with pytest.raises(ValueError, match="format: 'essay' is not accepted; choose one, several, number"):
        Item.from_json({**ONE.to_json(), "format": "essay"})


def test_the_open_item_is_the_same_whichever_option_is_the_key():
    assert replace(ONE, key="1", unsafe=("2",)).open() == ONE.open()
    assert ONE.open().question == "What now?"
    assert ONE.open().situation == ("A hole.",)
