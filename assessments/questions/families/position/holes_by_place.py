"""Several holes by where they lie and how they lean: which of them stay in the repairable crown all the way?"""

from fractions import Fraction
from math import ceil, cos, floor, radians, tan
from typing import Any

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at
from assessments.questions.cases.crown import crown_bound, passing_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import altered
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Ruling
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_OFFERED, _MOST_TRIES, _CLEAR_MM = 6, 100, 1.5
_INSET_MM = {False: (-9, 24), True: (2, 16)}  # of a steep channel, so that its lean decides


@item_family(
    "holes-by-place",
    title=saying("Which holes stay in the crown"),
    skill="position",
    formats=("several",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    staying = rng.randint(1, _OFFERED - 1)  # any number of them as often
    draft.foretell(_OFFERED - staying, of=_OFFERED)
    model = draft.pick_model()
    bound = crown_bound(draft, model)
    diameter = passing_hole(draft, model.casing)
    steep = edge_mm(draft.limit("injury.angle", model.casing))[1]
    sure, lost, across = float(bound.sure_mm), float(bound.lost_mm), float(length(diameter).value)
    keeps, narrower = (
        float(edge_mm(edition.clause(bound.at_tread))[1])
        for edition in (draft.edition, altered(draft.edition, "narrow-crown"))
    )
    inner = bound.inner_mm
    lying: dict[bool, list[tuple[Any, ...]]] = {True: [], False: []}  # by whether it stays
    right, wrong = list[Choice](), list[Choice]()
    rulings, seen, leaning = list[Ruling](), set[Fraction](), 0
    step = draft.step_mm
    insets = {steep: (ceil(least / step), floor(most / step) + 1) for steep, (least, most) in _INSET_MM.items()}
    for _ in range(_MOST_TRIES):
        angle = rng.choice((0, 0, rng.randint(10, 22), rng.randint(int(steep) + 1, 50)))
        lateral, outward = inner - rng.randrange(*insets[angle > steep]) * step, rng.random() < 0.6
        shift = float(model.crown_thickness_mm) * tan(radians(angle)) * (1 if outward else -1)
        half, at = across / cos(radians(angle)) / 2, float(lateral)
        far = max(at, at + shift) + half
        is_near = any(sure - _CLEAR_MM < reach < lost + _CLEAR_MM for reach in (far, at + half))
        if is_near or lateral in seen or (shift and abs(shift) < _CLEAR_MM):
            continue
        stays = far <= sure
        if len(lying[stays]) < (staying if stays else _OFFERED - staying):
            seen.add(lateral)
            lying[stays].append((lateral, angle, outward, shift, half, at, far))
            if len(seen) == _OFFERED:
                break
    if len(lying[True]) + len(lying[False]) < _OFFERED:
        raise Redraw("too few that stay, or too few that do not")
    for lateral, angle, outward, shift, half, at, far in (*lying[True], *lying[False]):
        place = draft.told(lateral)
        injury = hole(diameter=diameter, lateral=place, angle_deg=angle, outward=outward)
        decision = draft.decide(draft.case(looked_at(model, draft.edition, injuries=[injury])))
        stays = decision.verdict == "repair"
        believed = {
            "lean-ignored": at + half <= sure,
            "lean-the-other-way": max(at, at - shift) + half <= sure,
            "center-of-hole-counts": far - half <= sure,
            **{name: (far if name == "groove-is-the-edge" else at) <= float(edge) for name, edge in bound.rivals},
            "any-lean-scraps": stays and not angle,
            "steep-means-scrap": stays and angle <= steep,
        }
        if bound.basis != "shoulder":
            believed["narrow-crown"] = far <= sure + keeps - narrower
        why = tuple(name for name, stays_too in believed.items() if stays_too != stays)
        if not angle:
            text = say("{distance} off center, straight through", distance=place)
        elif outward:
            text = say("{distance} off center, leaning {angle}° outward", distance=place, angle=angle)
        else:
            text = say("{distance} off center, leaning {angle}° inward", distance=place, angle=angle)
        leaning += bool(angle)
        claim = Decided(("repair",), case={"injuries": [injury]})
        (right if stays else wrong).append(Choice(text, why, claim=claim))
        rulings += [ruling for ruling in decision.deciding if not stays and ruling not in rulings]
    if len(right) != staying or len(wrong) != _OFFERED - staying:
        raise Redraw("the rulebook sees another hole stay")
    return draft.several(
        stem=[
            say(
                "Nail holes, each {diameter} across after damage removal. Each is the only one in its {tire}. {told} "
                "The crown is {thickness} thick. Each place is that of the hole's center on the tread.",
                diameter=diameter,
                tire=model.name,
                told=bound.told,
                thickness=draft.told(model.crown_thickness_mm),
            ),
            rng.choice(
                [say("Which may be repaired? Choose all."), say("Which lie where a repair is allowed? Choose all.")]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=draft.case(looked_at(model, draft.edition)),
        clauses=() if bound.at_liner in {one.clause for one in rulings} else (bound.at_liner,),
        features={"leaning": leaning, "staying": len(right)},
    )
