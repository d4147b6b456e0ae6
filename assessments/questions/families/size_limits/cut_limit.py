"""How long may a cut that reaches the cord be in this size before the law takes the tire off the road?"""

from assessments.questions.cases.on_the_road import ask_where, cut_limit, on_the_road
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Turning
from assessments.questions.items.item import Item
from training.rulebook import VERDICTS, length_mm
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_STAYS = tuple(verdict for verdict in VERDICTS if verdict != "reject")
_BELIEFS = ("shorter-of-both", "width-forgotten", "share-alone", "both-added")
_PLACES = {
    ("outer", "sidewall"): saying("outer sidewall"),
    ("outer", "shoulder"): saying("outer shoulder"),
    ("inner", "sidewall"): saying("inner sidewall"),
    ("inner", "shoulder"): saying("inner shoulder"),
}
_NARROW = 0.6  # how often a tire whose width does not matter is put back


@item_family(
    "cut-limit",
    title=saying("How long a cut may be"),
    skill="size-limits",
    formats=("number",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    ask_where(draft, "injury.cut_length", "injury.reaches")
    model = draft.pick_model()
    clause, limit = cut_limit(draft, model)
    share, stated = clause.strictest.share, draft.stated(clause).value
    if share is None:
        raise Redraw("the limit is no share of the width")
    if limit == stated and rng.random() < _NARROW:
        raise Redraw("the width seldom matters otherwise")
    tread = model.tread_width_mm * share.percent.value / 100
    wrong = [
        *((cut_limit(draft, model, name)[1], name) for name in _BELIEFS),
        (max(stated, tread), "tread-for-section"),
    ]
    data, _ = on_the_road(draft, model)
    return draft.number(
        stem=[
            say(
                "A {tire}, {size}, in service; its tread is {width} wide. A cut in its {place} reaches the cord.",
                tire=model.name,
                size=model.size,
                width=draft.told(model.tread_width_mm),
                place=_PLACES[rng.choice(("outer", "inner")), rng.choice(("sidewall", "shoulder"))],
            ),
            rng.choice(
                [
                    say("How long may such a cut be before the law takes the tire off the road?"),
                    say("What is the longest such cut that the law still allows on the road?"),
                ]
            ),
        ],
        key=length_mm(limit).text,
        tolerance="1 mm",
        units=("mm", "in"),
        wrong=[(length_mm(value).text, why) for value, why in wrong],
        asks=Turning("injuries.0.length", "most", _STAYS, case={"injuries": [{"kind": "cut", "reaches": "cord"}]}),
        case=draft.case(data),
        clauses=[clause.id],
        features={"by_width": limit > stated},
    )
