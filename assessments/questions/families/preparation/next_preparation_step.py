"""Preparing the injury and the liner: what comes next?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import next_step
from training.trade.speech import saying

# Where no source allows another order. Buffing and cementing the channel of a one-piece repair may change places.
_AFTER = {
    "two-piece": ("remove-damage", "probe", "outline", "buff", "brush", "remove-dust"),
    "one-piece": ("remove-damage", "probe", "outline", "buff", "brush"),
}


@item_family(
    "next-preparation-step",
    title=saying("The next step in preparation"),
    skill="preparation",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/outline-and-buff",
    recall=True,
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return next_step(draft, _AFTER)
