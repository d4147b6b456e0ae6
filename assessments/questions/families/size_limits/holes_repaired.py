"""Two earlier repairs and how large the hole under each was: may their tires stay in service?"""

from assessments.questions.cases.casebook import length, looked_at
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item, Json
from assessments.questions.work.read_off import PAIRS, beliefs_of_size, marks
from training.rulebook import Clause, Model, Ruling
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_STAYS, _STOPS = ("accept", "advise"), ("reject", "refer")
_SCRAPS = "any-earlier-repair-scraps"
_SAID = {
    ("two-piece", True): saying(
        "A stem under a patch in the crown, every edge bonded. By its job card the hole under it was {size} after "
        "damage removal. The tire stays in service."
    ),
    ("two-piece", False): saying(
        "A stem under a patch in the crown, every edge bonded. By its job card the hole under it was {size} after "
        "damage removal. The tire may not run."
    ),
    ("one-piece", True): saying(
        "A one-piece unit in the crown, every edge bonded. By its job card the hole under it was {size} after damage "
        "removal. The tire stays in service."
    ),
    ("one-piece", False): saying(
        "A one-piece unit in the crown, every edge bonded. By its job card the hole under it was {size} after damage "
        "removal. The tire may not run."
    ),
}


@item_family(
    "holes-repaired",
    title=saying("The hole under an earlier repair"),
    skill="size-limits",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model("repair.injury")
    clause = draft.limit("repair.injury", model.casing)
    rights, sizes = draft.steady("right").choice(PAIRS), marks(draft, clause)
    rulings: list[Ruling] = []
    first, second = (
        _note(draft, model, clause, name, sizes, rulings, right) for name, right in zip("AB", rights, strict=True)
    )
    return compared(
        draft,
        first,
        second,
        stem=[
            say(
                "Two tires come in at an inspection, each a {tire} that was repaired once. Both are off the wheel, and "
                "nothing else was found. A technician notes:",
                tire=model.name,
            ),
        ],
        asked=[say("Which of the notes is right?"), say("For which of the tires is that right?")],
        case=draft.case(looked_at(model, draft.edition, purpose="service")),
        rulings=rulings,
    )


def _note(
    draft: Draft,
    model: Model,
    clause: Clause,
    name: str,
    sizes: tuple[list[str], list[str]],
    rulings: list[Ruling],
    is_right: bool,
) -> Note:
    """A repair, the hole under it, and what is said of its tire, right or wrong; adds what decides.

    `sizes`: the marks within the limit and over it.
    """
    rng = draft.rng
    is_over = rng.random() < 0.5
    size, kind = rng.choice(sizes[is_over]), rng.choice(("two-piece", "one-piece"))
    repair = {"id": name, "kind": kind, "zone": "crown", "injury": size, "sound": True, "station": "90 deg"}
    patch: Json = {"earlier_repairs": [repair]}
    case = draft.case(looked_at(model, draft.edition, purpose="service", earlier_repairs=[repair]))
    decision = draft.decide(case)
    if (decision.verdict in _STOPS) != is_over:
        raise Redraw("something else decides")
    rulings += [one for one in decision.rulings if one.clause == clause.id]
    stays = is_over != is_right
    says = _STAYS if stays else _STOPS
    why = [_SCRAPS] if stays == is_right else []  # who lets none of them stay
    of_size = beliefs_of_size(model.casing)
    why += [one for one in of_size if (draft.permits(one, clause.id, length(size)) == stays) != is_right]
    text = say(_SAID[kind, stays], size=size)
    return Note(text, Decided(says, case=patch), is_right, tuple(why), unsafe=stays and is_over)
