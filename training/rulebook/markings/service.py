"""The service description after a size: load index, speed symbol, load range, ply rating and the words beside them."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TypeVar

from training.rulebook.markings.errors import MarkingError
from training.rulebook.markings.tables import is_speed_symbol, load_capacity_kg, load_ranges, speed_limit
from training.trade.speech import say, saying

# One spelling for each word that may stand beside a size.
WORDS = {
    "EXTRA LOAD": "XL", "XL": "XL", "LIGHT LOAD": "LL", "LL": "LL", "STANDARD LOAD": "SL", "SL": "SL",
    "REINFORCED": "XL", "REINF.": "XL", "REINF": "XL",
    "M+S": "M+S", "M&S": "M+S", "M/S": "M+S", "M.S.": "M+S", "MS": "M+S", "3PMSF": "3PMSF",
    "TUBELESS": "TUBELESS", "TL": "TUBELESS", "TUBE TYPE": "TUBE TYPE", "TUBE-TYPE": "TUBE TYPE", "TT": "TUBE TYPE",
    "FRT": "FRT", "POR": "POR", "MPT": "MPT", "ET": "ET", "ML": "ML", "NHS": "NHS", "REGROOVABLE": "REGROOVABLE",
}  # fmt: skip
LOAD_VERSIONS = ("XL", "LL", "SL")
ABOVE = {"Y": "(Y)", "W": "(W)"}  # in brackets: faster than the letter alone
T = TypeVar("T")
_END = r"(?=[\s/(\[,]|$)"
_GAP = re.compile(r"[\s/,]+")
_LOADS = r"(?P<single>[0-9]{1,3})(?:\s?/\s?(?P<dual>[0-9]{1,3}))?"
_WORD = re.compile("(?:" + "|".join(re.escape(word) for word in sorted(WORDS, key=len, reverse=True)) + ")" + _END)
_ABOVE = re.compile(rf"(?:\(\s?{_LOADS}\s?(?P<inside>[WY])\s?\)|(?P<outside>[0-9]{{1,3}})\s?\((?P<alone>[WY])\)){_END}")
_SECOND = re.compile(rf"[(\[]\s?{_LOADS}\s?(?P<symbol>[A-Z][0-9]?)\s?[)\]]{_END}")
_SERVICE = re.compile(rf"{_LOADS}(?:\s?(?P<symbol>[A-Z][0-9]?))?{_END}")
_PLY = re.compile(rf"(?P<plies>[0-9]{{1,2}})\s?-?\s?(?:PR|P\.R\.|PLY(?: RATING| RATED)?){_END}")
_RANGE = re.compile(rf"(?:LOAD\s?RANGE|LR)\s?[:=-]?\s?(?P<letter>[A-Z]){_END}")
_LETTER = re.compile(rf"(?P<letter>[A-Z]){_END}")
_TOKEN = re.compile(r"[^\s,]+")
_ACCEPTED = saying(
    'after the size give load index and speed symbol such as 91V or 121/118S, a load range such as "load range E", '
    "a ply rating such as 10PR, or words such as XL, M+S, tubeless"
)
_LOAD_RANGE_ACCEPTED = saying("a load range is one of the letters A to H, J, L, M and N")


@dataclass(frozen=True, slots=True)
class ServiceIndex:
    """One load index, single or single and dual, with its speed symbol."""

    single: int
    dual: int | None
    speed_symbol: str | None

    @property
    def text(self) -> str:
        """In one spelling, such as 121/118S."""
        loads = f"{self.single}" if self.dual is None else f"{self.single}/{self.dual}"
        symbol = self.speed_symbol or ""
        return f"({loads}{symbol[1]})" if symbol in ABOVE.values() else f"{loads}{symbol}"


@dataclass(slots=True)
class Service:
    """What was read after the size; None or empty where nothing stood."""

    index: ServiceIndex | None = None
    second: ServiceIndex | None = None
    load_range: str | None = None
    ply_rating: int | None = None
    load_version: str | None = None
    marks: list[str] = field(default_factory=list)


def read_service(text: str, *, letter_is_load_range: bool) -> Service:
    """Read what stands after the size and its suffix; text already tidied.

    A letter that stands alone is a load range only where `letter_is_load_range`: behind a passenger size it may as
    well be a speed symbol whose load index was not read, and is refused.

    >>> read_service("120/116S E", letter_is_load_range=True).load_range
    'E'
    """
    service = Service()
    place = 0
    while place < len(text):
        gap = _GAP.match(text, place)
        place = gap.end() if gap else _one(text, place, service, letter_is_load_range)
    _agree(service)
    return service


def _one(text: str, place: int, service: Service, letter_is_load_range: bool) -> int:
    """Read one marking into `service`; the place after it."""
    if found := _WORD.match(text, place):
        word = WORDS[found[0]]
        if word in LOAD_VERSIONS:
            service.load_version = _once("load version", service.load_version, word)
        elif word not in service.marks:
            service.marks.append(word)
    elif found := _PLY.match(text, place):
        service.ply_rating = _once(say("ply rating"), service.ply_rating, _ply_rating(found["plies"]))
    elif found := _RANGE.match(text, place):
        service.load_range = _once(say("load range"), service.load_range, _load_range(found["letter"]))
    elif service.index is None and (found := _ABOVE.match(text, place)):
        index = _index(found["single"] or found["outside"], found["dual"], ABOVE[found["inside"] or found["alone"]])
        service.index = index
    elif found := _SECOND.match(text, place):
        if service.index is None:
            raise MarkingError(
                say("service description"),
                found[0],
                say("the first load index and speed symbol stand without brackets"),
            )
        index = _index(found["single"], found["dual"], found["symbol"])
        service.second = _once(say("second service description"), service.second, index)
    elif found := _SERVICE.match(text, place):
        index = _index(found["single"], found["dual"], found["symbol"])
        service.index = _once(say("service description"), service.index, index)
    elif found := _LETTER.match(text, place):
        letter = found["letter"]
        if not letter_is_load_range:
            accepted = say(
                'give load index and speed symbol together, such as 91V, or write "load range" before the letter'
            )
            raise MarkingError(say("service description"), letter, accepted, problem=saying("{found} stands alone"))
        service.load_range = _once(say("load range"), service.load_range, _load_range(letter))
    else:
        token = _TOKEN.match(text, place)
        read = token[0] if token else text[place:]
        raise MarkingError(
            say("service description") if read[0].isdigit() else say("marking"),
            read,
            _ACCEPTED,
            problem=saying("{found} is not known"),
        )
    return found.end()


def _once(part: str, before: T | None, now: T) -> T:
    if before is not None and before != now:
        raise MarkingError(
            part, getattr(now, "text", str(now)), say("give it once"), problem=saying("{found} is a second one")
        )
    return now


def _index(single: str, dual: str | None, symbol: str | None) -> ServiceIndex:
    load_capacity_kg(int(single))
    if symbol is not None and not is_speed_symbol(symbol):
        speed_limit(symbol)
    if dual is None:
        return ServiceIndex(int(single), None, symbol)
    load_capacity_kg(int(dual))
    if int(dual) > int(single):
        accepted = say("the first is for single fitting, the second for dual and never above the first")
        raise MarkingError(
            say("load index"), f"{single}/{dual}", accepted, problem=saying("{found} is the wrong way around")
        )
    return ServiceIndex(int(single), int(dual), symbol)


def _load_range(letter: str) -> str:
    if letter not in load_ranges():
        raise MarkingError(say("load range"), letter, _LOAD_RANGE_ACCEPTED)
    return letter


def _ply_rating(plies: str) -> int:
    if int(plies) not in load_ranges().values():
        raise MarkingError(say("ply rating"), f"{plies}PR", say("a ply rating is an even number from 2 to 24"))
    return int(plies)


def _agree(service: Service) -> None:
    """A load range and a ply rating beside it say the same thing, or one of them was misread."""
    if service.load_range is None or service.ply_rating is None:
        return
    expected = load_ranges()[service.load_range]
    if service.ply_rating != expected:
        accepted = say("that letter is {expected}PR; read both again", expected=expected)
        raise MarkingError(
            say("ply rating"),
            f"{service.ply_rating}PR",
            accepted,
            problem=saying("{found} does not go with load range {letter}"),
            letter=service.load_range,
        )
