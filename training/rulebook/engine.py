"""Deciding: every clause that covers a tire is applied to each of its subjects; the worst consequence wins."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.case_words import DOUBT, severity
from training.rulebook.clauses import Clause, Condition, Statement
from training.rulebook.decision import Decision, Ruling
from training.rulebook.edition import Edition
from training.rulebook.essentials import Fact, looks
from training.rulebook.measures import MEASURES, NOT_HERE, Apart, Facts, Found, Read, Reading
from training.rulebook.planning import free_mm, outline_margin, plan_work, to_get
from training.rulebook.reading import parse_case
from training.rulebook.registry import load_edition
from training.rulebook.second_reading import OTHER_READINGS
from training.rulebook.units import OnShelf
from training.trade.words import CASING_WORDS, PURPOSE_WORDS

NOT_COVERED = "not-covered"
_LOOK_FIRST = "inspect"
_FINDING = "finding."
_LISTED = ("injury", "repair")  # that nobody said whether there is any is a fact of its own
_UPPER = ("at_most", "below")
_LOWER = ("at_least", "above")
_MILDEST = "accept"
_UNREAD = "unread"
_HARDEST = "reject"
_MOST_READINGS = 81  # four pairs with three readings each: a case of more is looked at again anyhow
_COULD_BE_GRAVER = ("inspect", "refer")  # what facts that cannot both be true come to at least, and is not the worst
_FOUND, _NOT_FOUND = "found", "not found"
_IN_DOUBT = Found("in doubt", word="in doubt")
_MOST_MET = 256  # ids are the user's own: a stream of cases must not fill the memory


@dataclass(slots=True)
class _Rule:
    """A clause made ready: its reader, whether a tire is released without it, and rulings on words met before.

    `facts` are those it is computed from and that are insisted on; `is_rare`: it mostly has nothing to say; `names`:
    what it finds, in words, where it is about a finding.
    """

    clause: Clause
    read: Read
    is_essential: bool
    facts: tuple[Fact, ...]
    is_rare: bool
    names: str
    met: dict[tuple[str, str | None, str], Ruling]


@dataclass(slots=True)
class _Prepared:
    """All clauses for one casing and purpose, by what they are about."""

    is_covered: bool
    margin_mm: float
    free_mm: float
    tire: list[_Rule]
    rare: list[tuple[Read, list[_Rule]]]
    findings: list[tuple[str, _Rule]]
    doubt: list[_Rule]
    injury: list[_Rule]
    pair: list[_Rule]
    repair: list[_Rule]
    proposal: list[_Rule]
    disagreements: list[_Rule]
    injury_kinds: frozenset[str]
    if_no_injuries_stated: tuple[_Rule, ...]
    if_no_repairs_stated: tuple[_Rule, ...]


def decide(case: Case | Mapping[str, object], *, edition: Edition | None = None,
           units: Sequence[OnShelf] | None = None, rest_in_order: bool = False,
           prefer: str = "mm") -> Decision:  # fmt: skip
    """Decide a case under an edition (its own, unless one is given), with the repair units on the shelf, if any.

    Without them no unit and no outline is planned, and whether repairs overlap is decided only where it is the same for
    every unit.

    `rest_in_order` takes the word of whoever tells the case that what is not said of it is in order; without it a tire
    of which something essential was not looked at is not released. `prefer`: computed lengths are told in "mm" or "in".
    Raises CaseError for input that is not a case.

    >>> decide({"tire": {"casing": "passenger"}, "injuries": [{"diameter": "10 mm"}]}).verdict
    'reject'
    """
    if not isinstance(case, Case):
        case = parse_case(case)
    if edition is None:
        edition = load_edition(case.edition, on=case.on)
    if edition.starts and case.on is not None:
        edition = edition.as_of(case.on)
    units = units or ()
    session = _walked(case, edition, units, prefer)
    if_nothing_else = _gravest(session.rulings)
    if if_nothing_else in _COULD_BE_GRAVER:
        session.rulings += _by_the_other_facts(session, edition)
        if_nothing_else = _gravest(session.rulings)
    worst = severity(if_nothing_else)
    unexamined = tuple(dict.fromkeys(session.unexamined))
    missing = session.missing(edition) if session.open and not rest_in_order else {}
    verdict = _LOOK_FIRST if missing and worst < severity(_LOOK_FIRST) else if_nothing_else
    plan = plan_work(edition, session.rulings, session.facts) if verdict == "repair" else None
    conditions = dict.fromkeys(session.conditions)
    to_look_at = looks(missing.values()) if verdict == _LOOK_FIRST else ()
    conditions |= dict.fromkeys(look.text for look in to_look_at)
    conditions |= dict.fromkeys(to_get(plan or (), units))
    return Decision(verdict, edition.name, edition.version, tuple(session.rulings), unexamined, bool(unexamined),
                    tuple(conditions), plan, if_nothing_else, tuple(missing), to_look_at)  # fmt: skip


def _walked(case: Case, edition: Edition, units: Sequence[OnShelf], prefer: str) -> "_Session":
    casing, purpose = case.tire.casing, case.purpose
    prepared = edition.prepared.get((casing, purpose))
    if not isinstance(prepared, _Prepared):
        prepared = edition.prepared[casing, purpose] = _prepare(edition, casing, purpose)
    crown, margin_mm = edition.crowns.get(casing), prepared.margin_mm
    session = _Session(case, Facts(case, crown, units, margin_mm, prefer, free_mm=prepared.free_mm), prepared)
    session.walk(edition)
    return session


def _gravest(rulings: Sequence[Ruling]) -> str:
    """The worst consequence of what does not hold."""
    gravest, worst = _MILDEST, 0
    for ruling in rulings:
        if not ruling.holds and severity(ruling.consequence) > worst:
            gravest, worst = ruling.consequence, severity(ruling.consequence)
    return gravest


def _by_the_other_facts(session: "_Session", edition: Edition) -> list[Ruling]:
    """What decides where the other of two facts is believed, if that is graver; of several pairs, any of them.

    A reading may disagree where the case did not, so that each is asked for its own pairs; a pair is settled once.
    """
    facts, readings = session.facts, [session]
    unsettled: list[tuple[_Session, frozenset[str]]] = [(session, frozenset())]
    for one, settled in unsettled:
        rule = next((rule for rule in one.disagreeing() if rule.clause.quantity not in settled), None)
        if rule is None:
            continue
        others = [
            _walked(case, edition, facts.shelf, facts.prefer) for case in OTHER_READINGS[rule.clause.quantity](one.case)
        ]
        readings += others
        if len(readings) > _MOST_READINGS or any(_gravest(other.rulings) == _HARDEST for other in others):
            break
        unsettled += [(reading, settled | {rule.clause.quantity}) for reading in (one, *others)]
    gravest_reading = max(readings, key=lambda one: severity(_gravest(one.rulings)))
    gravest = _gravest(gravest_reading.rulings)
    if severity(gravest) <= severity(_gravest(session.rulings)):
        return []
    return [ruling for ruling in gravest_reading.rulings if not ruling.holds and ruling.consequence == gravest]


class _Session:
    """One case being decided."""

    __slots__ = ("case", "conditions", "facts", "known", "open", "prepared", "rulings", "unexamined")

    def __init__(self, case: Case, facts: Facts, prepared: _Prepared) -> None:
        self.case, self.facts, self.prepared = case, facts, prepared
        self.rulings: list[Ruling] = []
        self.unexamined: list[str] = []
        self.conditions: list[str] = []
        self.known: dict[str, Reading] = {}  # what conditions asked of the tire
        self.open: list[tuple[_Rule, object, bool]] = []  # essential, not examined; True: it may not even apply

    def walk(self, edition: Edition) -> None:
        """Apply every clause to its subjects, in the order a shop looks at them."""
        case, prepared = self.case, self.prepared
        if not prepared.is_covered:
            asked = f"{CASING_WORDS[case.tire.casing].one}: {PURPOSE_WORDS[case.purpose]}"
            self.rulings.append(_not_covered(edition, "tire", asked))
        findings = case.findings
        for slug, rule in prepared.findings:
            state = findings.get(slug)
            if state is None and not rule.clause.when:
                self.unexamined.append(rule.clause.id)
                if rule.is_essential:
                    self.open.append((rule, None, False))
            elif state is None:
                self._not_looked_at(rule, None)
            elif state == DOUBT:
                self._in_doubt(prepared.doubt, rule)
            else:
                met = rule.met.get((_FOUND if state else _NOT_FOUND, case.jurisdiction, "tire"))
                if met is None or rule.clause.when or rule.clause.condition:
                    self._apply(rule, None, "tire")
                else:
                    self.rulings.append(met)
        facts = self.facts
        for rule in prepared.tire:
            self._apply(rule, None, "tire")
        for read, rules in prepared.rare:
            reading = read(facts, None)
            if reading != NOT_HERE:
                for rule in rules:
                    self._apply(rule, None, "tire", reading)
        if case.injuries is None:
            self._leave_list_open(prepared.if_no_injuries_stated, prepared.injury)
        else:
            for injury in case.injuries:
                if injury.kind not in prepared.injury_kinds:
                    self.rulings.append(
                        _not_covered(edition, injury.id, f"{CASING_WORDS[case.tire.casing].one}, {injury.kind}")
                    )
                for rule in prepared.injury:
                    if not rule.is_rare or rule.read(facts, injury) != NOT_HERE:
                        self._apply(rule, injury, injury.id)
        if case.earlier_repairs is None:
            self._leave_list_open(prepared.if_no_repairs_stated, prepared.repair)
        else:
            for repair in case.earlier_repairs:
                for rule in prepared.repair:
                    self._apply(rule, repair, repair.id)
        if prepared.pair:
            for apart in _pairs(case):
                for rule in prepared.pair:
                    self._apply(rule, apart, f"{apart.first.id}+{apart.second.id}")
        if case.proposed is not None:
            if not prepared.proposal:
                self.rulings.append(
                    _not_covered(edition, "proposal", f"{CASING_WORDS[case.tire.casing].one}, {case.proposed}")
                )
            for rule in prepared.proposal:
                self._apply(rule, None, "proposal")

    def disagreeing(self) -> list[_Rule]:
        """The clauses that say of two facts that they cannot both be true, and of which the other can be believed."""
        failing = {ruling.clause for ruling in self.rulings if not ruling.holds}
        return [rule for rule in self.prepared.disagreements if rule.clause.id in failing]

    def _not_looked_at(self, rule: _Rule, subject: object) -> None:
        if rule.clause.if_unknown == "skip":  # speaks only where it was found
            return
        if not rule.clause.when or self._applies(rule.clause.when, subject) is not False:
            self._leave_open(rule, subject)

    def _leave_open(self, rule: _Rule, subject: object, *, is_sure_to_apply: bool = True) -> None:
        self.unexamined.append(rule.clause.id)
        if rule.is_essential:
            self.open.append((rule, subject, not is_sure_to_apply))

    def _leave_list_open(self, first: Sequence[_Rule], rules: Sequence[_Rule]) -> None:
        """Nobody said whether there is any: what is not looked for may be the worst of its kind."""
        self.unexamined += [rule.clause.id for rule in first]
        if any(rule.is_essential for rule in rules):
            self.open += [(rule, None, False) for rule in first]

    def _in_doubt(self, doubts: Sequence[_Rule], rule: _Rule) -> None:
        """Whoever cannot tell decides as for the finding itself, never harder."""
        clause = rule.clause
        applies = self._applies(clause.when, None)
        as_found = _rule(clause, Found(_FOUND, word=_FOUND), self.case.jurisdiction, "tire")
        if applies is False or as_found is None or as_found.holds:
            return
        if applies is None and clause.if_unknown == "unexamined":
            self._leave_open(rule, None, is_sure_to_apply=False)
            return
        doubtful = _IN_DOUBT._replace(text=f"{_IN_DOUBT.text}: {rule.names}" if rule.names else _IN_DOUBT.text)
        for doubt in doubts:
            ruling = _rule(doubt.clause, doubtful, self.case.jurisdiction, clause.quantity.removeprefix(_FINDING))
            if ruling is not None:
                mildest = min(ruling.consequence, as_found.consequence, key=severity)
                self.rulings.append(replace(ruling, consequence=mildest))
        if doubts and clause.condition:
            self.conditions.append(clause.condition)

    def missing(self, edition: Edition) -> dict[str, Fact]:
        """The facts that nobody stated and without which nothing is released."""
        case, found = self.case, dict[str, Fact]()
        for rule, subject, may_not_apply in self.open:
            if may_not_apply:  # what the clause measures is known: it is the conditions that are not
                quantities = [one.quantity for one in rule.clause.when if self._applies((one,), subject) is None]
                facts = _insisted_on(edition, rule.clause, quantities, case.tire.casing, case.purpose)
            elif subject is None and MEASURES[rule.clause.quantity].about in _LISTED:
                facts = tuple(fact for fact in rule.facts if fact.fields[0] in ("injuries", "earlier_repairs"))
                found |= {fact.id: fact for fact in facts}
                continue
            else:
                facts = rule.facts
            has_units = self._has_units(subject)
            unstated = [
                fact for fact in facts if fact.id in found or not fact.is_stated(case, subject, has_units=has_units)
            ]
            if not unstated and not rule.clause.quantity.startswith(_FINDING):
                unstated = list(facts)
            found |= {fact.id: fact for fact in unstated}
        return found

    def _has_units(self, subject: object) -> bool:
        """Is there a unit on the shelf for each injury the subject is about?"""
        about = subject if isinstance(subject, tuple) else (subject,)
        return all(self.facts.unit(one) is not None for one in about if isinstance(one, Injury))

    def _apply(self, rule: _Rule, subject: object, name: str, reading: Reading = _UNREAD) -> None:
        clause = rule.clause
        applies: bool | None = True
        if clause.when:
            applies = self._applies(clause.when, subject)
            if applies is None and clause.if_unknown != "unexamined":
                applies = clause.if_unknown == "applies"
            if applies is False:
                return
        found = rule.read(self.facts, subject) if reading == _UNREAD else reading
        if not isinstance(found, Found):
            if found != NOT_HERE:
                self._leave_open(rule, subject)
            return
        jurisdiction = self.case.jurisdiction
        ruling: Ruling | None
        if found.word is not None and found.word == found.text:  # what else is told of it is of this tire alone
            ruling = rule.met.get((found.word, jurisdiction, name))
            if ruling is None:
                ruling = _rule(clause, found, jurisdiction, name)
                if ruling is not None and rule.names and found.word == _FOUND:
                    ruling = replace(ruling, found=rule.names)
                if ruling is not None and len(rule.met) < _MOST_MET:
                    rule.met[found.word, jurisdiction, name] = ruling
        elif found.word is None and clause.of_edition.share is not None:
            ruling = self._rule_by_share(clause, found, name)
        else:
            ruling = _rule(clause, found, jurisdiction, name)
        if ruling is None or (applies is None and not ruling.holds):
            self._leave_open(rule, subject, is_sure_to_apply=ruling is None)
            return
        self.rulings.append(ruling)
        if clause.condition and not ruling.holds:
            self.conditions.append(clause.condition)

    def _rule_by_share(self, clause: Clause, found: Found, name: str) -> Ruling | None:
        """A limit that grows with the tire; where the tire's own figure is missing, only what is sure either way."""
        share = clause.of_edition.share
        read = MEASURES[share.quantity].read if share is not None else None
        whole = read(self.facts, None) if read is not None else None
        if isinstance(whole, Found) and whole.measured is not None:
            measured = whole.measured
            clause = replace(clause, statements=tuple(one.for_whole(measured) for one in clause.statements))
            return _rule(clause, found, self.case.jurisdiction, name)
        if clause.house is not None:  # it does not grow with the tire
            own = _rule(replace(clause, statements=(clause.house,)), found, self.case.jurisdiction, name)
            if own is not None and not own.holds:
                return own
            clause = replace(clause, statements=tuple(one for one in clause.statements if not one.is_house))
        ruling = _rule(clause, found, self.case.jurisdiction, name)
        if ruling is None or share is None:
            return ruling
        sure = ruling.holds == ((share.takes != "smaller") == (clause.bound in _UPPER))
        return ruling if sure else None

    def _applies(self, conditions: Sequence[Condition], subject: object) -> bool | None:
        """True, False, or None where what the condition asks was not stated."""
        sure: bool | None = True
        for condition in conditions:
            if subject is None and condition.quantity in self.known:
                found = self.known[condition.quantity]
            else:
                read = MEASURES[condition.quantity].read
                found = read(self.facts, subject) if read is not None else None
                if subject is None:
                    self.known[condition.quantity] = found
            if not isinstance(found, Found):
                if condition.if_unknown == "skip":
                    return False
                sure = sure if condition.if_unknown else None
            elif condition.statement is not None:
                if not _holds(condition.statement, found)[0]:
                    return False
            elif found.word == _IN_DOUBT.word and found.word not in condition.words:
                sure = None
            elif found.word not in condition.words:
                return False
        return sure


def _rule(clause: Clause, found: Found, jurisdiction: str | None, subject: str) -> Ruling | None:
    """One clause on what was found; None where what is known does not decide."""
    statements = clause.statements
    deciding = statements[0]
    if len(statements) == 1:
        holds, between = _holds(deciding, found)
        consequence = _MILDEST if holds else deciding.otherwise
    else:
        eligible = clause.deciding(jurisdiction)
        consequence, between, seen, house = "", False, set(), clause.house
        for one in statements:
            holds, within = _holds(one, found)
            follows = _MILDEST if holds else one.otherwise
            if house is None or one is house:  # a house rule settles what the edition's statements leave open
                seen.add(follows)
                between = between or within
            if one in eligible and (not consequence or severity(follows) > severity(consequence)):
                deciding, consequence = one, follows
        holds, between = consequence == _MILDEST, between or len(seen) > 1
        if holds:
            deciding = clause.strictest if clause.strictest in eligible else eligible[0]
    if found.sense != "exact":
        sure = (deciding.bound in _LOWER) == ((found.sense == "at_least") == holds)
        if not sure or deciding.bound not in _LOWER + _UPPER:
            return None
    kind, source = deciding.kind, deciding.source
    if jurisdiction is not None and deciding.cited is not None and deciding.cited.depends_on_place:
        said = deciding.said_in(jurisdiction)
        kind, source = said.kind, said.source
    return Ruling(clause.id, subject, holds, found.text, deciding.printed, consequence, clause.because, kind, source,
                  between)  # fmt: skip


def _holds(statement: Statement, found: Found) -> tuple[bool, bool]:
    """Does the statement hold, compared in the unit taken; and would its other printed limit decide otherwise?"""
    if found.word is not None:
        return (found.word in statement.words) == (statement.bound == "must_be"), False
    measured, limits = found.measured, statement.quantities
    value = found.value if measured is None else measured.value
    if value is None:
        raise TypeError(f"{found.text}: a measure gave neither a word nor a value")
    if len(limits) == 1:
        return statement.holds(value, 0), False
    outcomes = [statement.holds(value, place) for place in range(len(limits))]
    places = range(len(limits)) if measured is None else statement.in_unit_of(measured)
    return all(outcomes[place] for place in places), len(set(outcomes)) > 1


def _insisted_on(
    edition: Edition, clause: Clause, quantities: Sequence[str], casing: str, purpose: str
) -> tuple[Fact, ...]:
    """The facts that these quantities are computed from, but for those without which this edition releases a tire."""
    essentials = edition.essentials
    facts = [fact for quantity in quantities for fact in essentials.feeding(quantity)]
    if not facts:  # nothing is released because nobody has said where to look
        return (Fact.of_clause(clause.id, MEASURES[clause.quantity].meaning),)
    return tuple(one for one in facts if not essentials.exception(one.id, casing, purpose))


def _pairs(case: Case) -> Iterator[Apart]:
    injuries = [injury for injury in case.injuries or () if injury.kind == "puncture"]
    on_liner: list[Injury | EarlierRepair] = [*injuries, *(case.earlier_repairs or ())]
    for place, first in enumerate(on_liner):
        for second in on_liner[place + 1 :]:
            yield Apart(first, second)


def _not_covered(edition: Edition, subject: str, found: str) -> Ruling:
    return Ruling(
        clause=NOT_COVERED,
        subject=subject,
        holds=False,
        found=found,
        limit="a clause of this rulebook that covers it",
        consequence="refer",
        because="This rulebook has no clause for this tire and purpose, and nothing is released that no clause covers.",
        kind="common-practice",
        source=f"{edition.title}: nothing is released without a clause",
        between_statements=False,
    )


def _prepare(edition: Edition, casing: str, purpose: str) -> _Prepared:
    groups: dict[str, list[_Rule]] = {name: [] for name in ("tire", "doubt", "injury", "pair", "repair", "proposal")}
    findings: list[tuple[str, _Rule]] = []
    for clause in edition.clauses.values():
        measure = MEASURES[clause.quantity]
        if casing not in clause.casings or purpose not in clause.purposes or measure.read is None:
            continue
        gravest = max(severity(one.otherwise) for one in clause.statements)
        facts = _insisted_on(edition, clause, (clause.quantity,), casing, purpose)
        is_essential = gravest >= severity(_LOOK_FIRST)
        named = edition.essentials.facts.get(clause.quantity) if clause.quantity.startswith(_FINDING) else None
        names = named.words if named is not None else ""
        rule = _Rule(clause, measure.read, is_essential, facts, measure.is_rare, names, {})
        if measure.about == "tire" and clause.quantity.startswith(_FINDING):
            findings.append((clause.quantity.removeprefix(_FINDING), rule))
        else:
            groups[measure.about].append(rule)
    rare: dict[Read, list[_Rule]] = {}  # read once, however many clauses ask
    for rule in groups["tire"]:
        if rule.is_rare:
            rare.setdefault(rule.read, []).append(rule)
    rules = [rule for group in groups.values() for rule in group]
    margin = outline_margin(edition, casing)
    kinds = [rule for rule in groups["injury"] if rule.clause.quantity == "injury.kind"]
    return _Prepared(
        is_covered=(casing, purpose) in edition.covered,
        margin_mm=margin.number if margin is not None else 0.0,
        free_mm=free_mm(edition, casing),
        findings=findings,
        disagreements=[rule for rule in rules if rule.clause.quantity in OTHER_READINGS],
        injury_kinds=frozenset(word for rule in kinds for one in rule.clause.statements for word in one.words),
        if_no_injuries_stated=tuple(kinds),
        if_no_repairs_stated=tuple(rule for rule in groups["repair"] if rule.clause.quantity == "repair.kind"),
        rare=list(rare.items()),
        **{**groups, "tire": [rule for rule in groups["tire"] if not rule.is_rare]},
    )
