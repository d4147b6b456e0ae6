"""Tread depths around a truck: which of them take their tire out of service, where it sits?"""

from assessments.questions.cases.casebook import depths, edge_mm
from assessments.questions.cases.phrases import who_decides
from assessments.questions.cases.trucks import SIZES, in_service
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import VERDICTS, Ruling
from training.trade.speech import say, saying

_PLACES = (("front", saying("Steer axle")), ("drive", saying("Drive axle")), ("trailer", saying("Trailer axle")))
_OFFERED = 5
_TOO_MILD = ("tread-not-asked", "rear-limit-in-front", "steer-like-any-other")
_TOO_STRICT = ("truck-steer-tread", "half-tread")
_STAYS = tuple(verdict for verdict in VERDICTS if verdict != "reject")


@item_family(
    "tread-by-axle",
    title=saying("Tread of a truck, by axle"),
    skill="rejecting-conditions",
    formats=("several",),
    casings=("truck",),
    lesson="inspect-and-reject/tread-and-wear",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    steer = next(
        (one for one in draft.edition.clauses.values() if one.quantity == "tread.least_depth" and "truck" in one.casings
         and any(condition.quantity == "position.axle" for condition in one.when)), None)  # fmt: skip
    if steer is None:
        raise NoSuchLimit(f'family "tread-by-axle": edition {draft.edition.name} has no limit by axle')
    # Below the limit of all wheels, between it and that of the steer axle, and above both.
    found = depths(draft.prefer, 0, edge_mm(steer)[1] * 2)
    size = rng.choice(SIZES)
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    case = None
    worn = rng.randint(1, _OFFERED - 1)  # any number of them as often
    every = [(place, depth) for place in _PLACES for depth in found]
    for (axle, name), depth in rng.sample(every, len(every)):
        if len(right) + len(wrong) == _OFFERED:
            break
        words = say("{axle}: {depth} deep in the lowest major groove", axle=name, depth=depth)
        claim = Decided(("reject",), case={"position": {"axle": axle}, "tread_depths": [depth]})
        data, decision = in_service(draft, size=size, axle=axle, depth=depth)
        is_worn = decision.verdict == "reject"
        if len(right if is_worn else wrong) == (worn if is_worn else _OFFERED - worn):
            continue
        case = case or draft.case(data)
        if is_worn:
            held = who_decides(draft, draft.case(data), _STAYS, _TOO_MILD)
            right.append(Choice(words, held, claim=claim))
            rulings += decision.deciding
        else:
            held = who_decides(draft, draft.case(data), ("reject",), _TOO_STRICT)
            wrong.append(Choice(words, held, claim=claim))
    if len(right) + len(wrong) < _OFFERED:
        raise Redraw("too few of the worn, or of the others")
    return draft.several(
        stem=[
            say(
                "A truck with a trailer, tires {size}, comes in for inspection. The least depth found on five tires:",
                size=size,
            ),
            rng.choice(
                [
                    say("Which of these tires may not stay in service? Choose all."),
                    say("Which of these are worn out for the place where they run? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=case,
        features={"worn": len(right)},
    )
