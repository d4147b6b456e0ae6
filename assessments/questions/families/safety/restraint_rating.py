"""The maximum pressure of a truck tire is read: how much must its restraining device stand?"""

from assessments.questions.cases.trucks import SIZES
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import altered
from assessments.questions.items.claims import Share
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_PRESSURES = {"psi": (95, 126, 5), "kPa": (660, 870, 10)}
_TOLERANCE = {"psi": "1 psi", "kPa": "6 kPa"}
_WHOLE = 100
_WEAK = ("cage-as-strong-as-tire", "a-fifth-to-spare")
_SPARE = 50  # added in psi or percent


@item_family(
    "restraint-rating",
    title=saying("What the restraining device must withstand"),
    skill="safety",
    formats=("number",),
    casings=("truck",),
    lesson="steel-bodies/run-soft-and-the-cage",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    clause = draft.limit("job.restraint_capacity", "truck")
    unit = "psi" if draft.prefer == "in" else "kPa"
    most = rng.randrange(*_PRESSURES[unit])
    seated = rng.choice((20, 25, 30, 35)) if unit == "psi" else rng.choice((140, 170, 200, 240))
    running = most - rng.choice((5, 10, 15, 20)) * (1 if unit == "psi" else 7)
    percent = draft.stated(clause).number
    wrong = [
        (most + _SPARE, "percent-as-pressure"),
        (running * percent / _WHOLE, "running-pressure-in-the-cage"),
    ]
    wrong += [
        (most * draft.stated(altered(draft.edition, name).clause(clause.id)).number / _WHOLE, name) for name in _WEAK
    ]
    key = most * percent / _WHOLE
    return draft.number(
        stem=[
            say(
                "A truck tire {size} is marked for {most} {unit} at most. On this truck it runs at {running} {unit}, "
                "and its beads were seated at {seated} {unit}.",
                size=rng.choice(SIZES),
                most=most,
                unit=unit,
                running=running,
                seated=seated,
            ),
            rng.choice(
                [
                    say("For what pressure, at least, must the restraining device be rated?"),
                    say("What is the lowest pressure that the plate of the restraining device may name?"),
                ]
            ),
        ],
        key=f"{float(key):g} {unit}",
        tolerance=_TOLERANCE[unit],
        units=("psi", "kPa", "bar"),
        wrong=[(f"{float(value):g} {unit}", why) for value, why in wrong],
        asks=Share(clause.id, f"{most} {unit}"),
        clauses=[clause.id],
        features={"maximum": most, "unit": unit},
    )
