"""A rulebook as someone has it in mind who is wrong: clauses, quantities, casings and the order of work altered."""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypedDict, TypeVar

from training.rulebook.audit_rules import Before, WorkRules
from training.rulebook.clauses import QUANTITY_BOUNDS, Clause, Condition, Share, Statement
from training.rulebook.geometry import CrownRule
from training.rulebook.measures import MEASURES
from training.rulebook.quantities import Quantity, in_unit, parse_quantity, quantity
from training.trade.words import CASINGS, PURPOSES, VERDICTS

_WHOLE = 100  # percent
_ALL = "all"
_Value = TypeVar("_Value")


class Limit(TypedDict, total=False):
    """A limit by another one. Without `of` every statement of the clause itself changes, with it only one is left.

    `of`: the clause it is taken from, or the first of several that the edition has. `halfway`: in the middle between
    that and another clause's, given likewise. `times`: so many times as much. `rest`: what is left of 100 %. `end`:
    "upper", the upper end of a range alone. `bound`: held otherwise, such as "below" instead of "at_most". `share`: how
    it grows with the tire: "none", the "smaller" of both, or their "sum". `other_unit`: the same numbers, each in the
    unit of the other. `accepts`, `refuses`: words that are accepted, or refused, as well.
    """

    of: str | Sequence[str]
    halfway: str | Sequence[str]
    times: str
    rest: bool
    end: str
    bound: str
    share: str
    other_unit: bool
    accepts: Sequence[str]
    refuses: Sequence[str]


class Work(TypedDict, total=False):
    """The order of the work. `needless`: steps that may be missing. `free`: ids of the rules of order that hold no
    more; for both "all" means every one. `moved`: steps, and the one that each is done right before."""

    needless: Sequence[str]
    free: Sequence[str]
    moved: Mapping[str, str]


class Beliefs(TypedDict, total=False):
    """What someone believes of a rulebook, most of it by id of a clause.

    `without`: clauses dropped. `limits`: the clause whose limit counts instead, or texts, or a `Limit`. `measures`:
    another quantity instead of that of a clause, or of a quantity wherever one is named. `consequences`: what follows.
    `purposes`: for what it counts. `always`: quantities it depends on no more. `only`: words it depends on as well.
    `laws`: the jurisdiction whose statement counts everywhere. `casings`: casings taken for others, or for none that
    the rulebook knows (""). `crown`: of what the shares of a repairable crown are taken. `lean`: a channel's, "turned"
    or "ignored". `work`: its order.
    """

    without: Collection[str]
    limits: Mapping[str, str | Sequence[str] | Limit]
    measures: Mapping[str, str]
    consequences: Mapping[str, str]
    purposes: Mapping[str, Sequence[str]]
    always: Mapping[str, Sequence[str]]
    only: Mapping[str, Mapping[str, Sequence[str]]]
    laws: Mapping[str, str]
    casings: Mapping[str, str]
    crown: str
    lean: str
    work: Work


def named_clauses(beliefs: Beliefs, clauses: Collection[str] = ()) -> Iterator[str]:
    """Ids of the clauses that somebody believes something of, and takes limits from; of several the first there is."""
    yield from beliefs.get("without", ())
    for id, limit in beliefs.get("limits", {}).items():
        yield id
        yield from _references(limit, clauses)
    yield from (id for id in beliefs.get("measures", {}) if not _is_quantity(id))
    for by_id in (
        beliefs.get("consequences", {}),
        beliefs.get("purposes", {}),
        beliefs.get("always", {}),
        beliefs.get("only", {}),
        beliefs.get("laws", {}),
    ):
        yield from by_id


def within(beliefs: Beliefs, clauses: Mapping[str, Clause]) -> Beliefs:
    """What of these beliefs is about clauses that there are; the rest alters nothing."""

    def known(by_id: Mapping[str, _Value]) -> dict[str, _Value]:
        return {id: value for id, value in by_id.items() if id in clauses}

    kept = beliefs.copy()
    kept["without"] = [id for id in beliefs.get("without", ()) if id in clauses]
    limits = known(beliefs.get("limits", {}))
    kept["limits"] = {
        id: one for id, one in limits.items() if all(name in clauses for name in _references(one, clauses))
    }
    measures = beliefs.get("measures", {})
    named = {clause.quantity for clause in clauses.values()}
    named |= {one.quantity for clause in clauses.values() for one in clause.when}
    kept["measures"] = {id: name for id, name in measures.items() if id in (named if _is_quantity(id) else clauses)}
    kept["consequences"] = known(beliefs.get("consequences", {}))
    kept["purposes"] = known(beliefs.get("purposes", {}))
    kept["always"] = {
        id: [name for name in quantities if any(one.quantity == name for one in clauses[id].when)]
        for id, quantities in known(beliefs.get("always", {})).items()
    }
    kept["only"] = known(beliefs.get("only", {}))
    laws = known(beliefs.get("laws", {})).items()
    kept["laws"] = {id: law for id, law in laws if any(law in one.jurisdictions for one in clauses[id].statements)}
    return kept


def _references(limit: object, clauses: Collection[str] = ()) -> tuple[str, ...]:
    """The clauses that a limit is taken from; of several in its `of` the first there is, else all."""
    if isinstance(limit, str):
        return (limit,)
    if not isinstance(limit, Mapping):
        return ()
    return (*_first(limit.get("of", ()), clauses), *_first(limit.get("halfway", ()), clauses))


def _first(named: str | Sequence[str], clauses: Collection[str]) -> tuple[str, ...]:
    """The first of the named clauses that there is, else all of them."""
    all_named = (named,) if isinstance(named, str) else tuple(named)
    return next(((id,) for id in all_named if id in clauses), all_named)


# -- clauses -----------------------------------------------------------------------------------------------------------


def altered_clauses(clauses: Mapping[str, Clause], beliefs: Beliefs) -> dict[str, Clause]:
    """The clauses as someone believes them to be. Raises ValueError naming clause and value."""
    changed = {id: clause for id, clause in clauses.items() if id not in beliefs.get("without", ())}

    def change(by_id: Mapping[str, _Value], how: Callable[[Clause, _Value], Clause]) -> None:
        for id, value in by_id.items():
            changed[id] = how(changed.get(id, clauses[id]), value)

    change(beliefs.get("limits", {}), lambda clause, limit: _limited(clause, limit, clauses))
    measures = beliefs.get("measures", {})
    change({id: name for id, name in measures.items() if not _is_quantity(id)}, _measuring)
    everywhere = {name: _instead(name, name, other) for name, other in measures.items() if _is_quantity(name)}
    if everywhere:
        changed = {id: _measuring_everywhere(clause, everywhere) for id, clause in changed.items()}
    change(beliefs.get("consequences", {}), _following)
    change(beliefs.get("purposes", {}), _for_purposes)
    change(beliefs.get("always", {}), _without_condition)
    change(beliefs.get("only", {}), _with_condition)
    change(beliefs.get("laws", {}), _by_law)
    taken = beliefs.get("casings")
    return changed if taken is None else _for_casings(changed, taken)


def _limited(clause: Clause, limit: str | Sequence[str] | Limit, clauses: Mapping[str, Clause]) -> Clause:
    if isinstance(limit, str):
        limit = {"of": limit}
    if not isinstance(limit, Mapping):
        return replace(clause, statements=(_stating(clause, tuple(limit)),))
    unknown = sorted(set(limit) - set(Limit.__annotations__))
    if unknown:
        raise ValueError(f"{clause.id}: {unknown} is not accepted; choose from {', '.join(Limit.__annotations__)}")
    named, halfway = (_first(limit.get("of", ()), clauses), _first(limit.get("halfway", ()), clauses))
    own = [one for one in clause.statements if not one.is_house]
    if named:
        taken = clauses[named[0]].of_edition
        if MEASURES[clause.quantity].dimension != MEASURES[clauses[named[0]].quantity].dimension:
            raise ValueError(f"{clause.id}: it cannot have the limit of {named[0]}, which measures something else")
        fields = {name: getattr(taken, name) for name in ("bound", "quantities", "upper", "words", "share")}
        own = [replace(clause.of_edition, **fields)]
    middle = clauses[halfway[0]].of_edition if halfway else None
    return replace(clause, statements=tuple(_changed(clause.id, one, limit, middle) for one in own))


def _stating(clause: Clause, texts: tuple[str, ...]) -> Statement:
    stated, measure = clause.of_edition, MEASURES[clause.quantity]
    if not measure.dimension:
        unknown = set(texts) - set(measure.words) if measure.words else set()
        if unknown or not texts:
            raise ValueError(f"{clause.id}: {sorted(unknown)} is not accepted; choose from {', '.join(measure.words)}")
        return replace(stated, words=texts, stated="")
    limits = tuple(parse_quantity(text, measure.dimension) for text in texts)
    if stated.bound == "between":
        low, high = limits
        return replace(stated, quantities=(low,), upper=(high,), stated="")
    return replace(stated, quantities=limits, stated="")


def _changed(id: str, stated: Statement, limit: Limit, middle: Statement | None) -> Statement:
    """A statement by what is believed of its limit."""
    bound = limit.get("bound", stated.bound)
    if bound not in QUANTITY_BOUNDS and bound != stated.bound:
        raise ValueError(f'{id}: "{bound}" is not a bound; choose {", ".join(QUANTITY_BOUNDS)}')
    low, high = stated.quantities, stated.upper
    if limit.get("end") == "upper":
        low = high
    if bound != "between":
        high = ()
    if middle is not None:
        low = tuple(_halfway(one, other) for one in low for other in middle.quantities if other.unit == one.unit)
    if "times" in limit:
        low, high = (tuple(_times(one, Fraction(limit["times"])) for one in end) for end in (low, high))
    if limit.get("rest"):
        low = tuple(quantity(_WHOLE - in_unit(one, one.unit), one.unit) for one in low)
    if limit.get("other_unit"):
        low, high = _other_unit(low), _other_unit(high)
    accepted, refused = set(limit.get("accepts", ())), set(limit.get("refuses", ()))
    added, dropped = (accepted, refused) if bound == "must_be" else (refused, accepted)
    words = tuple(word for word in stated.words if word not in dropped)
    words += tuple(sorted(added - set(words)))
    share = stated.share and _share(stated.share, limit.get("share", ""))
    return replace(stated, bound=bound, quantities=low, upper=high, words=words, share=share, stated="")


def _share(share: Share, how: str) -> Share | None:
    return None if how == "none" else replace(share, takes=how) if how else share


def _times(limit: Quantity, times: Fraction) -> Quantity:
    return quantity(in_unit(limit, limit.unit) * times, limit.unit)


def _halfway(one: Quantity, other: Quantity) -> Quantity:
    return quantity((in_unit(one, one.unit) + in_unit(other, one.unit)) / 2, one.unit)


def _other_unit(limits: tuple[Quantity, ...]) -> tuple[Quantity, ...]:
    units = [one.unit for one in limits]
    turned = zip(limits, units[1:] + units[:1], strict=True)
    return tuple(quantity(in_unit(one, one.unit), unit) for one, unit in turned)


def _is_quantity(name: str) -> bool:
    return name in MEASURES


def _instead(id: str, old_name: str, name: str) -> str:
    """The name of a measure that may stand for another one. Raises ValueError naming those that may."""
    old, new = MEASURES[old_name], MEASURES.get(name)
    if new is None or (new.about, new.dimension) != (old.about, old.dimension):
        same = ", ".join(
            one.name for one in MEASURES.values() if (one.about, one.dimension) == (old.about, old.dimension)
        )
        raise ValueError(f'{id}: "{name}" cannot stand for {old_name}; choose from {same}')
    return name


def _measuring(clause: Clause, name: str) -> Clause:
    return replace(clause, quantity=_instead(clause.id, clause.quantity, name))


def _measuring_everywhere(clause: Clause, instead: Mapping[str, str]) -> Clause:
    when = tuple(replace(one, quantity=instead.get(one.quantity, one.quantity)) for one in clause.when)
    statements = tuple(
        one if one.share is None or one.share.quantity not in instead
        else replace(one, share=replace(one.share, quantity=instead[one.share.quantity]))
        for one in clause.statements
    )  # fmt: skip
    return replace(clause, quantity=instead.get(clause.quantity, clause.quantity), when=when, statements=statements)


def _following(clause: Clause, verdict: str) -> Clause:
    if verdict not in VERDICTS:
        raise ValueError(f'{clause.id}: "{verdict}" is not a verdict; choose {", ".join(VERDICTS)}')
    return replace(clause, statements=tuple(replace(one, otherwise=verdict) for one in clause.statements))


def _for_purposes(clause: Clause, purposes: Sequence[str]) -> Clause:
    unknown = sorted(set(purposes) - set(PURPOSES))
    if unknown:
        raise ValueError(f"{clause.id}: {unknown} is not accepted; choose from {', '.join(PURPOSES)}")
    return replace(clause, purposes=tuple(purposes))


def _without_condition(clause: Clause, quantities: Sequence[str]) -> Clause:
    unknown = sorted(set(quantities) - {one.quantity for one in clause.when})
    if unknown:
        raise ValueError(f"{clause.id}: it does not depend on {', '.join(unknown)}")
    return replace(clause, when=tuple(one for one in clause.when if one.quantity not in quantities))


def _with_condition(clause: Clause, words: Mapping[str, Sequence[str]]) -> Clause:
    for name, wanted in words.items():
        if name not in MEASURES or not set(wanted) <= set(MEASURES[name].words):
            raise ValueError(f"{clause.id}: {name} is {' or '.join(wanted)} is no condition; give a quantity's words")
    return replace(clause, when=(*clause.when, *(Condition(name, tuple(wanted)) for name, wanted in words.items())))


def _by_law(clause: Clause, jurisdiction: str) -> Clause:
    own = tuple(replace(one, jurisdictions=()) for one in clause.statements if jurisdiction in one.jurisdictions)
    return replace(clause, statements=own or clause.statements)


# -- casings and crowns ------------------------------------------------------------------------------------------------


def _for_casings(clauses: Mapping[str, Clause], taken: Mapping[str, str]) -> dict[str, Clause]:
    def covering(clause: Clause) -> tuple[str, ...]:
        return tuple(casing for casing in CASINGS if taken.get(casing, casing) in clause.casings)

    return {id: replace(clause, casings=covering(clause)) for id, clause in clauses.items() if covering(clause)}


def altered_cover(covered: Collection[tuple[str, str]], beliefs: Beliefs) -> frozenset[tuple[str, str]]:
    """The pairs of casing and purpose that someone takes for covered."""
    taken = beliefs.get("casings", {})
    return frozenset(
        (one, purpose) for one in CASINGS for purpose in PURPOSES if (taken.get(one, one), purpose) in covered
    )


def altered_crowns(crowns: Mapping[str, CrownRule], beliefs: Beliefs) -> dict[str, CrownRule]:
    """How someone measures the repairable crown of each casing. Raises ValueError for a share of nothing known."""
    taken = beliefs.get("casings", {})
    changed = {one: crowns[taken.get(one, one)] for one in CASINGS if taken.get(one, one) in crowns}
    of, lean = beliefs.get("crown"), beliefs.get("lean")
    for name, value, known in (("crown", of, _CROWNS), ("lean", lean, _LEANS)):
        if value is not None and value not in known:
            raise ValueError(f'{name}: "{value}" is not accepted; choose from {", ".join(known)}')
    if of is not None:
        changed = {casing: _CROWNS[of](rule) if rule.shares else rule for casing, rule in changed.items()}
    return changed if lean is None else {one: replace(rule, lean=_LEANS[lean]) for one, rule in changed.items()}


def _of_another_width(rule: CrownRule) -> CrownRule:
    percents = [percent for _, percent in rule.shares]
    turned = zip(rule.shares, percents[1:] + percents[:1], strict=True)
    return replace(rule, shares=tuple((up_to, percent) for (up_to, _), percent in turned), printed_mm=())


def _of_the_tread(rule: CrownRule) -> CrownRule:
    return replace(rule, basis="tread-width", printed_mm=())


_LEANS = {"turned": -1, "ignored": 0}
_CROWNS = {"share of another width": _of_another_width, "share of the tread": _of_the_tread}


# -- the work ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class AlteredWork:
    """The orders of the steps and the rules of the work, as someone has them."""

    orders: Mapping[str, tuple[str, ...]]
    rules: WorkRules | None


def altered_work(orders: Mapping[str, tuple[str, ...]], rules: WorkRules | None, beliefs: Beliefs) -> AlteredWork:
    """The work in the order someone does it. Raises ValueError naming a step or a rule that there is not."""
    work = beliefs.get("work")
    if work is None or rules is None:
        return AlteredWork(orders, rules)
    needless, free, moved = work.get("needless", ()), work.get("free", ()), work.get("moved", {})
    _known("step", {*needless, *moved, *moved.values()}, {_ALL, *rules.needs})
    _known("rule", free, {_ALL, *(rule.reason.id for rule in rules.before)})
    needs = {step: need for step, need in rules.needs.items() if not {step, _ALL} & set(needless)}
    before = [rule for rule in rules.before if not {rule.reason.id, _ALL} & set(free)]
    for step, ahead_of in moved.items():
        orders = {method: _moved(steps, step, ahead_of) for method, steps in orders.items()}
    kept = (_agreeing(rule, orders) for rule in before)
    return AlteredWork(orders, replace(rules, needs=needs, before=tuple(one for one in kept if one is not None)))


def _known(what: str, named: Collection[str], known: Collection[str]) -> None:
    unknown = sorted(set(named) - set(known))
    if unknown:
        raise ValueError(f"work: {unknown} is no {what} of it; choose from {', '.join(sorted(known))}")


def _moved(steps: tuple[str, ...], step: str, ahead_of: str) -> tuple[str, ...]:
    if step not in steps or ahead_of not in steps:
        return steps
    rest = [one for one in steps if one != step]
    place = rest.index(ahead_of)
    return (*rest[:place], step, *rest[place:])


def _agreeing(rule: Before, orders: Mapping[str, tuple[str, ...]]) -> Before | None:
    """What of a rule the steps still keep, moved as they are."""

    def kept(first: str, then: str) -> bool:
        return all(
            steps.index(first) < steps.index(then)
            for method, steps in orders.items()
            if method in rule.methods and first in steps and then in steps
        )

    then = tuple(one for one in rule.then if all(kept(other, one) for other in rule.first))
    return replace(rule, then=then) if then else None
