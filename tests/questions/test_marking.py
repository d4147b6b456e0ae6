"""Answers as people give them: what is taken, what is refused in which words, what is right."""

from dataclasses import replace
from fractions import Fraction

import pytest

from assessments.questions.items.item import Item, Option
from assessments.questions.items.marking import AnswerError, canonical, check_answer, from_canonical, mark, right_answer
from assessments.questions.items.numbers import NotANumber, parse_measure, parse_number
from assessments.questions.items.shapes import Blame, Frame, Region

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
def test_no_answer_is_kept_as_none_and_is_neither_right_nor_unsafe(item, nothing) -> None:
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
def test_an_answer_has_one_stored_text(item, raw, text) -> None:
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
def test_a_refusal_names_field_value_and_what_is_accepted(item, raw, words) -> None:
    with pytest.raises(AnswerError) as refusal:
        check_answer(item.open(), raw)

    assert words in str(refusal.value)


def test_a_wrong_option_brings_its_misconceptions_and_an_unsafe_one_says_so() -> None:
    assert mark(ONE, "2").right
    assert mark(ONE, "1") == mark(replace(ONE), "1")
    assert (mark(ONE, "1").right, mark(ONE, "1").unsafe, mark(ONE, "1").misconceptions) == (False, True, ("wishful",))
    assert (mark(ONE, "3").unsafe, mark(ONE, "3").misconceptions) == (False, ("hearsay", "wishful"))


def test_several_is_right_only_with_all_and_nothing_else() -> None:
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
def test_a_number_is_right_within_its_tolerance_in_either_unit(value, unit, right, unsafe) -> None:
    marked = mark(NUMBER, {"value": value, "unit": unit})

    assert (marked.right, marked.unsafe) == (right, unsafe)


def test_a_wrong_number_is_traced_to_the_misconception_that_computes_it() -> None:
    assert mark(NUMBER, {"value": "8.4", "unit": "mm"}).misconceptions == ("forgot",)
    assert mark(NUMBER, {"value": "20", "unit": "mm"}).misconceptions == ()


def test_numbers_are_read_exactly() -> None:
    assert parse_number("1 1/2") == Fraction(3, 2)
    assert parse_number(".5") == parse_number("0.5") == Fraction(1, 2)
    assert parse_measure("1/4 in") == ("length", Fraction("6.35"))
    with pytest.raises(NotANumber):
        parse_number("1e3")
    with pytest.raises(ValueError, match='unit: "furlongs" is not accepted'):
        parse_measure("3 furlongs")


@pytest.mark.parametrize("item", [ONE, SEVERAL, NUMBER])
def test_an_item_survives_its_json(item) -> None:
    assert Item.from_json(item.to_json()) == item


def test_a_snapshot_of_an_unknown_format_is_refused() -> None:
    with pytest.raises(ValueError, match="format: 'essay' is not accepted; choose one, several, number"):
        Item.from_json({**ONE.to_json(), "format": "essay"})


def test_the_open_item_is_the_same_whichever_option_is_the_key() -> None:
    assert replace(ONE, key="1", unsafe=("2",)).open() == ONE.open()
    assert ONE.open().question == "What now?"
    assert ONE.open().situation == ("A hole.",)


ORDER = replace(
    ONE,
    format="order",
    options=(Option("1", "Buff"), Option("2", "Clean"), Option("3", "Cement the channel"), Option("4", "Dry")),
    key=("2", "1", "3", "4"),
    before=(("2", "1"), ("2", "4"), ("2", "3"), ("1", "4"), ("3", "4")),
    distractors={"1 before 2": ("wash-later",), "4 before 1": ("hurry",), "4 before 3": ("hurry",)},
    unsafe=("4 before 3",),
)
PLACE = replace(
    ONE,
    format="place",
    options=(),
    key=Region(57, 63, 4, 14),
    frame=Frame(-11, 26, 120.5, 48),
    distractors={"across 40 to 46 mm, up 4 to 14 mm": ("straight-down",)},
    unsafe=("across 63.1 to 120.5 mm, up 0 to 48 mm",),
)
FAULT = replace(
    ONE,
    format="fault",
    options=(*ORDER.options, Option("5", "A line is missing"), Option("6", "Nothing is wrong")),
    reasons=(Option("1", "Too fast"), Option("2", "Too soon")),
    key=Blame(("3", "4"), "2"),
    distractors={"6": ("hurry",)},
    unsafe=("6",),
)


class TestOrder:
    @pytest.mark.parametrize("given", [["2", "1", "3", "4"], ["2", "3", "1", "4"]])
    def test_every_order_that_keeps_the_pairs_is_right(self, given) -> None:
        assert mark(ORDER, check_answer(ORDER.open(), given)).right

    def test_a_broken_pair_is_wrong_and_says_what_is_behind_it(self) -> None:
        washed, hurried = mark(ORDER, ["1", "2", "3", "4"]), mark(ORDER, ["2", "1", "4", "3"])

        assert (washed.right, washed.unsafe, washed.misconceptions) == (False, False, ("wash-later",))
        assert (hurried.right, hurried.unsafe, hurried.misconceptions) == (False, True, ("hurry",))

    def test_places_become_the_order_that_is_kept(self) -> None:
        given = check_answer(ORDER.open(), {"1": "2", "2": "1", "3": "4", "4": "3"})

        assert given == ["2", "1", "4", "3"]
        assert canonical(given) == '["2","1","4","3"]'

    @pytest.mark.parametrize("given", [None, "", [], {"1": "", "2": "", "3": "", "4": ""}])
    def test_no_place_at_all_is_no_answer(self, given) -> None:
        assert check_answer(ORDER.open(), given) is None

    @pytest.mark.parametrize(
        ("given", "words"),
        [
            ({"1": "2", "2": "1", "3": "3", "4": ""}, 'Order: "Dry" has no place; give each step a place from 1 to 4'),
            ({"1": "2", "2": "2", "3": "3", "4": "4"}, 'Order: place 2 is given to "Buff" and "Clean"'),
            ({"1": "9", "2": "1", "3": "3", "4": "4"}, 'Order: place "9" is not accepted; choose 1 to 4'),
            ({"7": "1"}, 'Order: "7" is not one of the options; choose 1, 2, 3 or 4'),
            (["2", "1", "3"], 'Order: "Dry" has no place'),
            (["2", "2", "2", "2"], "Order: ['2', '2', '2', '2'] is not accepted; give each of the 4 steps once"),
            ("2", "Order: '2' is not accepted; give each of the 4 steps once"),
            ([["2"]], "Order: [['2']] is not accepted; give each of the 4 steps once"),
        ],
    )
    def test_a_wrong_order_is_refused_naming_the_step_and_what_is_accepted(self, given, words) -> None:
        with pytest.raises(AnswerError) as refusal:
            check_answer(ORDER.open(), given)

        assert words in str(refusal.value)


class TestPlace:
    @pytest.mark.parametrize(
        ("x", "right"), [("56.9", False), ("57", True), ("60.5", True), ("63", True), ("63.1", False)]
    )
    def test_a_place_is_right_in_its_region_edges_included(self, x, right) -> None:
        assert mark(PLACE, check_answer(PLACE.open(), {"x": x, "y": "8"})).right is right

    def test_a_wrong_place_says_what_is_behind_it(self) -> None:
        marked = mark(PLACE, {"x": "43", "y": "9"})

        assert (marked.right, marked.unsafe, marked.misconceptions) == (False, False, ("straight-down",))
        assert mark(PLACE, {"x": "80", "y": "9"}).unsafe

    def test_nothing_read_is_no_answer(self) -> None:
        assert check_answer(PLACE.open(), {"x": " ", "y": ""}) is None

    @pytest.mark.parametrize(
        ("given", "words"),
        [
            ({"x": "60", "y": ""}, "Up: nothing was given; read it on the ruler beside the drawing"),
            ({"x": "", "y": "8"}, "Across: nothing was given; read it on the ruler below the drawing"),
            ({"x": "60,5", "y": "8"}, 'Across: "60,5" is not accepted; write 60.5 with a point'),
            ({"x": "121", "y": "8"}, "Across: 121 is beyond the ruler below the drawing; give 0 to 120.5"),
            ({"x": "-3", "y": "8"}, 'Across: "-3" is not a number'),
            ("60", "Place: '60' is not accepted; give how far across and how far up"),
        ],
    )
    def test_a_wrong_place_is_refused_naming_the_ruler(self, given, words) -> None:
        with pytest.raises(AnswerError) as refusal:
            check_answer(PLACE.open(), given)

        assert words in str(refusal.value)


class TestFault:
    @pytest.mark.parametrize("line", ["3", "4"])
    def test_each_line_one_may_name_is_right_with_the_reason(self, line) -> None:
        assert mark(FAULT, check_answer(FAULT.open(), {"step": line, "reason": "2"})).right
        assert not mark(FAULT, {"step": line, "reason": "1"}).right

    def test_seeing_no_fault_needs_no_reason_and_says_what_is_behind_it(self) -> None:
        given = check_answer(FAULT.open(), {"step": "6", "reason": "1"})

        assert given == {"step": "6", "reason": ""}
        marked = mark(FAULT, given)
        assert (marked.right, marked.unsafe, marked.misconceptions) == (False, True, ("hurry",))

    def test_a_log_without_a_fault_is_answered_by_none(self) -> None:
        sound = replace(FAULT, key=Blame(("6",), ""), distractors={}, unsafe=())

        assert mark(sound, {"step": "6", "reason": ""}).right
        assert not mark(sound, {"step": "3", "reason": "2"}).right

    @pytest.mark.parametrize(
        ("given", "words"),
        [
            ({"step": "3", "reason": ""}, "Reason: nothing was given; choose what is wrong with the line"),
            ({"step": "", "reason": "1"}, "Line: nothing was given; choose the line that is wrong, or that none is"),
            ({"step": "8", "reason": "1"}, 'Line: "8" is not one of the options; choose 1, 2, 3, 4, 5 or 6'),
            ({"step": "3", "reason": "8"}, 'Reason: "8" is not one of the options; choose 1 or 2'),
            (["3"], "Fault: ['3'] is not accepted; give a line and a reason"),
        ],
    )
    def test_half_an_answer_is_refused_naming_the_other_half(self, given, words) -> None:
        with pytest.raises(AnswerError) as refusal:
            check_answer(FAULT.open(), given)

        assert words in str(refusal.value)


@pytest.mark.parametrize("item", [ONE, SEVERAL, NUMBER, ORDER, PLACE, FAULT], ids=lambda item: item.format)
def test_whoever_knows_the_key_is_right_and_the_answer_can_be_stored(item) -> None:
    answer = right_answer(item)

    assert check_answer(item.open(), answer) == answer
    assert mark(item, from_canonical(canonical(answer))).right


@pytest.mark.parametrize("item", [ORDER, PLACE, FAULT], ids=lambda item: item.format)
def test_an_answer_of_another_shape_is_refused_and_no_answer_is_wrong(item) -> None:
    with pytest.raises(AnswerError, match="is not accepted"):
        mark(item, "2")
    assert not mark(item, None).right
