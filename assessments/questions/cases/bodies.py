"""Which bodies a question about the work is for: those the edition repairs, and one limit for all that are asked."""

from __future__ import annotations

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.rules import NoSuchLimit
from training.rulebook import Clause
from training.trade.speech import saying
from training.trade.words import LIGHT, STEEL

REPAIRED = (*LIGHT, *STEEL)
# What a stem tells where the body changes the work.
BODY_TOLD = {
    "light-truck-steel": saying("The tire is a light truck tire with a steel body."),
    "truck": saying("The tire is a truck tire."),
}


def repaired(draft: Draft) -> tuple[str, ...]:
    """The casings asked for of which the edition repairs a nail hole. Raises NoSuchLimit where it repairs none."""
    found = tuple(casing for casing in draft.casings if draft.edition.limit("injury.diameter", casing) is not None)
    if not found:
        raise NoSuchLimit(
            f'family "{draft.family.name}": edition {draft.edition.name} {draft.edition.version} '
            f"repairs no nail hole of {' or '.join(draft.casings)}"
        )
    return found


def body_of_work(draft: Draft) -> str:
    """A repaired casing to ask about; "passenger" stands for all light ones, since the work on them is the same."""
    casings = repaired(draft)
    casing = casings[0] if set(casings) <= set(LIGHT) else draft.rng.choice(casings)
    return "passenger" if casing in LIGHT else casing


def common_limit(draft: Draft, quantity: str) -> Clause:
    """The one clause that limits this for every casing that is asked for. Raises NoSuchLimit where there is none."""
    clause = draft.limit(quantity, draft.casings[0] if draft.casings else "passenger")
    for casing in draft.casings:
        if draft.limit(quantity, casing).id != clause.id:
            raise NoSuchLimit(
                f'family "{draft.family.name}": {quantity} is not the same for {" and ".join(draft.casings)}'
            )
    return clause
