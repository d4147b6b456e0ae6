"""Three holes on a drawing of the crown: which of them lie where a repair is allowed?"""

from assessments.questions.cases.casebook import hole, length, looked_at
from assessments.questions.cases.crown import crown_bound, half_tread, passing_hole
from assessments.questions.cases.phrases import which_of_three
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import All, Decided
from assessments.questions.items.item import Item
from training.drawings import crown_plan
from training.rulebook import Decision
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_NAMES, _AGAINST = ("A", "B", "C"), ("reject", "refer")
_MISTAKES = ("center-of-hole-counts", "tread-is-all-crown")


@item_family(
    "place-on-drawing",
    title=saying("Where it may be repaired"),
    skill="position",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    bound, end = crown_bound(draft, model), half_tread(draft, model)
    diameter = passing_hole(draft, model.casing)
    # One hole well inside, one whose center alone is inside, and one that is clear or well outside: in a drawn order.
    inner, outer = bound.inner_mm, bound.outer_mm
    near = [inner - draft.between(5, 12), outer - draft.step_mm]
    places = [*near, rng.choice([draft.between(8, inner - 25), draft.between(outer + 4, end - 3)])]
    if rng.random() < 0.4:
        places[1] = draft.between(outer + 4, end - 3)
    rng.shuffle(places)
    holes = [
        hole(name, diameter=diameter, lateral=draft.told(place * rng.choice((-1, 1))), station_deg=station)
        for name, place, station in zip(_NAMES, places, (10, 60, 110), strict=True)
    ]
    case = draft.case(looked_at(model, draft.edition, injuries=holes))
    decision = draft.decide(case)
    key = _passing(decision)
    wrong = []
    for mistake in (*_MISTAKES, *bound.refused_sooner):
        passing = _passing(draft.decide(case, mistake))
        wrong.append(_said(passing, mistake))
    for bits in rng.sample(range(1 << len(_NAMES)), 3):
        subset = {name for place, name in enumerate(_NAMES) if bits >> place & 1}
        wrong.append(_said(subset))
    size = float(length(diameter).value)
    return draft.one(
        stem=[
            say(
                "The drawing shows the crown of a {tire} from inside, with nail holes A, B and C. Each "
                "is {diameter} across after damage removal and goes straight through. Judge each as if it "
                "were the only one.",
                tire=model.name,
                diameter=diameter,
            ),
            *([] if bound.is_drawn else [bound.told]),
            rng.choice([say("Which of them may be repaired?"), say("Which of them lie where a repair is allowed?")]),
        ],
        key=_said(key),
        wrong=wrong,
        case=case,
        rulings=[ruling for ruling in decision.rulings if ruling.clause == bound.at_tread],
        figure=lambda: crown_plan(case, prefer=draft.prefer),
        features={"distance_mm": min(abs(float(place) + size / 2 - float(bound.sure_mm)) for place in places)},
    )


def _passing(decision: Decision) -> set[str]:
    """The holes that would be repaired if each were alone: no ruling on them rejects or refers."""
    failing = {ruling.subject for ruling in decision.rulings if not ruling.holds and ruling.consequence in _AGAINST}
    return set(_NAMES) - failing


def _said(names: set[str], *why: str) -> Choice:
    """Of these holes that each may be repaired if it were alone, of the others that none may."""
    claim = All(tuple(Decided(("repair",) if name in names else _AGAINST, alone=name) for name in _NAMES))
    return Choice(which_of_three(names), why, claim=claim)
