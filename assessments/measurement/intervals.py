"""How sure a share of right answers makes us. Pure numbers, no models."""

from math import sqrt
from statistics import NormalDist


def wilson(right: int, asked: int, *, confidence: float = 0.90) -> tuple[float, float]:
    """The score interval of a proportion, both ends in 0..1; all of 0..1 when nothing was asked.

    Raises ValueError when `right` is not within 0..`asked` or `confidence` not within 0..1.
    Source: Wilson, Journal of the American Statistical Association 22 (1927) 209-212, without continuity correction.

    >>> tuple(round(end, 4) for end in wilson(81, 263, confidence=0.95))
    (0.2553, 0.3662)
    """
    if not 0 <= right <= asked:
        raise ValueError(f"right: {right} is not accepted; give a whole number from 0 to {asked}")
    if not 0 < confidence < 1:
        raise ValueError(f"confidence: {confidence} is not accepted; give a number above 0 and below 1")
    if asked == 0:
        return 0.0, 1.0
    z = NormalDist().inv_cdf((1 + confidence) / 2)
    share = right / asked
    middle = share + z * z / (2 * asked)
    half = z * sqrt(share * (1 - share) / asked + z * z / (4 * asked * asked))
    below = 1 + z * z / asked
    return max(0.0, (middle - half) / below), min(1.0, (middle + half) / below)
