"""What can be read on a motorcycle tire, and what not any more: what follows for the use it is wanted for?"""

from dataclasses import replace
from datetime import timedelta
from typing import Any

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import claims_of, judged, tire, verdict
from assessments.questions.items.item import Item
from training.trade.days import long_day
from training.trade.speech import say, saying

_USES = {
    "service": saying("It is in use on a motorcycle and was inspected"),
    "fit-used": saying("It is used and is to be fitted"),
}
_UNREADABLE = {
    "tin-unreadable": saying(
        "the end of the identification number is scuffed off and its date cannot be read; its size can"
    ),
    "size-unreadable": saying("the size is scuffed off both sidewalls and cannot be read; its date can"),
}
_BELIEFS = (
    *("motorcycle-age-ends-it", "markings-do-not-matter", "date-and-size-mixed"),
    *("motorcycle-used-as-in-use", "motorcycle-in-use-as-used"),
)
_YEARS = range(6, 15)


@item_family(
    "motorcycle-markings",
    title=saying("Date and size of a motorcycle tire"),
    skill="markings",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/motorcycle-tires",
)
def build(draft: Draft) -> Item:
    rng, edition = draft.rng, draft.edition
    model = draft.pick_model()
    purpose, today = rng.choice(tuple(_USES)), edition.in_force_from
    other_purpose = next(one for one in _USES if one != purpose)
    # Where no rule speaks of the age of such a tire by itself, nothing is asked about it.
    has_age = any(clause.casings == (model.casing,) for clause in edition.clauses_on("tire.age"))
    mark = rng.choice((*_UNREADABLE, *(("date",) * 3 if has_age else ())))
    others: list[Choice] = []
    if mark == "date":
        made = today - timedelta(days=365 * rng.choice(_YEARS) + rng.randint(60, 300))
        code = f"{min(made.isocalendar().week, 52):02d}{made.year % 100:02d}"
        data: dict[str, Any] = tire(draft, model, purpose)
        data["tire"]["date_code"] = code
        decision = draft.decide(draft.case(data))
        seen = say("the date code reads {code}, and its size can be read", code=code)
    else:
        seen, data = _UNREADABLE[mark], tire(draft, model, purpose, found=[mark])
        decision = draft.decide(draft.case(data))
        swapped = tire(draft, model, purpose, found=[next(one for one in _UNREADABLE if one != mark)])
        mixed = draft.decide(draft.case(swapped))
        others.append(_computed(draft, data, verdict(mixed, edition, purpose), "date-and-size-mixed"))
    elsewhere = draft.decide(draft.case({**data, "purpose": other_purpose}))
    why = "motorcycle-used-as-in-use" if purpose == "fit-used" else "motorcycle-in-use-as-used"
    others.append(_computed(draft, data, verdict(elsewhere, edition, purpose), why))
    if decision.verdict not in ("accept", "advise", "reject"):
        raise Redraw("something else decides")
    return judged(
        draft,
        stem=[
            say(
                "On a motorcycle tire {seen}. {use}; today is {day}.",
                seen=seen,
                use=_USES[purpose],
                day=long_day(today),
            ),
            rng.choice(
                [say("Nothing else was found. What do you do?"), say("All else is in order. What is your call?")]
            ),
        ],
        data=data,
        beliefs=[(name,) for name in _BELIEFS],
        others=others,
        features={"purpose": purpose, "mark": mark},
    )


def _computed(draft: Draft, data: dict[str, Any], choice: Choice, name: str) -> Choice:
    """The option, carried by this misconception if that comes to it."""
    believed = draft.decide(draft.case(data), name)
    return replace(choice, why=(name,) if choice.claim in claims_of(believed, draft.edition) else ())
