"""The interval beside every share of right answers, against published values."""

import pytest

from assessments.measurement.intervals import wilson

# Wilson's score interval without continuity correction, 95 %: R 4.2.2 prop.test(correct=FALSE) and statsmodels 0.15.0,
# which agree to 1e-6.
PUBLISHED = [
    (0, 10, 0.000000, 0.277533),
    (7, 10, 0.396778, 0.892209),
    (9, 10, 0.595850, 0.982124),
    (10, 10, 0.722467, 1.000000),
    (18, 20, 0.698966, 0.972134),
    (34, 40, 0.709277, 0.929388),
    (160, 200, 0.739145, 0.849548),
]


@pytest.mark.parametrize(("right", "asked", "lower", "upper"), PUBLISHED)
def test_the_interval_is_the_published_one(right, asked, lower, upper) -> None:
    assert wilson(right, asked, confidence=0.95) == pytest.approx((lower, upper), abs=1e-6)


def test_nothing_asked_says_nothing() -> None:
    assert wilson(0, 0) == (0.0, 1.0)


@pytest.mark.parametrize(("right", "asked"), [(-1, 3), (4, 3)])
def test_impossible_counts_are_refused_in_words(right, asked) -> None:
    with pytest.raises(ValueError, match=f"right: {right} is not accepted; give a whole number from 0 to {asked}"):
        wilson(right, asked)


def test_an_impossible_confidence_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match=r"confidence: 1.5 is not accepted"):
        wilson(1, 2, confidence=1.5)
