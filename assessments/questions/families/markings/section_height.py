"""The section height out of the size: width and aspect ratio, and nothing else."""

from fractions import Fraction
from math import floor

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import REGULATIONS
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Is, Molded
from assessments.questions.items.item import Item
from training.rulebook import quantity
from training.rulebook.markings import section_height_mm
from training.trade.speech import say, saying


@item_family(
    "section-height",
    title=saying("How high the section is"),
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    size = pick_size(rng, *kinds_for(draft.casings))
    width, aspect = size.section_width_mm or 0, size.aspect_percent or 0
    height = section_height_mm(section_width_mm=width, aspect_percent=aspect)

    def said(value: Fraction | int, *why: str) -> Choice:
        whole = floor(value + Fraction(1, 2))
        claim = Is(Molded(size.size, "section_height_mm"), f"{whole} mm", "0 mm")
        return Choice(
            say("It measures {height}", height=draft.show(quantity(whole, "mm"))),
            why,
            value=Fraction(whole),
            claim=claim,
        )

    wrong = [
        said(aspect, "aspect-in-millimeters"),
        said(Fraction(size.rim_mm * aspect, 100), "aspect-of-rim"),
        said(2 * height, "two-sidewalls-for-one"),
        said(width, "width-for-height"),
        said(Fraction(100 * width, aspect), "aspect-upside-down"),
    ]
    return draft.one(
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
        wrong=[choice for choice in wrong if abs((choice.value or Fraction(0)) - height) > 2],
        explanation=[
            line(say("section height"), molded(size),
                 say("{aspect} % of {width} mm: {height} mm", aspect=aspect, width=width, height=height),
                 say("The section height is the width times the aspect ratio. The rim has no part in it."),
                 say("{published} (rounding order from memory)", published=REGULATIONS))
        ],
        features={"marking": molded(size), "aspect": aspect},
    )  # fmt: skip
