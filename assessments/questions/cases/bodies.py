"""Which bodies a question about the work is for: those the edition repairs, and one limit for all that are asked."""

from __future__ import annotations

from assessments.questions.drafts.draft import Draft, NoSuchLimit
from training.rulebook import Clause
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

REPAIRED = (*LIGHT, *STEEL)
# In the words of a stem; a light tire is told as each family always told it.
BODY_WORDS = {"light-truck-steel": saying("a light truck tire with a steel body"), "truck": saying("a truck tire")}


def repaired(draft: Draft) -> tuple[str, ...]:
    """The casings asked for of which the edition repairs a nail hole. Raises NoSuchLimit where it repairs none."""
    found = tuple(casing for casing in draft.casings if draft.edition.limit("injury.diameter", casing) is not None)
    if not found:
        raise NoSuchLimit(
            say(
                'family "{name}": edition {name2} {version} repairs no nail hole of {casings}',
                name=draft.family.name,
                name2=draft.edition.name,
                version=draft.edition.version,
                casings=" or ".join(draft.casings),
            )
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
                say(
                    'family "{name}": {quantity} is not the same for {casings}',
                    name=draft.family.name,
                    quantity=quantity,
                    casings=" and ".join(draft.casings),
                )
            )
    return clause
