"""Tread depths on vehicles of different mass: which of them are worn out where they run?"""

from assessments.questions.cases.on_the_road import PLACES, OnVehicle, ask_where, on_the_road
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Case, Decision, Model, Ruling
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_OFFERED = 5
_BELIEFS = ("car-tread-for-all", "heavy-tread-for-all", "part-worn-in-service")
_TENTHS = (6, 8, 9, 11, 12, 13, 14, 15, 17, 18, 19, 21, 23, 25)


@item_family(
    "tread-by-vehicle",
    title=saying("Tread by the mass of the vehicle"),
    skill="rejecting-conditions",
    formats=("several",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/tread-and-wear",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    ask_where(draft, "tread.least_depth", "position.gross_mass", casings=("passenger",), alone=True)
    offered: dict[tuple[OnVehicle, str], tuple[Model, Case, Decision]] = {}
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    while len(offered) < _OFFERED:
        model = draft.pick_model()
        place, depth = rng.choice(PLACES[model.casing]), f"{rng.choice(_TENTHS) / 10:g} mm"
        if (place, depth) in offered:
            continue
        data, decision = on_the_road(draft, model, place, depth=depth)
        offered[place, depth] = model, draft.case(data), decision
    if len({decision.verdict == "reject" for _, _, decision in offered.values()}) == 1:
        raise Redraw("all of them are worn, or none is")
    for (place, depth), (model, told, decision) in offered.items():
        worn = decision.verdict == "reject"
        why = tuple(held for held in _BELIEFS if (draft.decide(told, held).verdict == "reject") != worn)
        patch = {"tire": {"casing": model.casing}, "position": place.to_json(), "tread_depths": [depth]}
        (right if worn else wrong).append(
            Choice(f"{place.words}: {depth}", why, claim=Decided(("reject",), case=patch))
        )
        rulings += [one for one in decision.rulings if one.clause.startswith("tread-depth")]
    if not any(choice.why for choice in wrong + right):
        raise Redraw("nothing tells who mixes the limits up")
    return draft.several(
        stem=[
            say(
                "Five vehicles at their inspection, each with its gross mass. The figure is the least "
                "depth of one tire, all the way round and within the central three quarters of its tread."
            ),
            rng.choice(
                [
                    say("Which of these tires may not stay on the road? Choose all."),
                    say("Which of them are worn out for the vehicle they run on? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=next(told for _, told, _ in offered.values()),
        features={"worn": len(right)},
    )
