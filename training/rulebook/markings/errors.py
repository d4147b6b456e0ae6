"""What is wrong with a marking, and the one way text from a sidewall is tidied before it is read."""

from __future__ import annotations

from training.trade.speech import say, saying

LONGEST = 80
_SPELLINGS = str.maketrans(
    {"×": "x", "–": "-", "‐": "-", "‑": "-", "−": "-", "\u00a0": " ", "\u202f": " ", "\u2009": " "}
)


class MarkingError(ValueError):
    """A marking cannot be what a maker molded: `part` is wrong, `found` was read, `accepted` could stand there.

    `problem` is a marked text with the place `found`, and with the further `places` that it names.
    """

    def __init__(
        self,
        part: str,
        found: object,
        accepted: str,
        *,
        problem: str = saying("{found} is not accepted"),
        **places: object,
    ) -> None:
        self.part, self.found, self.accepted = part, found, accepted
        wrong = say(problem, found=shown(found), **places)
        super().__init__(f"{part}: {wrong}; {accepted}")


def shown(value: object) -> str:
    """A value in quotes for a message, cut to a readable length and with nothing unprintable in it.

    >>> shown("91X")
    '"91X"'
    """
    if not isinstance(value, str):
        return f"a {type(value).__name__}"
    text = "".join(sign if sign.isprintable() else "?" for sign in value[:LONGEST])
    return f'"{text}{"..." if len(value) > LONGEST else ""}"'


def tidy(value: object, part: str, accepted: str) -> str:
    """The text in capitals with single spaces; MarkingError for anything that is not a line of plain characters.

    >>> tidy(" lt245/75r16 ", "size", "")
    'LT245/75R16'
    """
    if not isinstance(value, str):
        raise MarkingError(part, value, accepted, problem=saying("{found} is not text"))
    text = " ".join(value.translate(_SPELLINGS).split())
    if not text:
        raise MarkingError(part, value, accepted, problem=saying("{found} is empty"))
    if len(text) > LONGEST:
        raise MarkingError(part, value, accepted, problem=saying("{found} is too long"))
    for sign in text:
        if not (sign.isascii() and sign.isprintable()):
            raise MarkingError(
                part,
                value,
                accepted,
                problem=saying("{found} holds {sign}, which is never molded on a tire"),
                sign=shown(sign),
            )
    return text.upper()
