"""Depths in the middle and at the edges of one tread: which of them decides, on the road and for sale?"""

from assessments.questions.cases.casebook import edge_mm
from assessments.questions.cases.on_the_road import ask_where, on_the_road
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, Is, Measure
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT

_RUNS, _STOPS = ("accept", "advise"), ("inspect", "refer", "reject")
_SAID = {
    "service": {
        _RUNS: saying("Stays on the road: {depth} decides it"),
        _STOPS: saying("Off the road: {depth} decides it"),
    },
    "fit-used": {
        _RUNS: saying("May be sold: {depth} decides it"),
        _STOPS: saying("May not be sold: {depth} decides it"),
    },
}
_LIMITS = ("part-worn-in-service", "heavy-tread-for-all", "road-limit-for-sale", "half-tread")


@item_family(
    "tread-across",
    title=saying("Which part of the tread decides"),
    skill="measuring",
    formats=("one",),
    casings=LIGHT,
    lesson="inspect-and-reject/tread-and-wear",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    ask_where(draft, "tread.least_depth", "position.gross_mass", casings=("passenger",), alone=True)
    model = draft.pick_model()
    purpose = rng.choice(("service", "fit-used"))
    clauses = [
        clause for clause in draft.edition.clauses.values()
        if clause.quantity == "tread.least_depth" and model.casing in clause.casings and purpose in clause.purposes
    ]  # fmt: skip
    limit = max(edge_mm(clause)[1] for clause in clauses if all(one.if_unknown == "applies" for one in clause.when))
    tenths = [n for n in range(int(limit * 10) - 8, int(limit * 10) + 12) if abs(n - limit * 10) >= 2]
    middle, inner, outer = sorted(rng.sample(tenths, 3), reverse=rng.random() < 0.7)
    edges = rng.sample((inner, outer), 2)
    used = purpose == "fit-used"
    counts = min(middle, *edges) if used else middle
    if counts == middle and used:
        raise Redraw("the middle decides either way")

    def follows(tenth: int) -> tuple[str, ...]:
        _, decision = on_the_road(draft, model, depth=f"{tenth / 10:g} mm", purpose=purpose)
        return _RUNS if decision.verdict in _RUNS else _STOPS

    def said(tenth: int, verdicts: tuple[str, ...], *why: str) -> Choice:
        depth = f"{tenth / 10:g} mm"
        decides = Is(Measure("tread.least_depth"), depth, "0 mm")
        text = say(_SAID[purpose][verdicts], depth=depth)
        return Choice(text, why, together=True, claim=All((Decided(verdicts), decides)))

    data, decision = on_the_road(draft, model, depth=f"{counts / 10:g} mm", purpose=purpose)
    if used:  # for sale the whole breadth counts, on the road its middle
        data["tread_depths"] = [f"{tenth / 10:g} mm" for tenth in (middle, *edges)]
    best = (max(middle, *edges), ("best-of-tread-counts",))
    # who counts the edges too goes by the middle where that is the least
    edge = ("edge-of-tread-counts",) if min(edges) < middle else ()
    beliefs = [best, (middle, ("middle-counts-for-sale",))] if used else [(min(edges), edge), best]
    wrong = [said(tenth, follows(tenth), *why) for tenth, why in beliefs]
    # By another limit the same depth, or the one that does not count, would decide the other way.
    for tenth, held in ((counts, ()), (middle, beliefs[-1][1]) if used else (min(edges), beliefs[0][1])):
        passes = follows(tenth) == _RUNS
        others = [
            on_the_road(draft, model, None, name, depth=f"{tenth / 10:g} mm", purpose=purpose)[1] for name in _LIMITS
        ]
        other = [name for name, one in zip(_LIMITS, others, strict=True) if (one.verdict == "reject") == passes]
        why = (*held, *other[:1]) if other and (held or tenth == counts) else ()
        wrong.append(said(tenth, _STOPS if passes else _RUNS, *why))
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
            rng.choice([say("Which depth decides, and what do you do?"), say("What do you do, and by which depth?")]),
        ],
        key=said(counts, follows(counts)),
        wrong=wrong,
        case=draft.case(data),
        rulings=[one for one in decision.rulings if one.clause in {clause.id for clause in clauses}],
        features={"distance_mm": round(abs(counts / 10 - float(limit)), 2), "used": used},
    )
