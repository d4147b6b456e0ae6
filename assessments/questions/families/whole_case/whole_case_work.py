"""One tire, fifth part: the steps of its installation in order."""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.whole_case.common import SERIES, whole_case_of
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import put_in_order
from training.trade.speech import saying

_AMONG = (
    "remove-damage",
    "cement-channel",
    "pull-stem",
    "buff",
    "remove-dust",
    "cement-area",
    "dry",
    "apply-unit",
    "stitch",
    "seal",
)


@item_family(
    "whole-case-work",
    title=saying("Whole case: the work in order"),
    skill="installation",
    formats=("order",),
    casings=REPAIRED,
    lesson="prepare-install-return/install-and-stitch",
    series=SERIES,
    part=5,
    recall=True,
)
def build(draft: Draft) -> Item:
    whole = whole_case_of(draft)
    return put_in_order(draft, _AMONG, methods=("two-piece",), situation=whole.opening(5), case=whole.case)
