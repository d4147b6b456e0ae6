"""Properties of the reading of markings: what was written is read back, and garbage is met with MarkingError alone."""

from collections.abc import Callable
from datetime import date
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from training.rulebook.markings import (
    MarkingError,
    dimensions,
    load_capacity_kg,
    read_date_code,
    read_designation,
    read_tin,
    speed_limit,
)

SYMBOLS = ["A1", "A8", *"BCDEFGJKLMNPQRSTUHVWY"]
RIMS = ["13", "14", "15", "16", "16.5", "17", "17.5", "18", "19.5", "20", "22.5", "24.5"]
LETTERS = st.sampled_from("ABCDEFHJKLMNPRTUVWXY1234567890")
# Pieces of real markings in any order come closer to being read than letters do.
PIECES = st.lists(
    st.sampled_from(["LT", "P", "ST", "205", "/", "55", "R", "ZR", "RF", "-", "16", "22.5", " ", "91", "V", "121/118S",
                     "C", "E", "x", "10.50", "31", "11", "10PR", "XL", "load range ", "(95Y)", "(", ")", "M/C", "M+S",
                     "DOT", "3219", "329", "ABC", "<", ".", "0", "9" * 30, "\x00", "ß", "²", "٣"]),
    max_size=9,
).map("".join)  # fmt: skip
GARBAGE = st.one_of(st.text(max_size=100), PIECES)


@st.composite
def services(draw: st.DrawFn) -> tuple[int, int | None, str]:
    single = draw(st.integers(0, 180))
    return single, draw(st.none() | st.integers(0, single)), draw(st.sampled_from(SYMBOLS))


@given(
    prefix=st.sampled_from(["", "P", "LT", "T", "S", "ST", "HL"]), width=st.integers(12, 99).map(lambda step: 5 * step),
    aspect=st.integers(20, 100), mark=st.sampled_from("RDB"), rim=st.sampled_from(RIMS), service=services(),
    gap=st.sampled_from(["", " "]),
)  # fmt: skip
def test_a_metric_designation_is_read_as_written(
    prefix: str, width: int, aspect: int, mark: str, rim: str, service: tuple[int, int | None, str], gap: str
) -> None:
    single, dual, symbol = service
    loads = f"{single}" if dual is None else f"{single}/{dual}"

    tire = read_designation(f"{prefix}{gap}{width}/{aspect}{gap}{mark}{gap}{rim} {loads}{gap}{symbol}")

    assert (tire.prefix or "", tire.section_width_mm, tire.aspect_percent) == (prefix, width, aspect)
    assert (tire.construction, tire.rim_code) == (mark, rim)
    assert (tire.load_index_single, tire.load_index_dual, tire.speed_symbol) == (single, dual, symbol)
    assert read_designation(tire.text) == tire


@given(
    diameter=st.integers(21, 45), width=st.sampled_from(["8.50", "9.50", "10.50", "11.50", "12.50", "13.50"]),
    rim=st.sampled_from(["15", "16", "16.5", "17", "18", "20"]), letter=st.sampled_from("BCDEFG"),
)  # fmt: skip
def test_a_flotation_designation_larger_than_its_rim_is_read_as_written(
    diameter: int, width: str, rim: str, letter: str
) -> None:
    tire = read_designation(f"{diameter}x{width}R{rim}LT load range {letter}")

    assert (tire.overall_diameter_code, tire.section_code, tire.rim_code) == (str(diameter), width, rim)
    assert (tire.form, tire.suffix, tire.load_range) == ("flotation", "LT", letter)
    assert read_designation(tire.text) == tire


@given(
    width=st.sampled_from(["8", "9", "10", "11", "12", "13", "8.25", "9.00", "10.00", "11.00", "12.00"]),
    mark=st.sampled_from(["R", "-"]),
    rim=st.sampled_from(["20", "22", "22.5", "24.5"]),
    service=services(),
)
def test_a_code_designation_is_read_as_written(
    width: str, mark: str, rim: str, service: tuple[int, int | None, str]
) -> None:
    single, dual, symbol = service

    tire = read_designation(f"{width}{mark}{rim} {single}{'' if dual is None else f'/{dual}'}{symbol}")

    assert (tire.section_code, tire.rim_code, tire.construction) == (width, rim, "R" if mark == "R" else "D")
    assert (tire.section_width_mm, tire.aspect_percent, tire.kind) == (None, None, "truck")
    assert read_designation(tire.text) == tire


@given(front=st.lists(LETTERS, min_size=9, max_size=9).map("".join), day=st.dates(date(2000, 1, 2), date(2026, 11, 21)))
def test_a_new_number_is_read_as_written(front: str, day: date) -> None:
    week = int(day.strftime("%U")) or 1

    tin = read_tin(f"DOT {front[:3]} {front[3:]} {week:02d}{day:%y}", on=date(2026, 11, 25))

    assert (tin.plant_code, tin.maker_code) == (front[:3], front[3:])
    assert tin.date_code is not None
    assert (tin.date_code.week, tin.date_code.year) == (week, day.year)


@pytest.mark.parametrize("read", [read_designation, read_date_code, read_tin])
@settings(max_examples=1500)
@given(text=GARBAGE)
@example(text="205/55R16 91V\n")
@example(text="²05/55R16")
@example(text="1AB CDEFHJ 32²9")
@example(text="٣٢١٩")
def test_garbage_raises_marking_errors_and_nothing_else(read: Callable[[str], object], text: str) -> None:
    refused = None
    try:
        read(text)
    except MarkingError as error:
        refused = error

    assert refused is None or (refused.part and str(refused).isprintable())


@settings(max_examples=1500)
@given(text=PIECES)
def test_what_was_read_has_dimensions_loads_and_speeds_without_a_crash(text: str) -> None:
    try:
        tire = read_designation(text)
    except MarkingError:
        return

    dimensions(tire)
    assert read_designation(tire.text) == tire
    assert tire.speed_symbol is None or speed_limit(tire.speed_symbol) == tire.speed
    assert tire.load_index_single is None or load_capacity_kg(tire.load_index_single) == tire.load_single_kg


@pytest.mark.parametrize("value", [None, 0, 3219, 1.5, b"3219", ["3219"], {"a": 1}, True])
@pytest.mark.parametrize("read", [read_designation, read_date_code, read_tin, load_capacity_kg, speed_limit])
def test_a_value_of_another_type_is_refused_in_words(read: Callable[[object], object], value: object) -> None:
    if read is load_capacity_kg and type(value) is int and value == 0:
        assert load_capacity_kg(0) == 45  # UN Regulation No. 30, load index table
        return

    with pytest.raises(MarkingError):
        read(value)


# The ratio of neighbors is about 10^(1/80) = 1.029; a slip of the pen in the table would break the climb.
def test_loads_and_speeds_climb() -> None:
    loads = [load_capacity_kg(index) for index in range(181)]

    assert all(1.009 < after / before < 1.05 for before, after in pairwise(loads))
    in_order = [speed_limit(symbol).km_h for symbol in ["A1", "A8", *"BCDEFGJKLMNPQRSTUHVWY"]]
    assert in_order == sorted(set(in_order))
