"""Puts each option of a question back to the rulebook, by another way than the question was made.

A question is checked by what it says: its case is decided anew, its options are read as claims and each claim is held
against the decision or the clause. How a family's options are read stands in `recheck_log`, `recheck_place`,
`recheck_work` and below.
"""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any

from assessments.questions.cases.casebook import LIGHT, STEEL, hole
from assessments.questions.cases.phrases import SEEN, outcome, reasons
from assessments.questions.draws.wordings import plain
from assessments.questions.items.item import Item
from assessments.questions.items.numbers import parse_measure
from training.rulebook import Case, Clause, Decision, Edition, RepairUnit, decide, parse_case, parse_quantity
from training.trade.lists import all_of

LENGTH = r"((?:\d+ )?\d+(?:/\d+|\.\d+)? (?:in|mm))"


@dataclass(frozen=True, slots=True)
class Recheck:
    """What the rulebook says of a question: the options that are right, the right number in the base unit, the right
    place on the rulers of its drawing (of one coordinate where any other will do), or what is wrong with its key.

    `between`: the clauses whose statements disagree on what is asked.
    """

    right: frozenset[str] = frozenset()
    number: float | None = None
    between: tuple[str, ...] = ()
    place: tuple[float | None, float | None] | None = None
    complaints: tuple[str, ...] | None = None


class Bench:
    """One question on the bench: its case, decided as often as needed, with what lies between statements noted."""

    def __init__(self, item: Item, edition: Edition) -> None:
        self.item, self.edition = item, edition
        self.between: dict[str, None] = {}

    def decide(self, data: Mapping[str, Any] | None = None, units: list[RepairUnit] | None = None) -> Decision:
        """The decision on the case of the question, or on another one."""
        given = self.item.case if data is None else data
        case = parse_case(given or {})
        decision = decide(case, edition=self.edition, units=units)
        between = [one for one in decision.rulings if one.between_statements]
        # Where states differ, it is settled once the case lies in one of them and the stem gives that one's law.
        laws = {one.clause: self.edition.clause(one.clause).statements for one in between}
        self.between.update(
            (one.clause, None)
            for one in between
            if not (
                any(case.jurisdiction in law.jurisdictions for law in laws[one.clause]) and one.limit in self.item.stem
            )
        )
        return decision

    @property
    def data(self) -> dict[str, Any]:
        """The case of the question, to be changed."""
        return dict(self.item.case or {})

    @property
    def case(self) -> Case:
        """The case of the question as the rulebook reads it."""
        return parse_case(self.data)

    @property
    def casing(self) -> str:
        """The casing of the case."""
        return str(self.case.tire.casing)

    def found(self, pattern: str, text: str | None = None) -> str:
        """The first group of a pattern in the stem. ValueError if it is not there."""
        match = re.search(pattern, self.item.stem if text is None else text)
        if match is None:
            raise ValueError(f"{pattern!r} is not in the stem")
        return match.group(1)

    def which(self, holds: Callable[[str], bool]) -> Recheck:
        """The options whose claim holds."""
        right = frozenset(option.id for option in self.item.options if holds(plain(option.text)))
        return Recheck(right, between=tuple(self.between))

    def number(self, value: Fraction | float) -> Recheck:
        """A number in the base unit."""
        return Recheck(number=float(value), between=tuple(self.between))


Judge = Callable[[Bench], Recheck]
_judges: dict[str, Judge] = {}


def judge(*families: str) -> Callable[[Judge], Judge]:
    """Register the decorated function as what rechecks these families."""

    def register(function: Judge) -> Judge:
        _judges.update(dict.fromkeys(families, function))
        return function

    return register


@lru_cache(maxsize=1)
def _known() -> dict[str, Judge]:
    """The judges by family, with those of the modules named after this one, found without a list to keep."""
    for module in pkgutil.iter_modules([str(Path(__file__).parent)]):
        if module.name.startswith("recheck_"):
            importlib.import_module(f"{__package__}.{module.name}")
    return _judges


def recheck(item: Item, edition: Edition) -> Recheck | None:
    """What the rulebook says of this question; None where no way to read its options is known."""
    found = _known().get(item.family)
    return None if found is None else found(Bench(item, edition))


# -- verdicts ----------------------------------------------------------------------------------------------------------


def is_right_outcome(text: str, decision: Decision, edition: Edition) -> bool:
    """Does an option state this decision: verdict with one of its reasons, or repair with the methods allowed?"""
    if decision.verdict in _AGAINST:
        return text in {f"{_AGAINST[decision.verdict]}: {reason}" for reason in reasons(decision, edition)}
    return text == outcome(decision, edition)


_AGAINST = {"reject": "Out of service", "refer": "Send to a repair plant"}
_BY_SIZE = {"repair": "Repair allowed", **_AGAINST}


@judge("tire-verdict", "earlier-repair", "lean-and-exit", "doubt", "method-by-angle", "whole-case-method")
def _outcome(bench: Bench) -> Recheck:
    decision = bench.decide()
    return bench.which(lambda text: is_right_outcome(text, decision, bench.edition))


@judge("size-verdict")
def _size_verdict(bench: Bench) -> Recheck:
    verdict = bench.decide().verdict
    clause = bench.edition.limit("injury.diameter", bench.casing)
    limit = clause.limit_text() if clause else ""
    return bench.which(lambda text: text == f"{_BY_SIZE[verdict]}: the limit is {limit}")


@judge("before-and-after")
def _before_and_after(bench: Bench) -> Recheck:
    opening = _BY_SIZE[bench.decide().verdict]
    after = (bench.case.injuries or ())[0].diameter
    return bench.which(lambda text: text == f"{opening}: {after.text if after else ''} counts")


@judge("tread-gauge")
def _tread_gauge(bench: Bench) -> Recheck:
    enough = {"accept": True, "reject": False}[bench.decide().verdict]
    (reading,) = bench.data["tread_depths"]
    depth = parse_quantity(str(reading["depth"] if isinstance(reading, Mapping) else reading), "length").value

    def holds(text: str) -> bool:
        shown, _, rest = text.partition(": ")
        return parse_quantity(shown, "length").value == depth and rest.startswith("enough") == enough

    return bench.which(holds)


@judge("limit-for-casing")
def _limit(bench: Bench) -> Recheck:
    clause = bench.edition.limit("injury.diameter", bench.casing)
    return bench.which(lambda text: clause is not None and text == clause.limit_text())


@judge("deciding-finding")
def _deciding(bench: Bench) -> Recheck:
    decision = bench.decide()
    leans = any(injury.angle and injury.angle.value for injury in bench.case.injuries or ())
    aspects = set()
    for ruling in decision.deciding:
        about, _, name = bench.edition.clause(ruling.clause).quantity.partition(".")
        if about == "injury":
            size = name in ("diameter", "before_removal")
            aspects.add("The size of the hole" if size else _PLACE[leans])
        else:
            aspects.add({"tread": "The depth of the tread", "repair": "The earlier repair"}.get(about, _RUBBER))
    return bench.which(lambda text: text in aspects)


_PLACE = {True: "The lean of the channel", False: "The place of the hole"}
_RUBBER = "The state of the rubber"


@judge("casing-class")
def _casing_class(bench: Bench) -> Recheck:
    body = "Steel" if bench.casing == "light-truck-steel" else "Fabric"
    molded = bench.found(r"SIDEWALL PL(?:Y|IES) \d (\w+)") == "STEEL"
    if molded != (body == "Steel"):
        return Recheck()
    return bench.which(lambda text: text == f"{body} body, by its sidewall plies")


@judge("first-thing")
def _first_thing(bench: Bench) -> Recheck:
    opening = {"inspect": "Take the tire off the wheel", "repair": "Prepare and repair", "reject": "Take it out"}
    verdict = bench.decide().verdict
    return bench.which(lambda text: text.startswith(opening[verdict]))


# -- each option a case of its own ------------------------------------------------------------------------------------


@judge("place-on-drawing")
def _place_on_drawing(bench: Bench) -> Recheck:
    data = bench.data
    alone = {
        str(injury["id"]): bench.decide({**data, "injuries": [injury]}).verdict == "repair"
        for injury in data["injuries"]
    }
    passing = sorted(name for name, fits in alone.items() if fits)
    text = {0: "None of them", len(alone): "All three"}.get(len(passing), f"Only {all_of(passing)}" if passing else "")
    return bench.which(lambda option: option == text)


def _repaired(bench: Bench, **injury: Any) -> Decision:
    return bench.decide({**bench.data, "injuries": [hole(**injury)]})


@judge("holes-by-size")
def _holes_by_size(bench: Bench) -> Recheck:
    return bench.which(lambda text: _repaired(bench, diameter=text).verdict == "repair")


@judge("one-piece-list")
def _one_piece_list(bench: Bench) -> Recheck:
    def holds(text: str) -> bool:
        decision = _repaired(bench, diameter="5 mm", angle_deg=int(text.removesuffix(" deg")))
        return any("one-piece" in plan.methods_allowed for plan in decision.plan or ())

    return bench.which(holds)


_PROPOSED = {
    "A one-piece": "one-piece",
    "A stem in the channel and a patch": "two-piece",
    "A stem in the channel and nothing": "stem-only",
    "A patch": "patch-only",
    "A string": "string",
    "An inner tube": "tube",
}


@judge("proposals")
def _proposals(bench: Bench) -> Recheck:
    def holds(text: str) -> bool:
        proposed = next(word for opening, word in _PROPOSED.items() if text.startswith(opening))
        return bench.decide({**bench.data, "proposed": proposed}).verdict == "repair"

    return bench.which(holds)


_NOTED: dict[str, dict[str, Any]] = {
    "4 mm of tread": {"tread_depths": ["4 mm"]},
    "5.5 mm of tread": {"tread_depths": ["5.5 mm"]},
    "5/32 in of tread": {"tread_depths": ["5/32 in"]},
    "7/32 in of tread": {"tread_depths": ["7/32 in"]},
    "A nick in a tread block": {"injuries": [{"id": "S", "kind": "surface"}]},
    "A sound earlier stem and patch": {
        "earlier_repairs": [{"id": "R1", "kind": "two-piece", "zone": "crown", "injury": "4 mm", "sound": True}]
    },
    "An earlier stem and patch": {
        "earlier_repairs": [{"id": "R1", "kind": "two-piece", "zone": "crown", "injury": "4 mm", "sound": True}]
    },
    "A nail hole in mid-crown": {"injuries": [hole(diameter="4 mm")]},
}


@judge("rejecting-list", "whole-case-inspection")
def _rejecting_list(bench: Bench) -> Recheck:
    findings = {words.lower(): slug for slug, (words, _) in SEEN.items()}

    def holds(text: str) -> bool:
        slug = findings.get(text.lower())
        more = {} if slug else next(more for opening, more in _NOTED.items() if text.startswith(opening))
        seen = {**bench.data["findings"], **({slug: True} if slug else {})}
        return bench.decide({**bench.data, "injuries": [], "findings": seen, **more}).verdict == "reject"

    return bench.which(holds)


# -- geometry ----------------------------------------------------------------------------------------------------------


def unit_of(length: float, width: float) -> list[RepairUnit]:
    """Units of this size in mm for every casing, so that the plan can use no other."""
    sides = (parse_quantity(f"{round(side, 3):g} mm", "length") for side in (length, width))
    long, wide = sides
    return [RepairUnit(kind, kind, long, wide, None, (*LIGHT, *STEEL), None) for kind in ("patch", "one-piece")]


@judge("two-injuries")
def _two_injuries(bench: Bench) -> Recheck:
    length = float(bench.found(r"are (\d+) mm long"))
    width = float(bench.found(r"long, toward the beads, and (\d+) mm wide"))
    apart = float(bench.found(r"lie (\d+) mm apart"))
    repaired = bench.decide(units=unit_of(length, width)).verdict == "repair"
    spare = abs(apart - (length if "side by side" in bench.item.stem else width))
    opening = "Repair both" if repaired else "Out of service"
    return bench.which(lambda text: text == f"{opening}: {spare:g} mm {'to spare' if repaired else 'short'}")


@judge("farthest-center")
def _farthest_center(bench: Bench) -> Recheck:
    return bench.number(farthest_inside(bench))


def farthest_inside(bench: Bench) -> float:
    """How far from the centerline, in mm, the hole of the case may lie and still be repaired."""
    (injury,) = bench.data["injuries"]
    low, high = 0.0, 200.0
    for _ in range(20):  # halve until well below a tenth of a millimeter
        middle = (low + high) / 2
        placed = {**injury, "lateral": f"{middle:.6f} mm"}
        inside = bench.decide({**bench.data, "injuries": [placed]}).verdict == "repair"
        low, high = (middle, high) if inside else (low, middle)
    return low


def limit_of(bench: Bench, quantity: str, casing: str = "passenger") -> Clause:
    """The clause that limits a quantity. ValueError where the edition has none."""
    clause = bench.edition.limit(quantity, casing)
    if clause is None:
        raise ValueError(f"{bench.edition.name} has no limit for {quantity} ({casing})")
    return clause


@judge("unit-spacing")
def _unit_spacing(bench: Bench) -> Recheck:
    sizes = re.findall(r"is (\d+) mm long.*? and (\d+) mm\s*wide", bench.item.stem)
    side = 0 if "side by side" in bench.item.stem else 1
    return bench.number(sum(Fraction(size[side]) for size in sizes) / 2)


@judge("outline-to-buff", "whole-case-outline")
def _outline(bench: Bench) -> Recheck:
    long, wide = (
        float(parse_measure(bench.found(pattern))[1]) for pattern in (LENGTH + " long", "and " + LENGTH + " wide")
    )
    plan = bench.decide(units=unit_of(long, wide)).plan
    buff = plan[0].buff if plan else None
    if buff is None:
        raise ValueError("the rulebook plans no outline for this case")
    return bench.number(parse_quantity(buff[bench.found(r"What is the (length|width)")], "length").value)
