"""Two truck tires come in with less air than they should have: what is done with each where it stands?"""

from collections.abc import Mapping
from typing import Any

from assessments.questions.cases.trucks import AXLES, SIZES, WHEELS, looked_over
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, patch
from assessments.questions.items.item import Item
from training.rulebook import FINDINGS
from training.trade.speech import say, saying

_SAID: Mapping[tuple[str, str], str] = {
    ("inspect", "inspect"): saying("Let all the air out of both, take them off and look inside"),
    ("inspect", "accept"): saying("Let the air out of A and look inside; fill B by remote control"),
    ("accept", "inspect"): saying("Let the air out of B and look inside; fill A by remote control"),
    ("accept", "accept"): saying("Fill both where they stand, by remote control"),
}
_BELIEFS = ("half-pressure-line", "filled-to-see", "air-and-go", "any-loss-is-run-soft")
_BELOW, _ABOVE = 25, 14  # as many percent from the line at most; nearer to full, a gauge shows no loss for certain
_NAIL = 0.25


@item_family(
    "run-low",
    title=saying("Found low on a truck"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=("truck",),
    lesson="steel-bodies/run-soft-and-the-cage",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    if "run-low-single-piece" not in draft.edition.clauses:
        raise NoSuchLimit(f'family "run-low": edition {draft.edition.name} draws no line for pressure as found')
    right = draft.steady("right").choice(tuple(_SAID))  # each of the four answers is right as often
    draft.foretell((0, 2, 3)[right.count("inspect")], of=3)
    size, wheel = rng.choice(SIZES), rng.choice(("single-piece", "multi-piece"))
    tires = [_tire(draft, size, wheel, verdict) for verdict in right]
    cases = [draft.case(data) for data, _ in tires]
    decisions = [draft.decide(case) for case in cases]
    if tuple(one.verdict for one in decisions) != right:
        raise Redraw("something else decides")
    ways: dict[tuple[str, ...], list[str]] = {}
    for name in _BELIEFS:
        ways.setdefault(tuple(draft.decide(case, name).verdict for case in cases), []).append(name)
    if not any(verdicts in ways for verdicts in _SAID if verdicts != right):
        raise Redraw("nobody does otherwise")
    bare = tires[0][0]

    def option(verdicts: tuple[str, str], *why: str) -> Choice:
        told = (Decided((verdict,), case=patch(bare, data)) for verdict, (data, _) in zip(verdicts, tires, strict=True))
        unsafe = any(one == "accept" != own for one, own in zip(verdicts, right, strict=True))
        return Choice(_SAID[verdicts], why, unsafe=unsafe, claim=All(tuple(told)))

    return draft.one(
        stem=[
            say(
                "Two tires {size} of a truck with a trailer, each on a {wheel}, as they stand.",
                size=size,
                wheel=WHEELS[wheel],
            ),
            *(say("{name}: {line}", name=name, line=line) for name, (_, line) in zip("AB", tires, strict=True)),
            rng.choice([say("What do you do with them?"), say("What is done with each of them now?")]),
        ],
        key=option(right),
        wrong=[option(one, *ways.get(one, ())) for one in _SAID if one != right],
        is_even=True,
        case=cases[0],
        rulings=[ruling for one in decisions for ruling in one.deciding],
        features={"filled": right.count("accept")},
    )


def _tire(draft: Draft, size: str, wheel: str, verdict: str) -> tuple[dict[str, Any], str]:
    """The case of a tire to let down ("inspect") or to fill ("accept"), and the line that tells of it."""
    rng = draft.rng
    has_nail = verdict == "inspect" and rng.random() < _NAIL
    line = int(draft.stated(draft.edition.clauses["run-low-single-piece"]).number)
    is_above = has_nail or verdict == "accept"
    percent = line + (rng.randint(2, _ABOVE) if is_above else -rng.randint(2, _BELOW))
    unit, wanted = ("psi", 5 * rng.randint(19, 25)) if draft.prefer == "in" else ("kPa", 10 * rng.randint(66, 86))
    found, axle = round(wanted * percent / 100), rng.choice(sorted(AXLES))
    data = looked_over(draft, size=size, axle=axle, depth="9/32 in", dual=axle != "front")
    data |= {"on_wheel": True, "pressure": {"recommended": f"{wanted} {unit}", "found": f"{found} {unit}"}}
    data["position"] |= {"wheel": wheel}
    data["findings"] = dict.fromkeys(FINDINGS, False)
    told = {"axle": AXLES[axle], "wanted": wanted, "unit": unit, "found": found}
    if has_nail:
        data |= {"purpose": "repair", "injuries": [{"id": "A", "kind": "puncture"}], "findings": {}}
        return data, say(
            "On the {axle}: {found} {unit} cold, where it should have {wanted}. A nail sits in its tread, and it is to "
            "be repaired.",
            **told,
        )
    return data, say(
        "On the {axle}: {found} {unit} cold, where it should have {wanted}. No damage is seen or suspected.", **told
    )
