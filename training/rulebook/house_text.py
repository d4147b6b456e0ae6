"""House rules as a TOML file: what a shop keeps on paper, mails to another shop, or puts under version control."""

import json
import tomllib
from collections.abc import Mapping
from datetime import date

from training.rulebook.clauses import BOUNDS
from training.rulebook.edition import Edition
from training.rulebook.house import HouseRule, HouseRuleError, HouseRules, Problem, adjustable, adjustable_clauses
from training.trade.reading import printable

_FIELDS = ("clause", "since", "note", *BOUNDS)
_NOTE_MOST = 200
_SHORTEST = 'give [[rule]] tables such as clause = "injury-size" and at_most = "5 mm"'


def read_house_rules(text: str, edition: Edition) -> HouseRules:
    """Rules from TOML: one `[[rule]]` table for each, with `clause`, the clause's own bound, and if wanted `since` and
    `note`. The limit is a text, or a list of texts for several units, the two ends of "between", or words.

    Raises HouseRuleError with a problem for each rule that is wrong. Whether a limit is stricter is for `lay_over`.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as failure:
        raise HouseRuleError([Problem("", f"is not TOML: {printable(failure, most=120)}; {_SHORTEST}")]) from None
    tables = data.get("rule", [])
    if strange := [key for key in data if key != "rule"]:
        raise HouseRuleError([Problem("", f"{printable(strange[0])}: is not a field; {_SHORTEST}")])
    if not isinstance(tables, list) or not all(isinstance(table, Mapping) for table in tables):
        raise HouseRuleError([Problem("", f"rule: is not accepted; {_SHORTEST}")])
    problems: list[Problem] = []
    rules: list[HouseRule] = []
    for number, table in enumerate(tables, 1):
        try:
            rules.append(_rule(table, number, edition))
        except HouseRuleError as refused:
            problems += refused.problems
    if problems:
        raise HouseRuleError(problems)
    return HouseRules(tuple(rules))


def write_house_rules(house: HouseRules, edition: Edition) -> str:
    """The same rules as TOML, which `read_house_rules` reads back."""
    parts = []
    for rule in house:
        clause = edition.clauses.get(rule.clause)
        bound = "at_most" if clause is None else clause.of_edition.bound
        limits = json.dumps(list(rule.limits) if len(rule.limits) != 1 else rule.limits[0], ensure_ascii=False)
        lines = ["[[rule]]", f"clause = {json.dumps(rule.clause)}", f"{bound} = {limits}"]
        if rule.since is not None:
            lines.append(f"since = {rule.since.isoformat()}")
        if rule.note:
            lines.append(f"note = {json.dumps(rule.note, ensure_ascii=False)}")
        parts.append("\n".join(lines) + "\n")
    return "\n".join(parts)


def _rule(table: Mapping[str, object], number: int, edition: Edition) -> HouseRule:
    name = table.get("clause")
    if not isinstance(name, str) or not name:
        what = "is missing" if name is None else f"{printable(name)} is not accepted"
        raise HouseRuleError([Problem("", f"rule number {number}, clause: {what}; {_SHORTEST}")])

    def refuse(text: str) -> HouseRuleError:
        return HouseRuleError([Problem(printable(name), text)])

    clause = edition.clauses.get(name)
    if clause is None or not adjustable(clause):
        names = ", ".join(one.id for one in adjustable_clauses(edition))
        if clause is None:
            raise refuse(f"{edition.name} {edition.released_version} has no such clause; choose {names}")
        raise refuse(f"{clause.of_edition.text} has no stricter side; choose {names}")
    bound = clause.of_edition.bound
    for field in table:
        if field not in _FIELDS:
            raise refuse(f"{printable(field)}: is not a field; the fields here are clause, {bound}, since, note")
    stated = [one for one in BOUNDS if one in table]
    if stated != [bound]:
        given = ", ".join(stated) or "no limit"
        raise refuse(f"{given} is not accepted; this clause says {clause.of_edition.text}, so give {bound}")
    limits = table[bound]
    texts = [limits] if isinstance(limits, str) else limits
    if not isinstance(texts, list) or not texts or not all(isinstance(one, str) for one in texts):
        raise refuse(f'{bound}: {printable(limits)} is not accepted; give a text with its unit, for example "5 mm"')
    since, note = table.get("since"), table.get("note", "")
    if since is not None and type(since) is not date:
        raise refuse(f"since: {printable(since)} is not accepted; give a day, for example 2026-11-25")
    if not isinstance(note, str) or len(note) > _NOTE_MOST or not note.isprintable():
        raise refuse(f"note: is not accepted; give one line of at most {_NOTE_MOST} characters")
    return HouseRule(name, tuple(texts), since, note.strip())
