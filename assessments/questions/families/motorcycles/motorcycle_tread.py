"""The tread gauge in a motorcycle tire: for which of these uses, each with its law, is there enough?"""

from collections.abc import Sequence
from itertools import product

from assessments.questions.cases.casebook import MOTORCYCLE, depths, length
from assessments.questions.cases.phrases import tread_clauses
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.motorcycles.common import Use, allowed_for, laws_on_tread, tire, use_words
from assessments.questions.items.claims import All, Decided
from assessments.questions.items.item import Item
from training.drawings import gauge
from training.rulebook import Quantity, Statement
from training.trade.speech import say, saying
from training.trade.words import VERDICTS

_REACH_MM = 3
_OFFERED = 3
_ENOUGH, _NOT = ("accept",), tuple(verdict for verdict in VERDICTS if verdict != "accept")


def _over(law: Statement, depth: Quantity) -> bool:
    return law.permits(depth) and all(limit.value != depth.value for limit in law.quantities)


@item_family(
    "motorcycle-tread",
    title=saying("The tread of a motorcycle tire, by its law"),
    skill="measuring",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/what-law-says-of-motorcycles",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    known = laws_on_tread(draft.edition)
    uses = rng.sample(known, min(_OFFERED, len(known)))
    marks = depths(draft.prefer, 0, _REACH_MM)
    place = rng.randrange(len(marks))
    reading = marks[place]

    def case_of(use: Use) -> dict[str, object]:
        where = {"jurisdiction": use.where} if use.where else {}
        return tire(draft, model, use.purpose, depth=reading, **where)

    decisions = [draft.decide(draft.case(case_of(use))) for use in uses]
    right = [decision.verdict == "accept" for decision in decisions]
    read, car = length(reading), tread_clauses(draft.edition, "passenger", "service")[0].strictest
    believed: list[tuple[list[bool], tuple[str, ...]]] = [
        ([car.permits(read)] * len(uses), ("car-tread-depth",)),
        ([_over(use.law, read) for use in uses], ("at-the-limit-is-worn",)),
        *(([use.law.permits(read)] * len(uses), ("one-states-law-everywhere",)) for use in uses),
    ]
    for step, why in ((1, "next-mark"), (-1, "mark-before")):
        if 0 <= place + step < len(marks):
            taken = length(marks[place + step])
            believed.append(([use.law.permits(taken) for use in uses], (why,)))
            believed.append(([_over(use.law, taken) for use in uses], (why, "at-the-limit-is-worn")))
            believed += [([use.law.permits(taken)] * len(uses), (why, "one-states-law-everywhere")) for use in uses]

    def said(held: Sequence[bool], *why: str) -> Choice:
        """For which uses there is enough."""
        of = [
            Decided(_ENOUGH if fits else _NOT, case={"purpose": use.purpose, "jurisdiction": use.where or None})
            for use, fits in zip(uses, held, strict=True)
        ]
        return Choice(allowed_for(held), why, together=True, claim=All(tuple(of)))

    believed.append(([False] * len(uses), ("motorcycle-worn-early",)))
    mixed = [draft.decide(draft.case(case_of(use)), "laws-mixed-up").verdict == "accept" for use in uses]
    believed.append((mixed, ("laws-mixed-up",)))
    told = [list(held) for held in {tuple(held) for held, _ in believed} if list(held) != right]
    if len(told) < _OFFERED:  # what nobody believes stands beside too few that somebody does
        every = (list(held) for held in product((True, False), repeat=len(uses)))
        others = [held for held in every if held not in (right, *told)]
        believed += [(held, ()) for held in rng.sample(others, min(len(others), _OFFERED - len(told)))]
    tread = {clause.id for use in uses for clause in tread_clauses(draft.edition, model.casing, use.purpose)}
    return draft.one(
        stem=[
            say(
                "A motorcycle tire, {designation}. The gauge stands at the lowest place of a groove, and "
                "every other groove is worn alike. What the tire is wanted for, and what the law asks of "
                "its tread:",
                designation=model.designation,
            ),
            *(f"{name}: {use_words(use, draft.prefer)}." for name, use in zip("ABC", uses, strict=False)),
            rng.choice(
                [
                    say("Read the gauge. For which of these is there enough tread?"),
                    say("For which is the tread deep enough?"),
                ]
            ),
        ],
        key=said(right),
        wrong=[said(held, *why) for held, why in believed],
        case=draft.case(case_of(uses[0])),
        rulings=[one for decision in decisions for one in decision.rulings if one.clause in tread],
        figure=lambda: gauge("tread-gauge", read),
        features={"uses": len(uses), "allowed": sum(right)},
    )
