"""Six pictures of one kind of place on six tires: which tire comes off the road?"""

from assessments.questions.cases.casebook import looked_at
from assessments.questions.cases.sights import JUDGED, figure, sight
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.formats import of_pictures
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, Sighted, laid_over
from assessments.questions.items.item import Item
from training.rulebook import CASINGS
from training.trade.speech import say, saying
from training.trade.words import CASING_WORDS

_PICTURES = 6
_RUNS = ("accept", "advise")


@item_family(
    "picture-odd",
    title=saying("The tire that comes off the road, by six pictures"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=tuple(one for one in CASINGS if one != "light-truck"),
    lesson="inspect-and-reject/reject-on-sight",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model, pair, bad = draft.model_of(*draft.casings), rng.choice(JUDGED), rng.randrange(_PICTURES)
    sights = [sight(draft, pair, place != bad) for place in range(_PICTURES)]
    sound = looked_at(model, draft.edition, purpose="service")
    told = {looks: draft.decide(draft.case(laid_over(sound, pair.case(looks)))) for looks in (True, False)}
    decisions = [told[one.look_alike] for one in sights]
    if [one.verdict == "reject" for one in decisions] != [place == bad for place in range(_PICTURES)] or any(
        one.verdict not in _RUNS for place, one in enumerate(decisions) if place != bad
    ):
        raise Redraw("the picture does not decide")
    where = {
        "sidewall": say("The pictures show one place on the sidewall of each."),
        "bead": say("The pictures show one place at the bead of each."),
        "tread": say("The pictures show one place on the tread of each."),
        "liner": say("The pictures show one place on the liner of each."),
    }
    return of_pictures(
        draft,
        stem=[
            say(
                "Six {tires}, off the wheel for a look before they run on. All else is in order on each.",
                tires=CASING_WORDS[model.casing].many,
            ),
            where[pair.surface],
            rng.choice(
                [
                    say("One of them takes its tire out of service. Which?"),
                    say("One of these tires comes off the road. Which?"),
                ]
            ),
        ],
        offered=[
            Choice(
                say("Picture {number}", number=number),
                (pair.belief(True),) if one.look_alike else (),
                claim=All(
                    (
                        Sighted("condition", number=number),
                        Decided(("reject",), case=pair.case(one.look_alike)),
                    )
                ),
            )
            for number, one in enumerate(sights, 1)
        ],
        right=bad,
        figure=lambda: figure(pair, *sights),
        case=draft.case(sound),
        rulings=decisions[bad].deciding,
        features={"condition": pair.condition, "degree": sights[bad].degree},
    )
