"""Read the tread gauge and judge: of two tires, which may stay in service with its tread?"""

from typing import Any

from assessments.questions.cases.casebook import depths, edge_mm, length, looked_at
from assessments.questions.cases.phrases import tread_clauses
from assessments.questions.cases.trucks import AXLES, GROSS_MASS, tread_clause
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided
from assessments.questions.items.item import Item
from training.drawings import gauge
from training.rulebook import parse_quantity, show
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

Stays = tuple[bool, bool]  # may A stay in service, may B?

_REACH = 4  # times the limit, at most
_SAID = {
    (True, True): saying("Both A and B may stay"),
    (False, False): saying("Neither A nor B may stay"),
    (True, False): saying("A may stay, B is worn out"),
    (False, True): saying("B may stay, A is worn out"),
}
_VERDICTS = {True: ("accept",), False: ("reject",)}
_LIMITS = ("truck-steer-tread", "half-tread", "tread-not-asked", "steer-like-any-other")


@item_family(
    "tread-gauge",
    title=saying("Read the tread gauge and judge"),
    skill="measuring",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/tread-and-wear",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng, model = draft.rng, draft.pick_model()
    # Each is as often worn out as not.
    deep = [rng.random() < 0.5 for _ in "AB"]
    draft.foretell((3, 2, 0)[sum(deep)], of=3)
    where: dict[str, Any] = {}
    clauses = tread_clauses(draft.edition, model.casing, "service")
    if model.casing == "truck":
        axle = rng.choice(sorted(AXLES))
        where = {"position": {"vehicle": "truck", "axle": axle, "gross_mass": GROSS_MASS, "dual": False}}
        clauses = [tread_clause(draft, model, where)]
    low = min(edge_mm(clause)[0] for clause in clauses)
    high = max(edge_mm(clause)[1] for clause in clauses)
    worn, enough = depths(draft.prefer, 0, low), depths(draft.prefer, high, high * _REACH)
    first, second = (rng.choice(enough if is_deep else worn) for is_deep in deep)

    cases = {
        depth: draft.case(looked_at(model, draft.edition, depth=depth, purpose="service", **where))
        for depth in (first, second)
    }

    def stays(depth: str, *held: str) -> bool:
        """May a tire with this tread stay, to those who hold these misconceptions? Redraw where nobody can say."""
        decision = draft.decide(cases[depth], *held)
        names = {clause.id for clause in clauses}
        if any(one.between_statements for one in decision.rulings if one.clause in names):
            raise Redraw("the statements disagree on this depth")
        return decision.verdict == "accept"

    right: Stays = (stays(first), stays(second))
    if right != (first in enough, second in enough):
        raise Redraw("something else decides")
    beliefs: dict[Stays, dict[str, None]] = {}
    for name in _LIMITS:
        beliefs.setdefault((stays(first, name), stays(second, name)), {})[name] = None
    if beliefs.keys() <= {right}:
        raise Redraw("nobody decides otherwise")

    def choice(said: Stays) -> Choice:
        claims = (
            Decided(_VERDICTS[one], case={"tread_depths": [depth]})
            for one, depth in zip(said, (first, second), strict=True)
        )
        why = () if said == right else tuple(beliefs.get(said, ()))
        return Choice(_SAID[said], why, claim=All(tuple(claims)))

    read = [length(depth).value for depth in (first, second)]
    mass = show(parse_quantity(GROSS_MASS, "mass"), prefer=draft.prefer)
    if where:
        told = say(
            "Two tires A and B come from the {axle} of a truck of {mass}.",
            axle=AXLES[axle],
            mass=mass,
        )
    else:
        told = say("Two tires A and B are each a {tire}.", tire=model.name)
    return draft.one(
        stem=[
            told,
            say(
                "The gauge in the drawing stands at the lowest place of a major groove of A. At the lowest place of B "
                "another reads {depth}. Every other groove is worn alike.",
                depth=second,
            ),
            rng.choice([say("Which of them may stay in service?"), say("Read the gauge and judge the tread of both.")]),
        ],
        key=choice(right),
        wrong=[choice(said) for said in _SAID if said != right],
        is_even=True,
        case=cases[first],
        rulings=[
            ruling
            for case in cases.values()
            for ruling in draft.decide(case).rulings
            if ruling.clause in {clause.id for clause in clauses}
        ],
        figure=lambda: gauge("tread-gauge", length(first)),
        features={"distance_mm": round(float(min(abs(one - edge) for one in read for edge in (low, high))), 2)},
    )
