"""Quantities: what may be written, what it is worth, and how it is printed."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from training.rulebook import parse_quantity, show
from training.rulebook.quantities import UNITS, in_unit

PINT: pint.UnitRegistry[Fraction] = pint.UnitRegistry(non_int_type=Fraction)
PINT_NAMES = {
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "in": "inch",
    "deg": "degree",
    "rpm": "revolution_per_minute",
    "kPa": "kilopascal",
    "bar": "bar",
    "psi": "pound_force_per_square_inch",
    "min": "minute",
    "s": "second",
    "h": "hour",
    "kg": "kilogram",
    "lb": "pound",
    "t": "metric_ton",
    "N.m": "newton*meter",
    "lbf.ft": "pound_force*foot",
    "km": "kilometer",
    "mi": "mile",
}


@pytest.mark.parametrize("dimension", ["length", "pressure", "time", "mass", "torque", "distance"])
def test_every_unit_is_worth_what_an_independent_library_says(dimension: str) -> None:
    base = next(iter(UNITS[dimension]))
    for unit in UNITS[dimension]:
        independent = PINT.Quantity(1.0, PINT_NAMES[unit]).to(PINT_NAMES[base]).magnitude
        assert float(parse_quantity(f"1 {unit}", dimension).value) == pytest.approx(independent, rel=1e-12)


@pytest.mark.parametrize(("text", "celsius"), [("32 F", 0), ("212 F", 100), ("-40 F", -40), ("21 C", 21)])
def test_temperatures_meet_at_the_points_everyone_knows(text: str, celsius: int) -> None:
    assert parse_quantity(text, "temperature").value == celsius


@pytest.mark.parametrize(
    ("text", "stated", "millimeters"),
    [
        ("1/4 in", "1/4 in", Fraction("6.35")),  # 25.4 / 4
        ("6 mm", "6 mm", Fraction(6)),
        ("6mm", "6 mm", Fraction(6)),
        ("  6   mm ", "6 mm", Fraction(6)),
        ("0.25 in", "0.25 in", Fraction("6.35")),
        (".25 in", "0.25 in", Fraction("6.35")),
        ("1 1/2 in", "1 1/2 in", Fraction("38.1")),
        ("1-1/2 in", "1 1/2 in", Fraction("38.1")),
        ("1½ in", "1 1/2 in", Fraction("38.1")),
        ("¼ in", "1/4 in", Fraction("6.35")),
        ("4/32 in", "4/32 in", Fraction("3.175")),  # stays in 32nds, as the trade reads a tread gauge
        ('3/8"', "3/8 in", Fraction("9.525")),
        ("3/8 inches", "3/8 in", Fraction("9.525")),
        ("-10 mm", "-10 mm", Fraction(-10)),
        ("−10 mm", "-10 mm", Fraction(-10)),  # a real minus sign
        ("+10 mm", "10 mm", Fraction(10)),
        ("6\u00a0mm", "6 mm", Fraction(6)),
        ("6 MM", "6 mm", Fraction(6)),
    ],
)
def test_a_length_may_be_written_in_these_ways(text: str, stated: str, millimeters: Fraction) -> None:
    length = parse_quantity(text, "length")

    assert (length.text, length.value) == (stated, millimeters)


@pytest.mark.parametrize(
    "text",
    [
        "7,5",
        "7,5 mm",
        "6",
        "",
        " ",
        "mm",
        "1/0 in",
        "1//4 in",
        "NaN mm",
        "inf mm",
        "1e9 mm",
        "6 mm 7 mm",
        "6 kPa",
        "٦ mm",
        "- mm",
        "--6 mm",
        "1 1/2",
        "0x10 mm",
        "6 mm\x00",
        "9" * 40 + " mm",
        "6 mmm",
        "1/4/2 in",
    ],
)
def test_anything_else_is_refused_with_what_is_accepted(text: str) -> None:
    with pytest.raises(ValueError, match="is not a length; give a number and a unit, for example") as refused:
        parse_quantity(text, "length")

    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("value", [6, 6.0, True, None, ["6 mm"], float("nan"), 10**400, b"6 mm"])
def test_a_bare_number_is_refused(value: object) -> None:
    with pytest.raises(ValueError, match="is not a length; give a number and a unit"):
        parse_quantity(value, "length")


@pytest.mark.parametrize(
    ("text", "dimension", "prefer", "printed"),
    [
        ("1/4 in", "length", "in", "1/4 in (6.4 mm)"),
        ("1/4 in", "length", "mm", "6.4 mm (1/4 in)"),
        ("6 mm", "length", "mm", "6 mm (1/4 in)"),  # 6 / 25.4 = 7.56/32, nearest 8/32
        ("20 mm", "length", "in", "25/32 in (20 mm)"),  # 20 / 25.4 * 32 = 25.2
        ("38.1 mm", "length", "in", "1 1/2 in (38.1 mm)"),
        ("0.1 mm", "length", "in", "less than 1/32 in (0.1 mm)"),
        ("0 mm", "length", "in", "0 in (0 mm)"),
        ("40 psi", "pressure", "in", "40 psi (276 kPa)"),
        ("12 deg", "angle", "mm", "12°"),
        ("1200 rpm", "speed", "in", "1,200 rpm"),  # Unicode CLDR, en-US and en-GB
        ("80 %", "percent", "in", "80%"),
        ("10001 lb", "mass", "in", "10,001 lb (4,536 kg)"),
        ("70 F", "temperature", "mm", "21.1 °C (70 °F)"),
        ("450 lbf.ft", "torque", "in", "450 ft-lb (610 N·m)"),  # 1 ft-lb = 1.3558 N·m
    ],
)
def test_a_quantity_is_printed_in_both_systems(text: str, dimension: str, prefer: str, printed: str) -> None:
    assert show(parse_quantity(text, dimension), prefer=prefer) == printed


@given(st.fractions(min_value=-1000, max_value=1000, max_denominator=64), st.sampled_from(["mm", "in", "cm", "m"]))
def test_what_is_read_from_its_own_text_is_the_same_quantity(number: Fraction, unit: str) -> None:
    once = parse_quantity(f"{'-' if number < 0 else ''}{abs(number.numerator)}/{number.denominator} {unit}", "length")

    assert parse_quantity(once.text, "length") == once
    assert in_unit(once, unit) == number


@given(st.text(max_size=60))
def test_no_text_makes_the_reader_stumble(text: str) -> None:
    refusal = "read"
    try:
        parse_quantity(text, "length")
    except ValueError as refused:
        refusal = str(refused)

    assert refusal.isprintable()
