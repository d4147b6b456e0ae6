"""Size designations as molded: metric, in letters, flotation and code-designated, with the service description."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from training.rulebook.markings.errors import MarkingError, tidy
from training.rulebook.markings.service import ServiceIndex, read_service
from training.rulebook.markings.tables import (
    SpeedLimit,
    load_capacity_kg,
    load_ranges,
    motorcycle_widths,
    rim_diameter_mm,
    rim_diameters,
    speed_limit,
)
from training.trade.speech import say, saying

PREFIXES = {
    "P": "passenger",
    "HL": "passenger",
    "LT": "light-truck",
    "ST": "special-trailer",
    "T": "temporary-spare",
    "S": "temporary-spare",
}
SUFFIXES = {
    "C": "commercial", "CP": "commercial", "LT": "light-truck", "TR": "truck", "MH": "special-trailer",
    "ST": "special-trailer", "M/C": "motorcycle",
}  # fmt: skip
CONSTRUCTIONS = {"R": "radial", "D": "bias", "B": "bias-belted"}
_ACCEPTED = saying("give the size as molded, for example 205/55R16 91V, LT245/75R16, 31x10.50R15LT or 11R22.5")
_START = re.compile(r"(?P<prefix>[A-Z]*)\s?(?P<number>[0-9]+(?:\.[0-9]+)?)\s?(?P<next>[/X]?)\s?")
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_CONSTRUCTION = re.compile(r"\s?(?P<mark>ZRF|[A-Z]?R|RF|D|[HSV]?B|-)(?:(?<=B)-)?\s?(?=[0-9])")
_LETTERS = re.compile(r"(?P<letters>M[A-Z])\s?(?=[0-9]{2,3}\s?[A-Z-])")
_SUFFIX = re.compile(r"\s?(?P<suffix>M/C|[A-Z]+)(?=[\s/(\[,]|$)")
_CONSTRUCTION_ACCEPTED = saying(
    "give R, ZR or RF for radial, D or a dash for bias, B for bias-belted, and the rim diameter after it"
)
_SIZE_SPEEDS = frozenset("ZVHS")
_WIDEST_MM, _NARROWEST_MM = 495, 60
_LEAST_ASPECT, _MOST_ASPECT = 20, 100
_MM_PER_INCH = Fraction("25.4")
_LEAST_CODE, _MOST_CODE = Fraction(2), Fraction(20)
_LEAST_FLOTATION_IN, _MOST_FLOTATION_IN = Fraction(15), Fraction(60)
_LEAST_TRUCK_RIM = Fraction(20)
_LEAST_TRUCK_CODE = Fraction(6)  # narrower ones on so large a rim, such as 3.00-21, are a motorcycle's
_LEAST_TRUCK_HALF_RIM = Fraction(35, 2)


@dataclass(frozen=True, slots=True)
class Designation:
    """One size designation with its service description.

    `form` is how the size is written: "metric", "metric-width" (no aspect ratio), "flotation" or "code". `kind` is what
    prefix, suffix and rim say of its use: "passenger", "light-truck", "commercial", "temporary-spare",
    "special-trailer", "truck", "motorcycle", or "unstated". Neither tells the ply material: that is molded on the
    sidewall and nothing here may stand in for it, the load range least of all. `letters` are those that stand for the
    width in a motorcycle size such as MT90B16, which is metric but for them.
    `construction` is R radial, D bias, B bias-belted. Fields that the designation does not give are None.
    """

    form: str
    kind: str
    prefix: str | None
    section_width_mm: int | None
    aspect_percent: int | None
    section_code: str | None
    overall_diameter_code: str | None
    construction: str
    rim_code: str
    rim_mm: int
    suffix: str | None
    size_speed: str | None
    is_self_supporting: bool
    load_index_single: int | None
    load_index_dual: int | None
    speed_symbol: str | None
    second_service: ServiceIndex | None
    load_range: str | None
    ply_rating: int | None
    load_version: str | None
    marks: tuple[str, ...]
    letters: str | None = None

    @property
    def size(self) -> str:
        """The size alone in one spelling, such as LT245/75R16 or 11R22.5."""
        mark = "-" if self.construction == "D" and self.prefix not in ("P", "T", "LT") else self.construction
        letters = f"{self.size_speed or ''}{mark}{'F' if self.is_self_supporting else ''}"
        if self.letters is not None:
            front = f"{self.letters}{self.aspect_percent}"
        elif self.form == "metric":
            front = f"{self.section_width_mm}/{self.aspect_percent}"
        elif self.form == "flotation":
            front = f"{self.overall_diameter_code}x{self.section_code}"
        else:
            front = self.section_code or f"{self.section_width_mm}"
        return f"{self.prefix or ''}{front}{letters}{self.rim_code}{self.suffix or ''}"

    @property
    def text(self) -> str:
        """All that was read, in one spelling; read again it gives the same designation."""
        parts = [self.size]
        if self.load_index_single is not None:
            symbol = None if self.speed_symbol == "ZR" else self.speed_symbol
            parts.append(ServiceIndex(self.load_index_single, self.load_index_dual, symbol).text)
        if self.second_service is not None:
            parts.append(f"({self.second_service.text})")
        if self.load_range is not None:
            parts.append(f"LOAD RANGE {self.load_range}")
            parts.append(f"{load_ranges()[self.load_range]}PR" if self.ply_rating else "")
        elif self.ply_rating is not None:
            parts.append(f"{self.ply_rating}PR")
        return " ".join(part for part in (*parts, self.load_version, *self.marks) if part)

    @property
    def rims(self) -> str:
        """Family of rims: "15-degree" (half-inch codes from 17.5) or "5-degree"."""
        return "15-degree" if _is_truck_half(self.rim_code) else "5-degree"

    @property
    def load_single_kg(self) -> Fraction | None:
        """Greatest load of one tire fitted singly [kg]."""
        return None if self.load_index_single is None else load_capacity_kg(self.load_index_single)

    @property
    def load_dual_kg(self) -> Fraction | None:
        """Greatest load of one tire of a dual pair [kg]."""
        return None if self.load_index_dual is None else load_capacity_kg(self.load_index_dual)

    @property
    def speed(self) -> SpeedLimit | None:
        """What the speed symbol allows."""
        return None if self.speed_symbol is None else speed_limit(self.speed_symbol)


@lru_cache(maxsize=2048)
def _read(text: str) -> Designation:
    letters = _LETTERS.match(text)
    if letters is not None and letters["letters"] in motorcycle_widths():
        as_metric = f"{motorcycle_widths()[letters['letters']]}/{text[letters.end() :]}"
        return replace(_read(as_metric), letters=letters["letters"], kind="motorcycle")
    start = _START.match(text)
    if start is None:
        raise MarkingError(say("size"), text, _ACCEPTED, problem=saying("{found} is not a size designation"))
    prefix = start["prefix"] or None
    if prefix is not None and prefix not in PREFIXES:
        raise MarkingError(say("prefix"), prefix, say("a size begins with P, LT, HL, ST, T, S or with its number"))
    aspect = section_mm = section_code = diameter_code = None
    place = start.end() if start["next"] else start.end("number")
    if start["next"] == "/":
        form = "metric"
        section_mm = _metric_width(start["number"])
        aspect, place = _aspect(text, place)
    elif start["next"] == "X":
        form = "flotation"
        diameter_code = _inches(say("overall diameter"), start["number"], _LEAST_FLOTATION_IN, _MOST_FLOTATION_IN)
        section_code, place = _flotation_width(text, place)
    elif "." not in start["number"] and int(start["number"]) > _MOST_CODE:
        form = "metric-width"
        section_mm = _metric_width(start["number"])
    else:
        form = "code"
        section_code = _inches(say("section width"), start["number"], _LEAST_CODE, _MOST_CODE)
    construction, size_speed, is_self_supporting, place = _construction(text, place)
    rim_code, rim_mm, place = _rim(text, place)
    if diameter_code is not None and Fraction(diameter_code) * _MM_PER_INCH <= rim_mm:
        raise MarkingError(
            say("overall diameter"), diameter_code, say("a tire is larger than its rim of {rim_mm} mm", rim_mm=rim_mm)
        )
    suffix, load_range, place = _suffix(text, place, prefix, rim_code)
    kind = _kind(form, prefix, suffix, section_code, rim_code)
    service = read_service(
        f"{load_range or ''} {text[place:]}".strip(), letter_is_load_range=kind not in ("passenger", "motorcycle")
    )
    index = service.index
    return Designation(
        form=form, kind=kind, prefix=prefix, section_width_mm=section_mm, aspect_percent=aspect,
        section_code=section_code, overall_diameter_code=diameter_code, construction=construction,
        rim_code=rim_code, rim_mm=rim_mm, suffix=suffix,
        size_speed=size_speed, is_self_supporting=is_self_supporting,
        load_index_single=index.single if index else None, load_index_dual=index.dual if index else None,
        speed_symbol=(index.speed_symbol if index else None) or ("ZR" if size_speed == "Z" else None),
        second_service=service.second, load_range=service.load_range, ply_rating=service.ply_rating,
        load_version=service.load_version, marks=tuple(service.marks),
    )  # fmt: skip


def read_designation(text: str) -> Designation:
    """Read a size designation as molded on a sidewall.

    Raises MarkingError naming the part that cannot be right, what was read there and what is accepted.
    Source: 49 CFR 571.139 and UN Regulations No. 30, 54 and 75 for what may stand where (from memory).

    >>> tire = read_designation("LT245/75R16 120/116S load range E")
    >>> tire.kind, tire.section_width_mm, tire.load_index_dual, tire.load_range
    ('light-truck', 245, 116, 'E')
    """
    return _read(tidy(text, "size", _ACCEPTED))


def _metric_width(number: str) -> int:
    if "." in number or not _NARROWEST_MM <= int(number) <= _WIDEST_MM or int(number) % 5:
        accepted = say("a width in millimeters ends in 0 or 5 and is 60 to 495")
        if re.fullmatch("[5-9]..|1[0-4]00", number):
            likely = f"{number[:-2]}.{number[-2:]}"
            accepted = say("{accepted}; did you read {likely}?", accepted=accepted, likely=likely)
        raise MarkingError(say("section width"), number, accepted)
    return int(number)


def _inches(part: str, number: str, least: Fraction, most: Fraction) -> str:
    """A dimension in inches as molded, 10.50 or 31; the digits kept, since 10.00 and 10 are different sizes."""
    if len(number) > len("00.00") or not least <= Fraction(number) <= most:
        raise MarkingError(
            part, number, say("in inches it is {least} to {most}, with two decimals at most", least=least, most=most)
        )
    return number


def _aspect(text: str, place: int) -> tuple[int, int]:
    found = _NUMBER.match(text, place)
    if found is None:
        raise MarkingError(
            say("aspect ratio"), text[place : place + 3], say("after the slash give a percentage from 20 to 100")
        )
    if "." in found[0] or len(found[0]) > 3 or not _LEAST_ASPECT <= int(found[0]) <= _MOST_ASPECT:
        raise MarkingError(say("aspect ratio"), found[0], say("give a percentage from 20 to 100"))
    return int(found[0]), found.end()


def _flotation_width(text: str, place: int) -> tuple[str, int]:
    found = _NUMBER.match(text, place)
    if found is None:
        raise MarkingError(
            say("section width"), text[place : place + 3], say("after the x give a width in inches, such as 10.50")
        )
    return _inches(say("section width"), found[0], _LEAST_CODE, _MOST_CODE), found.end()


def _construction(text: str, place: int) -> tuple[str, str | None, bool, int]:
    """Letter of construction, the speed letter inside the size if any, self-supporting, and the place after them."""
    found = _CONSTRUCTION.match(text, place)
    mark = found["mark"] if found else ""
    speed = mark[0] if mark == "ZRF" or (len(mark) == 2 and mark[1] in "RB") else None
    if found is None or (speed is not None and speed not in _SIZE_SPEEDS):
        read = re.sub(r"[0-9].*", "", text[place:]).strip()
        raise MarkingError(say("construction"), read, _CONSTRUCTION_ACCEPTED)
    letter = {"-": "D"}.get(mark, mark.strip("ZVHSF") if mark not in CONSTRUCTIONS else mark)
    return letter, speed, mark.endswith("F"), found.end()


def _rim(text: str, place: int) -> tuple[str, int, int]:
    found = _NUMBER.match(text, place)
    code = found[0] if found else ""
    diameter_mm = rim_diameter_mm(code)
    if found is None or diameter_mm is None:
        raise MarkingError(
            say("rim diameter"),
            code,
            say(
                "give a code from {rim_diameters}, or 240 to 720 in millimeters",
                rim_diameters=", ".join(rim_diameters()),
            ),
        )
    return code, diameter_mm, found.end()


def _suffix(text: str, place: int, prefix: str | None, rim_code: str) -> tuple[str | None, str | None, int]:
    """Suffix, a load range molded against the rim code, and the place after them."""
    found = _SUFFIX.match(text, place)
    if found is None:
        return None, None, place
    word = found["suffix"]
    is_attached = found.start("suffix") == place
    is_commercial = word == "C" and prefix is None and not _is_truck_half(rim_code)
    if word in SUFFIXES and (word != "C" or is_commercial):
        if prefix is not None and not (prefix == word or (prefix == "LT" and word == "LT")):
            raise MarkingError(
                say("suffix"), word, say("a size that begins with {letters} ends with its rim diameter", letters=prefix)
            )
        return word, None, found.end()
    if word in load_ranges() and (prefix in ("LT", "ST") or prefix is None) and is_attached:
        return None, word, found.end()
    if is_attached and word not in ("XL", "LL", "SL", "RF", "FRT"):
        raise MarkingError(
            say("suffix"), word, say("after the rim diameter may stand C, CP, LT, TR, MH, ST, M/C or a load range")
        )
    return None, None, place


def _is_truck_half(rim_code: str) -> bool:
    return rim_code.endswith(".5") and Fraction(rim_code) >= _LEAST_TRUCK_HALF_RIM


def _kind(form: str, prefix: str | None, suffix: str | None, section_code: str | None, rim_code: str) -> str:
    if prefix is not None:
        return PREFIXES[prefix]
    if suffix is not None:
        return SUFFIXES[suffix]
    if _is_truck_half(rim_code):
        return "truck"
    if form in ("metric", "metric-width"):
        return "passenger"
    is_large = form == "code" and Fraction(section_code or 0) >= _LEAST_TRUCK_CODE
    return "truck" if is_large and Fraction(rim_code) >= _LEAST_TRUCK_RIM else "unstated"
