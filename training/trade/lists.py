"""Words in a row, as a sentence joins them."""

from __future__ import annotations

from collections.abc import Iterable

from training.trade.speech import say


def all_of(words: Iterable[str]) -> str:
    """Words joined as a sentence joins them; empty for none. A comma keeps apart words that hold an "and" themselves.

    >>> all_of(["a", "b", "c"]), all_of(["truck and bus tires", "motorcycle tires"])
    ('a, b and c', 'truck and bus tires, and motorcycle tires')
    """
    told = tuple(map(str, words))
    if len(told) < 2:
        return "".join(told)
    most, last = ", ".join(told[:-1]), told[-1]
    between = say("{most} and {last}", most="", last="")
    if any(between in one for one in told):
        return say("{most}, and {last}", most=most, last=last)
    return say("{most} and {last}", most=most, last=last)


def either(words: Iterable[str]) -> str:
    """Words that are told one by one, as a limit names them.

    >>> either(["a", "b", "c"])
    'a or b or c'
    """
    first, *others = map(str, words)
    for other in others:
        first = say("{most} or {last}", most=first, last=other)
    return first


def one_of(words: Iterable[str]) -> str:
    """Words as a choice in a sentence; empty for none.

    >>> one_of(["in", "mm"]), one_of(["a", "b", "c"])
    ('in or mm', 'a, b or c')
    """
    told = tuple(map(str, words))
    return say("{most} or {last}", most=", ".join(told[:-1]), last=told[-1]) if len(told) > 1 else "".join(told)
