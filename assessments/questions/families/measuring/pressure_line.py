"""From which pressure down is a truck tire no longer filled where it stands? A share of what it should have."""

from assessments.questions.cases.trucks import AXLES, SIZES, WHEELS, looked_over
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit, altered
from assessments.questions.items.claims import Turning
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_LINES = ("half-pressure-line", "monitor-line", "share-lost-for-share-left")
_WHOLE = 100  # percent
_NEAR = {"psi": 1, "kPa": 6}


@item_family(
    "pressure-line",
    title=saying("Where running soft begins"),
    skill="measuring",
    formats=("number",),
    casings=("truck",),
    lesson="steel-bodies/run-soft-and-the-cage",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    wheel, axle = rng.choice(("single-piece", "multi-piece")), rng.choice(("front", "drive", "trailer"))
    clause = draft.edition.clauses.get(f"run-low-{wheel}")
    if clause is None:
        raise NoSuchLimit(f'family "pressure-line": edition {draft.edition.name} draws no line for pressure as found')
    unit, wanted = ("psi", 5 * rng.randint(14, 26)) if draft.prefer == "in" else ("kPa", 10 * rng.randint(48, 90))
    percent = draft.stated(clause).number
    key, near = wanted * percent / _WHOLE, _NEAR[unit]
    data = looked_over(draft, size=rng.choice(SIZES), axle=axle, depth="9/32 in")
    data["position"] |= {"wheel": wheel}
    data |= {"on_wheel": True, "pressure": {"recommended": f"{wanted} {unit}"}}
    wrong = [
        *(
            (wanted * draft.stated(altered(draft.edition, name).clause(clause.id)).number / _WHOLE, name)
            for name in _LINES
        ),
        (wanted - (_WHOLE - percent), "percent-as-pressure"),
    ]
    return draft.number(
        stem=[
            say(
                "A tire {size} stands on the {axle} of a truck with a trailer, on a {wheel}. "
                "It should have {wanted} {unit}.",
                size=data["tire"]["designation"],
                axle=AXLES[axle],
                wheel=WHEELS[wheel],
                wanted=wanted,
                unit=unit,
            ),
            rng.choice(
                [
                    say("At what pressure or below is it let down and looked at inside, and not filled where it is?"),
                    say("At what pressure or below must you let all the air out first?"),
                ]
            ),
        ],
        key=f"{key:g} {unit}",
        tolerance=f"{near} {unit}",
        units=("psi", "kPa", "bar"),
        wrong=[(f"{value:g} {unit}", why) for value, why in wrong if value > 0],
        case=draft.case(data),
        asks=Turning("pressure.found", "least", clause=clause.id, unit="kPa"),
        clauses=[clause.id],
        features={"wheel": wheel},
    )
