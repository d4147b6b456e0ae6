"""The sidewalls of two light truck tires: is the body of each fabric or steel?"""

from assessments.questions.cases.casebook import looked_at
from assessments.questions.cases.sidewall import plies
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import All, Is, Molded
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

Bodies = tuple[bool, bool]  # has A a steel body, has B one?

_SAID = {
    (True, True): saying("A and B both have a steel body"),
    (False, False): saying("A and B both have a fabric body"),
    (True, False): saying("A has a steel body, B a fabric one"),
    (False, True): saying("A has a fabric body, B a steel one"),
}


@item_family(
    "casing-class",
    title=saying("Which body a tire has"),
    skill="markings",
    formats=("one",),
    casings=("light-truck-fabric", "light-truck-steel"),
    lesson="inspect-and-reject/read-the-sidewall",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model, other = (draft.model_of("light-truck-fabric") for _ in "AB")
    right: Bodies = (rng.random() < 0.5, rng.random() < 0.5)
    draft.foretell((3, 2, 0)[sum(right)], of=3)
    ranges = (rng.choice("CDE"), rng.choice("CDE"))
    molded = tuple(plies(rng, steel_body=is_steel) for is_steel in right)
    beliefs: dict[Bodies, list[str]] = {}
    for name, said in (
        ("belts-decide", (True, True)),
        ("load-range-decides", (ranges[0] == "E", ranges[1] == "E")),
        ("plies-misread", (True, True)),  # under every tread there is steel
    ):
        beliefs.setdefault(said, []).append(name)

    def choice(bodies: Bodies) -> Choice:
        """Taking a fabric body for steel lets a hole pass that is too large for it."""
        claims = (
            Is(Molded(text, "body_by_sidewall_plies"), "steel" if is_steel else "fabric")
            for text, is_steel in zip(molded, bodies, strict=True)
        )
        unsafe = any(said and not is_steel for said, is_steel in zip(bodies, right, strict=True))
        why = () if bodies == right else tuple(beliefs.get(bodies, ()))
        return Choice(_SAID[bodies], why, unsafe=unsafe, claim=All(tuple(claims)))

    casing = "light-truck-steel" if right[0] else "light-truck-fabric"
    case = draft.case({**looked_at(model, draft.edition), "tire": {**model.to_json(), "casing": casing}})
    clause = draft.limit("tire.casing", "light-truck")
    told = [
        say(
            "{name}: {size}, load range {load_range}, {plies}.",
            name=name,
            size=one.size,
            load_range=load_range,
            plies=text,
        )
        for name, one, load_range, text in zip("AB", (model, other), ranges, molded, strict=True)
    ]
    return draft.one(
        stem=[
            say("Which size limit counts depends on the body. This is molded on two light truck tires:"),
            *told,
            rng.choice([say("Which body does each of them have?"), say("What are their bodies?")]),
        ],
        key=choice(right),
        wrong=[choice(bodies) for bodies in _SAID if bodies != right],
        is_even=True,
        case=case,
        rulings=[ruling for ruling in draft.decide(case).rulings if ruling.clause == clause.id],
        features={"load_ranges": "".join(ranges), "steel_bodies": sum(right)},
    )
