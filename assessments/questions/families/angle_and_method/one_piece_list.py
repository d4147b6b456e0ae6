"""Two channels: which of them may take a one-piece unit?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.casebook import edge_mm, hole, looked_at
from assessments.questions.cases.crown import usual_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

Takes = tuple[bool, bool]  # may A take a one-piece unit, may B?

_DIAMETER, _STEEPEST = "5 mm", 56
_MISTAKES = ("any-lean-is-steep", "one-piece-at-any-angle")
_METHODS = {True: ("one-piece", "two-piece"), False: ("two-piece",)}
_SAID = {
    (True, True): saying("Both A and B may take one"),
    (False, False): saying("Neither A nor B may take one"),
    (True, False): saying("A may take one, B may not"),
    (False, True): saying("B may take one, A may not"),
}


@item_family(
    "one-piece-list",
    title=saying("Which channels take a one-piece unit"),
    skill="angle-and-method",
    formats=("one",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    clause = draft.limit("injury.angle", model.casing)
    mild, steep = (int(edge) for edge in edge_mm(clause))
    if mild < 2:
        raise Redraw("the limit leaves too few angles")
    # Each is as often steep as not, up to the angles on which sources disagree.
    angles = [rng.choice(range(mild) if rng.random() < 0.5 else range(steep + 1, _STEEPEST)) for _ in "AB"]
    diameter = usual_hole(draft, model.casing, _DIAMETER)
    injuries = [hole(name, diameter=diameter, angle_deg=angle) for name, angle in zip("AB", angles, strict=True)]
    cases = [draft.case(looked_at(model, draft.edition, injuries=[injury])) for injury in injuries]

    def taken(*held: str) -> Takes:
        """Which of them takes a one-piece unit, to those who hold these misconceptions?"""
        plans = [draft.decide(case, *held).plan for case in cases]
        if None in plans:
            raise Redraw("something else decides")
        first, second = ("one-piece" in plan[0].methods_allowed for plan in plans if plan)
        return first, second

    right = taken()
    beliefs: dict[Takes, tuple[str, ...]] = {}
    for name in _MISTAKES:
        said = taken(name)
        beliefs[said] = (*beliefs.get(said, ()), name)
    if beliefs.keys() == {right}:
        raise Redraw("nobody decides otherwise")

    def choice(takes: Takes) -> Choice:
        claims = (
            Decided(("repair",), methods=_METHODS[one], case={"injuries": [injury]})
            for one, injury in zip(takes, injuries, strict=True)
        )
        why = () if takes == right else beliefs.get(takes, ())
        return Choice(_SAID[takes], why, unsafe=False, claim=All(tuple(claims)))

    first, second = (str(angle) for angle in angles)
    return draft.one(
        stem=[
            say(
                "Two nail holes in mid-crown, {diameter} after damage removal, each alone in its own {tire}. By the "
                "probe the channel of A leans {first}° from the perpendicular to the tread, that of B {second}°.",
                diameter=diameter,
                tire=model.name,
                first=first,
                second=second,
            ),
            rng.choice(
                [say("Which of them may take a one-piece unit?"), say("For which is a one-piece unit allowed?")]
            ),
        ],
        key=choice(right),
        wrong=[choice(takes) for takes in _SAID if takes != right],
        is_even=True,
        case=draft.case(looked_at(model, draft.edition)),
        rulings=[ruling for case in cases for ruling in draft.decide(case).rulings if ruling.clause == clause.id],
        features={"distance_deg": float(min(abs(angle - edge) for angle in angles for edge in (mild, steep)))},
    )
