"""Two holes on a drawing of the crown: which of them lie where a repair is allowed?"""

from fractions import Fraction

from assessments.questions.cases.casebook import hole, length, looked_at
from assessments.questions.cases.crown import crown_bound, half_tread, passing_hole
from assessments.questions.cases.two_holes import NAMES, answers
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from training.drawings import crown_plan
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_STATIONS_DEG = (10, 75)
_MISTAKES = ("center-of-hole-counts", "tread-is-all-crown")


@item_family(
    "place-on-drawing",
    title=saying("Where it may be repaired"),
    skill="position",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    # Each lies as often inside as not, so that no answer is right more often than another.
    stay, is_near = ([rng.random() < 0.5 for _ in NAMES] for _ in range(2))
    # of a hole whose center lies outside, one mistake alone says that it stays
    is_caught = any(not stays and not near for stays, near in zip(stay, is_near, strict=True))
    draft.foretell((3, 2, 0)[sum(stay)], of=3, catches=("tread-is-all-crown",) if is_caught else ())
    model = draft.pick_model("injury.diameter")
    bound, end = crown_bound(draft, model), half_tread(draft, model)
    diameter = passing_hole(draft, model.casing)
    inner, outer = bound.inner_mm, bound.outer_mm

    def inside(is_near: bool) -> Fraction:
        """Well inside, or near the edge with all of its width inside."""
        return inner - draft.between(5, 12) if is_near else draft.between(8, inner - 25)

    def outside(is_near: bool) -> Fraction:
        """The center alone inside, or all of it outside."""
        return outer - draft.step_mm if is_near else draft.between(outer + 4, end - 3)

    places = [inside(near) if stays else outside(near) for stays, near in zip(stay, is_near, strict=True)]
    holes = [
        hole(name, diameter=diameter, lateral=draft.told(place * rng.choice((-1, 1))), station_deg=station)
        for name, place, station in zip(NAMES, places, _STATIONS_DEG, strict=True)
    ]
    case = draft.case(looked_at(model, draft.edition, injuries=holes))
    key, wrong = answers(draft, case, [(name,) for name in (*_MISTAKES, *bound.refused_sooner)])
    size = float(length(diameter).value)
    return draft.one(
        stem=[
            say(
                "The drawing shows the crown of a {tire} from inside, with nail holes A and B. Each "
                "is {diameter} across after damage removal and goes straight through. Judge each as if it "
                "were the only one.",
                tire=model.name,
                diameter=diameter,
            ),
            *([] if bound.is_drawn else [bound.told]),
            rng.choice([say("Which of them may be repaired?"), say("Which of them lie where a repair is allowed?")]),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        case=case,
        rulings=[ruling for ruling in draft.decide(case).rulings if ruling.clause == bound.at_tread],
        figure=lambda: crown_plan(case, prefer=draft.prefer),
        features={"distance_mm": min(abs(float(place) + size / 2 - float(bound.sure_mm)) for place in places)},
    )
