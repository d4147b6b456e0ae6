"""How wide is the area in which a tire of this size may be repaired?"""

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import crown_bound
from assessments.questions.cases.on_the_road import section_width_mm
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.claims import Turning
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT

_POINT = "1 mm"  # the smallest hole that can be: what it takes up is allowed beside the key


@item_family(
    "repair-area",
    title=saying("How wide the repair area is"),
    skill="position",
    formats=("number",),
    casings=(*LIGHT, "light-truck-steel"),
    lesson="measure-and-choose/where-it-may-be",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    rule = draft.edition.crowns[model.casing]
    bound = crown_bound(draft, model) if rule.basis == "section-width" else None
    if bound is None or bound.basis != rule.basis:
        raise NoSuchLimit(f'family "repair-area": edition {draft.edition.name} measures no area by the section width')
    section, tread = float(section_width_mm(model)), float(model.tread_width_mm)
    half, own = rng.random() < 0.5, next(share for upto, share in rule.shares if section <= upto)
    key, over = float(bound.sure_mm) * (1 if half else 2), 200 if half else 100
    shares = [share for _, share in rule.shares]
    another = shares[(shares.index(own) + 1) % len(shares)]
    wrong = [(section * another / over, "share-of-another-width")] if another != own else []
    wrong += [
        (tread * own / over, "share-of-the-tread"),
        (key * 2 if half else key / 2, "half-and-whole-mixed"),
        (float(model.outer_groove_mm) * (1 if half else 2), "groove-is-the-edge"),
        (tread / 2 if half else tread, "tread-is-all-crown"),
    ]
    asked = (
        (say("How far from the crown centerline does that area reach to either side?"),
         say("Up to what distance from the crown centerline may a hole and all of its width lie?"))
        if half else
        (say("How wide is that area, from edge to edge?"), say("What is the whole width of that area?"))
    )  # fmt: skip
    return draft.number(
        stem=[
            say(
                "A {tire}, {designation}. Its tread is {width} wide, its outermost grooves "
                "begin {groove} from the crown centerline. A minor repair has to lie in an "
                "area centered on the tread.",
                tire=model.name,
                designation=model.designation,
                width=draft.told(model.tread_width_mm),
                groove=draft.told(model.outer_groove_mm),
            ),
            rng.choice(asked),
        ],
        key=f"{key:g} mm",
        tolerance="1 mm" if half else "2 mm",
        units=("mm", "in"),
        wrong=[(f"{value:g} mm", why) for value, why in wrong],
        asks=Turning(
            "injuries.0.lateral",
            "most",
            ("repair",),
            times=1 if half else 2,
            case={"injuries": [hole(diameter=_POINT)]},
        ),
        case=draft.case(looked_at(model, draft.edition)),
        clauses=[bound.at_tread],
        features={"half": half},
    )
