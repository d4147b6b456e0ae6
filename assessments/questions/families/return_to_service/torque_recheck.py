"""When is the wheel torque checked again? Asked as odometer readings, so that the distance has to be known."""

from assessments.questions.cases.bodies import REPAIRED, common_limit
from assessments.questions.cases.two_notes import Note, judged, lines
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import Permitted
from assessments.questions.items.item import Item
from training.rulebook import Clause, parse_quantity
from training.trade.speech import say, saying

_TOO_FAR = 30  # times the farther limit, at most
_READ = {
    "mi": saying("the wheel went on at {reading} miles, its torque was checked again at {later}"),
    "km": saying("the wheel went on at {reading} kilometers, its torque was checked again at {later}"),
}
_BELIEFS = ("recheck-late", "recheck-at-once")


@item_family(
    "torque-recheck",
    title=saying("When the torque is checked again"),
    skill="return-to-service",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    clause = common_limit(draft, "job.torque_recheck")
    first, second = _note(draft, clause), _note(draft, clause)
    key, wrong = judged(first, second)
    return draft.one(
        stem=[
            say("Two wheels went back on with the torque wrench. The odometers read:"),
            *lines(first, second),
            draft.rng.choice(
                [say("For which of them was the recheck at the right distance?"), say("Was the distance right?")]
            ),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        clauses=[clause.id],
        features={"right": first.is_right + second.is_right},
    )


def _note(draft: Draft, clause: Clause) -> Note:
    """A wheel with the odometer as it went on and at the recheck: in time, too soon or too late, up to the limits."""
    rng = draft.rng
    low, high = draft.stated(clause), clause.strictest.upper[0]
    near, far = (int(end.text.split()[0]) for end in (low, high))
    is_right = rng.random() < 0.5
    too_far = round(far * _TOO_FAR ** rng.random()) + 1
    driven = rng.randint(near, far) if is_right else rng.choice((rng.randint(1, near - 1), too_far))
    start = rng.randrange(8_000, 90_000, 10)
    end, since = f"{start + driven} {low.unit}", f"{start} {low.unit}"
    reading, later = f"{start:,}", f"{start + driven:,}"
    text = say(_READ[low.unit], reading=reading, later=later)
    distance = parse_quantity(f"{driven} {low.unit}", low.dimension)
    why = tuple(name for name in _BELIEFS if draft.permits(name, clause.id, distance) != is_right)
    return Note(text, Permitted(clause.id, end, since), is_right, why)
