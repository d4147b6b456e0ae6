"""House rules as a page shows them: what stands, and what a change would change, in words."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from training.rulebook import Edition, HouseRules, adjustable_clauses, effective, lay_over
from training.trade.speech import say, saying

_NO_LONGER = saying("a limit that the rulebook no longer has")


@dataclass(frozen=True)
class Line:
    """One limit: the rulebook's, the shop's before and after; "" where the rulebook's own counts."""

    clause: str
    title: str
    rulebook: str
    before: str
    after: str
    since: date | None = None
    note: str = ""

    @property
    def change(self) -> str:
        """What happens to it, in a word or two."""
        if self.before == self.after:
            return say("stays")
        if not self.before:
            return say("new")
        return say("changed") if self.after else say("taken back")


def standing_lines(edition: Edition, rules: HouseRules) -> tuple[Line, ...]:
    """The rules that have effect, in the rulebook's order."""
    return tuple(_lines(edition, HouseRules(), rules))


def change_lines(edition: Edition, standing: HouseRules, wanted: HouseRules) -> tuple[Line, ...]:
    """What differs between the rules that stand and those that are wanted, notes included."""

    def note_before(clause: str) -> str:
        rule = standing.rule(clause)
        return "" if rule is None else rule.note

    return tuple(
        line
        for line in _lines(edition, standing, wanted)
        if line.before != line.after or note_before(line.clause) != line.note
    )


def overtaken(edition: Edition, rules: HouseRules) -> tuple[str, ...]:
    """Titles of the limits whose rules no longer change anything, since the rulebook itself has moved on."""
    kept = {rule.clause for rule in effective(edition, rules)}
    gone = [edition.clauses.get(rule.clause) for rule in rules if rule.clause not in kept]
    return tuple(dict.fromkeys(_NO_LONGER if clause is None else clause.title for clause in gone))


def same_limit_elsewhere(edition: Edition, standing: HouseRules, wanted: HouseRules) -> tuple[str, ...]:
    """Sentences on limits that the rulebook sets alike and that a new rule leaves as they are."""
    told = []
    for rule in wanted:
        if standing.rule(rule.clause) == rule or rule.clause not in edition.clauses:
            continue
        clause = edition.clauses[rule.clause]
        for other in adjustable_clauses(edition):
            is_alike = other.of_edition.text == clause.of_edition.text and set(other.casings) & set(clause.casings)
            about = other.quantity.partition(".")[0] == "job", clause.quantity.partition(".")[0] == "job"
            if other.id != clause.id and is_alike and about[0] == about[1] and wanted.rule(other.id) is None:
                told.append(
                    say(
                        "{title} is {limit} in the rulebook too, and stays so.",
                        title=other.title,
                        limit=other.of_edition.printed,
                    )
                )
    return tuple(dict.fromkeys(told))


def _lines(edition: Edition, standing: HouseRules, wanted: HouseRules) -> Iterator[Line]:
    before = lay_over(edition, effective(edition, standing))
    after = lay_over(edition, effective(edition, wanted))
    for clause in adjustable_clauses(edition):
        old, new = before.clauses[clause.id].house, after.clauses[clause.id].house
        if old is None and new is None:
            continue
        rule = wanted.rule(clause.id) if new is not None else None
        yield Line(
            clause=clause.id,
            title=clause.title,
            rulebook=clause.of_edition.printed,
            before="" if old is None else old.printed,
            after="" if new is None else new.printed,
            since=None if rule is None else rule.since,
            note="" if rule is None else rule.note,
        )
