"""Tire identification numbers: 13 symbols on a new tire, 7 on a retread, fewer on older ones; 49 CFR 574.5."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from training.rulebook.markings.dates import DateCode, read_date_code
from training.rulebook.markings.errors import MarkingError, tidy
from training.trade.lists import either
from training.trade.speech import say, saying

# The letters that the regulation leaves out look like others (49 CFR 574.5, from memory).
_UNUSED = {"G": ("6", "C"), "I": ("1",), "O": ("0", "D"), "Q": ("0",), "S": ("5", "8"), "Z": ("2", "7")}
_LEAD = re.compile(r"(?:DOT)?\s?-?\s?(?P<retread>R(?=[\s-]))?[\s-]*")
_GROUPS = re.compile(r"[\s\-./]+")
_ACCEPTED = saying(
    'give the number as molded after the letters DOT, for example "DOT 1AB CDEFHJ 3219": 13 '
    "symbols on a new tire, 7 on a retread, 8 to 12 on a tire made before April 2025"
)
_NEW_LENGTH, _RETREAD_LENGTH, _PARTIAL_LENGTH = 13, 7, 9
_NEW_PLANT, _OLD_PLANT, _SIZE = 3, 2, 2
_SHORTEST, _LONGEST_OPTIONAL = 4, 4
_OTHER_SIDE = saying("no date code here: the full number may stand on the other sidewall")


@dataclass(frozen=True, slots=True)
class Tin:
    """One tire identification number, group by group.

    `form`: "new" (13 symbols), "older" (8 to 12, or 7 before 2000), "retread" (7), "older-retread", or "partial" (no
    date code: the outer sidewall may lawfully carry only the front). `is_retread` says whether a retreader put this
    number on, None where it can be either; a retread keeps its maker's number beside it, so look for a second one
    before you call a tire new. `doubts` says in a sentence each what has to be looked at again.
    """

    text: str
    form: str
    plant_code: str
    size_code: str | None
    maker_code: str | None
    date_code: DateCode | None
    is_retread: bool | None
    doubts: tuple[str, ...]


def read_tin(text: str, *, is_retread: bool | None = None, on: date | None = None) -> Tin:
    """Read a tire identification number as molded, with or without the letters DOT and the gaps between its groups.

    `is_retread` is what the sidewall says elsewhere ("RETREAD"); an R beside the letters DOT says it too. With `on`,
    the day of the inspection, a date code in the future is refused.
    Raises MarkingError naming plant code, size code, week, year or the length.
    Source: 49 CFR 574.5; groups of older numbers and of retreads from memory.

    >>> tin = read_tin("DOT 1AB CDEFHJ 3219")
    >>> tin.form, tin.plant_code, tin.date_code.first_day.isoformat()
    ('new', '1AB', '2019-08-11')
    >>> read_tin("DOT R ABC 2515").is_retread
    True
    """
    line = tidy(text, say("identification number"), _ACCEPTED)
    lead = _LEAD.match(line)
    is_marked = lead is not None and lead["retread"] is not None
    if is_marked and is_retread is False:
        raise MarkingError(
            say("identification number"), line, say("an R beside DOT marks a retread; say that it is one")
        )
    groups = tuple(group for group in _GROUPS.split(line[lead.end() :] if lead else line) if group)
    symbols = "".join(groups)
    if not _SHORTEST <= len(symbols) <= _NEW_LENGTH:
        raise MarkingError(
            say("identification number"),
            line,
            _ACCEPTED,
            problem=saying("{found} has {count} symbols"),
            count=len(symbols),
        )
    if not symbols.isalnum():
        raise MarkingError(say("identification number"), line, say("it holds letters and numerals only"))
    retread = True if is_marked else is_retread
    digits, doubts = _date_digits(symbols, groups, retread, on)
    code = read_date_code(symbols[-digits:], on=on) if digits else None
    form, settled = _form(symbols, digits, retread, is_open=bool(doubts))
    front = symbols[: len(symbols) - digits]
    plant, size, maker = _front(front, form)
    for part, read in ((say("plant code"), plant), (say("size code"), size)):
        _refuse_unused(part, read or "")
    doubts += tuple(
        say(
            '"{letter}" in "{maker}" is not among the letters of an identification number: {unused}?',
            letter=letter,
            maker=maker,
            unused=either(_UNUSED[letter]),
        )
        for letter in sorted(set(maker or "") & set(_UNUSED))
    )
    if form == "partial":
        doubts = (*doubts, _OTHER_SIDE)
    return Tin(line, form, plant, size, maker or None, code, settled, doubts)


def _date_digits(
    symbols: str, groups: tuple[str, ...], retread: bool | None, on: date | None
) -> tuple[int, tuple[str, ...]]:
    """How many digits the date code at the end has, 0 for none, and what is doubtful about that."""
    must_be_four = len(symbols) == _NEW_LENGTH or (len(symbols) == _RETREAD_LENGTH and retread is True)
    if must_be_four:
        if not symbols[-4:].isdecimal():
            raise MarkingError(
                say("date code"),
                symbols[-4:],
                say("{count} symbols end with week and year, four digits", count=len(symbols)),
            )
        return 4, ()
    if len(groups) > 1 and groups[-1].isdecimal() and len(groups[-1]) in (3, 4):
        return len(groups[-1]), ()
    possible = [digits for digits in (4, 3) if _is_date(symbols, digits, retread, on)]
    if possible == [4, 3]:
        return 4, (
            say(
                'the date code may be "{four}" or, on a tire made before 2000, "{three}": see '
                "which digits stand in a group of their own",
                four=symbols[-4:],
                three=symbols[-3:],
            ),
        )
    if possible:
        return possible[0], ()
    if symbols[-4:].isdecimal():
        read_date_code(symbols[-4:], on=on)
    if len(symbols) > _PARTIAL_LENGTH:
        raise MarkingError(say("date code"), symbols[-4:], say("the number ends with week and year, such as 3219"))
    return 0, ()


def _is_date(symbols: str, digits: int, retread: bool | None, on: date | None) -> bool:
    """Whether the last digits are a date code that does not leave too much before it."""
    most = (_NEW_PLANT if retread else _OLD_PLANT) + _SIZE + _LONGEST_OPTIONAL
    if not symbols[-digits:].isdecimal() or len(symbols) - digits > most:
        return False
    try:
        read_date_code(symbols[-digits:], on=on)
    except MarkingError:
        return False
    return True


def _form(symbols: str, digits: int, retread: bool | None, *, is_open: bool) -> tuple[str, bool | None]:
    """Form of the number, and whether a retreader put it on."""
    length = len(symbols)
    if digits == 0:
        return "partial", retread
    if length == _NEW_LENGTH:
        return ("older-retread", True) if retread else ("new", False)
    if length == _RETREAD_LENGTH and digits == 4:
        if retread is False:
            accepted = say("seven symbols with a four-digit date code are a retread's; a new tire has 13")
            raise MarkingError(say("identification number"), symbols, accepted, problem=saying("{found} is too short"))
        return "retread", None if is_open and retread is None else True
    front = length - digits
    plant = _NEW_PLANT if retread else _OLD_PLANT
    if not plant + _SIZE <= front <= plant + _SIZE + _LONGEST_OPTIONAL:
        raise MarkingError(
            say("identification number"),
            symbols,
            _ACCEPTED,
            problem=saying("{found} has {count} symbols"),
            count=length,
        )
    return ("older-retread", True) if retread else ("older", False)


def _front(front: str, form: str) -> tuple[str, str | None, str | None]:
    """Plant code, size code and the maker's own symbols."""
    if form == "retread":
        return front, None, None
    if form == "new" or (form == "partial" and len(front) == _PARTIAL_LENGTH):
        return front[:_NEW_PLANT], None, front[_NEW_PLANT:]
    plant = _NEW_PLANT if form == "older-retread" else _OLD_PLANT
    return front[:plant], front[plant : plant + _SIZE], front[plant + _SIZE :]


def _refuse_unused(part: str, read: str) -> None:
    for letter in read:
        if letter in _UNUSED:
            raise MarkingError(
                part,
                read,
                say("read it again: {unused}?", unused=either(_UNUSED[letter])),
                problem=saying('{found} holds "{letter}", which no identification number has'),
                letter=letter,
            )
