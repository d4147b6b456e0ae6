"""Statements about installation: which of them are right?"""

from ..draft import Draft
from ..facts import statements
from ..model import Item
from ..registry import item_family


@item_family(
    "installation-statements",
    title="What is right in installation",
    skill="installation",
    formats=("several",),
    lesson="prepare-install-return/install-and-stitch",
)
def build(draft: Draft) -> Item:
    asked = draft.rng.choice(["Which of these are right? Choose all.", "Which of these would you do? Choose all."])
    return statements(draft, stem=["Installing a stem and patch in a radial tire: a trainer asks what is done.", asked])
