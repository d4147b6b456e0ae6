"""A motorcycle tire with several things noted on it: may it run, and if not, why?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.cases.ticket import finding_passed_by
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import HOLE, REPAIRS, found_inside, harmless, judged, tire
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import capital

_GUILTY = 0.6
_NOTED = 3


@item_family(
    "motorcycle-may-run",
    title=saying("May this motorcycle tire run"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/what-law-says-of-motorcycles",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    inside = rng.sample(found_inside(finding_passed_by().items()), 4)
    guilty = rng.choice([HOLE, *REPAIRS, *inside]) if rng.random() < _GUILTY else None
    # One earlier repair, one hole, one thing about the rubber at most: noted twice it would be no fair ticket.
    taken = set(guilty.more) if guilty else set()
    innocent = [note for note in (*harmless(draft), rng.choice(REPAIRS)) if taken.isdisjoint(note.more)]
    notes = rng.sample(innocent, min(len(innocent), _NOTED - bool(guilty))) + ([guilty] if guilty else [])
    rng.shuffle(notes)
    alone = [draft.decide(draft.case(tire(draft, model, "service", note))).verdict for note in notes]
    stopped = [note for note, found in zip(notes, alone, strict=True) if found not in ("accept", "advise")]
    if stopped != ([guilty] if guilty else []):
        raise Redraw("other notes stand against it than meant")
    data = tire(draft, model, "service", *notes)
    mild = guilty.believed(draft.decide(draft.case(data))) if guilty else ()
    if guilty and not mild:
        raise Redraw("nobody lets it pass")
    strict = [name for note in notes if note is not guilty for name in note.ends]
    return judged(
        draft,
        stem=[
            say(
                "A motorcycle is in for inspection. One of its tires, {designation}, was looked over "
                "inside and outside, off the wheel. On the job card:",
                designation=model.designation,
            ),
            *(f"{capital(note.words)}." for note in notes),
            rng.choice(
                [say("Nothing else was found. May this tire run?"), say("Nothing else was found. What is your call?")]
            ),
        ],
        data=data,
        beliefs=[*([mild] if mild else []), *((*mild, name) for name in strict)],
        features={"findings": len(notes), "runs": guilty is None},
    )
