"""For what may be missing, or of another kind, in the product and must be there in a test."""

from typing import TypeVar

T = TypeVar("T")


def present(value: T | None) -> T:
    """The value; the test fails where there is none."""
    assert value is not None
    return value


def as_a(kind: type[T], value: object) -> T:
    """The value, which may be one of several kinds, as the one it must be here."""
    assert isinstance(value, kind), f"{value!r} is no {kind.__name__}"
    return value
