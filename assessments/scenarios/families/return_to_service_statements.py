"""Statements about the way back to the road: which of them are right?"""

from ..draft import Draft
from ..facts import statements
from ..model import Item
from ..registry import item_family


@item_family(
    "return-to-service-statements",
    title="What is right on the way back to the road",
    skill="return-to-service",
    formats=("several",),
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    asked = draft.rng.choice(["Which of these are right? Choose all.", "Which of these would you do? Choose all."])
    return statements(
        draft, stem=["The repair is done, and a passenger tire goes back on its wheel and vehicle.", asked]
    )
