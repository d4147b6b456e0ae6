"""Statements about working safely: which of them are right?"""

from assessments.questions.cases.bodies import BODY_WORDS, REPAIRED, body_of_work
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.facts import statements


@item_family(
    "safety-statements",
    title="What is safe",
    skill="safety",
    formats=("several",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
)
def build(draft: Draft) -> Item:
    casing = body_of_work(draft)
    tire = BODY_WORDS.get(casing, "a tire").replace("a ", "a punctured ", 1)
    asked = draft.rng.choice(
        ["Which of these would you tell them? Choose all.", "Which of these are right? Choose all."]
    )
    stem = [f"A new colleague asks about working safely on {tire}.", asked]
    return statements(draft, stem=stem, casing=casing)
