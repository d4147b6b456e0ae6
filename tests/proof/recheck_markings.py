"""Puts options about sizes, loads and speeds back to the rulebook's readers: each option is a claim about a marking."""

from __future__ import annotations

import re
from fractions import Fraction

from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import judge
from training.rulebook.markings import CONSTRUCTIONS, Designation, dimensions, load_capacity_kg, read_designation

_MOLDED = r"((?:[A-Z]{1,2})?\d[\d.]*(?:x[\d.]+|/\d+)?(?:[RDB]|-)[\d.]+(?: ?M/C|LT|C)?(?: \d+(?:/\d+)?[A-Z])?)"
_RUNS = {"radial": "radially", "bias": "on the bias", "bias-belted": "on the bias, under belts"}
_BUILT_FOR = {
    "for passenger cars": "passenger", "for light trucks": "light-truck", "for delivery vans": "commercial",
    "for motorcycles": "motorcycle", "for trailers": "special-trailer", "as a temporary spare": "temporary-spare",
    "for heavy trucks": "truck",
}  # fmt: skip


def _size(bench: Bench) -> Designation:
    return read_designation(bench.found(rf"\b{_MOLDED}"))


@judge("read-size", "size-letters")
def _read_size(bench: Bench) -> Recheck:
    size = _size(bench)
    measures = {
        "the width of the section": f"{size.section_code} in" if size.section_code else f"{size.section_width_mm} mm",
        "the diameter of the rim": f"{size.rim_code} in",
        "the diameter of the tire": f"{size.overall_diameter_code} in",
    }

    def holds(text: str) -> bool:
        for opening, claim in (
            ("Its body plies run ", lambda rest: rest == _RUNS[CONSTRUCTIONS[size.construction]]),
            ("Built ", lambda rest: _BUILT_FOR[rest] == size.kind),
            ("Its height is ", lambda rest: rest == f"{size.aspect_percent} % of its width"),
        ):
            if text.startswith(opening):
                return claim(text.removeprefix(opening))
        if text == "It says nothing of the build":
            return False
        number, _, what = text.partition(" is ")
        return measures.get(what) == number

    return bench.which(holds)


@judge("section-height")
def _section_height(bench: Bench) -> Recheck:
    found = dimensions(_size(bench))
    return bench.which(lambda text: found is not None and _figure(text, "mm") == found.section_height_mm)


@judge("overall-diameter")
def _overall_diameter(bench: Bench) -> Recheck:
    found = dimensions(_size(bench))
    if found is None or found.outer_diameter_mm is None:
        raise ValueError("the size has no diameter that can be computed")
    return bench.number(found.outer_diameter_mm)


def _index(bench: Bench, *, dual: bool) -> int:
    size = _size(bench)
    index = size.load_index_dual if dual else size.load_index_single
    if index is None:
        raise ValueError(f"{size.text} has no such load index")
    return index


def _figure(text: str, unit: str) -> Fraction:
    found = re.search(rf"([\d,.]+) {unit}\b", text)
    if found is None:
        raise ValueError(f"{text!r} states no {unit}")
    return Fraction(found[1].replace(",", ""))


@judge("load-by-index")
def _load(bench: Bench) -> Recheck:
    load = load_capacity_kg(_index(bench, dual="dual pair" in bench.item.stem))
    return bench.which(lambda text: _figure(text, "kg") == load)


@judge("axle-load")
def _axle(bench: Bench) -> Recheck:
    dual = "side by side" in bench.item.stem
    return bench.number((4 if dual else 2) * load_capacity_kg(_index(bench, dual=dual)))


@judge("speed-by-symbol")
def _speed(bench: Bench) -> Recheck:
    limit = _size(bench).speed

    def holds(text: str) -> bool:
        return limit is not None and _figure(text, "km/h") == limit.km_h and _figure(text, "mph") == limit.mph

    return bench.which(holds)


@judge("replacement-service")
def _replacement(bench: Bench) -> Recheck:
    wanted = _size(bench)

    def holds(text: str) -> bool:
        own = read_designation(f"{wanted.size} {text}")
        if not (own.load_single_kg and wanted.load_single_kg and own.speed and wanted.speed):
            raise ValueError(f"{text!r} is no load index with a speed symbol")
        return own.load_single_kg >= wanted.load_single_kg and own.speed.km_h >= wanted.speed.km_h

    return bench.which(holds)
