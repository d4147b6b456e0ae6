"""The tread gauge in a motorcycle tire: for which of these uses, each with its law, is there enough?"""

from itertools import product

from assessments.questions.cases.casebook import MOTORCYCLE, depths, length, other_unit
from assessments.questions.cases.phrases import tread_clauses
from assessments.questions.drafts.draft import Choice, Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.motorcycles.common import Use, allowed_for, laws_on_tread, tire, use_words
from assessments.questions.items.item import Item
from training.drawings import gauge
from training.rulebook import Quantity, Statement

_REACH_MM = 3
_OFFERED = 3


def _over(law: Statement, depth: Quantity) -> bool:
    return law.permits(depth) and all(limit.value != depth.value for limit in law.quantities)


@item_family(
    "motorcycle-tread",
    title="The tread of a motorcycle tire, by its law",
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
    marks = depths(other_unit(rng, draft.prefer, draft.edition.units), 0, _REACH_MM)
    place = rng.randrange(len(marks))
    reading = marks[place]

    def case_of(use: Use) -> dict[str, object]:
        where = {"jurisdiction": use.where} if use.where else {}
        return tire(draft, model, use.purpose, depth=reading, **where)

    decisions = [draft.decide(draft.case(case_of(use))) for use in uses]
    right = [decision.verdict == "accept" for decision in decisions]
    read, car = length(reading), tread_clauses(draft.edition, "passenger", "service")[0].strictest
    believed = [
        ([car.permits(read)] * len(uses), ("car-tread-depth",)),
        ([_over(use.law, read) for use in uses], ("at-the-limit-is-worn",)),
        *(([use.law.permits(read)] * len(uses), ("one-states-law-everywhere",)) for use in uses),
    ]
    for step, why in ((1, "next-mark"), (-1, "mark-before")):
        if 0 <= place + step < len(marks):
            taken = length(marks[place + step])
            believed.append(([use.law.permits(taken) for use in uses], (why,)))
    told = [allowed_for(right), *(allowed_for(held) for held, _ in believed)]
    every = (list(held) for held in product((True, False), repeat=len(uses)))
    believed += [(held, ("laws-mixed-up",)) for held in every if allowed_for(held) not in told]
    wrong = [
        Choice(allowed_for(held), why, any(one and not fits for one, fits in zip(held, right, strict=True)))
        for held, why in believed
    ]
    tread = {clause.id for use in uses for clause in tread_clauses(draft.edition, model.casing, use.purpose)}
    return draft.one(
        stem=[
            f"A motorcycle tire, {model.designation}. The gauge stands at the lowest place of a groove, and every "
            "other groove is worn alike. What the tire is wanted for, and what the law asks of its tread:",
            *(f"{name}: {use_words(use)}." for name, use in zip("ABC", uses, strict=False)),
            rng.choice(
                ["Read the gauge. For which of these is there enough tread?", "For which does its tread suffice?"]
            ),
        ],
        key=Choice(allowed_for(right)),
        wrong=wrong,
        case=draft.case(case_of(uses[0])),
        rulings=[one for decision in decisions for one in decision.rulings if one.clause in tread],
        figure=lambda: gauge("tread-gauge", read, prefer=draft.prefer),
        features={"uses": len(uses), "allowed": sum(right)},
    )
