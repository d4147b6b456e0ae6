"""Words in a row, as a sentence joins them."""

from __future__ import annotations

from collections.abc import Iterable


def all_of(words: Iterable[str]) -> str:
    """Words joined as a sentence joins them; empty for none. A comma keeps apart words that hold an "and" themselves.

    >>> all_of(["a", "b", "c"]), all_of(["truck and bus tires", "motorcycle tires"])
    ('a, b and c', 'truck and bus tires, and motorcycle tires')
    """
    told = tuple(words)
    return _joined(told, ", and " if any(" and " in one for one in told) else " and ")


def one_of(words: Iterable[str]) -> str:
    """Words as a choice in a sentence; empty for none.

    >>> one_of(["in", "mm"]), one_of(["a", "b", "c"])
    ('in or mm', 'a, b or c')
    """
    return _joined(tuple(words), " or ")


def _joined(words: tuple[str, ...], last: str) -> str:
    return f"{', '.join(words[:-1])}{last}{words[-1]}" if len(words) > 1 else "".join(words)
