"""The fluid is on the buffed area of two tires: is what each technician does next right?"""

from assessments.questions.cases.bodies import REPAIRED, common_limit, repaired
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import altered
from assessments.questions.items.claims import All, Claim, Not, Permitted
from assessments.questions.items.item import Item
from assessments.questions.work.facts import permits
from training.rulebook import Clause
from training.trade.speech import say, say_many, saying

_DONE = {
    "now": saying("The unit goes on now, and nobody touches its gum."),
    "wait": saying("The technician waits until it is dry all over, with no heat."),
    "heat": saying("The technician warms it with a heat gun and puts the unit on."),
    "coat": saying("The technician brushes on a second, thicker coat and puts the unit on."),
}
_DRY = (saying("dull and dry all over"), saying("dry to the eye everywhere, nothing wet"))
_WET = (
    saying("still shiny in the middle"),
    saying("wet at one edge"),
    saying("dull at the edge and wet in the middle"),
)
_WEATHER = {
    False: (saying("on a mild day"), saying("in a warm, dry shop")),
    True: (saying("on a cold day"), saying("on a rainy day, with the door open")),
}
_BELIEFS = ("tacky-is-ready", "heat-saves-time", "thick-coat")


@item_family(
    "drying",
    title=saying("Is the fluid dry"),
    skill="installation",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/cement-and-dry",
)
def build(draft: Draft) -> Item:
    repaired(draft)
    clause = common_limit(draft, "job.drying")
    heat = common_limit(draft, "job.drying_heat").id
    first, second = _note(draft, clause), _note(draft, clause)
    return compared(
        draft,
        first,
        second,
        stem=[
            say(
                "On two tires the fluid is on the buffed area. Its maker's instruction agrees with the usual practice: "
                "{limit}.",
                limit=clause.limit_text(),
            ),
        ],
        asked=[say("Which of the two goes on rightly?"), say("On which of the tires is that right?")],
        clauses=[clause.id, heat],
    )


def _note(draft: Draft, clause: Clause) -> Note:
    """How long the fluid has been on, how it looks, and what is done: right as often as wrong."""
    rng = draft.rng
    least = int(draft.stated(clause).value)
    is_dry, is_right = rng.random() < 0.5, rng.random() < 0.5
    minutes = rng.randint(least + 1, least + 6) if is_dry else rng.randint(1, least + 6)
    done = ("now" if is_dry else "wait") if is_right else _spoiled(draft, is_dry=is_dry)
    state, heat, coat = (common_limit(draft, f"job.{name}") for name in ("dry_state", "drying_heat", "coat"))
    time, seen = f"{minutes} min", "completely dry" if is_dry else "tacky"
    asked = {"time": (clause, time), "state": (state, seen), "heat": (heat, "forced heat"), "cold": (heat, "no heat"),
             "coat": (coat, "thick")}  # fmt: skip
    permitted: dict[str, Claim] = {name: Permitted(one.id, value) for name, (one, value) in asked.items()}
    ready = All((permitted["time"], permitted["state"]))
    claim = {
        "now": ready,
        "wait": All((Not(ready), permitted["cold"])),
        "heat": permitted["heat"],
        "coat": permitted["coat"],
    }[done]

    def holds(belief: str = "") -> bool:
        """Is it right, or is it to somebody who believes this?"""
        edition = altered(draft.edition, belief) if belief else draft.edition
        allowed = {
            name: one.id not in edition.clauses or permits(edition.clauses[one.id], value)
            for name, (one, value) in asked.items()
        }
        is_ready = allowed["time"] and allowed["state"]
        return {"now": is_ready, "wait": not is_ready and allowed["cold"]}.get(done, allowed.get(done, False))

    why = [name for name in _BELIEFS if holds(name) != holds()]
    # who always waits longer takes nothing for ready
    why += ["longer-is-safer"] if is_dry and done in ("now", "wait") else []
    told = say_many(
        "The fluid went on {count} minute ago, {weather}. It looks {look}. {done}",
        "The fluid went on {count} minutes ago, {weather}. It looks {look}. {done}",
        minutes,
        weather=rng.choice(_WEATHER[not is_dry and minutes > least]),
        look=rng.choice(_DRY if is_dry else _WET),
        done=_DONE[done],
    )
    return Note(told, claim, holds(), tuple(why))


def _spoiled(draft: Draft, *, is_dry: bool) -> str:
    """What is done wrongly where the fluid is dry, or is not."""
    return draft.rng.choice(("wait", "wait", "heat", "coat") if is_dry else ("now", "now", "heat", "coat"))
