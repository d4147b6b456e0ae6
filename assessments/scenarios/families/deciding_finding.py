"""A tire that is out of service: which of the things on its ticket decides?"""

from ..casebook import CASING_NAMES
from ..draft import Choice, Draft, Redraw, telling
from ..model import Item
from ..registry import item_family
from ..ticket import ASPECTS, write_ticket
from ..words import reasons


@item_family(
    "deciding-finding",
    title="Which finding decides",
    skill="rejecting-conditions",
    formats=("one",),
    lesson="inspect-and-reject/reject-on-sight",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    aspects = ["size", rng.choice(("place", "lean")), *rng.sample(("tread", "rubber", "repair"), 2)]
    rng.shuffle(aspects)
    guilty = rng.choice(aspects)
    ticket = write_ticket(draft, aspects, guilty)
    decision = draft.decide(ticket.case)
    if decision.verdict != "reject" or len(reasons(decision, draft.edition)) != 1:
        raise Redraw("more than one finding decides, or none")
    wrong = []
    for name in aspects:
        if name != guilty:
            believed = draft.decide(ticket.case, *ticket.mild, ticket.strict[name])
            why = (ticket.strict[name],) if believed.verdict == "reject" else ()
            wrong.append(Choice(ASPECTS[name], why))
    return draft.one(
        stem=[
            f"A {CASING_NAMES[ticket.model.casing]}, {ticket.model.designation}, was looked over inside and outside "
            "and is out of service. On its ticket:",
            *(f"{ticket.lines[name]}." for name in aspects),
            rng.choice(["Which of these takes it out of service?", "Which of these alone ends the evaluation?"]),
        ],
        key=Choice(ASPECTS[guilty]),
        wrong=wrong,
        case=ticket.case,
        rulings=telling(decision),
        features={"findings": len(aspects), "decides": guilty},
    )
