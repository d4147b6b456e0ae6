"""Statements about working safely: which of them are right?"""

from assessments.questions.cases.bodies import REPAIRED, body_of_work
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.facts import statements
from training.trade.speech import say, saying

_SITUATIONS = {
    "passenger": saying("A new colleague asks about working safely on a punctured tire."),
    "light-truck-steel": saying(
        "A new colleague asks about working safely on a punctured light truck tire with a steel body."
    ),
    "truck": saying("A new colleague asks about working safely on a punctured truck tire."),
}


@item_family(
    "safety-statements",
    title=saying("What is safe"),
    skill="safety",
    formats=("several",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
    recall=True,
    foretells=True,
)
def build(draft: Draft) -> Item:
    casing = body_of_work(draft)
    asked = draft.rng.choice(
        [say("Which of these would you tell them? Choose all."), say("Which of these are right? Choose all.")]
    )
    stem = [str(_SITUATIONS[casing]), asked]
    return statements(draft, stem=stem, casing=casing)
