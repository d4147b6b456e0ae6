"""Two holes and two sizes of repair units: with which of them is there room on the liner for both?"""

from collections.abc import Sequence

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import crown_bound, usual_hole
from assessments.questions.cases.spacing import DIAMETER, repairs_with, room_for, sizes, station_deg
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided
from assessments.questions.items.item import Item
from training.drawings import crown_plan
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_SAID = {
    (True, True): saying("With A and with B"),
    (True, False): saying("With A, but not with B"),
    (False, True): saying("With B, but not with A"),
    (False, False): saying("Neither with A nor with B"),
}
_BELIEFS = ("width-and-length-mixed", "half-units", "holes-not-units", "outlines-may-not-meet", "one-repair-a-tire")


@item_family(
    "two-injuries",
    title=saying("Room for two repairs"),
    skill="position",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/two-injuries",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    fitting = draft.steady("fitting").choice(tuple(_SAID))  # each of the four answers is right as often
    draft.foretell((3, 2, 0)[sum(fitting)], of=3)
    model = draft.pick_model("injury.diameter", "repairs.gap")
    units = rng.sample(sizes(draft), 2)
    across = rng.random() < 0.5
    apart = room_for(draft, [unit[0] if across else unit[1] for unit in units], fitting)
    apart += draft.near(draft.stated(draft.limit("repairs.gap", model.casing)).value)
    room = (crown_bound(draft, model).inner_mm if model.casing in STEEL else model.outer_groove_mm) - 4
    if across and apart > 2 * room:
        raise Redraw("no room across the crown")
    first = draft.between(apart - room, room) if across else draft.between(-20, 20)
    size = usual_hole(draft, model.casing, DIAMETER)
    holes = [hole("A", diameter=size, lateral=draft.told(first))]
    holes.append(hole("B", diameter=size, lateral=draft.told(first - apart if across else first)))
    if not across:
        holes[1]["station"] = f"{station_deg(draft, model, apart):g} deg"
    case = draft.case(looked_at(model, draft.edition, injuries=holes))
    found = [repairs_with(draft, case, model, unit) for unit in units]
    right = tuple(ruling.holds for ruling in found)
    if right != fitting:
        raise Redraw("something else decides")
    ways: dict[tuple[bool, ...], list[str]] = {}
    for name in _BELIEFS:
        said = tuple(repairs_with(draft, case, model, unit, name).holds for unit in units)
        ways.setdefault(said, []).append(name)
    if not ways.keys() - {right}:
        raise Redraw("nobody decides otherwise")
    told = {"tire": model.name, "size": size, "distance": draft.told(apart)}
    if across:
        lie = say(
            "Two nail holes in the crown of a {tire}, each {size} after damage removal and straight through, lie "
            "{distance} apart on the liner, center to center, across the tire, side by side. Nothing else was found.",
            **told,
        )
    else:
        lie = say(
            "Two nail holes in the crown of a {tire}, each {size} after damage removal and straight through, lie "
            "{distance} apart on the liner, center to center, around the tire, one behind the other. Nothing else "
            "was found.",
            **told,
        )
    lines = [
        say(
            "{name}: {length} long, toward the beads, and {width} wide.",
            name=name,
            length=draft.told(length),
            width=draft.told(width),
        )
        for name, (length, width) in zip("AB", units, strict=True)
    ]

    def option(fits: tuple[bool, ...], why: Sequence[str] = ()) -> Choice:
        claims = (
            Decided(("repair",) if fit else ("reject",), units=((draft.told(length), draft.told(width)),))
            for fit, (length, width) in zip(fits, units, strict=True)
        )
        unsafe = any(fit and not own for fit, own in zip(fits, right, strict=True))
        return Choice(_SAID[fits[0], fits[1]], tuple(why), unsafe=unsafe, claim=All(tuple(claims)))

    return draft.one(
        stem=[
            lie,
            say("Both would get a repair unit of one size. Two sizes are at hand:"),
            *lines,
            rng.choice(
                [say("With which of them may both holes be repaired?"), say("With which is there room for both?")]
            ),
        ],
        key=option(right),
        wrong=[option(fits, ways.get(fits, ())) for fits in _SAID if fits != right],
        is_even=True,
        case=case,
        rulings=found,
        figure=lambda: crown_plan(case, prefer=draft.prefer),
        features={"fitting": sum(right), "across": across},
    )
