"""One tire, second part: where its channel comes out at the liner."""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.channel_exit import mark_exit
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.whole_case.common import SERIES, whole_case_of
from assessments.questions.items.item import Item
from training.trade.speech import say, saying


@item_family(
    "whole-case-exit",
    title=saying("Whole case: where the channel goes"),
    skill="position",
    formats=("place",),
    casings=REPAIRED,
    lesson="measure-and-choose/where-it-may-be",
    series=SERIES,
    part=2,
)
def build(draft: Draft) -> Item:
    whole = whole_case_of(draft)
    return mark_exit(
        draft,
        whole.case,
        situation=[
            whole.opening(2),
            say(
                "The drawing shows its crown in cross-section, to scale, with the nail in it. The "
                "channel runs straight on in the line of the nail."
            ),
        ],
        features={"part": 2, "lean_deg": whole.angle_deg},
    )
