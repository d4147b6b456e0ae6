"""Two tires are being seated: does each technician stop in time, and stand where a bead may let go?"""

from assessments.questions.cases.bodies import REPAIRED, common_limit, repaired
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Permitted
from assessments.questions.items.item import Item
from assessments.questions.work.safe_work import believing, limit_told
from training.rulebook import Clause
from training.trade.speech import say, saying

_STEP = {"psi": 1, "kPa": 5}
_STANDS = {
    "clear": (saying("stands clear of the wheel"), saying("stands well aside")),
    "over the wheel": (saying("leans over the wheel to see"), saying("bends over to see both beads")),
}
_BELIEFS = ("more-air-seats-it", "limit-taken-for-target", "stand-over-it")


@item_family(
    "beads-being-seated",
    title=saying("Beads being seated"),
    skill="safety",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    repaired(draft)
    seating, standing = (common_limit(draft, name) for name in ("job.seating_pressure", "job.standing"))
    most, unit = limit_told(draft, seating)
    if unit not in _STEP:
        raise Redraw("no gauge shows the unit of the limit")
    molded = most + rng.randint(most // 10 // _STEP[unit], most // 3 // _STEP[unit]) * _STEP[unit]
    (first, end), (second, other) = (_note(draft, seating, standing, most, unit, molded) for _ in range(2))
    if end == other:
        raise Redraw("twice the same end")
    marked = f"{molded} {unit}"
    return compared(
        draft,
        first,
        second,
        stem=[
            say(
                "Two tires, each marked for {molded} at most, are on their wheels and their beads are not seated yet. "
                "Tire maker and wheel maker give no limit of their own.",
                molded=marked,
            ),
        ],
        asked=[say("Which of the two goes on rightly?"), say("Which of the two keeps to the limits?")],
        clauses=[seating.id, standing.id],
        features={"unit": unit},
    )


def _note(draft: Draft, seating: Clause, standing: Clause, most: int, unit: str, molded: int) -> tuple[Note, int]:
    """What the gauge shows, what goes in and where the technician stands, right as often as wrong; what it comes to."""
    rng, step = draft.rng, _STEP[unit]
    is_right = rng.random() < 0.5
    is_over, is_near = (False, False) if is_right else rng.choice(((True, False), (True, False), (False, True)))
    ends = range(most + step, most * 3 // 2, step) if is_over else range(most // 2 // step * step, most + 1, step)
    end = rng.choice(ends)
    shown = rng.randrange(most // 6 // step * step, min(end, most) - step, step)
    stands = "over the wheel" if is_near else "clear"
    claims = (Permitted(seating.id, f"{end} {unit}"), Permitted(standing.id, stands))
    why = believing(draft, claims, _BELIEFS, is_right=is_right)
    if is_over:
        why += ("running-pressure-seats",) if end <= molded else ()
        why += ("limit-not-what-is-left",) if end - shown <= most else ()
    there, added = f"{shown} {unit}", f"{end - shown} {unit}"
    text = say(
        "The gauge shows {shown}; the technician {stands} and lets in {added} more.",
        shown=there,
        stands=rng.choice(_STANDS[stands]),
        added=added,
    )
    return Note(text, All(claims), is_right, why), end
