"""Depths in the middle and at the edges of one tread: which of them decides, on the road and for sale?"""

from math import ceil, floor

from assessments.questions.cases.casebook import edge_mm
from assessments.questions.cases.on_the_road import ask_where, on_the_road
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, Is, Measure, Not
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT

_RUNS, _STOPS = ("accept", "advise"), ("inspect", "refer", "reject")
# Does it keep to the limit, and does the middle decide?
_SAID = {
    (True, True): saying("Deep enough: its middle decides"),
    (True, False): saying("Deep enough: an edge decides"),
    (False, True): saying("Worn too far: its middle decides"),
    (False, False): saying("Worn too far: an edge decides"),
}
_LIMITS = ("part-worn-in-service", "heavy-tread-for-all", "road-limit-for-sale", "half-tread")


@item_family(
    "tread-across",
    title=saying("Which part of the tread decides"),
    skill="measuring",
    formats=("one",),
    casings=LIGHT,
    lesson="inspect-and-reject/tread-and-wear",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    ask_where(draft, "tread.least_depth", "position.gross_mass", casings=("passenger",), alone=True)
    model = draft.pick_model()
    passes, by_middle = draft.steady("right").choice(tuple(_SAID))  # each of the four answers is right as often
    draft.foretell(0 if passes else 2, of=3)
    used = not by_middle or rng.random() < 0.3
    purpose = "fit-used" if used else "service"
    clauses = [
        clause for clause in draft.edition.clauses.values()
        if clause.quantity == "tread.least_depth" and model.casing in clause.casings and purpose in clause.purposes
    ]  # fmt: skip
    limit = max(edge_mm(clause)[1] for clause in clauses if all(one.if_unknown == "applies" for one in clause.when))
    at = limit * 10  # in tenths
    tenths = [*range(int(at) - 8, floor(at - 2) + 1), *range(ceil(at + 2), int(at) + 12)]  # 0.2 mm or more off
    middle, *edges = rng.sample(tenths, 3)
    counts = min(middle, *edges) if used else middle
    if (counts == middle) != by_middle:
        raise Redraw("another part decides")

    def follows(tenth: int, *mistakes: str) -> bool:
        _, decision = on_the_road(draft, model, None, *mistakes, depth=f"{tenth / 10:g} mm", purpose=purpose)
        return decision.verdict in _RUNS

    if follows(counts) != passes:
        raise Redraw("the depth decides otherwise")
    # who takes another part for the one that decides
    best, least = max(middle, *edges), min(middle, *edges)
    others = {"best-of-tread-counts": best}
    others["middle-counts-for-sale" if used else "edge-of-tread-counts"] = middle if used else least
    # the depth at an edge that somebody takes to decide; the middle where that does
    other = middle if not by_middle else rng.choice([one for one in dict.fromkeys((best, least)) if one != middle])

    def said(verdict: bool, is_middle: bool) -> Choice:
        tenth = counts if is_middle == by_middle else other
        decides = Is(Measure("tread.least_depth"), f"{tenth / 10:g} mm", "0 mm")
        not_the_middle = () if is_middle else (Not(Is(Measure("tread.least_depth"), f"{middle / 10:g} mm", "0 mm")),)
        claim = All((Decided(_RUNS if verdict else _STOPS), decides, *not_the_middle))
        part = () if tenth == counts else tuple(name for name, depth in others.items() if depth == tenth)
        ways: list[tuple[str, ...]] = [(one,) for one in part]
        if follows(tenth) != verdict:
            limit_held = next(((name,) for name in _LIMITS if follows(tenth, name) == verdict), None)
            ways = [] if limit_held is None else [(*held, *limit_held) for held in ways or [()]]
        why = tuple(dict.fromkeys(name for way in ways for name in way))
        return Choice(_SAID[verdict, is_middle], why, ways=tuple(ways), claim=claim)

    data, decision = on_the_road(draft, model, depth=f"{counts / 10:g} mm", purpose=purpose)
    if used:  # for sale the whole breadth counts, on the road its middle
        data["tread_depths"] = [f"{tenth / 10:g} mm" for tenth in (middle, *edges)]
    key = Choice(_SAID[passes, by_middle], claim=said(passes, by_middle).claim)
    wrong = [said(*one) for one in _SAID if one != (passes, by_middle)]
    read = [f"{tenth / 10:g}" for tenth in (middle, *edges)]
    if used:
        situation = say("A {tire}, {size}, to be sold as part-worn.", tire=model.name, size=model.size)
    else:
        situation = say(
            "A {tire}, {size}, on a vehicle of less than 3,500 kg, at its inspection.",
            tire=model.name,
            size=model.size,
        )
    return draft.one(
        stem=[
            situation,
            say(
                "The least depths all the way round: {middle} mm within the central three quarters of "
                "the tread, {inner} mm at its inner edge, {outer} mm at its outer edge.",
                middle=read[0],
                inner=read[1],
                outer=read[2],
            ),
            rng.choice(
                [say("Is its tread deep enough, and which part decides?"), say("Which part decides, and is it enough?")]
            ),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        case=draft.case(data),
        rulings=[one for one in decision.rulings if one.clause in {clause.id for clause in clauses}],
        features={"distance_mm": round(abs(counts / 10 - float(limit)), 2), "used": used},
    )
