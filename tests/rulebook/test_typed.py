"""What people type as a quantity, held against pint and the fractions of the standard library."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rulebook.test_quantity import PINT, PINT_NAMES
from training.rulebook import parse_quantity, read_as, typed_quantities, typed_quantity, unit_label, units_offered
from training.rulebook.quantities import UNITS

# what pint calls what a person may write behind a number; pint has no name for a thirty-second of an inch
WRITTEN = {
    "length": {"in": "inch", '"': "inch", "inches": "inch", "mm": "millimeter", "MM": "millimeter"},
    "pressure": {"psi": "pound_force_per_square_inch", "PSI": "pound_force_per_square_inch", "kPa": "kilopascal",
                 "kpa": "kilopascal", "bar": "bar"},
    "mass": {"lb": "pound", "lbs": "pound", "kg": "kilogram"},
    "torque": {"ft-lb": "foot*pound_force", "ft-lbs": "foot*pound_force", "lb-ft": "foot*pound_force",
               "Nm": "newton*meter", "N·m": "newton*meter"},
    "distance": {"mi": "mile", "miles": "mile", "km": "kilometer"},
    "time": {"min": "minute", "mins": "minute", "h": "hour", "hr": "hour", "s": "second"},
}  # fmt: skip
DIMENSIONS = sorted(WRITTEN)
METRIC_LENGTHS = ("mm", "cm", "m")


def worth(number: Fraction, unit: str, dimension: str) -> float:
    """What an independent library makes of a number of a unit, in the base unit of the rulebook."""
    base = PINT_NAMES[next(iter(UNITS[dimension]))]
    return float(PINT.Quantity(float(number), unit).to(base).magnitude)


@st.composite
def numbers(draw: st.DrawFn) -> tuple[str, Fraction]:
    """A number as one writes it on a ticket, and what it is worth."""
    whole = draw(st.integers(0, 400))
    match draw(st.sampled_from(["whole", "point", "comma", "fraction", "mixed", "sign"])):
        case "whole":
            return str(whole), Fraction(whole)
        case "point":
            text = f"{whole}.{draw(st.integers(0, 99)):02}"
            return text, Fraction(text)
        case "comma":
            text = f"{whole},{draw(st.integers(0, 99)):02}"
            return text, Fraction(text.replace(",", "."))
        case "fraction":
            top, bottom = draw(st.integers(1, 31)), draw(st.sampled_from([2, 4, 8, 16, 32, 64]))
            return f"{top}/{bottom}", Fraction(top, bottom)
        case "mixed":
            return f"{whole} 3/8", whole + Fraction(3, 8)
    return f"{whole} ½", whole + Fraction(1, 2)


@given(numbers(), st.sampled_from(DIMENSIONS), st.data())
def test_a_bare_number_is_of_the_unit_shown(number: tuple[str, Fraction], dimension: str, data: st.DataObject) -> None:
    text, value = number
    shown = data.draw(st.sampled_from([one for one in UNITS[dimension] if one not in METRIC_LENGTHS]))

    read = typed_quantity(text, shown, dimension)

    assert read.unit == shown
    assert float(read.value) == pytest.approx(worth(value, PINT_NAMES[shown], dimension), rel=1e-12)


@given(numbers(), st.sampled_from(DIMENSIONS), st.sampled_from(["", " ", "  "]), st.data())
def test_a_number_with_a_unit_keeps_its_own(
    number: tuple[str, Fraction], dimension: str, gap: str, data: st.DataObject
) -> None:
    text, value = number
    written = data.draw(st.sampled_from(sorted(WRITTEN[dimension])))
    shown = data.draw(st.sampled_from(["", "32nds", *UNITS[dimension]]))

    read = typed_quantity(f"{text}{gap}{written}", shown, dimension)

    assert float(read.value) == pytest.approx(worth(value, WRITTEN[dimension][written], dimension), rel=1e-12)


@given(st.integers(0, 64), st.sampled_from(["{}", "{}/32", " {} ", "{}/32nds", "{} 32nds", '{}/32"', "{}/32in"]))
def test_a_tread_gauge_is_read_in_thirty_seconds(count: int, written: str) -> None:
    assert typed_quantity(written.format(count), "32nds", "length").value == Fraction(count, 32) * Fraction("25.4")


@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(["", " lb", " psi"]))
def test_a_comma_that_may_part_thousands_is_refused_with_both_readings(first: int, last: int, unit: str) -> None:
    with pytest.raises(ValueError, match=f"can be {first}{last:03} or {first}.{last:03}; write it without the comma"):
        typed_quantity(f"{first},{last:03}{unit}", "lb", "mass")


@pytest.mark.parametrize(
    ("text", "shown", "dimension", "read", "told"),
    [
        ("3/16", "in", "length", "3/16 in", "3/16 in (4.8 mm)"),  # 3 * 25.4 / 16 = 4.76
        ("6/32", "32nds", "length", "6/32 in", "6/32 in (4.8 mm)"),
        ("10", "32nds", "length", "10/32 in", "10/32 in (7.9 mm)"),  # 7.94
        ("5.5", "32nds", "length", "11/64 in", "11/64 in (4.4 mm)"),
        ("5,5", "mm", "length", "5.5 mm", "5.5 mm (7/32 in)"),  # 5.5 / 25.4 * 32 = 6.93
        ("0,250", "in", "length", "0.250 in", "0.250 in (6.4 mm)"),  # no thousands begin with nought
        ("2 1/4", "in", "length", "2 1/4 in", "2 1/4 in (57.2 mm)"),
        ("3 / 16", "in", "length", "3/16 in", "3/16 in (4.8 mm)"),
        ("5.5mm", "in", "length", "5.5 mm", "5.5 mm (7/32 in)"),
        ("32psi", "kPa", "pressure", "32 psi", "32 psi (221 kPa)"),  # 220.6
        ("2,4 bar", "psi", "pressure", "2.4 bar", "2.4 bar (35 psi)"),  # 34.8
        ("90 ft-lb", "N.m", "torque", "90 lbf.ft", "90 ft-lb (122 N·m)"),
        ("25°", "deg", "angle", "25 deg", "25°"),
        ("25", "deg", "angle", "25 deg", "25°"),
        ("70", "F", "temperature", "70 F", "70 °F (21.1 °C)"),
        ("-3/4", "in", "length", "-3/4 in", "-3/4 in (-19 mm)"),  # 19.05
        # nobody counts thousandths of a turn: three digits after a comma are a thousand; Unicode CLDR, en-US and en-GB
        ("1,200", "rpm", "speed", "1200 rpm", "1,200 rpm"),
        ("1,200 rpm", "rpm", "speed", "1200 rpm", "1,200 rpm"),
        ("12,000 rpm", "", "speed", "12000 rpm", "12,000 rpm"),
        ("1200", "rpm", "speed", "1200 rpm", "1,200 rpm"),
        ("1,2", "rpm", "speed", "1.2 rpm", "1.2 rpm"),
        ("80%", "%", "percent", "80 %", "80%"),
        ("80 %", "%", "percent", "80 %", "80%"),
        ("5,5 %", "%", "percent", "5.5 %", "5.5%"),
    ],
)
def test_these_are_understood_and_told_in_both_systems(text, shown, dimension, read, told) -> None:
    found = typed_quantity(text, shown, dimension)

    assert (found.text, read_as(found)) == (read, told)


@pytest.mark.parametrize(
    ("text", "shown", "words"),
    [
        ("6", "", '"6" is not a length; give a number and a unit'),
        ("1/4", "mm", '"1/4" is a fraction, and the unit beside it is mm;'),
        ("1/4", "32nds", '"1/4" is a fraction, and the field counts 32nds of an inch;'),
        ("5 1/2", "32nds", "is a fraction"),
        ("6 psi", "mm", '"6 psi" is not a length'),
        ("6 furlong", "mm", '"6 furlong" is not a length'),
        ("6", "furlong", '"6" is not a length'),
        ("1,234.5", "mm", '"1,234.5" is not a length'),
        ("1,234,567", "mm", '"1,234,567" is not a length'),
        ("5-6", "mm", '"5-6" is not a length'),
        ("1/0", "in", '"1/0" is not a length'),
        ("6" * 50, "mm", "is not a length"),
    ],
)
def test_these_are_refused_in_words(text, shown, words) -> None:
    with pytest.raises(ValueError) as refused:
        typed_quantity(text, shown, "length")

    assert words in str(refused.value)


def test_where_an_angle_or_a_length_may_stand_the_unit_shown_says_which() -> None:
    assert typed_quantity("90", "deg", "angle", "length").text == "90 deg"
    assert typed_quantity("20", "in", "angle", "length").text == "20 in"
    assert typed_quantity("500 mm", "deg", "angle", "length").text == "500 mm"


@pytest.mark.parametrize(
    ("text", "shown", "read"),
    [
        ("6, 5, 6/32", "32nds", ["6/32 in", "5/32 in", "6/32 in"]),
        ("5/32 in, 6/32 in", "mm", ["5/32 in", "6/32 in"]),
        ("5,5; 6,1; 5", "mm", ["5.5 mm", "6.1 mm", "5 mm"]),
        ("6/32,5/32", "in", ["6/32 in", "5/32 in"]),
        ("5 mm,6 mm", "in", ["5 mm", "6 mm"]),
        ("6,", "mm", ["6 mm"]),
    ],
)
def test_several_readings_stand_in_one_field(text, shown, read) -> None:
    assert [one.text for one in typed_quantities(text, shown, "length")] == read


@pytest.mark.parametrize("text", ["5,5", "5,5 mm", "5,6, 7,8", "1,2,3"])
def test_a_comma_that_is_a_decimal_comma_or_parts_two_readings_is_refused(text) -> None:
    with pytest.raises(ValueError, match="can be one reading or several; write a decimal with a point"):
        typed_quantities(text, "mm", "length")


@given(st.text(max_size=60), st.sampled_from(["", "in", "mm", "32nds", "psi"]))
def test_no_text_makes_the_reader_stumble(text: str, shown: str) -> None:
    for read in (typed_quantity, typed_quantities):
        refusal = "read"
        try:
            read(text, shown, "length")
        except ValueError as refused:
            refusal = str(refused)

        assert refusal.isprintable()


@pytest.mark.parametrize("dimension", ["tread", *UNITS])
@pytest.mark.parametrize("prefer", ["in", "mm"])
def test_every_unit_offered_is_taken(dimension, prefer) -> None:
    measured = "length" if dimension == "tread" else dimension
    for unit in units_offered(dimension, prefer):
        assert typed_quantity("3", unit, measured).dimension == measured
        assert typed_quantity(f"3 {unit_label(unit)}", "", measured) == typed_quantity("3", unit, measured)


# data files and JSON name the unit: 49 CFR 570.9 states tread as "2/32 of an inch", never as a bare figure
@pytest.mark.parametrize("text", ["6", "5,5 mm", "3 / 16 in", "6 32nds"])
def test_data_stays_strict(text) -> None:
    with pytest.raises(ValueError, match="is not a length"):
        parse_quantity(text, "length")
