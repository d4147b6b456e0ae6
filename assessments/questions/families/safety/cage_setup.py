"""A truck tire is about to be filled: which set-up keeps to every clause on it?"""

from assessments.questions.cases.trucks import SIZES
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.claims import All, Permitted
from assessments.questions.items.item import Item
from assessments.questions.work.facts import permits
from training.trade.speech import say, saying

_MOST = {"in": ("psi", (100, 105, 110, 115, 120, 125), 5), "mm": ("kPa", (690, 720, 760, 790, 830, 860), 10)}
_WORDS = saying("Cage rated {pressure}, {chuck}, {gauge}, {standing}")
_CHUCK = {"clip-on": saying("clip-on chuck"), "hand-held": saying("chuck held by hand")}
_GAUGE = {"in-line": saying("gauge in the line"), "hand-held": saying("gauge pushed on by hand")}
_HOSE = {"outside the trajectory": saying("standing aside"), "within the trajectory": saying("standing in front")}
_TRUCK = "truck"


@item_family(
    "cage-setup",
    title=saying("How a truck tire is filled"),
    skill="safety",
    formats=("one",),
    casings=(_TRUCK,),
    lesson="steel-bodies/run-soft-and-the-cage",
    recall=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    names = ("job.restraint", "job.restraint_capacity", "job.chuck", "job.gauge", "job.hose")
    device, capacity, chuck, gauge, hose = (draft.limit(name, _TRUCK) for name in names)
    if draft.prefer not in _MOST:
        raise NoSuchLimit(f'family "{draft.family.name}": no pressure is written in "{draft.prefer}"')
    unit, pressures, step = _MOST[draft.prefer]
    most = rng.choice(pressures)
    least = int(-(-most * draft.stated(capacity).number // 100))

    def rated(low: int, high: int) -> int:
        """A rating between two pressures, as a plate would say it."""
        return rng.randrange(-(-low // step) * step, high, step)

    def enough() -> int:
        return rated(least, least + 7 * step)

    weak = rated(most, least - step)
    right, by_hand, beside = (
        ("clip-on", "in-line", "outside the trajectory"),
        "hand-held",
        "within the trajectory",
    )
    settings: list[tuple[int, str, str, str, tuple[str, ...]]] = [
        (enough(), *right, ()),
        (weak, *right, ("cage-as-strong-as-tire",)),
        (enough(), by_hand, right[1], right[2], ("chuck-held-by-hand",)),
        (enough(), right[0], by_hand, right[2], ("gauge-at-the-valve",)),
        (enough(), right[0], right[1], beside, ("cage-stops-everything",)),
        (weak, by_hand, right[1], right[2], ("cage-as-strong-as-tire", "chuck-held-by-hand")),
        (enough(), right[0], by_hand, beside, ("gauge-at-the-valve", "cage-stops-everything")),
    ]
    keys: list[Choice] = []
    wrong: list[Choice] = []
    for rating, clip, read, place, why in settings:
        values = (f"{rating * 100 / most:.3f} %", clip, read, place)
        said = list(zip((capacity, chuck, gauge, hose), values, strict=True))
        keeps = all(permits(clause, value) for clause, value in said)
        claim = All(tuple(Permitted(clause.id, value) for clause, value in said))
        stands = f"{rating} {unit}"
        text = say(_WORDS, pressure=stands, chuck=_CHUCK[clip], gauge=_GAUGE[read], standing=_HOSE[place])
        (keys if keeps else wrong).append(Choice(text, why, together=True, claim=claim))
    return draft.one(
        stem=[
            say(
                "A truck tire {size}, maximum pressure {most} {unit} by its sidewall, is on its wheel, "
                "and its beads are seated.",
                size=rng.choice(SIZES),
                most=most,
                unit=unit,
            ),
            rng.choice([say("How is it filled?"), say("Which of these is the way to fill it?")]),
        ],
        key=keys[0],
        wrong=wrong,
        clauses=[device.id, capacity.id, chuck.id, gauge.id, hose.id],
        features={"maximum": most, "unit": unit},
    )
