"""Installing the unit: what comes next?"""

from ..bodies import REPAIRED, repaired
from ..draft import Draft
from ..model import Item
from ..registry import item_family
from ..sequence import next_step

_AFTER = {
    "two-piece": ("cement-channel", "cement-area", "dry", "apply-unit", "stitch"),
    "one-piece": ("cement-area", "dry", "pull-through", "stitch"),
}


@item_family(
    "next-installation-step",
    title="The next step in installation",
    skill="installation",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/install-and-stitch",
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return next_step(draft, _AFTER)
