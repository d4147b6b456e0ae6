"""The cutter has made some passes through two holes: how many do they still need in this body?"""

from random import Random

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
_SIDES = 4  # of two holes
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
    # what is left is as often one number as another
    key = rng.randint(1, _SIDES * each - 1)
    done = _spread(rng, _SIDES * each - key, each)
    taken_for = _SIDES * mistaken - sum(done)
    wrong = [(_SIDES * each, "limit-not-what-is-left")]
    if taken_for > 0 and each != mistaken:
        wrong.append((taken_for, "belts-decide" if not is_steel else "cable-as-fabric"))
    wrong = [(count, why) for count, why in wrong if count != key]
    if not wrong:
        raise Redraw("no mistake would show")
    return draft.number(
        stem=[
            say(
                "Two nail holes, A and B, in a {tire}. {plies} The carbide cutter has gone through A "
                "{inside_a} from inside and {outside_a} from outside, and through B {inside_b} from inside and "
                "{outside_b} from outside.",
                tire=_TIRES[casing],
                plies=ply_words(rng, steel_body=is_steel),
                inside_a=_times(done[0]),
                outside_a=_times(done[1]),
                inside_b=_times(done[2]),
                outside_b=_times(done[3]),
            ),
            rng.choice(
                [
                    say("How many more passes do the two holes need at least, all together?"),
                    say("How many passes are still missing at least, both holes counted together?"),
                ]
            ),
        ],
        key=f"{key} times",
        tolerance=_TOLERANCE,
        units=("times",),
        wrong=[(f"{count} times", why) for count, why in wrong],
        asks=Left(clause.id, f"{sum(done)} passes", times=_SIDES),
        clauses=[clause.id],
        features={"casing": casing, "steel_body": is_steel},
    )


def _spread(rng: Random, count: int, most: int) -> list[int]:
    """So many passes over the sides, at most so many each."""
    done = [0] * _SIDES
    for _ in range(count):
        done[rng.choice([side for side in range(_SIDES) if done[side] < most])] += 1
    return done


def _times(count: int) -> str:
    return how_often(count) if count else say("not at all")
