"""Statements about working safely: which of them are right?"""

from assessments.questions.cases.bodies import BODY_WORDS, REPAIRED, body_of_work
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.facts import statements
from training.trade.speech import say, saying


@item_family(
    "safety-statements",
    title=saying("What is safe"),
    skill="safety",
    formats=("several",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
)
def build(draft: Draft) -> Item:
    casing = body_of_work(draft)
    tire = BODY_WORDS.get(casing, "a tire").replace("a ", "a punctured ", 1)
    asked = draft.rng.choice(
        [say("Which of these would you tell them? Choose all."), say("Which of these are right? Choose all.")]
    )
    stem = [say("A new colleague asks about working safely on {tire}.", tire=tire), asked]
    return statements(draft, stem=stem, casing=casing)
