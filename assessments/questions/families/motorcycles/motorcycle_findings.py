"""Findings on motorcycle tires in use: which of them take their tire off the road, whatever its maker says?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.cases.phrases import who_decides
from assessments.questions.cases.ticket import finding_passed_by
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import HOLE, REPAIRS, Note, found_inside, harmless, tire
from assessments.questions.items.claims import Decided, patch
from assessments.questions.items.item import Item
from training.rulebook import Decision, Ruling
from training.trade.speech import say, saying
from training.trade.words import VERDICTS, capital

_OFFERED = 5
_ENDS, _NOT = ("reject",), tuple(verdict for verdict in VERDICTS if verdict != "reject")


@item_family(
    "motorcycle-findings",
    title=saying("Which findings end a motorcycle tire"),
    skill="rejecting-conditions",
    formats=("several",),
    casings=MOTORCYCLE,
    lesson="motorcycles/what-law-says-of-motorcycles",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model(rng=draft.steady("model"))  # what was decided in one try serves the next
    known = [*harmless(draft), HOLE, *REPAIRS, *rng.sample(found_inside(finding_passed_by().items()), 6)]
    count = rng.randint(1, _OFFERED - 1)
    room = {"reject": count, "": _OFFERED - count}
    chosen: list[tuple[Note, Decision]] = []
    for note in rng.sample(known, len(known)):
        decision = draft.decide(draft.case(tire(draft, model, "service", note)))
        kind = decision.verdict if decision.verdict not in ("accept", "advise") else ""
        if room.get(kind, 0):
            room[kind] -= 1
            chosen.append((note, decision))
            if len(chosen) == _OFFERED:
                break
    if len(chosen) < _OFFERED:
        raise Redraw("too few notes of one kind")
    rulings: list[Ruling] = []
    right: list[Choice] = []
    wrong: list[Choice] = []
    bare = tire(draft, model, "service")
    names = {name for note, decision in chosen for name in note.believed(decision)}
    for note, decision in chosen:
        noted = tire(draft, model, "service", note)
        claim = Decided(("reject",), case=patch(bare, noted))
        # Whoever lets one note pass may let another pass as well, and none where more than that stands against it.
        why = who_decides(draft, draft.case(noted), _NOT if decision.verdict == "reject" else _ENDS, sorted(names))
        choice = Choice(capital(note.words), why, claim=claim)
        (right if decision.verdict == "reject" else wrong).append(choice)
        rulings += decision.deciding
    return draft.several(
        stem=[
            rng.choice(
                [
                    say("Each of these was found on its own, on another motorcycle tire that is in use."),
                    say("Five motorcycle tires were inspected, and one thing was noted on each."),
                ]
            ),
            rng.choice(
                [
                    say("Which of them take the tire out of service? Choose all."),
                    say("Which of these tires may not run any more? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(bare),
        features={"findings": _OFFERED, "rejecting": count},
    )
