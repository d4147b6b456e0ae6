"""The fluid is on the buffed area: is it time for the unit?"""

from assessments.questions.cases.bodies import REPAIRED, common_limit, repaired
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import All, Not, Permitted
from assessments.questions.items.item import Item
from training.rulebook import parse_quantity
from training.trade.speech import say, say_many, saying

_NOW = saying("Install the unit now and leave its gum alone")
_WAIT = saying("Wait until it is dry all over, with no heat")
_HEAT = saying("Warm it with a heat gun, then install the unit")
_COAT = saying("Brush a second, thicker coat on and install")
_WEATHER = {
    False: (saying("on a mild day"), saying("in a warm, dry shop")),
    True: (saying("on a cold day"), saying("on a rainy day, with the door open")),
}


@item_family(
    "drying",
    title=saying("Is the fluid dry"),
    skill="installation",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/cement-and-dry",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    repaired(draft)
    clause = common_limit(draft, "job.drying")
    least = int(draft.stated(clause).value)
    is_dry = rng.random() < 0.5
    minutes = rng.randint(least + 1, least + 6) if is_dry else rng.randint(1, least + 6)
    is_ready = is_dry and clause.strictest.permits(parse_quantity(f"{minutes} min", "time"))
    look = (
        rng.choice((say("dull and dry all over"), say("dry to the eye everywhere, nothing wet")))
        if is_dry
        else rng.choice(
            (say("still shiny in the middle"), say("wet at one edge"), say("dull at the edge and wet in the middle"))
        )
    )
    weather = rng.choice(_WEATHER[not is_dry and minutes > least])
    state, heat, coat = (common_limit(draft, f"job.{name}").id for name in ("dry_state", "drying_heat", "coat"))
    seen = "completely dry" if is_dry else "tacky"
    ready = All((Permitted(clause.id, f"{minutes} min"), Permitted(state, seen)))
    now = Choice(_NOW, ("tacky-is-ready",), claim=ready)
    wait = Choice(_WAIT, ("longer-is-safer",), claim=All((Not(ready), Permitted(heat, "no heat"))))
    key, other = (now, wait) if is_ready else (wait, now)
    return draft.one(
        stem=[
            say_many(
                "The fluid went on the buffed area {count} minute ago, {weather}. It looks {look}.",
                "The fluid went on the buffed area {count} minutes ago, {weather}. It looks {look}.",
                minutes,
                weather=weather,
                look=look,
            ),
            say("Its maker's instruction agrees with the usual practice: {limit}.", limit=clause.limit_text()),
            rng.choice([say("What do you do?"), say("What now?")]),
        ],
        key=key,
        wrong=[
            other,
            Choice(_HEAT, ("heat-saves-time",), claim=Permitted(heat, "forced heat")),
            Choice(_COAT, ("thick-coat",), claim=Permitted(coat, "thick")),
        ],
        clauses=[clause.id, heat],
        features={"minutes": minutes, "dry": is_dry},
    )
