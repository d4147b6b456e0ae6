"""Read the tread gauge and judge: may the tire stay in service with this tread?"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from assessments.questions.cases.casebook import depths, edge_mm, length, looked_at
from assessments.questions.cases.phrases import tread_clauses
from assessments.questions.cases.trucks import AXLES, GROSS_MASS, tread_clause
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, Is, Reading
from assessments.questions.items.item import Item
from training.drawings import gauge
from training.rulebook import UNITS, parse_quantity, show
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_SAID, _REACH_MM = (
    {
        "accept": saying("{depth}: enough tread to stay in service"),
        "reject": saying("{depth}: worn out, so out of service"),
    },
    8,
)
_MARK_MM = {"mm": Fraction(1, 2), "in": UNITS["length"]["in"] / 32}
_OTHER_LIMITS = {True: ("truck-steer-tread", "half-tread"), False: ("tread-not-asked", "steer-like-any-other")}


@item_family(
    "tread-gauge",
    title=saying("Read the tread gauge and judge"),
    skill="measuring",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/tread-and-wear",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model()
    where: dict[str, Any] = {}
    clauses = tread_clauses(draft.edition, model.casing, "service")
    if model.casing == "truck":
        axle = draft.rng.choice(sorted(AXLES))
        where = {"position": {"vehicle": "truck", "axle": axle, "gross_mass": GROSS_MASS, "dual": False}}
        clauses = [tread_clause(draft, model, where)]
    low = min(edge_mm(clause)[0] for clause in clauses)
    high = max(edge_mm(clause)[1] for clause in clauses)
    unit = draft.prefer
    worn, enough = depths(unit, 0, low), depths(unit, high, _REACH_MM)
    is_enough = draft.rng.random() < 0.5
    reading = draft.rng.choice(enough if is_enough else worn)
    case = draft.case(looked_at(model, draft.edition, depth=reading, purpose="service", **where))
    decision = draft.decide(case)
    rulings = [ruling for ruling in decision.rulings if ruling.clause in {clause.id for clause in clauses}]
    if any(ruling.between_statements for ruling in rulings):
        raise Redraw("the statements disagree on this depth")
    if (decision.verdict == "accept") != is_enough or (decision.verdict == "reject") == is_enough:
        raise Redraw("something else decides")
    right, opposite = ("accept", "reject") if is_enough else ("reject", "accept")

    def said(verdict: str, mark: str, *why: str) -> Choice:
        claim = All((Decided((verdict,)), Is(Reading(), mark, "0.1 mm")))
        return Choice(say(_SAID[verdict], depth=mark), why, claim=claim)

    def judged(mark: str, verdict: str, *held: str) -> bool:
        """Do those who hold this come to this verdict on such a depth?"""
        seen = looked_at(model, draft.edition, depth=mark, purpose="service", **where)
        return draft.decide(draft.case(seen), *held).verdict == verdict

    every = [name for names in _OTHER_LIMITS.values() for name in names]
    wrong = [said(opposite, reading, *(name for name in every if judged(reading, opposite, name)))]
    marks = depths(unit, 0, length(reading).value + 2 * _MARK_MM[unit])
    place = marks.index(reading)
    for step, why in ((1, "next-mark"), (-1, "mark-before")):
        if 0 <= place + step < len(marks):
            misread = marks[place + step]
            for verdict in (right, opposite):
                ways = _ways(why, [name for name in ("", *every) if judged(misread, verdict, *filter(None, [name]))])
                names = dict.fromkeys(name for way in ways for name in way)
                wrong.append(replace(said(verdict, misread, *names), ways=ways))
    mass = show(parse_quantity(GROSS_MASS, "mass"), prefer=draft.prefer)
    if where:
        told = say(
            "The tire is a {tire} from the {axle} of a truck of {mass}. The gauge stands at the lowest place of a "
            "major groove, and every other groove is worn alike.",
            tire=model.name,
            axle=AXLES[axle],
            mass=mass,
        )
    else:
        told = say(
            "The tire is a {tire}. The gauge stands at the lowest place of a major groove, and "
            "every other groove is worn alike.",
            tire=model.name,
        )
    return draft.one(
        stem=[
            told,
            draft.rng.choice([say("What does it read, and what do you do?"), say("Read it and judge the tread.")]),
        ],
        key=said(right, reading),
        wrong=wrong,
        case=case,
        rulings=rulings,
        figure=lambda: gauge("tread-gauge", length(reading)),
        features={"distance_mm": round(float(min(abs(length(reading).value - edge) for edge in (low, high))), 2)},
    )


def _ways(why: str, others: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """How one comes to an answer who misreads the gauge: by that alone ("" among the others), or with one of them."""
    return ((why,),) if "" in others else tuple((why, name) for name in others)
