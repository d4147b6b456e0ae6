"""A tire that is out of service: which of the things on its ticket decides?"""

from assessments.questions.cases.phrases import subjects
from assessments.questions.cases.ticket import ASPECTS, write_ticket
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL


@item_family(
    "deciding-finding",
    title=saying("Which finding decides"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/reject-on-sight",
)
def build(draft: Draft) -> Item:
    rng, steady = draft.rng, draft.steady("aspects")  # each aspect decides as often
    aspects = ["size", steady.choice(("place", "lean")), *steady.sample(("tread", "rubber", "repair"), 2)]
    guilty = steady.choice(aspects)
    rng.shuffle(aspects)
    ticket = write_ticket(draft, aspects, guilty)
    decision = draft.decide(ticket.case)
    if decision.verdict not in ("reject", "refer") or len(subjects(decision, draft.edition)) != 1:
        raise Redraw("more than one finding decides, or none")
    if any(ruling.between_statements for ruling in decision.rulings):
        raise Redraw("the sources disagree on this place")
    wrong = []
    guilty_by = {ruling.clause for ruling in decision.deciding}
    for name in aspects:
        if name != guilty:
            held = (*ticket.mild, ticket.strict[name])
            believed = draft.decide(ticket.case, *held)
            decides = {ruling.clause for ruling in believed.deciding}
            alone = believed.verdict in ("reject", "refer") and decides.isdisjoint(guilty_by)
            wrong.append(_said(name, *(held if alone else ())))
    steel = ticket.model.casing in STEEL  # some of them a plant may still mend
    tire, designation = ticket.model.name, ticket.model.designation
    if not steel:
        told = say(
            "A {tire}, {designation}, was looked over inside and outside and is out of service. On its job card:",
            tire=tire,
            designation=designation,
        )
        asked = [say("Which of these takes it out of service?"), say("Which of these alone ends the evaluation?")]
    else:
        told = say(
            "A {tire}, {designation}, was looked over inside and outside and is not to be repaired here. "
            "On its job card:",
            tire=tire,
            designation=designation,
        )
        asked = [
            say("Which of these rules out a repair in this shop?"),
            say("Which of these alone keeps it from being repaired?"),
        ]
    return draft.one(
        stem=[
            told,
            *(f"{ticket.lines[name]}." for name in aspects),
            rng.choice(asked),
        ],
        key=_said(guilty),
        wrong=wrong,
        is_even=True,
        case=ticket.case,
        rulings=explaining(decision),
        features={"findings": len(aspects), "decides": guilty},
    )


def _said(aspect: str, *why: str) -> Choice:
    """A channel that leans is refused for its lean, or for where that takes it."""
    because = ("lean", "place") if aspect == "lean" else (aspect,)
    return Choice(ASPECTS[aspect], why, together=True, claim=Decided(("reject", "refer"), because=because))
