"""Finds the fault in a log once more, from its lines as they are shown, the clauses and the rules of order.

The lines are read back into what they state; each is held against its clauses here, without the rulebook's audit and
without what the log was written from. Then each offered reason is asked whether it holds.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from assessments.questions.items.shapes import Blame
from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import judge
from training.rulebook import MEASURES, Case, Clause, Edition, Quantity, parse_quantity
from training.trade.words import LIGHT

# A fault: ("high" | "low" | "wrong", quantity), ("missing", step), or ("turned", step, step that stands before it).
Mark = tuple[str, ...]
Stated = dict[str, str]

_COUNT = r"(once|twice|\d+ times)"
_TURN = r"((?:counter)?clockwise)"
_ON = (r"fluid on the (.+)", "job.stem_fluid")
_LAID = ((r"arrows (.+)", "job.arrows"), (r"beads (.+)", "job.beads"))
# What the parts of a line state, by its step; the first form that fits a part reads it.
_READ: Mapping[str, Sequence[tuple[str, str]]] = {
    "clean-liner": ((_COUNT, "job.liner_cleaning"), (r"scraped (.+)", "job.scraped")),
    "remove-damage": (
        (r"(\d+ rpm)", "job.cutter_speed"),
        (_TURN, "job.cutter_direction"),
        (r"from (.+) first", "job.cutter_start"),
        (r"(\d+ pass(?:es)?) each way", "job.passes_each_way"),
        (r"([a-z ]+)", "job.cutter_tool"),
    ),
    "probe": ((r"(.+)", "job.channel"),),
    "measure-prepared": ((r"(.+)", "injury.diameter"),),
    "cement-channel": (
        (_COUNT, "job.channel_turns"),
        (_TURN, "job.cement_direction"),
        (r"([a-z ]+)", "job.cement_tool"),
    ),
    "pull-stem": (_ON, (r"stands (.+)", "job.stem_stands")),
    "outline": ((r"(.+) beyond the unit", "job.outline_margin"),),
    "buff": ((r"(\d+ rpm)", "job.buffer_speed"), (r"texture (.+)", "job.buff_texture")),
    "brush": ((_COUNT, "job.brush_times"), (r"([a-z ]+)", "job.brush_tool")),
    "remove-dust": ((r"(.+)", "job.dust_removal"),),
    "cement-area": ((r"one (.+) coat", "job.coat"),),
    "dry": (
        (r"(\d+ min)", "job.drying"),
        (r"(\d+ [CF])", "job.temperature"),
        (r"(\d+ %) humidity", "job.humidity"),
        (r"(.+ heat)", "job.drying_heat"),
        (r"(.+)", "job.dry_state"),
    ),
    "apply-unit": _LAID,
    "pull-through": (*_LAID, _ON),
    "stitch": ((r"(.+)", "job.stitching"),),
    "inspect-repair": ((r"(.+)", "job.repair_state"),),
    "seat-beads": (
        (r"(in a restraining device|with no restraining device)", "job.restraint"),
        (r"(.+) chuck", "job.chuck"),
        (r"standing (.+)", "job.standing"),
        (r"(\d+ \w+)", "job.seating_pressure"),
    ),
    "inflate": ((r"(\d+ \w+)", "job.pressure_set"),),
    "leak-test": ((r"(.+)", "job.leak"),),
    "install": (
        (r"torque checked again after (.+)", "job.torque_recheck"),
        (r"threads (.+)", "job.torque_threads"),
        (r"(.+) pattern|(around the circle)", "job.torque_pattern"),
        (r"(.+)", "job.torque_tool"),
    ),
}
_WRITTEN = {"once": "1 times", "twice": "2 times", "1 pass": "1 passes", "compressed air": "compressed-air",
    "in a restraining device": "restraining device", "with no restraining device": "none",
}  # fmt: skip

_UNDER_THE_UNIT: tuple[Mark, ...] = (("turned", "dry", "apply-unit"), ("turned", "dry", "pull-through"))
# What each reason claims.
_CLAIMS: Mapping[str, tuple[Mark, ...]] = {
    "The liner was cleaned too few times": (("low", "job.liner_cleaning"),),
    "The cutter ran too fast": (("high", "job.cutter_speed"),),
    "The cutter turned the wrong way": (("wrong", "job.cutter_direction"),),
    "The cutter began on the wrong side": (("wrong", "job.cutter_start"),),
    "The cutter made too few passes": (("low", "job.passes_each_way"),),
    "What the probe found was left in the channel": (("wrong", "job.channel"),),
    "The hole is over the limit": (("high", "injury.diameter"),),
    "The outline has too little margin": (("low", "job.outline_margin"),),
    "The buffer ran too fast": (("high", "job.buffer_speed"),),
    "The liner was buffed too rough": (("wrong", "job.buff_texture"),),
    "The liner was brushed with the wrong brush": (("wrong", "job.brush_tool"),),
    "The dust was taken away in the wrong way": (("wrong", "job.dust_removal"),),
    "The channel was not probed after cutting": (("missing", "probe"),),
    "The buffed liner was not brushed": (("missing", "brush"),),
    "The prepared hole was not measured": (("missing", "measure-prepared"),),
    "The hole was measured before it was prepared": (("turned", "remove-damage", "measure-prepared"),),
    "Dust was made after it was taken away": (("turned", "brush", "remove-dust"),),
    "The coat of fluid was too thick": (("wrong", "job.coat"),),
    "The fluid had too little time": (("low", "job.drying"),),
    "The fluid was dried with heat": (("wrong", "job.drying_heat"),),
    "The unit went on before the fluid was dry": (("wrong", "job.dry_state"),),
    "The unit lay the wrong way around": (("wrong", "job.arrows"),),
    "The beads were still spread": (("wrong", "job.beads"),),
    "Fluid got on the gum of the unit": (("wrong", "job.stem_fluid"),),
    "The unit was stitched in the wrong direction": (("wrong", "job.stitching"),),
    "A repair that failed was let go": (("wrong", "job.repair_state"),),
    "The fluid was not left to dry": (("missing", "dry"),),
    "The fluid dried under the unit": _UNDER_THE_UNIT,
    "The unit was not stitched": (("missing", "stitch"),),
    "The edge of the unit was not sealed": (("missing", "seal"),),
    "The beads were seated with too much pressure": (("high", "job.seating_pressure"),),
    "Somebody stood in the way of the tire": (("wrong", "job.standing"),),
    "Nothing held the tire while it was filled": (("wrong", "job.restraint"),),
    "The chuck was held by hand": (("wrong", "job.chuck"),),
    "A leak was let go": (("wrong", "job.leak"),),
    "The nuts were tightened with the wrong tool": (("wrong", "job.torque_tool"),),
    "The nuts were tightened in the wrong pattern": (("wrong", "job.torque_pattern"),),
    "The threads were not as they should be": (("wrong", "job.torque_threads"),),
    "The torque is checked again too late": (("high", "job.torque_recheck"),),
    "The tire was not tested for leaks": (("missing", "leak-test"),),
    "The wheel was not balanced": (("missing", "balance"),),
}
# What may also be said where something else is meant: a fair question does not offer the two together.
_NOT_DRY: tuple[Mark, ...] = (
    ("low", "job.drying"), ("wrong", "job.dry_state"), ("missing", "dry"), *_UNDER_THE_UNIT,
)  # fmt: skip
_NEARLY: Mapping[str, tuple[Mark, ...]] = {
    "The prepared hole was not measured": (("turned", "remove-damage", "measure-prepared"),),
    "The hole was measured before it was prepared": (("missing", "measure-prepared"),),
    "The dust was taken away in the wrong way": (("turned", "brush", "remove-dust"),),
    "Dust was made after it was taken away": (("wrong", "job.dust_removal"),),
    "The fluid had too little time": _NOT_DRY,
    "The unit went on before the fluid was dry": _NOT_DRY,
    "The fluid was not left to dry": _NOT_DRY,
    "The fluid dried under the unit": _NOT_DRY,
}


@judge("fault-in-preparation", "fault-in-installation", "fault-in-return", "whole-case-return")
def _fault(bench: Bench) -> Recheck:
    """The faults of the shown lines against the line and the reason of the key."""
    item, edition = bench.item, bench.edition
    if not isinstance(item.key, Blame):
        raise ValueError("the key names no line")
    method = "one-piece" if "repair with a one-piece unit" in item.stem else "two-piece"
    *lines, missing, nothing = item.options
    ids = {step.title: step.id for step in edition.procedure}
    names = [ids[line.text.partition(": ")[0]] for line in lines]
    said = [_stated(name, line.text.partition(": ")[2]) for name, line in zip(names, lines, strict=True)]
    complaints: list[str] = []
    if item.case is not None:
        plan = bench.decide().plan
        if bench.case.injuries and (not plan or method not in plan[0].methods_allowed):
            complaints.append(f"the rulebook does not repair this tire by {method}")
        _share(bench.case, said)
    casings = LIGHT if item.case is None else (bench.casing,)
    found = [_off_limit(said, edition, casing) for casing in casings]
    if any(other != found[0] for other in found):
        complaints.append("whether the lines are right depends on a tire that is not told")
    blamed: dict[Mark, set[str]] = {mark: {lines[place].id} for mark, place in found[0].items()}
    blamed |= {("missing", name): {missing.id} for name in _left_out(names, edition.orders[method])}
    turned = set(_turned(names, edition, method))
    mending = {name for name in names if all(name in pair for pair in turned)} if turned else set()
    for first, then in turned:
        blamed["turned", first, then] = {lines[names.index(name)].id for name in (first, then)}
    if len(blamed) - max(0, len(turned) - 1) > 1 or bool(turned) != bool(mending):
        complaints.append(f"more is wrong than one thing: {sorted(blamed)}")
    reason = next((one.text for one in item.reasons if one.id == item.key.reason), "")
    right = {mark for mark in blamed if mark in _CLAIMS.get(reason, ())}
    if not blamed and item.key != Blame((nothing.id,), ""):
        complaints.append(f"nothing is wrong in these lines, the key is {item.key_text!r}")
    if blamed and not right:
        complaints.append(f"{sorted(blamed)} is wrong, and the key {item.key_text!r} does not say so")
    for mark in right:
        needed = {lines[names.index(name)].id for name in mending} if turned else blamed[mark]
        if not needed <= set(item.key.steps) <= blamed[mark]:
            complaints.append(f"{mark} lies in other lines than those of the key {item.key_text!r}")
    complaints += [
        f"{one.text!r} holds too"
        for one in item.reasons
        if one.text != reason and not blamed.keys().isdisjoint({*_CLAIMS[one.text], *_NEARLY.get(one.text, ())})
    ]
    return Recheck(complaints=tuple(complaints), between=tuple(bench.between))


def _stated(step: str, told: str) -> Stated:
    """What a line states, by quantity. ValueError for words that no form reads."""
    stated: Stated = {}
    for part in told.split(", ") if told else ():
        for form, quantity in _READ.get(step, ()):
            match = re.fullmatch(form, part)
            if match is not None and quantity not in stated:
                words = next(group for group in match.groups() if group)
                stated[quantity] = _WRITTEN.get(words, words)
                break
        else:
            raise ValueError(f"{part!r} is no part of a line of {step}")
    return stated


def _off_limit(said: Sequence[Stated], edition: Edition, casing: str) -> dict[Mark, int]:
    """What breaks a clause, and in which line."""
    found: dict[Mark, int] = {}
    for place, stated in enumerate(said):
        for quantity, words in stated.items():
            for clause in edition.clauses.values():
                if clause.quantity == quantity and casing in clause.casings and _applies(clause, stated):
                    side = _broken(clause, words, edition)
                    if side:
                        found[side, quantity] = place
    return found


def _share(case: Case, said: Sequence[Stated]) -> None:
    """Adds to the line that sets the pressure what share of the recommended one it is, where the case gives that."""
    recommended = case.pressure.recommended
    for stated in said:
        if recommended is not None and "job.pressure_set" in stated:
            share = parse_quantity(stated["job.pressure_set"], "pressure").value * 100 / recommended.value
            stated["job.inflation"] = f"{float(share):.3f} %"


def _applies(clause: Clause, stated: Stated) -> bool:
    """Is the clause about what this line says? A condition on what no line says is one on the tire: not asked here."""
    for condition in clause.when:
        if condition.quantity not in stated:
            return not clause.is_for_job()
        measured = parse_quantity(stated[condition.quantity], MEASURES[condition.quantity].dimension)
        if condition.statement is not None and not condition.statement.permits(measured):
            return False
    return True


def _broken(clause: Clause, words: str, edition: Edition) -> str:
    """On which side a value leaves its clause: "high", "low", "wrong" for words; "" where it keeps to it."""
    statement = clause.strictest
    if statement.words:
        return "" if (words in statement.words) == (statement.bound == "must_be") else "wrong"
    measured = parse_quantity(words, MEASURES[clause.quantity].dimension)
    limit = statement.quantities[0]
    away = measured.value - limit.value
    if statement.bound in ("about", "exactly"):
        return "" if abs(away) <= _play(statement.bound, limit, edition) else "high" if away > 0 else "low"
    if statement.permits(measured):
        return ""
    if statement.bound == "between":
        return "low" if away < 0 else "high"
    return "high" if statement.bound in ("at_most", "below") else "low"


def _play(bound: str, limit: Quantity, edition: Edition) -> float:
    """How far from a limit that is stated so a value may lie, in the base unit."""
    work = edition.work
    if work is None:
        raise ValueError(f"{edition.name} has no rules of the work")
    return float(limit.value * work.about_share if bound == "about" else work.exactly_within.value)


def _left_out(names: Sequence[str], order: Sequence[str]) -> list[str]:
    """The steps of the order that stand nowhere between the first and the last that are shown."""
    places = [order.index(name) for name in names]
    return [name for name in order[min(places) : max(places) + 1] if name not in names]


def _turned(names: Sequence[str], edition: Edition, method: str) -> Iterator[tuple[str, str]]:
    """Pairs of shown lines of which the first, by the rules, comes before the second, but stands after it."""
    rules = edition.work.before if edition.work is not None else ()
    follows: dict[str, set[str]] = {}
    for rule in rules:
        if method in rule.methods:
            for first in rule.first:
                follows.setdefault(first, set()).update(rule.then)
    for stands_first, stands_then in combinations(names, 2):
        if stands_first in _after(stands_then, follows, edition.orders[method]):
            yield stands_then, stands_first


def _after(step: str, follows: Mapping[str, set[str]], order: Sequence[str]) -> set[str]:
    """All steps of the method that must come after this one, directly or through others."""
    found: set[str] = set()
    waiting = [step]
    while waiting:
        new = {name for name in follows.get(waiting.pop(), ()) if name in order} - found
        found |= new
        waiting += new
    return found
