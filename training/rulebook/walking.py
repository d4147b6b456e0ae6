"""One case put to every clause that covers it, in the order a shop looks at a tire."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.case_words import DOUBT, severity
from training.rulebook.clauses import Condition
from training.rulebook.decision import Ruling
from training.rulebook.edition import Edition
from training.rulebook.essentials import Fact
from training.rulebook.measures import MEASURES, NOT_HERE, Apart, Facts, Found, Read, Reading
from training.rulebook.prepared import FINDING, Prepared, Rare, Rule, insisted_on
from training.rulebook.ruling import outcome, rule_by_share, rule_on
from training.trade.speech import say, saying
from training.trade.words import CASING_WORDS, PURPOSE_WORDS

NOT_COVERED = "not-covered"
_LISTED = ("injury", "repair")  # that nobody said whether there is any is a fact of its own
_UNREAD = "unread"
_FOUND, _NOT_FOUND = "found", "not found"
_IN_DOUBT = Found(saying("in doubt"), word="in doubt")
_NO_CLAUSE = saying("a clause of this rulebook that covers it")
_NOTHING_UNCOVERED = saying(
    "This rulebook has no clause for this tire and purpose, and nothing is released that no clause covers."
)
_MOST_MET = 256  # ids are the user's own: a stream of cases must not fill the memory


class Session:
    """One case being decided."""

    __slots__ = (
        "came_to",
        "case",
        "conditions",
        "facts",
        "here",
        "known",
        "known_here",
        "open",
        "prepared",
        "rulings",
        "unexamined",
    )

    def __init__(self, case: Case, facts: Facts, prepared: Prepared) -> None:
        self.case, self.facts, self.prepared = case, facts, prepared
        self.rulings: list[Ruling] = []
        self.unexamined: list[str] = []
        self.conditions: list[str] = []
        self.came_to = facts.came_to
        self.known: dict[str, Reading] = {} if facts.read is None else facts.read  # what was read of the tire
        self.known_here: dict[str, Reading] = {}  # and of the injury, repair or pair looked at now
        self.here: object = None
        self.open: list[tuple[Rule, object, bool]] = []  # essential, not examined; True: it may not even apply

    def walk(self, edition: Edition) -> None:
        """Apply every clause to its subjects, in the order a shop looks at them."""
        case, prepared = self.case, self.prepared
        if not prepared.is_covered:
            asked = f"{CASING_WORDS[case.tire.casing].one}: {PURPOSE_WORDS[case.purpose]}"
            self.rulings.append(_not_covered(edition, "tire", asked))
        self._look(prepared)
        self._apply_all(prepared.tire, None, "tire")
        self._apply_rare(prepared.rare, None, "tire")
        if case.injuries is None:
            self._leave_list_open(prepared.if_no_injuries_stated, prepared.injury)
        else:
            for injury in case.injuries:
                if injury.kind not in prepared.injury_kinds:
                    self.rulings.append(
                        _not_covered(edition, injury.id, f"{CASING_WORDS[case.tire.casing].one}, {injury.kind}")
                    )
                self._apply_rare(prepared.rare_injury, injury, injury.id)
                self._apply_all(prepared.injury, injury, injury.id)
        if case.earlier_repairs is None:
            self._leave_list_open(prepared.if_no_repairs_stated, prepared.repair)
        else:
            for repair in case.earlier_repairs:
                self._apply_rare(prepared.rare_repair, repair, repair.id)
                self._apply_all(prepared.repair, repair, repair.id)
        if prepared.pair:
            for apart in _pairs(case):
                self._apply_all(prepared.pair, apart, f"{apart.first.id}+{apart.second.id}")
        if case.proposed is not None:
            if not prepared.proposal:
                self.rulings.append(
                    _not_covered(edition, "proposal", f"{CASING_WORDS[case.tire.casing].one}, {case.proposed}")
                )
            self._apply_all(prepared.proposal, None, "proposal")

    def _look(self, prepared: Prepared) -> None:
        """Apply the clauses about findings, which come first."""
        key = id(prepared.findings), id(prepared.doubt)
        if self._is_known(key):
            return
        before = self._so_far()
        case, findings = self.case, self.case.findings
        unseen: list[Rule] = []
        was_found, was_not_found = ((word, case.jurisdiction, "tire") for word in (_FOUND, _NOT_FOUND))
        for slug, rule in prepared.findings:
            state = findings.get(slug)
            if rule.is_plain and (state is False or state is True):
                met = rule.met.get(was_found if state else was_not_found)
                if met is None:
                    self._apply(rule, None, "tire")
                else:
                    self.rulings.append(met)
            elif state is None and not rule.clause.when:
                unseen.append(rule)
            elif state is None:
                self._not_looked_at(rule, None)
            elif state == DOUBT:
                self._in_doubt(prepared.doubt, rule)
            else:
                self._apply(rule, None, "tire")
        self.unexamined[:0] = [rule.clause.id for rule in unseen]
        self.open[:0] = [(rule, None, False) for rule in unseen if rule.is_essential]
        self._keep(key, prepared, before)

    def _apply_all(self, rules: list[Rule], subject: object, name: str) -> None:
        key = id(rules), name
        if not self._is_known(key):
            before = self._so_far()
            for rule in rules:
                self._apply(rule, subject, name)
            self._keep(key, rules, before)

    def _apply_rare(self, rare: Rare, subject: object, name: str) -> None:
        key = id(rare), name
        if not self._is_known(key):
            before = self._so_far()
            for rule, reading in rare.speaking(self.facts, subject, self.case if subject is None else subject):
                self._apply(rule, subject, name, reading)
            self._keep(key, rare, before)

    def _so_far(self) -> tuple[int, int, int, int]:
        return len(self.rulings), len(self.unexamined), len(self.open), len(self.conditions)

    def _is_known(self, key: tuple[int, object]) -> bool:
        """Whether a group of rules was asked before; what it came to is then told again."""
        kept = None if self.came_to is None else self.came_to.get(key)
        if kept is None:
            return False
        rulings, unexamined, left_open, conditions = kept[1]
        self.rulings += rulings
        self.unexamined += unexamined
        self.open += left_open
        self.conditions += conditions
        return True

    def _keep(self, key: tuple[int, object], group: object, before: tuple[int, int, int, int]) -> None:
        """Keep what a group of rules came to; with the group, so that no other one can take its identity."""
        if self.came_to is not None:
            rulings, unexamined, left_open, conditions = before
            self.came_to[key] = group, (self.rulings[rulings:], self.unexamined[unexamined:], self.open[left_open:],
                                        self.conditions[conditions:])  # fmt: skip

    def disagreeing(self) -> list[Rule]:
        """The clauses that say of two facts that they cannot both be true, and of which the other can be believed."""
        failing = {ruling.clause for ruling in self.rulings if not ruling.holds}
        return [rule for rule in self.prepared.disagreements if rule.clause.id in failing]

    def _not_looked_at(self, rule: Rule, subject: object) -> None:
        if rule.clause.if_unknown == "skip":  # speaks only where it was found
            return
        if not rule.clause.when or self._applies(rule.clause.when, subject) is not False:
            self._leave_open(rule, subject)

    def _leave_open(self, rule: Rule, subject: object, *, is_sure_to_apply: bool = True) -> None:
        self.unexamined.append(rule.clause.id)
        if rule.is_essential:
            self.open.append((rule, subject, not is_sure_to_apply))

    def _leave_list_open(self, first: Sequence[Rule], rules: Sequence[Rule]) -> None:
        """Nobody said whether there is any: what is not looked for may be the worst of its kind."""
        self.unexamined += [rule.clause.id for rule in first]
        if any(rule.is_essential for rule in rules):
            self.open += [(rule, None, False) for rule in first]

    def _in_doubt(self, doubts: Sequence[Rule], rule: Rule) -> None:
        """Whoever cannot tell decides as for the finding itself, never harder."""
        clause = rule.clause
        applies = self._applies(clause.when, None)
        as_found = rule_on(clause, Found(_FOUND, word=_FOUND), self.case.jurisdiction, "tire")
        if applies is False or as_found is None or as_found.holds:
            return
        if applies is None and clause.if_unknown == "unexamined":
            self._leave_open(rule, None, is_sure_to_apply=False)
            return
        doubtful = _IN_DOUBT
        if rule.names:
            doubtful = _IN_DOUBT._replace(text=say("in doubt: {findings}", findings=rule.names))
        for doubt in doubts:
            ruling = rule_on(doubt.clause, doubtful, self.case.jurisdiction, clause.quantity.removeprefix(FINDING))
            if ruling is not None:
                mildest = min(ruling.consequence, as_found.consequence, key=severity)
                self.rulings.append(replace(ruling, consequence=mildest))
        if doubts and clause.condition:
            self.conditions.append(clause.condition)

    def missing(self, edition: Edition) -> dict[str, Fact]:
        """The facts that nobody stated and without which nothing is released."""
        case, found = self.case, dict[str, Fact]()
        for rule, subject, may_not_apply in self.open:
            facts: Sequence[Fact] = rule.facts
            if may_not_apply:  # what the clause measures is known: it is the conditions that are not
                quantities = [one.quantity for one in rule.clause.when if self._applies((one,), subject) is None]
                facts = insisted_on(edition, rule.clause, quantities, case.tire.casing, case.purpose)
            if subject is None and not may_not_apply and MEASURES[rule.clause.quantity].about in _LISTED:
                facts = [fact for fact in facts if fact.fields[0] in ("injuries", "earlier_repairs")]
            elif may_not_apply or not rule.is_said_once:
                unstated = [fact for fact in facts if fact.id in found or not self._is_stated(fact, subject)]
                facts = unstated if unstated or rule.clause.quantity.startswith(FINDING) else facts
            for fact in facts:
                found[fact.id] = fact
        return found

    def _is_stated(self, fact: Fact, subject: object) -> bool:
        """Does the case say it; of units: is there one on the shelf for each injury the subject is about?"""
        if not fact.is_of_shelf:
            return fact.is_stated(self.case, subject)
        about = subject if isinstance(subject, tuple) else (subject,)
        return all(self.facts.unit(one) is not None for one in about if isinstance(one, Injury))

    def _apply(self, rule: Rule, subject: object, name: str, reading: Reading = _UNREAD) -> None:
        came_to = self.came_to
        if came_to is None:
            found = self._come_to(rule, subject, name, reading)
        else:
            kept = came_to.get((id(rule), name))
            if kept is None:
                kept = came_to[id(rule), name] = rule, self._come_to(rule, subject, name, reading)
            found = kept[1]
        if found is None:
            return
        if found is True or found is False:
            self._leave_open(rule, subject, is_sure_to_apply=found)
            return
        self.rulings.append(found)
        if rule.clause.condition and not found.holds:
            self.conditions.append(rule.clause.condition)

    def _come_to(self, rule: Rule, subject: object, name: str, reading: Reading) -> Ruling | bool | None:
        """The ruling; True where what it takes was not examined, False where it may not even apply; None without."""
        clause = rule.clause
        applies: bool | None = True
        if clause.when:
            applies = self._applies(clause.when, subject)
            if applies is None and clause.if_unknown != "unexamined":
                applies = clause.if_unknown == "applies"
            if applies is False:
                return None
        found = reading
        if found == _UNREAD:  # as in `_read`, without the call: every clause of every case comes by here
            if subject is not self.here:
                self.here, self.known_here = subject, {}
            known = self.known if subject is None else self.known_here
            if clause.quantity not in known:
                known[clause.quantity] = rule.read(self.facts, subject)
            found = known[clause.quantity]
        if not isinstance(found, Found):
            return None if found == NOT_HERE else True
        jurisdiction = self.case.jurisdiction
        ruling: Ruling | None
        if found.word is not None and found.word == found.text:  # what else is told of it is of this tire alone
            ruling = rule.met.get((found.word, jurisdiction, name))
            if ruling is None:
                ruling = rule_on(clause, found, jurisdiction, name)
                if ruling is not None and rule.names and found.word == _FOUND:
                    ruling = replace(ruling, found=rule.names)
                if ruling is not None and len(rule.met) < _MOST_MET:
                    rule.met[found.word, jurisdiction, name] = ruling
        elif found.word is None and clause.of_edition.share is not None:
            ruling = rule_by_share(clause, found, self.facts, name)
        else:
            ruling = rule_on(clause, found, jurisdiction, name)
        if ruling is None:
            return True
        return False if applies is None and not ruling.holds else ruling

    def _read(self, quantity: str, read: Read | None, subject: object) -> Reading:
        """A quantity of the subject, measured once."""
        if subject is not self.here:
            self.here, self.known_here = subject, {}
        known = self.known if subject is None else self.known_here
        if quantity not in known:
            known[quantity] = read(self.facts, subject) if read is not None else None
        return known[quantity]

    def _applies(self, conditions: Sequence[Condition], subject: object) -> bool | None:
        """True, False, or None where what the condition asks was not stated."""
        sure: bool | None = True
        for condition in conditions:
            found = self._read(condition.quantity, MEASURES[condition.quantity].read, subject)
            if not isinstance(found, Found):
                if condition.if_unknown == "skip":
                    return False
                sure = sure if condition.if_unknown else None
            elif condition.statement is not None:
                if not outcome(condition.statement, found)[0]:
                    return False
            elif found.word == _IN_DOUBT.word and found.word not in condition.words:
                sure = None
            elif found.word not in condition.words:
                return False
        return sure


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
        limit=_NO_CLAUSE,
        consequence="refer",
        because=_NOTHING_UNCOVERED,
        kind="common-practice",
        source=say("{rulebook}: nothing is released without a clause", rulebook=edition.title),
        between_statements=False,
    )
