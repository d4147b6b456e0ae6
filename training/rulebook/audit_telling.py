"""What an audit says to a person: each fault by the title of its step, and what is still to be written down."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from training.rulebook.audit_fault import Fault
from training.rulebook.audit_unstated import Unstated
from training.rulebook.edition import Edition
from training.rulebook.telling import said_by
from training.trade.measures import as_read
from training.trade.speech import say, saying
from training.trade.words import REPAIR_WORDS, capital, uncapital, written

_KINDS = {
    "not-repairable": saying("not to be repaired here"),
    "method": saying("wrong method"),
    "missing": saying("left out"),
    "order": saying("out of order"),
    "limit": saying("not as required"),
}
_TIRE = saying("The tire")


@dataclass(frozen=True, slots=True)
class ToldFault:
    """One fault for a person: where in the work, what kind of fault. `found` and `accepted` are empty of a step that
    was left out: its title has said all."""

    where: str
    what: str
    found: str
    accepted: str
    because: str
    source: str


def step_titles(edition: Edition) -> Mapping[str, str]:
    """The title of each step of the work, by its id."""
    return {step.id: step.title for step in edition.procedure}


def fault_title(fault: Fault, edition: Edition) -> str:
    """What a fault is about: the step of the work, or the repair that was meant, and the limit that it breaks."""
    title = step_titles(edition).get(fault.name) or capital(REPAIR_WORDS[fault.name])
    clause = edition.clauses.get(fault.clause)
    return str(title) if clause is None else f"{title}, {uncapital(clause.title)}"


def told_fault(fault: Fault, edition: Edition) -> ToldFault:
    """A fault in words."""
    title, titles = fault_title(fault, edition), step_titles(edition)
    is_left_out = fault.fault == "missing"
    return ToldFault(
        where=say("Line {line}, {step}", line=fault.step, step=title) if fault.step else title,
        what=str(_KINDS[fault.fault]),
        found="" if is_left_out else _by_title(fault.found, fault, titles),
        accepted="" if is_left_out else _by_title(fault.limit, fault, titles),
        because=str(fault.because),
        source=said_by(fault.kind, fault.source),
    )


def to_write_down(unstated: Sequence[Unstated], titles: Mapping[str, str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What is not written down, gathered under the step it belongs to, or under the tire."""
    gathered: dict[str, list[str]] = {}
    for one in unstated:
        place = str(titles.get(one.step, _TIRE))
        if one.injury:
            place = say("{step}, injury {injury}", step=place, injury=one.injury)
        gathered.setdefault(place, []).append(str(one.words))
    return tuple((place, tuple(words)) for place, words in gathered.items())


def _by_title(text: str, fault: Fault, titles: Mapping[str, str]) -> str:
    """What is said of the order of steps, each by its title."""
    if text in REPAIR_WORDS:
        return str(written(text))
    if fault.fault != "order" and text != fault.name:
        return as_read(text)
    return re.sub(r"[a-z]+(-[a-z]+)*", lambda word: f'"{titles[word[0]]}"' if word[0] in titles else word[0], str(text))
