"""House rules as a TOML file: what a shop keeps on paper, mails to another shop, or puts under version control."""

import json
import tomllib
from collections.abc import Mapping
from datetime import date

from training.rulebook.clauses import BOUNDS
from training.rulebook.edition import Edition
from training.rulebook.house import HouseRule, HouseRuleError, HouseRules, Problem, adjustable, adjustable_clauses
from training.trade.reading import printable
from training.trade.speech import say, saying

_FIELDS = ("clause", "since", "note", *BOUNDS)
_NOTE_MOST = 200
_SHORTEST = saying('give [[rule]] tables such as clause = "injury-size" and at_most = "5 mm"')


def read_house_rules(text: str, edition: Edition) -> HouseRules:
    """Rules from TOML: one `[[rule]]` table for each, with `clause`, the clause's own bound, and if wanted `since` and
    `note`. The limit is a text, or a list of texts for several units, the two ends of "between", or words.

    Raises HouseRuleError with a problem for each rule that is wrong. Whether a limit is stricter is for `lay_over`.
    """
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as failure:
        raise HouseRuleError(
            [
                Problem(
                    "",
                    say("is not TOML: {failure}; {example}", failure=printable(failure, most=120), example=_SHORTEST),
                )
            ]
        ) from None
    tables = data.get("rule", [])
    if strange := [key for key in data if key != "rule"]:
        raise HouseRuleError(
            [Problem("", say("{field}: is not a field; {example}", field=printable(strange[0]), example=_SHORTEST))]
        )
    if not isinstance(tables, list) or not all(isinstance(table, Mapping) for table in tables):
        raise HouseRuleError([Problem("", say("rule: is not accepted; {example}", example=_SHORTEST))])
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
        what = say("is missing") if name is None else say("{name} is not accepted", name=printable(name))
        raise HouseRuleError(
            [
                Problem(
                    "",
                    say(
                        "rule number {number}, clause: {problem}; {example}",
                        number=number,
                        problem=what,
                        example=_SHORTEST,
                    ),
                )
            ]
        )

    def refuse(text: str) -> HouseRuleError:
        return HouseRuleError([Problem(printable(name), text)])

    clause = edition.clauses.get(name)
    if clause is None or not adjustable(clause):
        names = ", ".join(one.id for one in adjustable_clauses(edition))
        if clause is None:
            raise refuse(
                say(
                    "{edition} {version} has no such clause; choose {names}",
                    edition=edition.name,
                    version=edition.released_version,
                    names=names,
                )
            )
        raise refuse(say("{limit} has no stricter side; choose {names}", limit=clause.of_edition.text, names=names))
    bound = clause.of_edition.bound
    for field in table:
        if field not in _FIELDS:
            raise refuse(
                say(
                    "{field}: is not a field; the fields here are clause, {bound}, since, note",
                    field=printable(field),
                    bound=bound,
                )
            )
    stated = [one for one in BOUNDS if one in table]
    if stated != [bound]:
        given = ", ".join(stated) or say("no limit")
        raise refuse(
            say(
                "{given} is not accepted; this clause says {limit}, so give {bound}",
                given=given,
                limit=clause.of_edition.text,
                bound=bound,
            )
        )
    limits = table[bound]
    texts = [limits] if isinstance(limits, str) else limits
    if not isinstance(texts, list) or not texts or not all(isinstance(one, str) for one in texts):
        raise refuse(
            say(
                '{bound}: {limits} is not accepted; give a text with its unit, for example "5 mm"',
                bound=bound,
                limits=printable(limits),
            )
        )
    since, note = table.get("since"), table.get("note", "")
    if since is not None and type(since) is not date:
        raise refuse(say("since: {since} is not accepted; give a day, for example 2026-11-25", since=printable(since)))
    if not isinstance(note, str) or len(note) > _NOTE_MOST or not note.isprintable():
        raise refuse(say("note: is not accepted; give one line of at most {most} characters", most=_NOTE_MOST))
    return HouseRule(name, tuple(texts), since, note.strip())
