"""Leaning channels, and how each is repaired: of which does the angle allow that?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.casebook import edge_mm, hole, looked_at
from assessments.questions.cases.crown import mild_lean, passing_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided, laid_over
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item, Json
from training.rulebook import Model, Ruling
from training.trade.speech import say, saying

_TURN, _OFFERED = 90, 4
_PLACES = range(_OFFERED)
_DONE = {
    "one-piece": saying("A one-piece unit is pulled through from inside."),
    "two-piece": saying("A stem is pulled in and a separate patch set over it."),
    "patch-only": saying("A patch is set on the liner, and the channel is left open."),
    "": saying("The tire is taken out of service, since the hole leans too much."),
}
# What is done rightly and wrongly in a channel, by whether it is steep: a patch alone as often as the rest.
_RIGHT = {True: ("two-piece",), False: ("one-piece", "two-piece")}
_WRONG = {True: ("one-piece", "", "patch-only", "patch-only"), False: ("", "patch-only")}
# Who takes what is done in a steep channel, or in one that is not, otherwise.
_OTHERWISE = {
    ("one-piece", True): ("one-piece-at-any-angle",),
    ("one-piece", False): ("any-lean-is-steep", "any-lean-scraps"),
    ("two-piece", True): ("two-piece-only-when-steep", "steep-means-scrap", "any-lean-scraps"),
    ("two-piece", False): ("two-piece-only-when-steep", "any-lean-scraps"),
    ("patch-only", True): ("patch-alone",),
    ("patch-only", False): ("patch-alone",),
    ("", True): ("steep-means-scrap", "any-lean-scraps"),
    ("", False): ("any-lean-scraps",),
}


@item_family(
    "method-by-angle",
    title=saying("Method by angle"),
    skill="angle-and-method",
    formats=("several",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    mild, steep = edge_mm(draft.limit("injury.angle", model.casing))
    diameter = passing_hole(draft, model.casing)
    rulings: list[Ruling] = []
    # any number of them is right as often as any other
    right = rng.randint(1, _OFFERED - 1)
    from_tread = rng.random() < 0.4  # whoever takes the angle so takes every line so
    leans = [rng.randint(int(steep) + 1, 55) if rng.random() < 0.5 else mild_lean(draft, mild, 10) for _ in _PLACES]
    done = [rng.choice((_RIGHT if place < right else _WRONG)[leans[place] > steep]) for place in _PLACES]
    left_open = done.count("patch-only")
    draft.foretell(left_open, of=_OFFERED, catches=("patch-alone",) if left_open else ())
    offered = [
        _line(draft, model, diameter, (angle, angle > steep, from_tread), one, place < right, rulings)
        for place, (angle, one) in enumerate(zip(leans, done, strict=True))
    ]
    if not any(one.why for one in offered):
        raise Redraw("nobody takes it otherwise")
    return draft.several(
        stem=[
            say(
                "Nail holes in mid-crown, {diameter} across after damage removal, each alone in its own {tire}. At the "
                "liner each is still in the repairable crown. Nothing else was found.",
                diameter=diameter,
                tire=model.name,
            ),
            rng.choice([say("Which of them are handled rightly? Choose all."),
                        say("For which of them is that right? Choose all.")]),
        ],
        right=offered[:right],
        wrong=offered[right:],
        is_listed=True,
        case=draft.case(looked_at(model, draft.edition)),
        rulings=rulings,
        features={
            "lean_deg": max(leans),
            "distance_deg": float(min(abs(angle - edge) for angle in leans for edge in (mild, steep))),
        },
    )  # fmt: skip


def _line(
    draft: Draft, model: Model, diameter: str, lean: tuple[int, bool, bool], done: str, is_right: bool,
    rulings: list[Ruling],
) -> Choice:  # fmt: skip
    """A channel by its `lean` (angle [deg], is it steep, is it told from the tread) and what is `done`, rightly or
    wrongly; adds to the rulings what decides."""
    angle, is_steep, from_tread = lean
    injury = hole(diameter=diameter, lateral=draft.told(draft.near(8)), angle_deg=angle)
    patch: Json = {"injuries": [injury], **({"proposed": done} if done else {})}
    case = draft.case(laid_over(looked_at(model, draft.edition), patch))
    verdicts = ("repair",) if done else ("reject", "refer")
    decision = draft.decide(case)
    if (decision.verdict in verdicts) != is_right:
        raise Redraw("something else decides")
    rulings += [
        one
        for one in explaining(decision)
        if one not in rulings
        and (one.subject == "proposal" or draft.edition.clauses[one.clause].quantity == "injury.angle")
    ]
    held = (*_OTHERWISE[done, is_steep], *(("angle-from-the-tread",) if from_tread else ()))
    why = tuple(name for name in held if (draft.decide(case, name).verdict in verdicts) != is_right)
    if from_tread:
        probed = say("The probe stands {angle}° from the tread surface. {done}", angle=_TURN - angle, done=_DONE[done])
    else:
        probed = say(
            "The probe leans {angle}° from the perpendicular to the tread. {done}", angle=angle, done=_DONE[done]
        )
    claim = Decided(verdicts, case=patch)
    return Choice(probed, why, unsafe=done == "patch-only", claim=claim)
