"""Two holes that lie between two marks of a tool: what each counts as, and what follows, is noted; is that right?"""

from assessments.questions.cases.casebook import length, readings
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.read_off import (
    PAIRS,
    REPAIRED,
    STOPPED,
    Kept,
    beliefs_of_size,
    marks,
    noted,
    two_holes,
)
from training.rulebook import Clause
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_CAREFUL, _EASY = "to the careful side", "to the easy side"
_BELIEF = "rounded-to-pass"
_READ = (
    saying("The jaws stand between {low} and {high}. It counts as {size}: {done}."),
    saying("A round gauge of {low} slides in loosely, one of {high} does not go in. It counts as {size}: {done}."),
    saying("On the tapered probe the rubber grips between {low} and {high}. It counts as {size}: {done}."),
)


@item_family(
    "between-marks",
    title=saying("Between two marks"),
    skill="measuring",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model("injury.diameter")
    clause, how = draft.limit("injury.diameter", model.casing), draft.limit("job.between_marks", model.casing)
    within, over = marks(draft, clause)
    shown = readings(draft.prefer, length(within[0]).value - 1, length(over[-1]).value + 1) if within and over else []
    names = (_BELIEF, *beliefs_of_size(model.casing))
    (first, one), (second, other) = (
        _note(draft, clause, how, (within, over, shown), names, right) for right in draft.steady("right").choice(PAIRS)
    )
    case, rulings = two_holes(draft, model, clause, (one, other))
    return compared(
        draft,
        first,
        second,
        stem=[
            say(
                "Two nail holes near the centerline of a {tire}, far apart and both round, each measured after damage "
                "removal. A technician writes, as if each hole were alone:",
                tire=model.name,
            ),
        ],
        asked=[say("Which of the notes is right?"), say("For which of the holes is that right?")],
        case=case,
        rulings=rulings,
        clauses=[how.id],
    )


def _note(
    draft: Draft,
    clause: Clause,
    how: Clause,
    sizes: tuple[list[str], list[str], list[str]],
    names: tuple[str, ...],
    is_right: bool,
) -> tuple[Note, str]:
    """What is noted of a hole, right or wrong, and the size it counts as.

    `sizes`: the marks within the limit, those over it, and all.
    """
    rng = draft.rng
    within, over, shown = sizes
    where = rng.choice(("within", "across", "over"))  # "across": the limit lies between the two marks
    high = rng.choice(over[:1] if where == "across" else within[1:] if where == "within" else over[1:])
    low = shown[shown.index(high) - 1]
    taken, size, repaired = _CAREFUL, high, (where == "within") == is_right
    if where == "across" and not is_right and rng.random() < 2 / 3:  # it is read wrongly, else it is judged wrongly
        taken, size, repaired = _EASY, low, True
    kept: tuple[Kept, ...] = ((how.id, taken, True), (clause.id, size, repaired))
    done = REPAIRED if repaired else STOPPED[clause.otherwise]
    text = say(rng.choice(_READ), low=low, high=high, size=size, done=done)
    return noted(draft, text, kept, names, unsafe=where != "within"), high
