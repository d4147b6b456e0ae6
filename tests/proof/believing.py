"""What somebody answers who holds misconceptions: the rulebook as they alter it, and what they misread besides.

An alteration is asked through the rulebook itself, by the claims of a question. What no alteration states has a rule
here, written from the statement of the misconception and from what the question shows: never from the family that
offers the answer. Figures of outside sources are typed from them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import reduce
from typing import Any

from assessments.questions.drafts.rules import altered
from assessments.questions.items.claims import (
    Asked,
    AtLeast,
    Claim,
    Decided,
    Measure,
    Molded,
    Next,
    Permitted,
    Planned,
    Reading,
    Sighted,
    Spot,
    Taught,
    laid_over,
    parts,
)
from assessments.questions.items.item import Item
from assessments.questions.items.numbers import parse_measure
from assessments.questions.items.shapes import Region
from tests.proof import shown
from tests.proof.bench import Bench
from tests.proof.eyes import TAKEN, is_seen, seen_case
from tests.proof.holding import answer, holds, place
from tests.proof.misreading import MISREAD, turned_months
from tests.proof.shown import INCH_MM
from tests.proof.taught import SAID_WRONGLY
from tests.proof.working import answered
from training.rulebook import Decision, Edition, RepairUnit, UnknownClause, parse_quantity
from training.trade.words import LIGHT, STEEL

# Ways to repair a hole, of which some are only proposed.
_WAYS = ("one-piece", "two-piece", "patch-only", "stem-only", "string", "tube")
_PLANNED = ("one-piece", "two-piece")
_ONE_LAW = "one-states-law-everywhere"
# How far over a limit is still "a little over" and how far under it is "close": a mark of the rule, 1 mm.
HAIR_MM = 1.0

# Misconceptions that a rule of this module, or of those it takes, tells instead of an alteration, or beside one.
BY_RULE = frozenset(
    (
        *MISREAD,
        *TAKEN,
        *SAID_WRONGLY.values(),
        *("longer-is-safer", "more-passes-never-hurt", "truck-nuts-as-car-nuts", "unit-for-any-body"),
        *("load-index-ignored", "speed-symbol-ignored", "size-alone-decides", "only-the-same-will-do"),
        *("rounded-up", "motorcycle-side-of-tread", "doubt-stays"),
    )
)


class Believer(Bench):
    """A bench at which the rulebook is as those who hold all of `names` have it. `told`: the rulebook as it is.

    `use`: the fields of a case by whose law everything is judged, whatever is said of it.
    """

    def __init__(
        self, item: Item, edition: Edition, names: tuple[str, ...], use: Mapping[str, Any] | None = None
    ) -> None:
        super().__init__(item, reduce(altered, [name for name in names if name != _ONE_LAW], edition))
        self.use = use or {}
        self.names, self.told = frozenset(names), Bench(item, edition)
        self.looked_at = item  # with no other option than the one that is looked at

    @property
    def told_by(self) -> tuple[Edition, ...]:
        """A clause is about what it limits, and about what they take instead."""
        return self.edition, self.told.edition

    def decide(self, data: Mapping[str, Any] | None = None, units: list[RepairUnit] | None = None) -> Decision:
        """The decision of who reads gauges and drawings as these do."""
        given: Mapping[str, Any] = (self.item.case or {}) if data is None else data
        return super().decide(_misread_case(self, given), units)

    def reads(self, asked: Asked) -> tuple[float | str, ...]:
        """What these misconceptions read of something, each of them alone."""
        found: list[float | str] = []
        rules = [turned_months] if self.names >= {"year-before-week", "month-not-week"} else []
        for rule in rules or [MISREAD[name] for name in sorted(self.names & MISREAD.keys())]:
            found += rule(asked, self.looked_at)
        if not found and isinstance(asked, Planned) and asked.of == "unit":
            return _units_taken(self, asked)
        return tuple(found)

    def judges(self, claim: Claim) -> bool | None:
        """What they judge of a claim that altered clauses do not tell."""
        match claim:
            case Taught():
                return claim.wrongly == bool(self.names & {SAID_WRONGLY.get(claim.fact, "")})
            case Sighted():
                return is_seen(claim, self.item, self.names)
            case Permitted():
                return self._permits(claim)
            case Decided() if claim.methods:
                return self._allows(claim)
            case AtLeast():
                return self._suffices(claim)
            case Next():
                return self._follows(claim)
        return None

    def _permits(self, claim: Permitted) -> bool | None:
        quantity = self.told.edition.clause(claim.clause).quantity
        if quantity == "job.torque_recheck" and "no-recheck" in self.names:
            return holds(claim, self.told)  # what is not done at all is not done too late
        if quantity == "job.seating_pressure" and (misread := shown.seated(claim.value, self.item.stem, self.names)):
            return misread == "right"
        if claim.clause not in self.edition.clauses:
            return True  # nobody forbids what no clause speaks of
        if quantity == "job.drying" and "longer-is-safer" in self.names:
            return False
        if quantity == "job.passes_each_way" and "more-passes-never-hurt" in self.names:
            return False
        if quantity == "job.torque" and "truck-nuts-as-car-nuts" in self.names:
            return shown.is_torque_of_a_car(claim.value)
        if self.told.edition.clause(claim.clause).when != self.edition.clause(claim.clause).when:
            return True  # it is asked of fewer tires
        return None

    def _allows(self, claim: Decided) -> bool | None:
        """Whether exactly these ways are allowed, each of which somebody may propose; of those that no plan knows,
        whether they are allowed."""
        if "proposed-repair" not in self.edition.clauses:
            return None
        data = laid_over(self.data, claim.case)
        decision = self.decide(data)
        if decision.verdict not in claim.verdicts:
            return False
        planned = [set(plan.methods_allowed) for plan in decision.plan or ()]
        allowed = set.intersection(*planned) if planned else set()
        for way in _WAYS:
            proposed = self.decide({**data, "proposed": way}).verdict == "repair"
            if way in _PLANNED and not proposed:
                allowed.discard(way)
            elif way not in _PLANNED and proposed:
                allowed.add(way)
        if set(claim.methods) - set(_PLANNED):
            return set(claim.methods) <= allowed
        return allowed & set(_PLANNED) == set(claim.methods)

    def _suffices(self, claim: AtLeast) -> bool | None:
        """Of the service of a replacement and the placard's, by its load or by its speed."""
        part = claim.of.of if isinstance(claim.of, Molded) else ""
        ignored = {"load_kg": "load-index-ignored", "speed_km_h": "speed-symbol-ignored"}.get(part, "")
        if self.names & {ignored, "size-alone-decides"}:
            return True
        if "only-the-same-will-do" in self.names:
            return answer(claim.of, self) == answer(claim.than, self)
        return None

    def _follows(self, claim: Next) -> bool | None:
        order = list(self.told.edition.orders[claim.method])
        step, after = order.index(claim.step), order.index(claim.after)
        if "step-skipped" in self.names:
            return step > after + 1
        if "step-too-late" in self.names:
            return step < after
        return None


def _misread_case(believer: Believer, data: Mapping[str, Any]) -> Mapping[str, Any]:
    """The case as it is seen: a depth read off the drawn gauge, the parts of the tread that count, a size."""
    names, item = believer.names, believer.item
    seen = {**seen_case(item, data, names), **believer.use}
    misread = [float(one) for name in ("next-mark", "mark-before") if name in names
               for one in MISREAD[name](Reading(), item)]  # fmt: skip
    if misread and seen.get("tread_depths"):
        in_inches = shown.mark_mm(item) == INCH_MM / 32
        seen["tread_depths"] = [f"{round(misread[0] / INCH_MM * 32)}/32 in" if in_inches else f"{misread[0]:g} mm"]
    for name in names & {"edge-of-tread-counts", "best-of-tread-counts", "middle-counts-for-sale"}:
        if depths := MISREAD[name](Measure("tread.least_depth"), item):
            seen["tread_depths"] = [f"{float(depths[0]):g} mm"]
    hair = {"rounded-up": -HAIR_MM}
    for name in names & hair.keys():
        seen["injuries"] = [_resized(one, hair[name]) for one in seen.get("injuries") or ()]
    if "doubt-stays" in names and "looked at again by a second technician" in item.stem:
        seen["findings"] = {**(seen.get("findings") or {}), "liner-separation": "doubt"}
    if "motorcycle-side-of-tread" in names:
        outside = shown.is_far_out(item.stem, believer.looked_at.options[0].text)
        seen["injuries"] = [_moved(one, outside) for one in seen.get("injuries") or ()]
        seen["earlier_repairs"] = [_moved(one, outside) for one in seen.get("earlier_repairs") or ()]
    return seen


def _resized(injury: Mapping[str, Any], by_mm: float) -> dict[str, Any]:
    if not injury.get("diameter"):
        return dict(injury)
    told = parse_quantity(str(injury["diameter"]), "length")
    size = max(float(told.value) + by_mm, 0.1) / (INCH_MM if told.unit == "in" else 1)
    return {**injury, "diameter": f"{size:.6f} {told.unit}"}


def _moved(one: Mapping[str, Any], outside: bool) -> dict[str, Any]:
    return {**one, "zone": "sidewall"} if outside and one.get("zone") == "crown" else dict(one)


def _units_taken(believer: Believer, asked: Planned) -> tuple[str, ...]:
    """The units that somebody takes from the shelf: the smallest for the size that he counts, of the kind that is to be
    installed, and of any body if that makes no difference to him."""
    names, data = believer.names, believer.data
    if not names & {"measured-before-removal", "rounded-up", "unit-for-any-body"}:
        return ()
    (injury,) = data["injuries"]
    size = float(parse_quantity(str(injury["diameter"]), "length").value)
    if "measured-before-removal" in names and injury.get("before_removal"):
        size = float(parse_quantity(str(injury["before_removal"]), "length").value)
    kind = {"two-piece": "patch", "one-piece": "one-piece"}[str(data["proposed"])]
    casing = data["tire"]["casing"]
    body = STEEL if casing in STEEL else LIGHT
    fitting = sorted(
        (float(parse_quantity(most, "length").value), name)
        for name, of_kind, _, _, most, *casings in asked.shelf
        if of_kind == kind and ("unit-for-any-body" in names or set(casings) & set(body))
    )
    if "rounded-up" in names:
        return tuple(name for most, name in fitting if size - HAIR_MM <= most < size)
    return tuple(name for most, name in fitting if most >= size)[:1]


# -- what they answer ------------------------------------------------------------------------------------------------


def gives(item: Item, edition: Edition, names: tuple[str, ...], said: str) -> bool:
    """Do those who hold all of `names` give this answer, as `distractors` names it?"""
    uses = _uses(item) if _ONE_LAW in names else ({},)
    return any(would_say(Believer(item, edition, names, use), said) for use in uses)


# The codes of the states that a stem may name.
_STATES = {"Virginia": "US-VA", "Maryland": "US-MD", "South Carolina": "US-SC", "New Jersey": "US-NJ"}


def _uses(item: Item) -> Iterator[Mapping[str, Any]]:
    """Each use and state whose law somebody may take for that of all of them: those of the options, or of the stem."""
    claims = [part for one in item.options if one.claim for part in parts(one.claim)]
    asked = [one.case for one in claims if isinstance(one, Decided) and one.case and "purpose" in one.case]
    yield from asked or ({"jurisdiction": code} for name, code in _STATES.items() if name in item.stem)


def would_say(believer: Believer, said: str) -> bool:
    """Does a believer give an answer? None that speaks of a clause they do not have, or of what they cannot find."""
    try:
        return _says(believer, said)
    except (UnknownClause, ValueError, KeyError):
        return False


def _says(believer: Believer, said: str) -> bool:
    item, asks = believer.item, believer.item.asks
    if isinstance(asks, Spot):
        region = Region.from_text(said)
        (across, up), (middle, level) = place(asks, believer), region.middle
        return region.holds(middle if across is None else across, level if up is None else up)
    if asks is not None:
        within = float(parse_measure(item.tolerance or "0 mm")[1])
        wanted = float(parse_measure(said)[1])
        read = [one for one in believer.reads(asks) if isinstance(one, float)]
        return any(abs(one - wanted) <= within + 1e-6 for one in read or [answer(asks, believer)])
    if item.format == "order":
        return "step-too-late" in believer.names or said in answered(believer)
    if item.format == "fault":
        return said in answered(believer)
    option = item.option(said)
    believer.looked_at = replace(item, options=(option,))
    return option.claim is not None and holds(option.claim, believer)
