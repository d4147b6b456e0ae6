"""One tire, third part: which of two proposals its hole allows."""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.two_notes import MAY_BE_DONE, Note, judged, lines
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.whole_case.common import SERIES, whole_case_of
from assessments.questions.items.claims import Decided, laid_over
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

# A way to repair it, in words, and who thinks otherwise of it than the rulebook.
_WAYS = {
    "one-piece": (
        saying("a one-piece unit, pulled through from inside"),
        ("one-piece-at-any-angle", "any-lean-is-steep", "any-lean-scraps", "steep-means-scrap"),
    ),
    "two-piece": (
        saying("a stem in the channel, and a patch over it from inside"),
        ("two-piece-only-when-steep", "any-lean-scraps", "steep-means-scrap"),
    ),
    "patch-only": (saying("a patch on the liner, the channel left open"), ("patch-alone",)),
    "stem-only": (saying("a stem in the channel, nothing on the liner"), ("stem-alone",)),
    "string": (saying("a string plug, pushed in from outside"), ("string-from-outside",)),
    "tube": (saying("an inner tube, the hole left as it is"), ("tube-instead",)),
}
_PLANNED = ("one-piece", "two-piece")


@item_family(
    "whole-case-method",
    title=saying("Whole case: which repair"),
    skill="angle-and-method",
    formats=("one",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
    series=SERIES,
    part=3,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    whole = whole_case_of(draft)
    decision = draft.decide(whole.case)
    if decision.verdict != "repair":
        raise Redraw("something else decides")
    may = [way for way in _PLANNED if all(way in plan.methods_allowed for plan in decision.plan or ())]
    # Every second tire may have either unit: of four answers each is right as often.
    both_may = len(may) == len(_PLANNED) and draft.steady("both").random() < 0.5
    right = (
        (True, True) if both_may else draft.steady("right").choice([one for one in MAY_BE_DONE if one != (True, True)])
    )
    good, bad = rng.sample(may, len(may)), rng.sample([way for way in _WAYS if way not in may], 2)
    notes = [_note(draft, whole.case.to_json(), (good if is_right else bad).pop(), is_right) for is_right in right]
    key, wrong = judged(notes[0], notes[1], MAY_BE_DONE)
    return draft.one(
        stem=[
            whole.opening(3),
            say(
                "After damage removal its hole is {diameter} across and leans {angle}° from the "
                "perpendicular to the tread. At the tread and at the liner it lies in the repairable "
                "crown. Two technicians would repair it with:",
                diameter=whole.diameter,
                angle=whole.angle_deg,
            ),
            *lines(notes[0], notes[1]),
            rng.choice([say("Which of the two may be done?"), say("Which is an allowed repair of it?")]),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        case=whole.case,
        rulings=explaining(decision),
        features={"part": 3, "lean_deg": whole.angle_deg},
    )


def _note(draft: Draft, case: dict[str, object], way: str, is_right: bool) -> Note:
    text, names = _WAYS[way]
    proposed = draft.case(laid_over(case, {"proposed": way}))
    held = tuple(name for name in names if (draft.decide(proposed, name).verdict == "repair") != is_right)
    claim = Decided(("repair",), case={"proposed": way})
    return Note(str(text), claim, is_right, held, unsafe=not is_right and way not in _PLANNED)
