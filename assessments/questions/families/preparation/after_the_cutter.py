"""The cutter was in two holes of steel bodies: is what is done next right?"""

from fractions import Fraction

from assessments.questions.cases.bodies import repaired
from assessments.questions.cases.casebook import edge_mm, hole, looked_at, readings
from assessments.questions.cases.crown import passing_hole
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import altered
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Claim, Decided, Not, Permitted, Taught, laid_over
from assessments.questions.items.item import Item, Json
from assessments.questions.work.facts import permits
from training.rulebook import Clause, Model, Ruling
from training.trade.speech import say, say_many, saying
from training.trade.words import STEEL

_DONE = {
    "go": saying("Fluid goes into the channel."),
    "cut": saying("It is cut again, then probed and measured again."),
    "plant": saying("The tire is sent to a full-service plant."),
    "stem": saying("A thicker stem is taken."),
}
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
_LIMITED = ("job.passes_each_way", "injury.diameter", "job.channel")
_LEAST = Fraction(2, 5)  # of the limit
_OVER_MM = 3  # a hole that is too large is so by as much at most
_OF_SIZE = ("size-does-not-matter", "light-limit-for-steel", "wire-ends-the-repair")
_OF_WORK = ("cable-as-fabric", "wire-beds-in", "one-pass-will-do")
_RIGHT = {"fine": "go", "unclean": "cut", "few": "cut", "large": "plant"}
_WRONG = {"fine": ("cut", "plant"), "unclean": ("go", "plant"), "few": ("go", "plant"), "large": ("go", "stem")}


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
    limits = tuple(draft.limit(name, model.casing) for name in _LIMITED)
    states = [rng.choice(sorted(_RIGHT)) for _ in "AB"]
    rulings: list[Ruling] = []
    notes = [_note(draft, model, state, limits, rulings) for state in states]
    return compared(
        draft, notes[0], notes[1],
        stem=[
            say("Two nail holes in mid-crown, each alone in its own {tire}. The cutter ran slowly, and each hole was "
                "measured at its widest.", tire=model.name),
        ],
        asked=[say("Which of them goes on rightly?"), say("For which of them is the next step right?")],
        case=draft.case(looked_at(model, draft.edition)),
        rulings=[ruling for ruling in rulings if ruling.clause == limits[1].id],
        clauses=[limits[0].id, limits[2].id],
        features={"states": " ".join(states)},
    )  # fmt: skip


def _note(draft: Draft, model: Model, state: str, limits: tuple[Clause, ...], rulings: list[Ruling]) -> Note:
    """A hole after the cutter and what is done next, right as often as wrong; adds to the rulings those on the hole."""
    rng = draft.rng
    passes, size, channel = limits
    done = _RIGHT[state] if rng.random() < 0.5 else rng.choice(_WRONG[state])
    fewest = int(draft.stated(passes).value)
    count = fewest - rng.randint(1, 2) if state == "few" else fewest + rng.randint(0, 2)
    across = passing_hole(draft, model.casing, least=_LEAST)
    if state == "large":
        across = rng.choice(readings(draft.prefer, edge_mm(size)[1], edge_mm(size)[1] + _OVER_MM))
    probed, logged = rng.choice(_UNCLEAN if state == "unclean" else _CLEAN)
    patch: Json = {"injuries": [hole(diameter=across)]}
    case = draft.case(laid_over(looked_at(model, draft.edition), patch))
    decision = draft.decide(case)
    rulings += [one for one in decision.rulings if one not in rulings]
    ready = All((Permitted(passes.id, f"{count} passes"), Permitted(channel.id, logged)))
    here = Decided(("repair",), case=patch)
    claims: dict[str, Claim] = {"go": All((here, ready)), "cut": Not(ready), "plant": Decided(("refer",), case=patch)}
    claim = claims.get(done) or All((here, Taught("over-the-limit-to-a-plant", wrongly=True)))

    def holds(belief: str = "") -> bool:
        """Is it right, or is it to somebody who believes this?"""
        edition = altered(draft.edition, belief) if belief else draft.edition
        verdict = draft.decide(case, belief).verdict if belief in _OF_SIZE else decision.verdict
        asked = ((passes, f"{count} passes"), (channel, logged))
        is_ready = all(permits(edition.clauses[one.id], value) for one, value in asked)
        said = {"go": verdict == "repair" and is_ready, "cut": not is_ready, "plant": verdict == "refer"}
        return said.get(done, verdict == "repair" and belief == "size-does-not-matter")

    is_right = done == _RIGHT[state]
    if holds() != is_right:
        raise Redraw("something else decides")
    of_size = _OF_SIZE[:1] if state == "large" else _OF_SIZE[1:]  # the others decide as the rulebook does
    why = [name for name in (*of_size, *_OF_WORK) if holds(name) != is_right]
    why += ["more-passes-never-hurt"] if state == "fine" and done in ("go", "cut") else []
    told = say_many(
        "The cutter has gone through {count} time from each side. {probed} The hole is now {size} across. {done}",
        "The cutter has gone through {count} times from each side. {probed} The hole is now {size} across. {done}",
        count, probed=probed, size=across, done=_DONE[done],
    )  # fmt: skip
    return Note(told, claim, is_right, tuple(why), unsafe=state == "large" and done in ("go", "stem"))
