"""The ticket of an installation: which line is wrong, and why?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.faults import find_fault
from training.trade.speech import saying


@item_family(
    "fault-in-installation",
    title=saying("Fault in the installation"),
    skill="installation",
    formats=("fault",),
    casings=REPAIRED,
    lesson="prepare-install-return/cement-and-dry",
)
def build(draft: Draft) -> Item:
    return find_fault(draft, "installation")
