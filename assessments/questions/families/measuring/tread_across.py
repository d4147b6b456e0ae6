"""Depths in the middle and at the edges of one tread: which of them decides, on the road and for sale?"""

from assessments.questions.cases.casebook import LIGHT, edge_mm
from assessments.questions.cases.onroad import ask_where, on_the_road
from assessments.questions.draws.draft import Choice, Draft
from assessments.questions.draws.registry import item_family
from assessments.questions.draws.seeding import Redraw
from assessments.questions.items.item import Item

_MAY = {"service": "Stays on the road", "fit-used": "May be sold"}
_NOT = {"service": "Off the road", "fit-used": "May not be sold"}
_LIMITS = ("part-worn-in-service", "heavy-tread-for-all", "road-limit-for-sale", "half-tread")


@item_family(
    "tread-across",
    title="Which part of the tread decides",
    skill="measuring",
    formats=("one",),
    casings=LIGHT,
    lesson="inspect-and-reject/tread-and-wear",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    ask_where(draft, "tread.least_depth", "position.gross_mass", casings=("passenger",))
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

    def said(tenth: int) -> tuple[str, bool]:
        _, decision = on_the_road(draft, model, depth=f"{tenth / 10:g} mm", purpose=purpose)
        passes = decision.verdict in ("accept", "advise")
        return f"{(_MAY if passes else _NOT)[purpose]}: {tenth / 10:g} mm decides it", passes

    data, decision = on_the_road(draft, model, depth=f"{counts / 10:g} mm", purpose=purpose)
    key, fits = said(counts)
    best = (max(middle, *edges), "best-of-tread-counts")
    beliefs = [best, (middle, "middle-counts-for-sale")] if used else [(min(edges), "edge-of-tread-counts"), best]
    wrong = [Choice(text, (why,), passes and not fits) for tenth, why in beliefs for text, passes in [said(tenth)]]
    # By another limit the same depth, or the one that does not count, would decide the other way.
    for tenth, held in ((counts, ()), (middle, beliefs[-1][1:]) if used else (min(edges), beliefs[0][1:])):
        passes = said(tenth)[1]
        others = [
            on_the_road(draft, model, None, name, depth=f"{tenth / 10:g} mm", purpose=purpose)[1] for name in _LIMITS
        ]
        other = [name for name, one in zip(_LIMITS, others, strict=True) if (one.verdict == "reject") == passes]
        turned = f"{(_NOT if passes else _MAY)[purpose]}: {tenth / 10:g} mm decides it"
        wrong.append(Choice(turned, (*held, *other[:1]), not passes and not fits, together=True))
    return draft.one(
        stem=[
            f"A {model.name}, {model.size}, "
            + ("to be sold as part-worn." if used else "on a vehicle of less than 3,500 kg, at its inspection."),
            f"The least depths all the way round: {middle / 10:g} mm within the central three quarters of the tread, "
            f"{edges[0] / 10:g} mm at its inner edge, {edges[1] / 10:g} mm at its outer edge.",
            rng.choice(["Which depth decides, and what follows?", "What follows, and by which depth?"]),
        ],
        key=Choice(key),
        wrong=wrong,
        case=draft.case(data),
        rulings=[one for one in decision.rulings if one.clause in {clause.id for clause in clauses}],
        features={"distance_mm": round(abs(counts / 10 - float(limit)), 2), "used": used},
    )
