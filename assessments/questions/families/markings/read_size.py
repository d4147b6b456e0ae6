"""Two sizes on sidewalls, and what a number in each is said to say: is it read rightly?"""

from assessments.questions.cases.two_notes import Note, judged, lines
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.markings.load_and_speed import REGULATIONS
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for, line, molded
from assessments.questions.families.markings.size_parts import Part, pick_number
from assessments.questions.items.item import Item
from training.rulebook.markings import Designation
from training.trade.speech import say, saying

_READ = saying(
    "First the width, behind the slash the height as a percentage of the width, then the diameter of the rim."
)
_IN_INCHES = saying(
    "A size in inches: with an x, the diameter of the tire and the width; else the width. The rim comes last."
)


@item_family(
    "read-size",
    title=saying("What the numbers of a size say"),
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
    converts=True,
)
def build(draft: Draft) -> Item:
    picked = [pick_number(draft.rng, kinds_for(draft.casings)) for _ in "AB"]
    (size, part), (other, another) = picked
    if molded(size) == molded(other):
        raise Redraw("twice the same size")
    first, second = _note(draft, size, part), _note(draft, other, another)
    key, wrong = judged(first, second)
    return draft.one(
        stem=[
            say("Two sizes as they are molded, and what somebody reads in each:"),
            *lines(first, second),
            draft.rng.choice([say("Which of them is read rightly?"), say("In which of them is that right?")]),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        explanation=[_line(size, part), _line(other, another)],
        features={"marking": molded(size), "part": f"{part.sign} {another.sign}"},
    )


def _note(draft: Draft, size: Designation, part: Part) -> Note:
    """What a number of a size says, or what those take it for who know it half, as often one as the other."""
    is_right = draft.rng.random() < 0.5
    said = part.right if is_right else draft.rng.choice([one for one in part.wrong if one.why])
    # who takes the diameter of the rim for that of the tire finds none of the tire
    denied = ("rim-for-overall",) if part.right.of == "overall_diameter_code" else ()
    why = denied if is_right else (said.why,)
    return Note(
        say("{marking}. {said}.", marking=molded(size), said=said.words), said.of_size(size).claim, is_right, why
    )


def _line(size: Designation, part: Part) -> dict[str, object]:
    reading = _READ if size.form == "metric" else _IN_INCHES
    return line(
        molded(size), part.sign, part.right.words, reading, say("{published} (from memory)", published=REGULATIONS)
    )
