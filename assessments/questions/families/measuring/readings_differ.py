"""Two tires whose tread was read twice, and not alike: which reading is kept, and what follows, is noted."""

from fractions import Fraction

from assessments.questions.cases.casebook import depths, edge_mm, length, looked_at
from assessments.questions.cases.phrases import tread_clauses
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.item import Item
from assessments.questions.work.read_off import PAIRS, Kept, noted
from training.rulebook import Clause
from training.trade.speech import say, saying
from training.trade.words import LIGHT

_CAREFUL, _EASY, _AVERAGE = "the careful one", "the easy one", "the average"
_BELIEFS = ("better-reading-counts", "average-counts", "half-tread", "tread-not-asked")
_DEEPEST = 4  # times the limit, at most
_APART_MM = 2  # two readings of one place, at most
_STAYS, _WORN = saying("the tire may stay"), saying("the tire is worn out")
_READ = (
    saying("One reads {one}, the other {other}; read again, they find the same. {size} is written down: {done}."),
    saying("First {one}, then {other}, and again the same two. {size} is written down: {done}."),
)


@item_family(
    "readings-differ",
    title=saying("When two readings differ"),
    skill="measuring",
    formats=("one",),
    casings=(*LIGHT, "light-truck-steel"),
    lesson="inspect-and-reject/tread-and-wear",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model()
    clause = next(
        (one for one in tread_clauses(draft.edition, model.casing, "service") if one.quantity == "tread.least_depth"),
        None,
    )
    if clause is None:
        raise NoSuchLimit(f'family "readings-differ": edition {draft.edition.name} limits no least tread depth')
    how = draft.limit("job.reading_kept", model.casing)
    low, high = edge_mm(clause)
    sizes = depths(draft.prefer, 0, low), depths(draft.prefer, high, high * _DEEPEST)
    (first, shallow), (second, _) = (
        _note(draft, clause, how, sizes, right) for right in draft.steady("right").choice(PAIRS)
    )
    case = draft.case(looked_at(model, draft.edition, purpose="service", depth=shallow))
    return compared(
        draft,
        first,
        second,
        stem=[
            say(
                "Two tires in service, each a {tire}. Two technicians read the lowest place of each with one tread "
                "gauge, which shows zero on a flat plate. Every other place is deeper. They note:",
                tire=model.name,
            ),
        ],
        asked=[say("Which of the notes is right?"), say("For which of the tires is that right?")],
        case=case,
        clauses=[how.id, clause.id],
    )


def _note(
    draft: Draft, clause: Clause, how: Clause, sizes: tuple[list[str], list[str]], is_right: bool
) -> tuple[Note, str]:
    """What is noted of a tread, right or wrong, and its shallower reading. `sizes`: the marks of a worn tread, and of
    one that is deep enough."""
    rng = draft.rng
    worn, enough = sizes
    where = rng.choice(("worn", "between", "enough"))  # "between": one reading on either side of the limit
    shallow = rng.choice(enough if where == "enough" else worn)
    deep = rng.choice(
        [text for text in (worn if where == "worn" else enough) if 0 < _apart(text, shallow) <= _APART_MM]
    )
    taken, size, stays = _CAREFUL, shallow, (where == "enough") == is_right
    if where == "between" and not is_right and rng.random() < 2 / 3:  # the wrong reading is kept, else it is misjudged
        middle = (length(shallow).value + length(deep).value) / 2
        between = [(_AVERAGE, text) for text in enough if length(text).value == middle]
        taken, size = rng.choice([(_EASY, deep), *between])
        stays = True
    kept: tuple[Kept, ...] = ((how.id, taken, True), (clause.id, size, stays))
    one, other = rng.sample((shallow, deep), 2)
    text = say(rng.choice(_READ), one=one, other=other, size=size, done=_STAYS if stays else _WORN)
    return noted(draft, text, kept, _BELIEFS, unsafe=where != "enough"), shallow


def _apart(one: str, other: str) -> Fraction:
    return length(one).value - length(other).value
