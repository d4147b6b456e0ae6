"""One tire, last part: is there a fault on its way back to the road?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.whole_case.common import PARTS, SERIES, whole_case_of
from assessments.questions.items.item import Item
from assessments.questions.work.faults import find_fault
from training.trade.speech import saying


@item_family(
    "whole-case-return",
    title=saying("Whole case: back to the road"),
    skill="return-to-service",
    formats=("fault",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
    series=SERIES,
    part=6,
)
def build(draft: Draft) -> Item:
    whole = whole_case_of(draft)
    return find_fault(draft, "return", method="two-piece", situation=whole.opening(PARTS), case=whole.case)
