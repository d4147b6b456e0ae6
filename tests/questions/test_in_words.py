"""An item told to a trainer, for each format, from items written by hand."""

from assessments.questions import Blame, Option, Region
from assessments.questions.items.in_words import Told, letter, right_in_words, wrong_in_words
from tests.factories import an_item

STEPS = (Option("1", "Buff"), Option("2", "Measure"), Option("3", "Cement"))


def test_options_are_lettered_as_on_paper() -> None:
    assert [letter(number) for number in ("1", "2", "26", "27", "52", "53")] == ["A", "B", "Z", "AA", "AZ", "BA"]


def test_a_choice_tells_the_right_option_and_every_wrong_one() -> None:
    item = an_item()

    assert right_in_words(item) == ("B. Take it out of service",)
    assert wrong_in_words(item) == (
        Told("Repair it with a one-piece unit", ("size-does-not-matter",), True, "A"),
        Told("Repair it with a stem and a patch", ("two-piece-only-when-steep",), False, "C"),
    )


def test_several_tells_who_leaves_a_right_one_out() -> None:
    item = an_item(format="several", key=("1", "2"), unsafe=(), distractors={}, omissions={"2": ("any-lean-scraps",)})

    assert right_in_words(item) == ("A. Repair it with a one-piece unit", "B. Take it out of service")
    assert wrong_in_words(item)[-1] == Told("Leaves out: Take it out of service", ("any-lean-scraps",), False, "B")


def test_a_number_tells_its_tolerance_and_what_is_unsafe() -> None:
    item = an_item(format="number")

    assert right_in_words(item) == ("9 mm, within 0.5 mm",)
    assert wrong_in_words(item) == (
        Told("12 mm", ("crown-is-all-tread",), False),
        Told("Anything below 6 mm", (), True),
    )


def test_an_order_tells_the_steps_in_order_and_the_broken_pairs_in_words() -> None:
    item = an_item(
        format="order",
        options=STEPS,
        key=("2", "1", "3"),
        before=(("2", "1"),),
        distractors={"1 before 2": ("step-too-late",)},
        unsafe=(),
    )

    assert right_in_words(item) == ("B. Measure", "A. Buff", "C. Cement")
    assert wrong_in_words(item) == (Told("Buff – before – Measure", ("step-too-late",), False),)


def test_a_place_and_a_fault_are_told_in_words() -> None:
    place = an_item(
        format="place",
        options=(),
        key=Region(59, 65, 4, 12),
        distractors={"across 10 to 16 mm, up 4 to 12 mm": ("lean-ignored",)},
        unsafe=(),
    )
    fault = an_item(
        format="fault",
        options=STEPS,
        reasons=(Option("1", "Too hot"), Option("2", "Too fast")),
        key=Blame(("1",), "2"),
        distractors={"3": ("faster-is-cleaner",)},
        unsafe=("3",),
    )

    assert right_in_words(place) == ("across 59 to 65 mm, up 4 to 12 mm",)
    assert wrong_in_words(place) == (Told("across 10 to 16 mm, up 4 to 12 mm", ("lean-ignored",), False),)
    assert right_in_words(fault) == ("A. Buff", "B. Too fast")
    assert wrong_in_words(fault) == (Told("Cement", ("faster-is-cleaner",), True),)
