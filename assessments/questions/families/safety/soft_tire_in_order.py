"""A truck tire was run soft: what is done, in order, from the axle to the filled tire?"""

from itertools import combinations

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.formats import in_order
from assessments.questions.items.claims import Done
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import precedences
from training.trade.speech import say, saying

# A step as a technician says it, and the step of the procedure it is a part of.
STEPS = (
    (saying("Send everybody out of the trajectory"), "deflate"),
    (saying("Take the valve core out and let all air escape"), "deflate"),
    (saying("Push a wire through the valve, to see that it is free"), "deflate"),
    (saying("Loosen the wheel nuts and take the wheel off"), "demount"),
    (saying("Break the beads and take the tire off its wheel"), "demount"),
    (saying("Look and feel inside for creases and broken cable"), "inspect"),
    (saying("Mount it, now that it was found sound"), "mount"),
    (saying("Close the restraining device and clip the chuck on"), "seat-beads"),
    (saying("Seat the beads, standing outside the trajectory"), "seat-beads"),
    (saying("Fill it to its pressure, still in the device"), "inflate"),
)
_ASKED = 5
_METHOD = "two-piece"  # or any other: before the work at the bench all have one order
_BELIEVED = {
    ("deflate", "demount"): "air-out-on-the-floor",
    ("inspect", "mount"): "filled-to-see",
    ("inspect", "seat-beads"): "filled-to-see",
    ("inspect", "inflate"): "filled-to-see",
}


@item_family(
    "soft-tire-in-order",
    title=saying("A tire run soft, in order"),
    skill="safety",
    formats=("order",),
    casings=("truck",),
    lesson="steel-bodies/run-soft-and-the-cage",
    recall=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    clauses = [draft.limit(f"job.{name}", "truck").id for name in ("valve_core", "restraint", "chuck", "hose")]
    known = precedences(draft.edition, _METHOD)
    chosen = sorted(rng.sample(range(len(STEPS)), _ASKED))
    steps = [STEPS[place] for place in chosen]
    pairs = [
        (first, then)
        for first, then in combinations(range(_ASKED), 2)
        if steps[first][1] == steps[then][1] or (steps[first][1], steps[then][1]) in known
    ]
    percent = rng.choice((66, 68, 70, 72, 74, 75, 76))
    axle = rng.choice(
        (say("the drive axle of a truck"), say("the axle of a trailer"), say("the steer axle of a truck"))
    )
    return in_order(
        draft,
        stem=[
            say(
                "A truck tire on {axle} was run with {percent}% of the pressure it should have. Here "
                "are {count} of the steps, not all of them.",
                axle=axle,
                percent=percent,
                count=_ASKED,
            ),
            rng.choice(
                [say("Put the steps in the order in which they are done."), say("In what order are these steps done?")]
            ),
        ],
        steps=[
            Choice(text, claim=Done(step, _METHOD, part=place + 1))
            for place, (text, step) in zip(chosen, steps, strict=True)
        ],
        before=pairs,
        why={(first, then): (_believed(steps[first], steps[then]),) for first, then in pairs},
        clauses=clauses,
        features={"steps": _ASKED},
    )


def _believed(first: tuple[str, str], then: tuple[str, str]) -> str:
    """The misconception by which someone does the second of two steps first."""
    return _BELIEVED.get((first[1], then[1]), "step-too-late")
