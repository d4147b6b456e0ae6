"""The cutter has made some passes: how many are still needed for this body?"""

from assessments.questions.cases.phrases import how_often
from assessments.questions.cases.sidewall import ply_words
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Left
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_TOLERANCE = "0 times"
# The body of a light truck tire is for its plies to say.
_TIRES = {
    "passenger": saying("passenger tire"),
    "light-truck-fabric": saying("light truck tire"),
    "light-truck-steel": saying("light truck tire"),
    "truck": saying("truck tire"),
}


@item_family(
    "passes-by-body",
    title=saying("Passes left, by body"),
    skill="preparation",
    formats=("number",),
    casings=(*LIGHT, *STEEL),
    lesson="prepare-install-return/clean-and-cut",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    casing = rng.choice(draft.casings)
    is_steel = casing in ("light-truck-steel", "truck")
    clause = draft.limit("job.passes_each_way", casing)
    other = draft.limit("job.passes_each_way", "passenger" if is_steel else "truck")
    each, mistaken = int(draft.stated(clause).value), int(draft.stated(other).value)
    inside, outside = rng.randint(1, each), rng.randint(0, each - 1)
    key = 2 * each - inside - outside
    taken_for = 2 * mistaken - inside - outside
    wrong = [(2 * each, "limit-not-what-is-left")]
    if taken_for > 0 and each != mistaken:
        wrong.append((taken_for, "belts-decide" if not is_steel else "cable-as-fabric"))
    wrong = [(count, why) for count, why in wrong if count != key]
    if not wrong:
        raise Redraw("no mistake would show")
    return draft.number(
        stem=[
            say(
                "A nail hole in a {tire}. {plies} The carbide cutter has gone through {inside} from "
                "inside and {outside} from outside.",
                tire=_TIRES[casing],
                plies=ply_words(rng, steel_body=is_steel),
                inside=how_often(inside),
                outside=how_often(outside) if outside else say("not yet"),
            ),
            rng.choice(
                [
                    say("How many more passes does it need at least, counting both sides?"),
                    say("How many more passes does it need at least, both sides counted together?"),
                ]
            ),
        ],
        key=f"{key} times",
        tolerance=_TOLERANCE,
        units=("times",),
        wrong=[(f"{count} times", why) for count, why in wrong],
        asks=Left(clause.id, f"{inside + outside} passes", times=2),
        clauses=[clause.id],
        features={"casing": casing, "steel_body": is_steel},
    )
