"""Installing the unit: what comes next?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import next_step
from training.trade.speech import saying

_AFTER = {
    "two-piece": ("cement-channel", "cement-area", "dry", "apply-unit", "stitch"),
    "one-piece": ("cement-area", "dry", "pull-through", "stitch"),
}


@item_family(
    "next-installation-step",
    title=saying("The next step in installation"),
    skill="installation",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/install-and-stitch",
    recall=True,
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return next_step(draft, _AFTER)
