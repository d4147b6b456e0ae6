"""The overall diameter of a new tire out of its size: the rim and two section heights."""

from fractions import Fraction

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import REGULATIONS
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Molded
from assessments.questions.items.item import Item
from training.rulebook import in_unit, quantity
from training.rulebook.markings import outer_diameter_mm, rim_text, section_height_mm
from training.trade.speech import say, saying

_TOLERANCE = {"in": "1/8 in", "mm": "3 mm"}


@item_family(
    "overall-diameter",
    title=saying("Overall diameter from the size"),
    skill="markings",
    formats=("number",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng, unit = draft.rng, draft.prefer
    size = pick_size(rng, *kinds_for(draft.casings))
    width, aspect, rim = size.section_width_mm or 0, size.aspect_percent or 0, size.rim_mm
    height = section_height_mm(section_width_mm=width, aspect_percent=aspect)
    key = outer_diameter_mm(section_width_mm=width, aspect_percent=aspect, rim_mm=rim)

    def said(value_mm: Fraction | int) -> str:
        value = in_unit(quantity(Fraction(value_mm), "mm"), unit)
        return f"{float(value):.1f} in" if unit == "in" else f"{round(value)} mm"

    wrong: list[tuple[Fraction | int, str]] = [
        (rim, "rim-for-overall"),
        (rim + height, "one-sidewall"),
        (rim + 2 * aspect, "aspect-in-millimeters"),
        (rim + 2 * Fraction(rim * aspect, 100), "aspect-of-rim"),
        (rim + 2 * width, "width-for-height"),
        (2 * height, "rim-left-out"),
    ]
    return draft.number(
        stem=[
            say("Molded on a sidewall: {marking}", marking=molded(size)),
            say("Its rim has a nominal diameter of {diameter}.", diameter=rim_text(size.rim_code, prefer=draft.prefer)),
            rng.choice(
                [
                    say("By its size, what is the overall diameter of the new tire?"),
                    say("Going by its size, how far is it across the whole tire when new?"),
                ]
            ),
        ],
        key=said(key),
        tolerance=_TOLERANCE[unit],
        units=("in", "mm"),
        wrong=[(said(value), why) for value, why in wrong],
        asks=Molded(size.size, "outer_diameter_mm"),
        explanation=[
            line(say("overall diameter"), molded(size),
                 say("{rim} mm and twice {height} mm: {diameter}", rim=rim, height=height, diameter=said(key)),
                 say("The overall diameter is that of the rim and two section heights, one above it and one below."),
                 say("{published} (rounding order from memory)", published=REGULATIONS))
        ],
        features={"marking": molded(size), "aspect": aspect},
    )  # fmt: skip
