"""Which rules of an explanation a question turns on: those not kept to, and those that a wrong answer doubts."""

from __future__ import annotations

from assessments.questions.items.item import Item
from assessments.questions.mistakes.misconceptions import misconceptions
from training.rulebook import named_clauses


def doubted_clauses(item: Item) -> frozenset[str]:
    """The clauses that those who give a wrong answer believe something else of."""
    known = misconceptions()
    names = {name for why in item.distractors.values() for name in why}
    return frozenset(id for name in names if name in known for id in named_clauses(known[name].alteration))


def deciding_clauses(item: Item) -> tuple[str, ...]:
    """The clauses of the explanation that decide the question, each once; all of them where none stands out."""
    doubted = doubted_clauses(item)
    lines = [(str(line.get("clause", "")), line["holds"]) for line in item.explanation]
    deciding = [clause for clause, holds in lines if clause and (not holds or clause in doubted)]
    return tuple(dict.fromkeys(deciding or [clause for clause, _ in lines if clause]))
