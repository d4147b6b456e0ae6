"""Single statements about the work on a tire, right or wrong by the clause or the step they speak of."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from string import Formatter

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.rules import altered
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Claim, Permitted, Taught
from assessments.questions.items.item import Item, Json
from training.rulebook import MEASURES, Clause, Edition, Step, in_unit, parse_quantity, quantity
from training.trade.speech import say, saying

_OFFERED = 7
_SAID = ("say", "right", "wrong_text", "because")  # the fields that people read


@dataclass(frozen=True, slots=True)
class Fact:
    """A statement that can be made rightly or wrongly. `wrong` is the misconception that makes it wrongly.

    `values` are what it may say and the words for it: a sentence, or what stands in the one place of `say`, where a
    quantity without words is told in the unit of the question. One whose words are fixed, `right` and `wrong_text`, has
    an `id`. `casings` are those it is made about; all that the edition repairs where it names none. `because` stands
    for what is common practice without a published source, and no step or clause says.
    """

    skill: str
    wrong: str
    id: str = ""
    quantity: str = ""
    say: str = ""
    values: tuple[tuple[str, str], ...] = ()
    step: str = ""
    right: str = ""
    wrong_text: str = ""
    unsafe: bool = False
    casings: tuple[str, ...] = ()
    clause: str = ""
    because: str = ""


@lru_cache(maxsize=1)
def facts() -> tuple[Fact, ...]:
    """All statements of `facts.toml`."""
    entries = tomllib.loads(resources.files(__package__).joinpath("facts.toml").read_text("utf-8"))["fact"]
    return tuple(
        Fact(
            **{
                **entry,
                **{name: saying(entry[name]) for name in _SAID if name in entry},
                "values": tuple((value, saying(words)) for value, words in entry.get("values", ())),
                "casings": tuple(entry.get("casings", ())),
            }
        )
        for entry in entries
    )


def permits(clause: Clause, value: str, since: str = "") -> bool:
    """Does a value of the work, a quantity or a word, keep to a clause? A quantity counts from `since`, if given."""
    statement, dimension = clause.strictest, MEASURES[clause.quantity].dimension
    if not dimension:
        return (value in statement.words) == (statement.bound == "must_be")
    reached = parse_quantity(value, dimension)
    if since:
        started = in_unit(parse_quantity(since, dimension), reached.unit)
        reached = quantity(in_unit(reached, reached.unit) - started, reached.unit)
    return statement.permits(reached)


def step_line(step: Step) -> dict[str, object]:
    """A line of an explanation from a step of the procedure, with the source of its first criterion."""
    first = step.criteria[0] if step.criteria else None
    return {
        "clause": "",
        "title": str(step.title),
        "subject": str(step.title),
        "holds": None,
        "found": "",
        "limit": "",
        "because": str(step.instruction),
        "kind": first.kind if first else "common-practice",
        "source": first.source if first else say("common practice, no published source"),
    }


def _practice_line(fact: Fact) -> dict[str, object]:
    """A line of an explanation from a statement of common practice."""
    source = say("common practice, no published source")
    plain: dict[str, object] = dict.fromkeys(("clause", "subject", "found", "limit"), "")
    return plain | {"holds": None, "because": str(fact.because), "kind": "common-practice", "source": source}


def steps(draft: Draft) -> Mapping[str, Step]:
    """The steps of the edition's procedure by id."""
    return {step.id: step for step in draft.edition.procedure}


def _stands(fact: Fact, edition: Edition, casing: str) -> bool:
    """Has the edition the step or the limit that a statement is about?"""
    if fact.because:
        return bool(edition.procedure)
    if fact.step:
        return any(step.id == fact.step for step in edition.procedure)
    if fact.clause:
        return fact.clause in edition.clauses
    return edition.limit(fact.quantity, casing) is not None


def is_known(name: str, edition: Edition) -> bool:
    """Is there a statement of this id, and something in the edition that it is about?"""
    casings = {casing for clause in edition.clauses.values() for casing in clause.casings}
    return any(fact.id == name and any(_stands(fact, edition, casing) for casing in casings) for fact in facts())


def _phrase(draft: Draft, clause: Clause, fact: Fact, *, right: bool) -> tuple[str, Claim]:
    fitting = [(value, words) for value, words in fact.values if permits(clause, value) == right]
    if not fitting:
        raise Redraw("no such value")
    value, words = draft.rng.choice(fitting)
    text = str(words) or draft.show(parse_quantity(value, MEASURES[clause.quantity].dimension))
    if fact.say:
        (place,) = [name for _, name, _, _ in Formatter().parse(str.__str__(fact.say)) if name]
        text = say(fact.say, **{place: text})
    return text, Permitted(clause.id, value)


def _denies(edition: Edition, fact: Fact, claim: Claim) -> bool:
    """Does who makes a statement wrongly also refuse this one, made rightly? Who lets more pass lets it pass too."""
    if not isinstance(claim, Permitted):
        return True
    clause = altered(edition, fact.wrong).clauses.get(claim.clause)
    return clause is not None and not permits(clause, claim.value)


def statements(draft: Draft, *, stem: list[str], casing: str = "passenger") -> Item:
    """An item `several` over statements of the family's skill: some made rightly, some as a misconception has them."""
    rng, known = draft.rng, steps(draft)
    pool = [
        fact
        for fact in facts()
        if fact.skill == draft.family.skill
        and (not fact.casings or casing in fact.casings)
        and _stands(fact, draft.edition, casing)
    ]
    chosen = rng.sample(pool, min(_OFFERED, len(pool)))
    rights = set(rng.sample(range(len(chosen)), rng.randint(1, len(chosen) - 1)))
    critical = [fact.wrong for place, fact in enumerate(chosen) if fact.unsafe and place not in rights]
    draft.foretell(len(critical), of=len(chosen), catches=critical)
    right: list[Choice] = []
    wrong: list[Choice] = []
    clauses: list[str] = []
    lines: list[Json] = []
    for place, fact in enumerate(chosen):
        is_right = place in rights
        claim: Claim = Taught(fact.id, wrongly=not is_right)
        text = fact.right if is_right else fact.wrong_text
        if fact.step:
            lines.append(step_line(known[fact.step]))
        elif fact.because:
            lines.append(_practice_line(fact))
        else:
            clause = draft.clause(fact.clause) if fact.clause else draft.limit(fact.quantity, casing)
            if fact.values:
                text, claim = _phrase(draft, clause, fact, right=is_right)
            clauses.append(clause.id)
        held = () if is_right and not _denies(draft.edition, fact, claim) else (fact.wrong,)
        (right if is_right else wrong).append(Choice(text, held, unsafe=fact.unsafe, claim=claim))
    return draft.several(
        stem=stem,
        right=right,
        wrong=wrong,
        clauses=dict.fromkeys(clauses),
        explanation=lines,
        features={"statements": len(chosen)},
    )
