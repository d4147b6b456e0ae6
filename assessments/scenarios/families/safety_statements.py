"""Statements about working safely: which of them are right?"""

from ..draft import Draft
from ..facts import statements
from ..model import Item
from ..registry import item_family


@item_family(
    "safety-statements",
    title="What is safe",
    skill="safety",
    formats=("several",),
    lesson="inspect-and-reject/off-the-wheel",
)
def build(draft: Draft) -> Item:
    asked = draft.rng.choice(
        ["Which of these would you tell them? Choose all.", "Which of these are right? Choose all."]
    )
    return statements(draft, stem=["A new colleague asks about working safely on a punctured tire.", asked])
