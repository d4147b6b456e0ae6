"""Motorcycle tires: a case of one, what is noted on it, and the decision in words. Pure.

Nobody publishes how one is repaired, so that a decision is mostly about what may run, and else the tire maker's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from assessments.questions.cases.casebook import looked_at
from assessments.questions.cases.phrases import (
    DOUBTFUL,
    SEEN,
    right_quantity,
    subject_of,
    tread_clauses,
    which_of_three,
)
from assessments.questions.cases.phrases import reason as usual_reason
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.items.claims import Decided, is_about
from assessments.questions.items.item import Item
from training.rulebook import Decision, Edition, Model, Ruling, Statement, severity
from training.trade.speech import say, saying

IN_ORDER = saying("Leave in service: nothing rules it out")
MAKER = saying("Ask the tire maker: it decides")
LOOK_INSIDE = saying("Take the tire off the wheel and look at it from inside")
OPEN_IT = saying("Open the cut first and look at its bottom")
_BOTTOM, _INSIDE = "bottom-of-cut", "inside"  # what is looked at before anything is decided
_VERDICTS = {
    ("accept", ""): IN_ORDER,
    ("advise", ""): saying("Leave in service, and tell the rider"),
    ("repair", ""): saying("Repair it and leave it in service"),
    ("inspect", _BOTTOM): OPEN_IT,
    ("inspect", _INSIDE): LOOK_INSIDE,
    ("refer", ""): MAKER,
}
# The same of a used tire that is to be fitted.
_FIT = {
    ("accept", ""): saying("Fit it: nothing rules it out"),
    ("advise", ""): saying("Fit it, and tell the rider"),
}
# By what it rests on, a quantity or a subject of claims; by the kind of an injury where that decides.
_REASONS = {
    "injury.zone": saying("the hole is outside the tread"),
    "cut": saying("the cut ends it"),
    "injury.kind surface": saying("the nick ends it"),
    "injury.kind puncture": saying("the hole is still open"),
    "pressure.ratio": saying("it ran on too little air"),
    "tire.age": saying("it is too old"),
    "finding.tin-unreadable": saying("its date cannot be read"),
    "finding.size-unreadable": saying("its size cannot be read"),
    "finding.sealant-residue": saying("it was only sealed"),
    "finding.recalled": saying("it was recalled"),
    "repair-kind": saying("the wrong kind of repair"),
    "repair-sound": saying("the repair is not sound"),
    "repair-place": saying("the repair is misplaced"),
}
_TREAD = "tread-depth-motorcycle"  # explains a tire that nothing stands against

# Whose law a clause states, as a stem names it.
STATES = {
    "US-VA": saying("Virginia"),
    "US-MD": saying("Maryland"),
    "US-SC": saying("South Carolina"),
    "US-NJ": saying("New Jersey"),
}

# What stands on a sidewall that can be read; a few years old in any edition.
READABLE = "2322"


@dataclass(frozen=True, slots=True)
class Note:
    """Something noted on a tire: fields of its case, the words, and the misconceptions that let it pass or end it."""

    more: dict[str, Any] = field(default_factory=dict)
    words: str = ""
    passes: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()

    def believed(self, decision: Decision) -> tuple[str, ...]:
        """Who judges it otherwise than this decision on it alone does."""
        return self.passes if severity(decision.verdict) > severity("repair") else self.ends


def _earlier(kind: str, zone: str = "crown", *, sound: bool = True) -> dict[str, Any]:
    return {"earlier_repairs": [{"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": sound}]}


_CRACKS = ("weather-is-ozone",)
_CUTS = ("motorcycle-any-cut-ends",)
_PLUGS = ("motorcycle-plug-ends-it",)
REPAIRS: tuple[Note, ...] = (
    Note(
        _earlier("string"),
        saying("an old plug in the middle of the tread, level and tight"),
        ("earlier-repair-holds",),
        _PLUGS,
    ),
    Note(_earlier("two-piece"), saying("an old stem and patch in the tread, every edge bonded"), (), _PLUGS),
    Note(_earlier("one-piece"), saying("an old one-piece unit in the tread, every edge bonded"), (), _PLUGS),
    Note(
        _earlier("patch-only"),
        saying("an old patch in the tread, on the liner alone, every edge bonded"),
        ("earlier-repair-holds",),
        _PLUGS,
    ),
    Note(
        _earlier("two-piece", "sidewall"),
        saying("an old stem and patch in the sidewall, every edge bonded"),
        ("motorcycle-sidewall-patched",),
    ),
    Note(
        _earlier("string", "sidewall"),
        saying("an old plug low in the sidewall, tight"),
        ("motorcycle-sidewall-patched",),
    ),
    Note(
        _earlier("ply-repair"),
        saying("a boot inside, glued over broken plies of the tread"),
        ("motorcycle-boot-holds",),
    ),
    Note(
        _earlier("two-piece", sound=False),
        saying("an old stem and patch in the tread, one edge lifting"),
        ("earlier-repair-not-looked-at",),
    ),
    Note(_earlier("section"), saying("a section repair in the tread, its edges bonded"), (), _PLUGS),
)
HOLE = Note(
    {"injuries": [{"id": "A", "kind": "puncture", "zone": "crown", "diameter": "3 mm"}]},
    saying("an open nail hole in the middle of the tread, which holds air for now"),
    ("motorcycle-seals-itself",),
)
HARMLESS: tuple[Note, ...] = (
    Note({"found": ["weather-checking"]}, SEEN["weather-checking"][0], (), _CRACKS),
    Note({"depth": "5/32 in"}, saying("5/32 in of tread in the lowest groove"), (), ("motorcycle-worn-early",)),
    Note({"injuries": [{"id": "S", "kind": "surface", "zone": "crown"}]},
         saying("a shallow nick in a tread block"), (), _CUTS),
)  # fmt: skip
_METRIC_TREAD = Note({"depth": "4 mm"}, saying("4 mm of tread in the lowest groove"), (), ("motorcycle-worn-early",))


def harmless(draft: Draft) -> tuple[Note, ...]:
    """Notes that nothing follows from, depths in the unit told."""
    if draft.prefer != "mm":
        return HARMLESS
    return tuple(_METRIC_TREAD if "depth" in note.more else note for note in HARMLESS)


def found_inside(passing: Iterable[tuple[str, str]]) -> list[Note]:
    """A note for each finding that somebody lets pass, and for each that is left in doubt."""
    sure = [Note({"found": [slug]}, SEEN[slug][0], (name,)) for slug, name in sorted(passing)]
    return sure + [Note({"doubtful": [slug]}, words, ("doubt-is-fine",)) for slug, words in sorted(DOUBTFUL.items())]


def tire(draft: Draft, model: Model, purpose: str, *notes: Note, **more: Any) -> dict[str, Any]:
    """The case of a motorcycle tire with these things noted on it and nothing else."""
    fields: dict[str, Any] = {}
    for note in notes:
        for name, value in note.more.items():
            fields[name] = [*fields.get(name, []), *value] if isinstance(value, list) else value
    data = looked_at(model, draft.edition, **{"purpose": purpose, **fields, **more})
    return {**data, "tire": {**model.to_json(), "date_code": READABLE}}


def as_a_car(data: dict[str, Any]) -> dict[str, Any]:
    """The same tire to someone who works on it as on a car's, and does not look at its size."""
    unread = {name: value for name, value in data["tire"].items() if name != "designation"}
    return {**data, "tire": {**unread, "casing": "passenger"}}


def _subject(ruling: Ruling, edition: Edition) -> str:
    """What a ruling against the tire rests on."""
    clause = edition.clauses.get(ruling.clause)
    quantity = right_quantity(clause) if clause else ""
    found = f"{quantity} {ruling.found}" if quantity == "injury.kind" else quantity
    if is_about(found, "cut"):
        return "cut"
    return found if found in _REASONS else subject_of(ruling, edition)


def claims_of(decision: Decision, edition: Edition) -> tuple[Decided, ...]:
    """A decision as the claims that state it, one for each reason."""
    verdict = decision.verdict
    if verdict == "reject":
        reasons = dict.fromkeys(_subject(one, edition) for one in decision.deciding)
        return tuple(Decided((verdict,), because=(subject,)) for subject in reasons)
    if verdict == "inspect":
        clauses = (edition.clauses.get(one.clause) for one in decision.deciding)
        opens = any(is_about(clause.quantity, _BOTTOM) for clause in clauses if clause is not None)
        return (Decided((verdict,), because=(_BOTTOM if opens else _INSIDE,)),)
    return (Decided((verdict,)),)


def said(claim: Decided, purpose: object = "service", why: tuple[str, ...] = (), *, together: bool = False) -> Choice:
    """The option that claims this."""
    ((verdict,), subject) = claim.verdicts, "".join(claim.because)
    if verdict == "reject":
        text = say("Out of service: {reason}", reason=_REASONS.get(subject) or usual_reason(subject))
    else:
        known = _VERDICTS | _FIT if purpose == "fit-used" else _VERDICTS
        text = str(known[verdict, subject])
    return Choice(text, why, together=together, claim=claim)


def verdict(
    decision: Decision,
    edition: Edition,
    purpose: object = "service",
    why: tuple[str, ...] = (),
    *,
    together: bool = False,
) -> Choice:
    """A decision as an option. With several reasons the first is named."""
    return said(claims_of(decision, edition)[0], purpose, why, together=together)


def judged(
    draft: Draft,
    *,
    stem: Sequence[str],
    data: dict[str, Any],
    beliefs: Iterable[tuple[str, ...]],
    others: Iterable[Choice] = (),
    features: dict[str, object],
) -> Item:
    """An item that asks for the decision on this case. Each of `beliefs` is held together and computes a rival."""
    case = draft.case(data)
    decision = draft.decide(case)
    right = claims_of(decision, draft.edition)
    rivals = list(others)
    for held in beliefs:
        rivals.append(verdict(draft.decide(case, *held), draft.edition, data["purpose"], held, together=True))
    rivals.append(said(Decided(("refer",)), why=("motorcycle-all-to-its-maker",)))
    return draft.one(
        stem=stem,
        key=said(right[0], data["purpose"]),
        wrong=[choice for choice in rivals if choice.claim not in right],
        case=case,
        rulings=decision.deciding or [one for one in decision.rulings if one.subject != "tire"],
        clauses=[] if decision.deciding or any(one.subject != "tire" for one in decision.rulings) else [_TREAD],
        features=features,
    )


# -- tread, by whose law ----------------------------------------------------------------------------------------------

_WANTED = {
    "service": saying("to stay on its motorcycle, {limit}"),
    "fit-used": saying("to be fitted as a used tire, {limit}"),
}
_WANTED_IN = {
    "service": saying("to stay on its motorcycle in {state}, {limit}"),
    "fit-used": saying("to be fitted as a used tire in {state}, {limit}"),
}
_PAIR = 2
_TWO = {
    (True, True): saying("For both of them"),
    (False, False): saying("For neither of them"),
    (True, False): saying("For A, not for B"),
    (False, True): saying("For B, not for A"),
}


@dataclass(frozen=True, slots=True)
class Use:
    """What a tire is wanted for, where ("" for everywhere), and the law that is the stricter for it there."""

    purpose: str
    where: str
    law: Statement


def laws_on_tread(edition: Edition) -> list[Use]:
    """Every use with a law of its own on the tread of a motorcycle tire; what no state states counts only alone."""
    found: dict[tuple[str, str], Statement] = {}
    for purpose in _WANTED:
        clauses = tread_clauses(edition, "motorcycle", purpose)
        laws = [one for clause in clauses for one in clause.statements]
        of_states = [one for one in laws if one.jurisdiction]
        for law in of_states or laws:
            kept = found.get((purpose, law.jurisdiction))
            if kept is None or law.quantities[0].value > kept.quantities[0].value:
                found[purpose, law.jurisdiction] = law
    return [Use(purpose, where, law) for (purpose, where), law in found.items()]


def use_words(use: Use, prefer: str) -> str:
    """A use with its law: "to stay on its motorcycle in Virginia, at least 2/32 in"."""
    limit = use.law.told_in(prefer)
    if use.where:
        return say(_WANTED_IN[use.purpose], state=STATES[use.where], limit=limit)
    return say(_WANTED[use.purpose], limit=limit)


def allowed_for(fits: Sequence[bool]) -> str:
    """For which of two or three uses, named A, B and C, there is enough."""
    if len(fits) == _PAIR:
        return str(_TWO[fits[0], fits[1]])
    return which_of_three(name for name, one in zip("ABC", fits, strict=True) if one)
