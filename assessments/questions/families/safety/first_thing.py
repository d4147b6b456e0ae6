"""Punctured tires have come in: with which of them is the right thing done now?"""

from collections.abc import Mapping
from typing import Any

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import usual_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided, laid_over
from assessments.questions.items.item import Item
from training.rulebook import FINDINGS, Ruling
from training.trade.speech import say, saying
from training.trade.words import LIGHT

_SEEN = {
    "on": saying("Still on its wheel, a nail near the middle of the tread, some air lost. {done}"),
    "off": saying("Off its wheel, nothing found in or on it but a nail hole in mid-crown, {size} after damage removal. "
                  "{done}"),
    "loose": saying("Off its wheel, a nail hole in mid-crown, {size} after damage removal, and liner that lifts. "
                    "{done}"),
}  # fmt: skip
_DONE = {
    "inspect": saying("It is taken off the wheel and looked at from inside."),
    "repair": saying("It is prepared and repaired from inside, with stem and patch."),
    "string": saying("A string plug is pushed in from outside and checked for air."),
    "air": saying("Air is added, the hole is soaped, and it is sent back."),
    "replace": saying("It is taken out of service, and another tire is fitted."),
}
_VERDICTS = {
    "inspect": ("inspect",),
    "repair": ("repair",),
    "string": ("repair",),
    "air": ("accept", "advise"),
    "replace": ("reject",),
}
_OFFERED = 4
_RIGHT = {"on": "inspect", "off": "repair", "loose": "replace"}
# What is done wrongly.
_WRONG = (
    ("on", "string"), ("on", "air"), ("on", "repair"), ("on", "replace"),
    ("off", "string"), ("off", "replace"), ("loose", "repair"),
)  # fmt: skip
_UNSEEN: dict[str, object] = {"id": "A", "kind": "puncture"}
_PROPOSED: Mapping[str, Mapping[str, Any]] = {
    "string": {"proposed": "string", "on_wheel": False},
    "air": {"purpose": "service", "on_wheel": True},
}
# Who takes a tire in this state, or what is done with it, otherwise.
_OTHERWISE = {
    "on": ("look-from-outside", "judged-unseen", "air-and-go"),
    "off": ("stricter-size", "air-and-go"),
    "loose": ("liner-is-cosmetic",),
    "string": ("string-from-outside",),
}


@item_family(
    "first-thing",
    title=saying("What is done now"),
    skill="safety",
    formats=("several",),
    casings=(*LIGHT, "light-truck-steel"),
    lesson="inspect-and-reject/off-the-wheel",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    size = usual_hole(draft, model.casing, "4 mm")
    # as long as a tire is on its wheel, nobody has looked inside or measured the hole
    data = {**looked_at(model, draft.edition, injuries=[_UNSEEN], on_wheel=True), "findings": {}}
    rulings: list[Ruling] = []
    # any number of them is right as often as any other
    right = rng.randint(1, _OFFERED - 1)
    done = [*rng.sample(sorted(_RIGHT.items()), right), *rng.sample(_WRONG, _OFFERED - right)]
    wrong = [way for _, way in done[right:]]
    catches = ("string-from-outside",) if "string" in wrong else ()
    draft.foretell(sum(way != "replace" for way in wrong), of=_OFFERED, catches=catches)
    offered = [_line(draft, data, size, one, place < right, rulings) for place, one in enumerate(done)]
    if not any(one.why for one in offered):
        raise Redraw("nobody takes it otherwise")
    return draft.several(
        stem=[
            say("Tires have come in, each a {tire}, {designation}.", tire=model.name, designation=model.designation),
            rng.choice([say("Which of them get what they need? Choose all."),
                        say("For which of them is that right? Choose all.")]),
        ],
        right=offered[:right],
        wrong=offered[right:],
        is_listed=True,
        case=draft.case(data),
        rulings=rulings,
        features={"states": " ".join(sorted({state for state, _ in done}))},
    )  # fmt: skip


def _line(
    draft: Draft, data: dict[str, Any], size: str, found: tuple[str, str], is_right: bool, rulings: list[Ruling]
) -> Choice:
    """A tire as it is found and what is done with it, rightly or wrongly; adds to the rulings what decides."""
    state, done = found
    findings = {**dict.fromkeys(FINDINGS, False), "liner-separation": state == "loose"}
    off = {"on_wheel": False, "findings": findings, "injuries": [hole(diameter=size)]}
    seen = {} if state == "on" else off
    decision = draft.decide(draft.case(laid_over(data, seen)))
    rulings += [one for one in decision.deciding if one not in rulings]
    patch = {**seen, **_PROPOSED.get(done, {})}
    case, verdicts = draft.case(laid_over(data, patch)), _VERDICTS[done]
    if ((draft.decide(case) if done in _PROPOSED else decision).verdict in verdicts) != is_right:
        raise Redraw("something else decides")
    held = (*_OTHERWISE[state], *_OTHERWISE.get(done, ()))
    why = tuple(name for name in held if (draft.decide(case, name).verdict in verdicts) != is_right)
    claim = Decided(verdicts, case=patch or None)
    text = say(_SEEN[state], size=size, done=_DONE[done])
    return Choice(text, why, unsafe=claim.releases and not is_right, claim=claim)
