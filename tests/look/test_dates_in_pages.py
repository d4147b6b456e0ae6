"""Days, instants and measures in pages: where a line may end within them."""

from datetime import UTC, date, datetime

import pytest

from training.templatetags.trade import clock, day, instant, measured
from training.trade.speech import in_language

AT = datetime(2026, 11, 30, 14, 5, 9, tzinfo=UTC)


# Source: Unicode CLDR, medium dates and short times of each language
@pytest.mark.parametrize(
    ("language", "days", "instants", "times"),
    [
        ("en-US", ["Nov 30, 2026"], ["Nov 30, 2026,", "2:05 PM"], ["2:05 PM"]),
        ("en-GB", ["30 Nov 2026"], ["30 Nov 2026,", "14:05"], ["14:05"]),
    ],
)
def test_a_lines_end_parts_a_day_from_its_time_alone(language, days, instants, times) -> None:
    with in_language(language):
        written = [day(date(2026, 11, 30)), instant(AT), clock(AT)]

    assert [lines_of(text) for text in written] == [days, instants, times]


def test_a_lines_end_parts_no_number_from_its_unit() -> None:
    parted = lines_of(measured("It is 1 1/2 in (38 mm) wide, 12 inner tires at 80% of 36 psi."))

    assert parted == ["It", "is", "1 1/2 in", "(38 mm)", "wide,", "12", "inner", "tires", "at", "80%", "of", "36 psi."]


def lines_of(text: str) -> list[str]:
    """The lines of a text in a column of no width, with its no-break spaces plain."""
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in text.split(" ")]
