"""How a case is told and how a decision is put into an option: short, neutral, one technician to another."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from random import Random

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.items.claims import SUBJECTS, Decided
from training.rulebook import MEASURES, Case, Clause, Decision, Edition, Model, Ruling
from training.trade.speech import say, say_many, saying

# What the eye sees (for stems), and what it means (for options).
SEEN: Mapping[str, tuple[str, str]] = {
    "run-flat-damage": (
        saying("a gray ring rubbed into the liner, with rubber dust inside"),
        saying("it was run flat"),
    ),
    "liner-separation": (saying("a patch of the liner that lifts from the body"), saying("the liner has come loose")),
    "liner-blistered": (saying("two blisters in the liner"), saying("the liner is blistered")),
    "liner-cracked": (saying("open cracks in the liner near the bead"), saying("the liner is cracked")),
    "casing-separation": (saying("plies that have come apart at the crown"), saying("the body has come apart")),
    "tread-separation": (saying("a tread edge that lifts from the body"), saying("the tread has come loose")),
    "exposed-cord": (saying("cord showing in a worn spot of the sidewall"), saying("cord is exposed")),
    "bead-damage": (saying("a kinked bead with wire showing"), saying("the bead is damaged")),
    "ozone-cracking": (saying("deep ozone cracks in both sidewalls"), saying("it is cracked by ozone")),
    "weather-checking": (
        saying("fine weather checking in the sidewall, no cord showing"),
        saying("it is weather checked"),
    ),
    "impact-damage": (saying("a star-shaped break inside, from an impact"), saying("it has impact damage")),
    "bulge": (saying("a bulge in the sidewall"), saying("it has a bulge")),
    "contamination": (saying("tread rubber swollen soft by oil"), saying("the rubber is contaminated")),
    "uneven-wear-separation": (
        saying("one spot of the tread worn low over a separation"),
        saying("it has come apart under the tread"),
    ),
}
DOUBTFUL: Mapping[str, str] = {
    "run-flat-damage": saying("dull marks inside the sidewall, and nobody can say whether it was run low"),
    "casing-separation": saying("a soft spot at the crown, and nobody can say whether the plies hold"),
    "impact-damage": saying("a faint crease inside, and nobody can say whether cords are broken"),
    "liner-separation": saying("an edge of liner that may or may not be loose"),
}
# Why a tire is out of service, by the subject its decision rests on.
_REASONS: Mapping[str, str] = {
    "size": saying("the hole is too large"),
    "place": saying("the hole leaves the repairable crown"),
    "lean": saying("the hole leans too much"),
    "tread": saying("the tread is worn too far"),
    "room": saying("the repair units would overlap"),
    "repair-kind": saying("the earlier repair is of the wrong kind"),
    "repair-sound": saying("the earlier repair is not sound"),
    "repair-place": saying("the earlier repair is misplaced"),
    "repair": saying("the earlier repair rules it out"),
    "rubber": saying("the state of its rubber rules it out"),
    "finding.doubt": saying("what was found is in doubt"),
    "finding.excessive-wear": saying("it is worn to the cord"),
    "finding.chunking": saying("pieces of its tread are missing"),
} | {f"finding.{slug}": reason for slug, (_, reason) in SEEN.items()}
_VERDICTS: Mapping[str, str] = {
    "accept": saying("Leave in service: nothing to repair"),
    "advise": saying("Leave in service: tell the customer"),
    "inspect": saying("Off the wheel first: look inside"),
    "refer": saying("Send on: a full-service plant decides"),
}
_REPAIRS: Mapping[tuple[str, ...], str] = {
    ("one-piece", "two-piece"): saying("Repair: one-piece unit, or stem and patch"),
    ("two-piece",): saying("Repair: only a stem with a separate patch"),
    ("one-piece",): saying("Repair: one-piece unit and nothing else"),
    ("patch-only",): saying("Repair: a patch over the open channel will do"),
}


_FEW = {1: saying("once"), 2: saying("twice")}
_SUBJECT_OF = {quantity: subject for subject in _REASONS for quantity in SUBJECTS.get(subject, (subject,))}


def subject_of(ruling: Ruling, edition: Edition) -> str:
    """What a ruling is about, by a name that reasons are told by; its quantity where none is."""
    clause = edition.clauses.get(ruling.clause)
    quantity = ruling.clause if clause is None else right_quantity(clause)
    return _SUBJECT_OF.get(quantity, quantity)


def right_quantity(clause: Clause) -> str:
    """What a clause is about, though someone who has the rulebook wrong may measure it otherwise."""
    return MEASURES[clause.quantity].misreads or clause.quantity


def reason(subject: str) -> str:
    """Why a tire is out of service, by what this rests on, as the end of an option."""
    return str(_REASONS.get(subject) or say("a finding ends the evaluation"))


def subjects(decision: Decision, edition: Edition) -> tuple[str, ...]:
    """All that the verdict rests on."""
    return tuple(dict.fromkeys(subject_of(ruling, edition) for ruling in decision.deciding))


def claims_of(decision: Decision, edition: Edition) -> tuple[Decided, ...]:
    """A decision as the claims that state it: what to do, and why, one for each of its reasons."""
    verdict = decision.verdict
    if verdict == "repair":
        either = all("one-piece" in plan.methods_allowed for plan in decision.plan or ())
        return (Decided((verdict,), methods=("one-piece", "two-piece") if either else ("two-piece",)),)
    rests_on = subjects(decision, edition)
    if verdict == "reject" or (verdict == "refer" and all(subject in _REASONS for subject in rests_on)):
        return tuple(Decided((verdict,), because=(subject,)) for subject in rests_on)
    return (Decided((verdict,)),)


def words(claim: Decided) -> str:
    """The option that says what `claims_of` claims."""
    (verdict,) = claim.verdicts
    if claim.methods:
        return str(_REPAIRS[claim.methods])
    if claim.because:
        why = reason(claim.because[0])
        if verdict == "reject":
            return say("Out of service: {reason}", reason=why)
        return say("Send to a repair plant: {reason}", reason=why)
    return str(_VERDICTS[verdict])


def outcome(
    decision: Decision, edition: Edition, why: tuple[str, ...] = (), *, together: bool = False, by_aspect: bool = False
) -> Choice:
    """A decision as an option, computed by these misconceptions. With several reasons the first is named; `by_aspect`:
    the rubber or the earlier repair, whatever was found of it."""
    claim = claims_of(decision, edition)[0]
    if by_aspect:
        claim = replace(claim, because=tuple(_aspect(subject) for subject in claim.because))
    return Choice(words(claim), why, together=together, claim=claim)


def _aspect(subject: str) -> str:
    """What was looked at, of what a decision rests on."""
    return "rubber" if subject.startswith("finding.") else "repair" if subject.startswith("repair-") else subject


def who_decides(draft: Draft, case: Case, verdicts: Collection[str], names: Iterable[str]) -> tuple[str, ...]:
    """Those of these misconceptions each of which, held alone, comes to one of these verdicts."""
    return tuple(name for name in names if draft.decide(case, name).verdict in verdicts)


def _by(method: str, *why: str, unsafe: bool = False) -> Choice:
    claim = Decided(("repair",), methods=(method,))
    return Choice(words(claim), why, together=True, unsafe=unsafe, claim=claim)


def patch_alone() -> Choice:
    """A way to repair a hole that no rulebook knows: a channel left open is as bad as no repair."""
    return _by("patch-only", "patch-alone", unsafe=True)


def mistaken_methods(decision: Decision) -> tuple[Choice, ...]:
    """Ways to repair a hole that no rulebook allows as the only one, or at all."""
    is_mild = all("one-piece" in plan.methods_allowed for plan in decision.plan or ())
    held = () if is_mild else ("one-piece-at-any-angle",)
    return (_by("one-piece", *held, "two-piece-only-when-steep"), patch_alone())


# What somebody may want to do with a punctured tire that comes in, on or off its wheel.
REPAIR_FROM_INSIDE = saying("Prepare and repair it from inside, with stem and patch")
STRING_FROM_OUTSIDE = saying("Push a string plug in from outside and check it for air")
AIR_AND_GO = saying("Add air, soap the hole and send it back")
TAKE_ANOTHER = saying("Take it out of service and fit another tire")


def what_to_do_now(rng: Random) -> str:
    """The question about a tire as it stands there."""
    return rng.choice([say("What do you do now?"), say("What is the next thing you do with it?")])


# Which of what is named A, B and C.
_OF_THREE = {
    "": saying("None of them"),
    "A": saying("Only A"),
    "B": saying("Only B"),
    "C": saying("Only C"),
    "AB": saying("Only A and B"),
    "AC": saying("Only A and C"),
    "BC": saying("Only B and C"),
    "ABC": saying("All three"),
}


def which_of_three(names: Iterable[str]) -> str:
    """Which of A, B and C are meant, as an option says it."""
    return str(_OF_THREE["".join(sorted(names))])


def how_often(count: int) -> str:
    """How many times something was done, in a row of notes or behind what was done: "twice"."""
    if count in _FEW:
        return str(_FEW[count])
    return say_many("{count} time", "{count} times", count)


def tire_words(rng: Random, model: Model) -> str:
    """One sentence that says which tire this is."""
    tire = f"{model.name}, {model.designation}"
    return rng.choice(
        [
            say("A {tire}, is off the wheel and has been inspected inside and outside.", tire=tire),
            say("On the spreader: a {tire}. It has been inspected inside and outside.", tire=tire),
            say("A customer brings a {tire}. It is demounted, and every part has been looked at.", tire=tire),
        ]
    )


def tread_clauses(edition: Edition, casing: str, purpose: str) -> list[Clause]:
    """The clauses that limit tread depth for this casing and purpose where nothing is said of vehicle and axle."""
    return [
        clause
        for clause in edition.clauses.values()
        if all(condition.if_unknown == "applies" for condition in clause.when)
        and clause.quantity.startswith("tread.")
        and casing in clause.casings
        and purpose in clause.purposes
    ]
