"""When is the wheel torque checked again? Asked as odometer readings, so that the distance has to be known."""

from assessments.questions.cases.bodies import REPAIRED, common_limit
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import All, Permitted
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

# Multiples of the nearer and the farther limit, and who takes them for right.
_TOO_FAR = (10, 30, 60)
_READ = {
    "mi": saying("The wheel went back on with the torque wrench at an odometer reading of {reading} miles."),
    "km": saying("The wheel went back on with the torque wrench at an odometer reading of {reading} kilometers."),
}


@item_family(
    "torque-recheck",
    title=saying("When the torque is checked again"),
    skill="return-to-service",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    clause = common_limit(draft, "job.torque_recheck")
    low, high = draft.stated(clause), clause.strictest.upper[0]
    near, far = (int(end.text.split()[0]) for end in (low, high))
    at = rng.randrange(8_000, 90_000, 10)
    later = rng.sample(_TOO_FAR, 2)

    def between(first: int, last: int, *why: str) -> Choice:
        ends, start = (at + first, at + last), f"{at} {low.unit}"
        claim = All(tuple(Permitted(clause.id, f"{end} {low.unit}", start) for end in ends))
        nearer, farther = (f"{end:,}" for end in ends)
        text = say("Between {first} and {last}", first=nearer, last=farther)
        return Choice(text, why, claim=claim)

    wrong = [between(near * times, far * times, "recheck-late") for times in later]
    wrong += [between(*ends, "recheck-at-once") for ends in ((1, near // 5), (near // 5, near // 2))]
    reading = f"{at:,}"
    return draft.one(
        stem=[
            say(_READ[low.unit], reading=reading),
            rng.choice(
                [
                    say("Between which readings is its torque checked again?"),
                    say("The customer asks when to come back for the recheck. At which reading?"),
                ]
            ),
        ],
        key=between(near, far),
        wrong=wrong,
        clauses=[clause.id],
        features={"odometer": at},
    )
