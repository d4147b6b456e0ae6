"""Somebody began on a tire, decided and went home: what becomes of that decision, now that more is known or less than
was needed?"""

from fractions import Fraction
from typing import Any

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.crown import mild_lean
from assessments.questions.cases.handed_over import SAID, said, ways, what
from assessments.questions.cases.one_hole import one_hole
from assessments.questions.cases.phrases import SEEN
from assessments.questions.cases.ticket import finding_passed_by, where_words
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_BELIEFS = {
    "stands": ("any-lean-is-steep", "any-lean-scraps", "weather-is-ozone"),
    "other": ("one-piece-at-any-angle", "steep-means-scrap", "any-lean-scraps", "weather-is-ozone"),
    "out": ("measured-before-removal", "size-does-not-matter", "tread-is-all-crown", "center-of-hole-counts"),
    "unseen": ("look-from-outside", "judged-unseen"),
}
_BESIDE = (
    saying("The customer waits outside, and the spare is flat too."),
    saying("It is one of four that were new last spring, and the customer would like to keep it."),
    saying("The unit lies ready on the bench, its film still on."),
    saying("The same colleague has repaired tires for twenty years."),
)
_MOST_DEG = 45


@item_family(
    "decided-before",
    title=saying("What becomes of a decision"),
    skill="angle-and-method",
    formats=("one",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
)
def build(draft: Draft) -> Item:
    rng, steady = draft.rng, draft.steady("right")
    model = draft.model_of(*repaired(draft))
    right = steady.choice(sorted(SAID))  # each as often
    cause = steady.choice(("size", "place", "rubber")) if right == "out" else "fine"
    found = one_hole(draft, model, "fine" if cause == "rubber" else cause)
    mild, steep = edge_mm(draft.limit("injury.angle", model.casing))
    is_steep = right == "other" or (right in ("out", "unseen") and rng.random() < 0.5)
    angle = rng.randint(int(steep) + 1, _MOST_DEG) if is_steep else mild_lean(draft, mild, 8)
    limit, after = edge_mm(draft.limit("injury.diameter", model.casing))[0], length(found.diameter).value
    smaller = readings(draft.prefer, min(limit, after) / 2, min(limit, after))
    if not smaller:
        raise Redraw("no mark of the rule below it")
    before = rng.choice(smaller)
    seen = rng.choice(sorted(finding_passed_by())) if cause == "rubber" else rng.choice(("", "weather-checking"))
    lateral = found.lateral if cause == "place" else Fraction(found.lateral / abs(found.lateral)) * draft.between(4, 12)
    injury = hole(diameter=found.diameter, lateral=draft.told(lateral), angle_deg=angle, before=before)
    more: dict[str, Any] = (
        {"on_wheel": True, "findings": {}} if right == "unseen" else {"found": [seen] if seen else []}
    )
    findings = more.pop("findings", None)
    data = looked_at(model, draft.edition, injuries=[injury], **more)
    case = draft.case(data if findings is None else data | {"findings": findings})
    decision = draft.decide(case)
    if what(decision) != right:
        raise Redraw("something else decides")
    held = (*_BELIEFS[right], *((finding_passed_by()[seen],) if cause == "rubber" else ()))
    made = ways(draft, case, right, held)
    if not any(made.values()):
        raise Redraw("nobody decides otherwise")
    words = str(SEEN[seen][0]) if seen else say("nothing else was found")
    return draft.one(
        stem=[
            say(
                "A {tire}, {designation}. The colleague who began on it has gone home and left a note: "
                '"Nail hole, {before} across, one-piece unit."',
                tire=model.name,
                designation=model.designation,
                before=before,
            ),
            say("It is still on its wheel: the nail was pulled, and the cutter run through from outside.")
            if right == "unseen"
            else say("It is off its wheel, and has been looked over inside and outside: {seen}.", seen=words),
            say(
                "After the last pass of the cutter the hole is {after} across. It leans {angle}° outward, and its "
                "center on the tread is {place}; the crown is {thickness} thick.",
                after=found.diameter,
                angle=angle,
                place=where_words(draft, model, found.bound, lateral),
                thickness=draft.told(model.crown_thickness_mm),
            ),
            str(rng.choice(_BESIDE)),
            rng.choice([say("What becomes of that decision?"), say("The work is yours now. What of the note holds?")]),
        ],
        key=said(right),
        wrong=[said(one, made[one]) for one in SAID if one != right],
        is_even=True,
        case=case,
        rulings=explaining(decision),
        features={"right": right, "cause": cause, "lean_deg": angle},
    )
