"""Two holes that are not round, what each is taken for and what follows: which of the notes is right?"""

from assessments.questions.cases.casebook import length
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
from training.rulebook import Clause, Model
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_HOW = "hole-read-widest"
_WIDEST, _NARROWEST, _MIDDLE = "at its widest", "at its narrowest", "in the middle"
_BELIEFS = ("narrow-way-counts", "average-counts")
_READ = (
    saying("{one} across one way, {other} the other. It counts as {size}: {done}."),
    saying("{one} at the tread, {other} at the liner. It counts as {size}: {done}."),
    saying("{one} along the tread, {other} square to it. It counts as {size}: {done}."),
)


@item_family(
    "oval-hole",
    title=saying("Holes that are not round"),
    skill="size-limits",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model("injury.diameter")
    clause, how = draft.limit("injury.diameter", model.casing), draft.limit("job.hole_read", model.casing)
    rights, sizes = draft.steady("right").choice(PAIRS), marks(draft, clause)
    (first, one), (second, other) = (_note(draft, model, clause, how, sizes, right) for right in rights)
    case, rulings = two_holes(draft, model, clause, (one, other))
    return compared(
        draft,
        first,
        second,
        stem=[
            say(
                "Two nail holes near the centerline of a {tire}, far apart, each measured after damage removal. "
                "A technician turns the caliper and writes down, as if each hole were alone:",
                tire=model.name,
            ),
        ],
        asked=[say("Which of the notes is right?"), say("For which of the holes is that right?")],
        case=case,
        rulings=rulings,
        clauses=[how.id],
    )


def _note(
    draft: Draft, model: Model, clause: Clause, how: Clause, sizes: tuple[list[str], list[str]], is_right: bool
) -> tuple[Note, str]:
    """What is noted of a hole, right or wrong, and how wide it is. `sizes`: the marks within the limit and over it."""
    within, over = sizes
    rng = draft.rng
    is_over = rng.random() < 0.5
    wide = rng.choice(over if is_over else within)
    # The other way it is small enough: what it is taken for decides.
    narrow = rng.choice([text for text in within if _is_other_way(text, wide)])
    taken, size = _WIDEST, wide
    repaired = is_over != is_right
    if not is_right and is_over and rng.random() < 2 / 3:  # the size is taken wrongly, else it is judged wrongly
        middle = (length(narrow).value + length(wide).value) / 2
        marks_between = [(_MIDDLE, text) for text in within if length(text).value == middle]
        taken, size = rng.choice([(_NARROWEST, narrow), *marks_between])
    kept: tuple[Kept, ...] = ((how.id, taken, True), (clause.id, size, repaired))
    one, other = rng.sample((narrow, wide), 2)
    done = REPAIRED if repaired else STOPPED[clause.otherwise]
    text = say(rng.choice(_READ), one=one, other=other, size=size, done=done)
    return noted(draft, text, kept, (*_BELIEFS, *beliefs_of_size(model.casing)), unsafe=is_over), wide


def _is_other_way(text: str, wide: str) -> bool:
    """Is it a width that such a hole may have the other way?"""
    return length(wide).value / 2 <= length(text).value < length(wide).value
