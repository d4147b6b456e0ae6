"""The section height out of the size: width and aspect ratio, and nothing else."""

from fractions import Fraction
from math import floor

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import REGULATIONS
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Molded
from assessments.questions.items.item import Item
from training.rulebook import quantity
from training.rulebook.markings import section_height_mm
from training.trade.speech import say, saying

_TOLERANCE = "1 mm"


@item_family(
    "section-height",
    title=saying("How high the section is"),
    skill="markings",
    formats=("number",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    size = pick_size(rng, *kinds_for(draft.casings))
    width, aspect = size.section_width_mm or 0, size.aspect_percent or 0
    height = section_height_mm(section_width_mm=width, aspect_percent=aspect)

    def said(value: Fraction | int) -> str:
        return quantity(floor(value + Fraction(1, 2)), "mm").text

    wrong: list[tuple[Fraction | int, str]] = [
        (aspect, "aspect-in-millimeters"),
        (Fraction(size.rim_mm * aspect, 100), "aspect-of-rim"),
        (2 * height, "two-sidewalls-for-one"),
        (width, "width-for-height"),
        (Fraction(100 * width, aspect), "aspect-upside-down"),
    ]
    return draft.number(
        stem=[
            say("Molded on a sidewall: {marking}", marking=molded(size)),
            rng.choice(
                [
                    say("By its size, how high is the section, from the bead seat to the tread?"),
                    say("Going by this size, how far is it from the bead to the top of the tread on a new tire?"),
                ]
            ),
        ],
        key=said(height),
        tolerance=_TOLERANCE,
        units=("in", "mm") if draft.prefer == "in" else ("mm", "in"),
        wrong=[(said(value), why) for value, why in wrong],
        asks=Molded(size.size, "section_height_mm"),
        explanation=[
            line(say("section height"), molded(size),
                 say("{aspect}% of {width} mm: {height} mm", aspect=aspect, width=width, height=height),
                 say("The section height is the width times the aspect ratio. The rim has no part in it."),
                 say("{published} (rounding order from memory)", published=REGULATIONS))
        ],
        features={"marking": molded(size), "aspect": aspect},
    )  # fmt: skip
