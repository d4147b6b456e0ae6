"""Statements about preparation: which of them are right?"""

from ..draft import Draft
from ..facts import statements
from ..model import Item
from ..registry import item_family


@item_family(
    "preparation-statements",
    title="What is right in preparation",
    skill="preparation",
    formats=("several",),
    lesson="prepare-install-return/clean-and-cut",
)
def build(draft: Draft) -> Item:
    asked = draft.rng.choice(["Which of these are right? Choose all.", "Which of these would you do? Choose all."])
    return statements(draft, stem=["Preparing a nail hole in a fabric-body tire: a trainer asks what is done.", asked])
