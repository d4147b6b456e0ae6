"""Statements about the way back to the road: which of them are right?"""

from assessments.questions.cases.bodies import REPAIRED, body_of_work
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.facts import statements
from training.trade.speech import say, saying

_SITUATIONS = {
    "passenger": saying("The repair is done, and a passenger tire goes back on its wheel and vehicle."),
    "light-truck-steel": saying(
        "The repair is done, and a light truck tire with a steel body goes back on its wheel and vehicle."
    ),
    "truck": saying("The repair is done, and a truck tire goes back on its wheel and vehicle."),
}


@item_family(
    "return-to-service-statements",
    title=saying("What is right on the way back to the road"),
    skill="return-to-service",
    formats=("several",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
    recall=True,
)
def build(draft: Draft) -> Item:
    casing = body_of_work(draft)
    asked = draft.rng.choice(
        [say("Which of these are right? Choose all."), say("Which of these would you do? Choose all.")]
    )
    stem = [str(_SITUATIONS[casing]), asked]
    return statements(draft, stem=stem, casing=casing)
