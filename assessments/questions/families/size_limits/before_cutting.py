"""Two holes measured before the cutter, and what is done about each: which of it is right?"""

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.phrases import tire_words
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.read_off import PAIRS, Kept, beliefs_of_size, marks, noted
from training.rulebook import Clause
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_AS_FOUND, _AFTER = "as found", "after damage removal"
_BELIEF = "measured-before-removal"
_DONE = {
    "cut": saying("{size} across as found. The damage is cut out and the hole measured again, and that size decides."),
    "repair": saying("{size} across as found. That size decides: the hole may be repaired, and is not measured again."),
    "reject": saying("{size} across as found. The tire is out of service, and nothing is cut."),
    "refer": saying("{size} across as found. The tire goes to a full-service plant, and nothing is cut."),
}


@item_family(
    "before-cutting",
    title=saying("Before anything is cut"),
    skill="size-limits",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    clause, what = draft.limit("injury.diameter", model.casing), draft.limit("job.size_counted", model.casing)
    rights, sizes = draft.steady("right").choice(PAIRS), marks(draft, clause)
    names = (_BELIEF, *beliefs_of_size(model.casing))
    found = [_note(draft, clause, what, sizes, names, right) for right in rights]
    (first, one), (second, other) = found
    injuries = [
        hole(name, diameter=size, station_deg=station) for name, size, station in (("A", one, 10), ("B", other, 160))
    ]
    for injury in injuries:
        injury["before_removal"] = injury.pop("diameter")
    case = draft.case(looked_at(model, draft.edition, injuries=injuries))
    return compared(
        draft,
        first,
        second,
        stem=[
            tire_words(rng, model),
            say(
                "Two nails are out of it. They left holes near the centerline, far apart, and the cutter has been in "
                "neither. A technician writes, as if each hole were alone:"
            ),
        ],
        asked=[say("Which of the notes is right?"), say("For which of the holes is that right?")],
        case=case,
        rulings=[one for one in draft.decide(case).rulings if one.clause == clause.id],
        clauses=[what.id],
    )


def _note(
    draft: Draft,
    clause: Clause,
    what: Clause,
    sizes: tuple[list[str], list[str]],
    names: tuple[str, ...],
    is_right: bool,
) -> tuple[Note, str]:
    """What is written of a hole, right or wrong, and its size as found. `sizes`: marks within the limit and over it."""
    rng = draft.rng
    is_over = rng.random() < 0.5
    size = rng.choice(sizes[is_over])
    stop = clause.otherwise
    if is_right:
        done = stop if is_over else "cut"
    else:
        done = rng.choice(("cut", "repair") if is_over else ("repair", "repair", stop))
    kept: dict[str, tuple[Kept, ...]] = {
        "cut": ((what.id, _AFTER, True), (clause.id, size, True)),
        "repair": ((what.id, _AS_FOUND, True), (clause.id, size, True)),
        stop: ((clause.id, size, False),),
    }
    return noted(draft, say(_DONE[done], size=size), kept[done], names, unsafe=done == "repair"), size
