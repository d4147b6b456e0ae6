"""The clauses of an edition made ready for one casing and purpose, by what they are about."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter, is_, itemgetter

from training.rulebook.case_words import severity
from training.rulebook.clauses import Clause
from training.rulebook.decision import Ruling
from training.rulebook.edition import Edition
from training.rulebook.essentials import Fact
from training.rulebook.measures import MEASURES, NOT_HERE, Facts, Read, Reading
from training.rulebook.planning import free_mm, outline_margin
from training.rulebook.second_reading import OTHER_READINGS

_FIRST = itemgetter(0)

LOOK_FIRST = "inspect"
FINDING = "finding."


@dataclass(slots=True)
class Rule:
    """A clause made ready: its reader, whether a tire is released without it, and rulings on words met before.

    `is_plain`: it applies to every tire, and nothing has to be done by it. `facts` are those it is computed from and
    that are insisted on; `is_said_once`: nothing but the finding itself states them; `names`: what it finds, in words,
    where it is about a finding.
    """

    clause: Clause
    read: Read
    is_plain: bool
    is_essential: bool
    facts: tuple[Fact, ...]
    is_said_once: bool
    names: str
    met: dict[tuple[str, str | None, str], Ruling]


class Rare:
    """Rules that have nothing to say of most subjects: what they need is asked for in one go, and read once for all."""

    __slots__ = ("_groups", "_stated", "rules")

    def __init__(self, rules: Iterable[Rule]) -> None:
        groups: dict[str, list[Rule]] = {}
        self.rules = tuple(rules)
        for rule in self.rules:
            groups.setdefault(rule.clause.quantity, []).append(rule)
        needs = list(dict.fromkeys(MEASURES[quantity].needs for quantity in groups))
        # by the field that they need: each group with its place, in the order of which they speak
        self._groups: list[list[tuple[int, list[Rule]]]] = [[] for _ in needs]
        for place, (quantity, group) in enumerate(groups.items()):
            self._groups[needs.index(MEASURES[quantity].needs)].append((place, group))
        self._stated = attrgetter(*needs, "__class__", "__class__")  # of a single name it would give no tuple

    def speaking(self, facts: Facts, subject: object, stated: object) -> Iterator[tuple[Rule, Reading]]:
        """Those with something to say of the subject, with their reading; `stated` holds the fields they need."""
        asked = [
            group
            for groups, value in zip(self._groups, self._stated(stated), strict=False)
            if value
            for group in groups
        ]
        asked.sort(key=_FIRST)
        for _, rules in asked:
            reading = rules[0].read(facts, subject)
            if reading != NOT_HERE:
                for rule in rules:
                    yield rule, reading


@dataclass(slots=True)
class Prepared:
    """All clauses for one casing and purpose, by what they are about; `rules`: each by the identity of its clause."""

    rules: Mapping[int, Rule]
    is_covered: bool
    margin_mm: float
    free_mm: float
    tire: list[Rule]
    rare: Rare
    findings: list[tuple[str, Rule]]
    doubt: list[Rule]
    injury: list[Rule]
    rare_injury: Rare
    pair: list[Rule]
    repair: list[Rule]
    rare_repair: Rare
    proposal: list[Rule]
    disagreements: list[Rule]
    injury_kinds: frozenset[str]
    if_no_injuries_stated: tuple[Rule, ...]
    if_no_repairs_stated: tuple[Rule, ...]


def prepared_for(edition: Edition, casing: str, purpose: str) -> Prepared:
    """The clauses made ready, once; of an altered edition most are as they were in the one it comes from."""
    ready = edition.prepared.get((casing, purpose))
    if not isinstance(ready, Prepared):
        origin = None if edition.origin is None else prepared_for(edition.origin, casing, purpose)
        ready = edition.prepared[casing, purpose] = _prepare(edition, casing, purpose, origin)
    return ready


def _prepare(edition: Edition, casing: str, purpose: str, origin: Prepared | None) -> Prepared:
    known = {} if origin is None else origin.rules
    groups: dict[str, list[Rule]] = {name: [] for name in ("tire", "doubt", "injury", "pair", "repair", "proposal")}
    findings: list[tuple[str, Rule]] = []
    by_clause: dict[int, Rule] = {}
    for clause in edition.clauses.values():
        measure = MEASURES[clause.quantity]
        if casing not in clause.casings or purpose not in clause.purposes or measure.read is None:
            continue
        rule = known.get(id(clause)) or _ready(edition, clause, measure.read, casing, purpose)
        by_clause[id(clause)] = rule
        if measure.about == "tire" and clause.quantity.startswith(FINDING):
            findings.append((clause.quantity.removeprefix(FINDING), rule))
        else:
            groups[measure.about].append(rule)
    rules = [rule for group in groups.values() for rule in group]
    margin = outline_margin(edition, casing)
    kinds = [rule for rule in groups["injury"] if rule.clause.quantity == "injury.kind"]
    rare = {about: Rare(group) for about, group in _parted(groups, is_rare=True).items()}
    usual = _parted(groups, is_rare=False)
    if origin is not None:  # what is the same is one object, so that what it came to need not be asked again
        before = {"tire": origin.rare, "injury": origin.rare_injury, "repair": origin.rare_repair}
        rare |= {about: one for about, one in before.items() if _alike(one.rules, rare[about].rules)}
        if _alike([rule for _, rule in findings], [rule for _, rule in origin.findings]):
            findings = origin.findings
        for about, group in usual.items():
            of_origin = getattr(origin, about)
            usual[about] = of_origin if _alike(group, of_origin) else group
    return Prepared(
        rules=by_clause,
        is_covered=(casing, purpose) in edition.covered,
        margin_mm=margin.number if margin is not None else 0.0,
        free_mm=free_mm(edition, casing),
        findings=findings,
        disagreements=[rule for rule in rules if rule.clause.quantity in OTHER_READINGS],
        injury_kinds=frozenset(word for rule in kinds for one in rule.clause.statements for word in one.words),
        if_no_injuries_stated=tuple(kinds),
        if_no_repairs_stated=tuple(rule for rule in groups["repair"] if rule.clause.quantity == "repair.kind"),
        rare=rare["tire"],
        rare_injury=rare["injury"],
        rare_repair=rare["repair"],
        **usual,
    )


def _alike(rules: Sequence[Rule], others: Sequence[Rule]) -> bool:
    """Whether they are the very same rules."""
    return len(rules) == len(others) and all(map(is_, rules, others))


def _ready(edition: Edition, clause: Clause, read: Read, casing: str, purpose: str) -> Rule:
    facts = insisted_on(edition, clause, (clause.quantity,), casing, purpose)
    is_finding = clause.quantity.startswith(FINDING)
    named = edition.essentials.facts.get(clause.quantity) if is_finding else None
    return Rule(
        clause,
        read,
        is_plain=not clause.when and not clause.condition,
        is_essential=max(severity(one.otherwise) for one in clause.statements) >= severity(LOOK_FIRST),
        facts=facts,
        is_said_once=is_finding and all(fact.is_said_once for fact in facts),
        names=named.words if named is not None else "",
        met={},
    )


def _parted(groups: Mapping[str, Sequence[Rule]], *, is_rare: bool) -> dict[str, list[Rule]]:
    return {
        about: [rule for rule in rules if MEASURES[rule.clause.quantity].is_rare == is_rare]
        for about, rules in groups.items()
    }


def insisted_on(
    edition: Edition, clause: Clause, quantities: Sequence[str], casing: str, purpose: str
) -> tuple[Fact, ...]:
    """The facts that these quantities are computed from, but for those without which this edition releases a tire."""
    essentials = edition.essentials
    facts = [fact for quantity in quantities for fact in essentials.feeding(quantity)]
    if not facts:  # nothing is released because nobody has said where to look
        return (Fact.of_clause(clause.id, MEASURES[clause.quantity].meaning),)
    return tuple(one for one in facts if not essentials.exception(one.id, casing, purpose))
