"""For what may be missing in the product and must be there in a test."""

from typing import TypeVar

T = TypeVar("T")


def present(value: T | None) -> T:
    """The value; the test fails where there is none."""
    assert value is not None
    return value
