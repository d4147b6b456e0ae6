"""A motorcycle tire found low: what follows of the pressure on the gauge?"""

from fractions import Fraction

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import judged, said, tire
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_RECOMMENDED = {"psi": range(29, 43), "kPa": range(200, 291, 10)}
# Shares of the recommended pressure, in percent: well away from where it is looked at again.
_AWAY = 4
_NEARLY_FULL = range(93, 99)


@item_family(
    "motorcycle-pressure",
    title=saying("A motorcycle tire found low"),
    skill="measuring",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/what-law-says-of-motorcycles",
)
def build(draft: Draft) -> Item:
    rng, edition = draft.rng, draft.edition
    model = draft.pick_model()
    unit = "psi" if draft.prefer == "in" else "kPa"
    limits = [
        limit.value
        for clause in edition.clauses.values()
        if clause.quantity == "pressure.ratio" and model.casing in clause.casings
        and (limit := clause.strictest.quantity) is not None and limit.value  # of a flat tire nobody asks by the gauge
    ]  # fmt: skip
    recommended = rng.choice(_RECOMMENDED[unit])
    low = min(limits)
    share = rng.choice(
        [rng.randint(int(low / 2), int(low) - _AWAY), rng.randint(int(low) + _AWAY, 98), rng.choice(_NEARLY_FULL)]
    )
    found = recommended * share // 100
    percent = Fraction(found, recommended) * 100
    if any(abs(percent - limit) < _AWAY for limit in limits) or (percent > max(limits) and share not in _NEARLY_FULL):
        raise Redraw("too near to where something else follows")
    data = tire(draft, model, "service", pressure={"recommended": f"{recommended} {unit}", "found": f"{found} {unit}"})
    # Between the two nobody would say from outside what follows, so nothing is asked there.
    if draft.decide(draft.case(data)).verdict == "advise":
        raise Redraw("told, but better looked at")
    full = percent > max(limits)
    mistakes = ["motorcycle-just-add-air", "motorcycle-any-low-ends"]
    mistakes += [] if full else ["motorcycle-low-is-told"]
    others = [said(Decided(("inspect",), because=("inside",)), why=("motorcycle-look-at-any-low",))] if full else []
    return judged(
        draft,
        stem=[
            say(
                "A motorcycle tire, {designation}, cold, before anybody has added air: the gauge shows "
                "{found} {unit}. The motorcycle maker gives {recommended} {unit} for it.",
                designation=model.designation,
                found=found,
                unit=unit,
                recommended=recommended,
            ),
            say("Nothing was found on its outside, and the valve is tight."),
            rng.choice([say("What does this pressure tell you to do?"), say("What do you do, by the pressure alone?")]),
        ],
        data=data,
        beliefs=[(name,) for name in mistakes],
        others=others,
        features={"share": share},
    )
