"""Used motorcycle tires on a shelf, one thing noted on each: which of them may be fitted?"""

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
from training.trade.words import capital

_OFFERED = 5
_FORGOTTEN = ("motorcycle-used-as-in-use",)
_MARKS = (
    Note({"found": ["tin-unreadable"]}, saying("an identification number that was buffed off"), _FORGOTTEN),
    Note({"found": ["size-unreadable"]}, saying("a size that can no longer be read"), _FORGOTTEN),
    Note({"found": ["sealant-residue"]}, saying("sealant inside, over a hole that nobody repaired"), _FORGOTTEN),
    Note({"found": ["recalled"]}, saying("an identification number that its maker has recalled"), _FORGOTTEN),
)


@item_family(
    "motorcycle-used",
    title=saying("Which used motorcycle tire may be fitted"),
    skill="return-to-service",
    formats=("several",),
    casings=MOTORCYCLE,
    lesson="motorcycles/what-law-says-of-motorcycles",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model(rng=draft.steady("model"))  # what was decided in one try serves the next
    notes = [*harmless(draft), *_MARKS, HOLE, *REPAIRS, *rng.sample(found_inside(finding_passed_by().items()), 3)]
    count = rng.randint(1, _OFFERED - 1)
    room = {"reject": _OFFERED - count, "": count}
    chosen: list[tuple[Note, Decision]] = []
    for note in rng.sample(notes, len(notes)):
        decision = draft.decide(draft.case(tire(draft, model, "fit-used", note)))
        kind = decision.verdict if decision.verdict not in ("accept", "advise") else ""
        if room.get(kind, 0):
            room[kind] -= 1
            chosen.append((note, decision))
            if len(chosen) == _OFFERED:
                break
    if len(chosen) < _OFFERED:
        raise Redraw("too few that fit, or too few that do not")
    bare = tire(draft, model, "fit-used")
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    for note, decision in chosen:
        claim = Decided(("accept", "advise"), case=patch(bare, tire(draft, model, "fit-used", note)))
        text = capital(note.words)
        if decision.verdict == "reject":
            case, names = draft.case(tire(draft, model, "fit-used", note)), dict.fromkeys((*_FORGOTTEN, *note.passes))
            wrong.append(Choice(text, who_decides(draft, case, ("accept", "advise"), names), claim=claim))
            rulings += decision.deciding
        else:
            right.append(Choice(text, note.ends, claim=claim))
    return draft.several(
        stem=[
            say(
                "Five used motorcycle tires, {designation}, were inspected off the wheel. One thing was "
                "noted on each, and all else is in order.",
                designation=model.designation,
            ),
            rng.choice(
                [
                    say("Which of them may be fitted to a motorcycle? Choose all."),
                    say("Which may be sold and fitted as used? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(bare),
        features={"fitting": count},
    )
