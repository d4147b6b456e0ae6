"""A tire with several things noted on it: what do you do with it, and why?"""

from assessments.questions.cases.phrases import outcome, subjects
from assessments.questions.cases.ticket import ASPECTS, write_ticket
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL, capital

_GUILTY = 0.8  # of five answers, four for what is noted, each is right as often


@item_family(
    "tire-verdict",
    title=saying("Verdict on a tire"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/reject-on-sight",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng, steady = draft.rng, draft.steady("aspects")
    aspects = ["size", steady.choice(("place", "lean")), *steady.sample(("tread", "rubber", "repair"), 2)]
    guilty = steady.choice(aspects) if steady.random() < _GUILTY else None
    draft.foretell(guilty is not None, of=3)
    rng.shuffle(aspects)
    ticket = write_ticket(draft, aspects, guilty)
    decision = draft.decide(ticket.case)
    if (decision.verdict in ("reject", "refer")) != bool(guilty) or (
        guilty and len(subjects(decision, draft.edition)) > 1
    ):
        raise Redraw("the ticket decides otherwise than meant")
    if any(ruling.between_statements for ruling in decision.rulings):
        raise Redraw("the sources disagree on this place")
    plants = [("plant-mends-everything",)] if ticket.model.casing in STEEL and decision.verdict == "reject" else []
    beliefs = [
        ticket.mild if guilty else (),
        *((*ticket.mild, strict) for strict in ticket.strict.values()),
        *plants,
    ]
    wrong = [
        outcome(draft.decide(ticket.case, *held), draft.edition, held, together=True, by_aspect=True)
        for held in beliefs
        if held
    ]
    return draft.one(
        stem=[
            say(
                "{tire}, {designation}, off the wheel, looked over inside and outside. On the job card:",
                tire=capital(ticket.model.name),
                designation=ticket.model.designation,
            ),
            *(f"{ticket.lines[name]}." for name in aspects),
            rng.choice(
                [say("Nothing else was found. What do you do?"), say("Nothing else was found. What is your call?")]
            ),
        ],
        key=outcome(decision, draft.edition, by_aspect=True),
        wrong=wrong,
        is_even=True,
        case=ticket.case,
        rulings=explaining(decision),
        features={"findings": len(aspects), "aspects": sorted(ASPECTS.keys() & set(aspects)), "rejects": bool(guilty)},
    )
