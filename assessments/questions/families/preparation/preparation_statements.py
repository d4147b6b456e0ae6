"""Statements about preparation: which of them are right?"""

from assessments.questions.cases.bodies import REPAIRED, body_of_work
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.facts import statements
from training.trade.speech import say, saying

_SITUATIONS = {
    "passenger": saying("You are preparing a nail hole in a fabric-body tire."),
    "light-truck-steel": saying("You are preparing a nail hole in a light truck tire with a steel body."),
    "truck": saying("You are preparing a nail hole in a truck tire."),
}


@item_family(
    "preparation-statements",
    title=saying("What is right in preparation"),
    skill="preparation",
    formats=("several",),
    casings=REPAIRED,
    lesson="prepare-install-return/clean-and-cut",
    recall=True,
)
def build(draft: Draft) -> Item:
    casing = body_of_work(draft)
    asked = draft.rng.choice(
        [say("Which of these are right? Choose all."), say("Which of these would you do? Choose all.")]
    )
    stem = [str(_SITUATIONS[casing]), asked]
    return statements(draft, stem=stem, casing=casing)
