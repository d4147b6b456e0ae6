"""The cutter was in a steel body: go on, cut again, or stop?"""

from fractions import Fraction

from assessments.questions.cases.bodies import repaired
from assessments.questions.cases.casebook import edge_mm, hole, looked_at, readings
from assessments.questions.cases.crown import passing_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import All, Decided, Not, Permitted, Taught
from assessments.questions.items.item import Item
from assessments.questions.work.facts import permits
from training.trade.speech import say, say_many, saying
from training.trade.words import STEEL

_ON = saying("Go on: work fluid into the channel")
_CUT = saying("Cut again, then probe and measure again")
_PLANT = saying("Stop and send it to a full-service plant")
_STEM = saying("Go on, and take a thicker stem")
# What the probe finds, in words and as a log has it.
_CLEAN = (
    (saying("The probe slides in clean."), "clean"),
    (saying("The probe finds nothing in the channel."), "clean"),
)
_UNCLEAN = (
    (saying("The probe catches on wire."), "loose material"),
    (saying("The probe feels a split between the plies."), "split"),
    (saying("The probe brings out loose rubber."), "loose material"),
)
_LEAST = Fraction(2, 5)  # of the limit
_OVER_MM = 3  # a hole that is too large is so by as much at most


@item_family(
    "after-the-cutter",
    title=saying("After the cutter"),
    skill="preparation",
    formats=("one",),
    casings=STEEL,
    lesson="steel-bodies/repair-a-steel-body",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.model_of(*repaired(draft))
    passes, size, channel = (
        draft.limit(name, model.casing) for name in ("job.passes_each_way", "injury.diameter", "job.channel")
    )
    fewest = int(draft.stated(passes).value)
    state = rng.choice(("fine", "unclean", "few", "large"))
    done = fewest - rng.randint(1, 2) if state == "few" else fewest + rng.randint(0, 2)
    most = edge_mm(size)[1]
    across = passing_hole(draft, model.casing, least=_LEAST)
    if state == "large":
        across = rng.choice(readings(draft.prefer, most, most + _OVER_MM))
    probed, logged = rng.choice(_UNCLEAN if state == "unclean" else _CLEAN)
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=across)]))
    decision = draft.decide(case)
    is_ready = permits(passes, f"{done} passes") and logged == "clean"
    too_large = decision.verdict == "refer"
    repaired_here = Decided(("repair",))
    ready = All((Permitted(passes.id, f"{done} passes"), Permitted(channel.id, logged)))
    left = "wire-beds-in" if logged == "loose material" else "one-pass-will-do"
    go_on = {"large": "size-does-not-matter", "few": "cable-as-fabric", "unclean": left}.get(state)
    small = draft.decide(case, "light-limit-for-steel").verdict == "refer"
    over_limit = Taught("over-the-limit-to-a-plant", wrongly=True)
    thicker = ("size-does-not-matter",) if too_large else ()
    go, cut, plant, stem = (
        Choice(_ON, (go_on,) if go_on else (), unsafe=too_large, claim=All((repaired_here, ready))),
        Choice(_CUT, ("more-passes-never-hurt",), claim=Not(ready)),
        Choice(_PLANT, ("light-limit-for-steel",) if small else ("wire-ends-the-repair",), claim=Decided(("refer",))),
        Choice(_STEM, thicker, unsafe=too_large, claim=All((repaired_here, over_limit))),
    )
    key = plant if too_large else go if is_ready else cut
    return draft.one(
        stem=[
            say_many(
                "A nail hole in mid-crown of a {tire}. The cutter has gone through {count} time from "
                "each side, slowly. {probed} The widest measure of the hole is now {size}.",
                "A nail hole in mid-crown of a {tire}. The cutter has gone through {count} times from "
                "each side, slowly. {probed} The widest measure of the hole is now {size}.",
                done,
                tire=model.name,
                probed=probed,
                size=across,
            ),
            rng.choice([say("What comes next?"), say("What do you do now?")]),
        ],
        key=key,
        wrong=[one for one in (go, cut, plant, stem) if one is not key],
        case=case,
        rulings=[ruling for ruling in decision.rulings if ruling.clause == size.id],
        clauses=[passes.id, channel.id],
        features={"state": state, "passes": done},
    )
