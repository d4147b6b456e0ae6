"""One tire, second part: where its channel comes out at the liner."""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.pierced import mark_exit
from assessments.questions.draws.draft import Draft
from assessments.questions.draws.registry import item_family
from assessments.questions.families.whole_case.common import SERIES, tale_of
from assessments.questions.items.item import Item


@item_family(
    "whole-case-exit",
    title="Whole case: where the channel goes",
    skill="position",
    formats=("place",),
    casings=REPAIRED,
    lesson="measure-and-choose/where-it-may-be",
    series=SERIES,
    part=2,
)
def build(draft: Draft) -> Item:
    tale = tale_of(draft)
    return mark_exit(
        draft,
        tale.case,
        situation=[
            tale.opening(2),
            "The drawing shows its crown in cross-section, to scale, with the nail in it. The channel runs straight on "
            "in the line of the nail.",
        ],
        features={"part": 2, "lean_deg": tale.angle_deg},
    )
