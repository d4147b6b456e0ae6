"""How a case is told and how a decision is put into an option: short, neutral, one technician to another."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random

from training.rulebook import MEASURES, Clause, Decision, Edition, Model, Ruling

# What the eye sees (for stems), and what it means (for options).
SEEN: Mapping[str, tuple[str, str]] = {
    "run-flat-damage": ("a gray ring rubbed into the liner, with rubber dust inside", "it was run flat"),
    "liner-separation": ("a patch of the liner that lifts from the body", "the liner has come loose"),
    "liner-blistered": ("two blisters in the liner", "the liner is blistered"),
    "liner-cracked": ("open cracks in the liner near the bead", "the liner is cracked"),
    "casing-separation": ("plies that have come apart at the crown", "the body has come apart"),
    "tread-separation": ("a tread edge that lifts from the body", "the tread has come loose"),
    "exposed-cord": ("cord showing in a worn spot of the sidewall", "cord is exposed"),
    "bead-damage": ("a kinked bead with wire showing", "the bead is damaged"),
    "ozone-cracking": ("deep ozone cracks in both sidewalls", "it is cracked by ozone"),
    "weather-checking": ("fine weather checking in the sidewall, no cord showing", "it is weather checked"),
    "impact-damage": ("a star-shaped break inside, from an impact", "it has impact damage"),
    "bulge": ("a bulge in the sidewall", "it has a bulge"),
    "contamination": ("tread rubber swollen soft by oil", "the rubber is contaminated"),
    "uneven-wear-separation": ("one spot of the tread worn low over a separation", "it has come apart under the tread"),
}
DOUBTFUL: Mapping[str, str] = {
    "run-flat-damage": "dull marks inside the sidewall, and nobody can say whether it was run low",
    "casing-separation": "a soft spot at the crown, and nobody can say whether the plies hold",
    "impact-damage": "a faint crease inside, and nobody can say whether cords are broken",
    "liner-separation": "an edge of liner that may or may not be loose",
}
_REASONS: Mapping[str, str] = {
    "injury.diameter": "the hole is too large",
    "injury.crown_margin": "the hole leaves the repairable crown",
    "injury.shoulder_distance": "the hole leaves the repairable crown",
    "injury.exit_shoulder_distance": "the hole leaves the repairable crown",
    "injury.exit_margin": "the hole leaves the repairable crown",
    "injury.zone": "the hole leaves the repairable crown",
    "injury.angle": "the hole leans too much",
    "tread.least_depth": "the tread is worn too far",
    "tread.adjacent_depth": "the tread is worn too far",
    "repairs.gap": "the repair units would overlap",
    "repair.kind": "the earlier repair is improper",
    "repair.sound": "the earlier repair is not sound",
    "repair.zone": "the earlier repair is misplaced",
    "repair.crown_margin": "the earlier repair is misplaced",
    "repair.shoulder_distance": "the earlier repair is misplaced",
    "finding.doubt": "what was found is in doubt",
} | {f"finding.{slug}": reason for slug, (_, reason) in SEEN.items()}
_VERDICTS: Mapping[str, str] = {
    "accept": "Leave in service: nothing to repair",
    "advise": "Leave in service: tell the customer",
    "inspect": "Off the wheel first: look inside",
    "refer": "Send on: a full-service plant decides",
}
REPAIR_EITHER = "Repair: one-piece unit, or stem and patch"
REPAIR_TWO_PIECE = "Repair: only a stem with a separate patch"


def reason(ruling: Ruling, edition: Edition) -> str:
    """Why a tire is out of service by this ruling, as the end of an option."""
    clause = edition.clauses.get(ruling.clause)
    return _REASONS.get(right_quantity(clause) if clause else ruling.clause, "a finding ends the evaluation")


def right_quantity(clause: Clause) -> str:
    """What a clause is about, though someone who has the rulebook wrong may measure it otherwise."""
    return MEASURES[clause.quantity].misreads or clause.quantity


def reasons(decision: Decision, edition: Edition) -> tuple[str, ...]:
    """All different reasons for the verdict."""
    return tuple(dict.fromkeys(reason(ruling, edition) for ruling in decision.deciding))


def outcomes(decision: Decision, edition: Edition) -> tuple[str, ...]:
    """A decision as the options that state it: what to do, and why, one for each of its reasons."""
    if decision.verdict == "reject":
        return tuple(f"Out of service: {why}" for why in reasons(decision, edition))
    if decision.verdict == "repair":
        either = all("one-piece" in plan.methods_allowed for plan in decision.plan or ())
        return (REPAIR_EITHER if either else REPAIR_TWO_PIECE,)
    if decision.verdict == "refer" and all(_has_reason(ruling, edition) for ruling in decision.deciding):
        return tuple(f"Send to a repair plant: {why}" for why in reasons(decision, edition))
    return (_VERDICTS[decision.verdict],)


def outcome(decision: Decision, edition: Edition) -> str:
    """A decision as an option. With several reasons the first is named."""
    return outcomes(decision, edition)[0]


def _has_reason(ruling: Ruling, edition: Edition) -> bool:
    clause = edition.clauses.get(ruling.clause)
    return clause is not None and right_quantity(clause) in _REASONS


def tire_words(rng: Random, model: Model) -> str:
    """One sentence that says which tire this is."""
    tire = f"{model.name}, {model.designation}"
    return rng.choice(
        [
            f"A {tire}, is off the wheel and has been inspected inside and outside.",
            f"On the spreader: a {tire}. It has been inspected inside and outside.",
            f"A customer brings a {tire}. It is demounted, and every part has been looked at.",
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
