"""House rules: a shop's own stricter limits, laid over an edition. A looser one is refused; nothing is ever released.

The edition's statements stay beside the shop's and are decided too, so a house rule can only take away.
"""

import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from hashlib import sha256

from training.rulebook.clauses import HOUSE, Clause, Statement, bounded
from training.rulebook.edition import Edition
from training.rulebook.measures import MEASURES
from training.rulebook.quantities import Quantity, parse_quantity
from training.trade.composed import Composed, as_written
from training.trade.reading import printable
from training.trade.records import RECORDS
from training.trade.speech import say, saying

SOURCE = saying("house rule of the shop")
_UPPER, _LOWER = ("at_most", "below"), ("at_least", "above")
_NO_SIDE = ("about", "exactly")
_TO = re.compile(r"\s+to\s+")
_LIMITS_MOST = 4  # more units than anyone measures one thing in
_MAY_BE_EXTENDED = ("repair.kind",)  # of what must not be, a shop may add only kinds of earlier repair


@dataclass(frozen=True)
class Problem:
    """One thing that is wrong with house rules; `clause` is "" where no clause is meant."""

    clause: str
    text: str

    def __str__(self) -> str:
        return f"{self.clause}: {self.text}" if self.clause else self.text


class HouseRuleError(ValueError):
    """House rules were refused. `problems`: one for each clause that is wrong, with both values where one is looser."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(map(str, self.problems)))


@dataclass(frozen=True)
class HouseRule:
    """A stricter limit for one clause: lengths and such with their unit (two ends for "between"), or words.

    `since` is the day it began; `note` says why, and is printed with it.
    """

    clause: str
    limits: tuple[str, ...]
    since: date | None = None
    note: str = ""


@dataclass(frozen=True)
class HouseRules:
    """All house rules of a shop, in the order of the edition's clauses or as given."""

    rules: tuple[HouseRule, ...] = ()

    def __iter__(self) -> Iterator[HouseRule]:
        return iter(self.rules)

    def __len__(self) -> int:
        return len(self.rules)

    def rule(self, clause: str) -> HouseRule | None:
        """The rule for a clause, or None."""
        return next((one for one in self.rules if one.clause == clause), None)

    @property
    def digest(self) -> str:
        """Eight digits that stand for what these rules say; the day they began does not count."""
        said = sorted([one.clause, list(one.limits), one.note] for one in self.rules)
        return sha256(json.dumps(said).encode()).hexdigest()[:8]

    def to_json(self) -> list[dict[str, object]]:
        """The rules as JSON data; `from_json` reads it back."""
        return list(RECORDS.unstructure(self.rules))

    @classmethod
    def from_json(cls, data: Sequence[Mapping[str, object]]) -> "HouseRules":
        """Rules that were stored by `to_json`."""
        return cls(RECORDS.structure(data, tuple[HouseRule, ...]))


def adjustable(clause: Clause) -> bool:
    """Has this limit a stricter side that a shop can name?"""
    bound, words = clause.of_edition.bound, clause.of_edition.words
    if bound in _NO_SIDE:
        return False
    if bound == "must_be":
        return len(words) > 1
    if bound == "must_not_be":
        return clause.quantity in _MAY_BE_EXTENDED and bool(_words_left(clause))
    return True


def adjustable_clauses(edition: Edition) -> tuple[Clause, ...]:
    """The clauses that house rules may name, in the edition's order."""
    return tuple(clause for clause in edition.clauses.values() if adjustable(clause))


def words_to_choose(clause: Clause) -> tuple[str, ...]:
    """The words a shop chooses from, for a limit in words; empty for one in numbers."""
    words = clause.of_edition.words
    return words if clause.of_edition.bound == "must_be" else (*words, *_words_left(clause)) if words else ()


def limits_from_text(text: str, *, is_range: bool) -> tuple[str, ...]:
    """The limits in one field of a form: "5 mm", "3/16 in (5 mm)", "3/16 in; 5 mm", or "4 to 5 times" for a range.

    Nothing is checked yet; `lay_over` does that.
    """
    if is_range:
        ends = [one.strip() for one in _TO.split(text.strip(), maxsplit=1)]
        if len(ends) == 2 and re.fullmatch(r"[\d.,/ ]+", ends[0]):
            unit = re.search(r"[^\d.,/\s].*$", ends[1])
            ends[0] += f" {unit.group()}" if unit else ""
        return tuple(one for one in ends if one)
    return tuple(part for part in (one.strip(" )") for one in re.split(r"[;(]", text)) if part)


def settle(edition: Edition, house: HouseRules) -> HouseRules:
    """The same rules in the edition's order and in plain spelling, without those that are the edition's own limit.

    Raises HouseRuleError for an unknown clause, a limit that cannot be read, and a looser one, naming both values.
    """
    settled, problems = _settle(edition, house)
    if problems:
        raise HouseRuleError(problems)
    return HouseRules(tuple(rule for rule, _ in settled))


def effective(edition: Edition, house: HouseRules) -> HouseRules:
    """The rules that change something under an edition, in its order.

    A newer edition may have overtaken one, or not have its clause any more: such a rule is left out.
    """
    return HouseRules(tuple(rule for rule, _ in _settle(edition, house)[0]))


def lay_over(edition: Edition, house: HouseRules) -> Edition:
    """The edition as the shop works by it. A rule equal to the edition's own limit changes nothing.

    The version names the rules by their digest, such as "2026.1+h3f2a91c0". Raises HouseRuleError as `settle` does.
    """
    settled, problems = _settle(edition, house)
    if problems:
        raise HouseRuleError(problems)
    if not settled:
        return edition
    clauses = dict(edition.clauses)
    for rule, statement in settled:
        clauses[rule.clause] = _with_house(clauses[rule.clause], rule, statement)
    digest = HouseRules(tuple(rule for rule, _ in settled)).digest
    return replace(edition, version=f"{edition.released_version}+h{digest}", clauses=clauses, prepared={})


def in_words(edition: Edition, house: HouseRules) -> tuple[str, ...]:
    """Each rule in a line, with the edition's own limit, for a certificate or a list; `edition` without house rules.

    Raises HouseRuleError as `settle` does.
    """
    settled, problems = _settle(edition, house)
    if problems:
        raise HouseRuleError(problems)
    return tuple(
        say(
            "{title}: {limit} (rulebook: {rulebook_limit})",
            title=clause.title,
            limit=statement.printed,
            rulebook_limit=clause.of_edition.printed,
        )
        for clause, statement in ((edition.clauses[rule.clause], statement) for rule, statement in settled)
    )


def _settle(edition: Edition, house: HouseRules) -> tuple[list[tuple[HouseRule, Statement]], list[Problem]]:
    """Each rule that changes something, in the edition's order, with its statement; and what is wrong with the rest."""
    settled: dict[str, tuple[HouseRule, Statement]] = {}
    problems: list[Problem] = []
    seen: set[str] = set()
    for rule in house:
        clause = edition.clauses.get(rule.clause)
        if clause is None or not adjustable(clause):
            problems.append(_not_adjustable(edition, clause, rule))
        elif rule.clause in seen:
            problems.append(Problem(rule.clause, say("is named twice; give each clause one rule")))
        else:
            seen.add(rule.clause)
            try:
                made = _statement(clause, rule)
            except ValueError as refused:
                problems.append(Problem(rule.clause, str(refused)))
            else:
                if made is not None:
                    limits, statement = made
                    settled[rule.clause] = (replace(rule, limits=limits), statement)
    return [settled[name] for name in edition.clauses if name in settled], problems


def _with_house(clause: Clause, rule: HouseRule, statement: Statement) -> Clause:

    def because() -> str:
        told = say(
            "{reason} The shop's own limit is stricter: {limit}.", reason=clause.because, limit=statement.printed
        )
        return f"{told} {rule.note}" if rule.note else told

    return replace(clause, statements=(statement, *clause.statements), because=Composed(because), usually="")


def _statement(clause: Clause, rule: HouseRule) -> tuple[tuple[str, ...], Statement] | None:
    """The limits in plain spelling and the statement; None where it is the edition's own limit. Raises ValueError."""
    own = clause.of_edition
    if not rule.limits:
        raise ValueError(say("no limit is given; give one, or leave the clause out"))
    if own.words:
        return _of_words(clause, rule)
    if own.bound == "between":
        return _of_range(clause, rule)
    if len(rule.limits) > _LIMITS_MOST:
        raise ValueError(say("{count} limits are given; give one for each unit you measure in", count=len(rule.limits)))
    given = _given(clause, rule)
    if len({one.unit for one in given}) < len(given):
        limits = printable("; ".join(rule.limits))
        raise ValueError(say('"{limits}" gives two limits in one unit; give one', limits=limits))
    is_upper = own.bound in _UPPER
    is_stricter = [_compare(limit, own, is_upper) for limit in given]
    if is_upper and any(limit.value <= 0 for limit in given):
        raise ValueError(say("{limit} leaves nothing that could hold; give more than 0, {accepted}", limit=given[0],
                             accepted=_accepted(given[0], own)))  # fmt: skip
    if not any(is_stricter):
        return None
    worst = (min if is_upper else max)(limit.value for limit in given)
    systems = {limit.system or limit.unit for limit in given}
    # a printed limit of the edition in a unit the shop did not name stays where it is the stricter
    kept = tuple(
        limit for limit in own.quantities
        if (limit.system or limit.unit) not in systems and (limit.value < worst if is_upper else limit.value > worst)
    )  # fmt: skip
    return tuple(limit.text for limit in given), _shops(own, given + kept, ())


def _given(clause: Clause, rule: HouseRule) -> tuple[Quantity, ...]:
    """The limits as quantities. Raises ValueError for one that cannot be read, and for a part of a pass or a time."""
    given = tuple(parse_quantity(text, MEASURES[clause.quantity].dimension) for text in rule.limits)
    for limit in given:
        if limit.dimension == "count" and limit.value.denominator != 1:
            raise ValueError(say("{limit} cannot be counted; give a whole number", limit=limit))
    return given


def _compare(limit: Quantity, own: Statement, is_upper: bool) -> bool:
    """Is this limit stricter than the edition's? Raises ValueError where it is looser, naming both."""
    printed = [own.quantities[place].value for place in own.in_unit_of(limit)]
    edge = min(printed) if is_upper else max(printed)
    if limit.value > edge if is_upper else limit.value < edge:
        raise ValueError(say("{limit} is looser than {rulebook_limit}; give {accepted}", limit=limit,
                             rulebook_limit=own.text, accepted=_accepted(limit, own)))  # fmt: skip
    return limit.value != edge


def _accepted(limit: Quantity, own: Statement) -> str:
    is_upper = own.bound in _UPPER
    printed = [own.quantities[place] for place in own.in_unit_of(limit)]
    edge = (min if is_upper else max)(printed, key=lambda one: one.value)
    return bounded(own.bound, edge.text)


def _of_range(clause: Clause, rule: HouseRule) -> tuple[tuple[str, ...], Statement] | None:
    own = clause.of_edition
    if len(rule.limits) != 2:
        raise ValueError(say('"{limits}" is not a range; give two ends inside {rulebook_limit}',
                             limits=printable("; ".join(rule.limits)), rulebook_limit=own.text))  # fmt: skip
    low, high = _given(clause, rule)
    if low.unit != high.unit:
        raise ValueError(say("{low} and {high} are in two units; give both ends in one", low=low, high=high))
    if low.value > high.value:
        raise ValueError(say("{low} to {high} is upside down; give the smaller end first", low=low, high=high))
    places = own.in_unit_of(low)
    least = max(own.quantities[place].value for place in places)
    most = min(own.upper[place].value for place in places)
    if low.value < least or high.value > most:
        raise ValueError(say("{low} to {high} is looser than {rulebook_limit}; stay within it", low=low, high=high,
                             rulebook_limit=own.text))  # fmt: skip
    if (low.value, high.value) == (least, most):
        return None
    return (low.text, high.text), _shops(own, (low,), (high,))


def _of_words(clause: Clause, rule: HouseRule) -> tuple[tuple[str, ...], Statement] | None:
    own, offered = clause.of_edition, words_to_choose(clause)
    for word in rule.limits:
        if word not in offered:
            raise ValueError(say('"{word}" is not accepted; choose from {choices}', word=printable(word),
                                 choices=", ".join(offered)))  # fmt: skip
    if own.bound == "must_be":
        words = tuple(word for word in own.words if word in rule.limits)
    else:
        if missing := [word for word in own.words if word not in rule.limits]:
            raise ValueError(say('without "{word}" it is looser than {rulebook_limit}; keep {words}', word=missing[0],
                                 rulebook_limit=own.text, words=", ".join(own.words)))  # fmt: skip
        words = tuple(word for word in offered if word in rule.limits)
    return None if set(words) == set(own.words) else (words, replace(_shops(own, (), ()), words=words))


def _shops(own: Statement, quantities: tuple[Quantity, ...], upper: tuple[Quantity, ...]) -> Statement:
    made = replace(own, quantities=quantities, upper=upper, stated="", share=None, kind=HOUSE, source=SOURCE,
                   jurisdictions=(), cited=None)  # fmt: skip
    if own.stated and own.quantities:
        # "the whole hole between the outer grooves" says more than a bare "at least 0 mm"
        is_nothing = all(limit.value == 0 and limit.dimension == "length" for limit in own.quantities)
        plain = replace(own, stated="").text
        limit = made.text
        if is_nothing:
            made = replace(made, stated=Composed(lambda: say("{stated}, by {limit}", stated=own.stated, limit=limit)))
        elif as_written(plain) in as_written(own.stated):
            made = replace(made, stated=Composed(lambda: own.stated.replace(str(plain), str(limit))))
    return made


def _not_adjustable(edition: Edition, clause: Clause | None, rule: HouseRule) -> Problem:
    names = ", ".join(one.id for one in adjustable_clauses(edition))
    if clause is None:
        return Problem(
            printable(rule.clause),
            say(
                "{edition} {version} has no such clause; choose {names}",
                edition=edition.name,
                version=edition.version,
                names=names,
            ),
        )
    return Problem(
        rule.clause, say("{limit} has no stricter side; choose {names}", limit=clause.of_edition.text, names=names)
    )


def _words_left(clause: Clause) -> tuple[str, ...]:
    return tuple(word for word in MEASURES[clause.quantity].words if word not in clause.of_edition.words)
