"""A vehicle goes up and a wheel comes off: which of these are done as they should be?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.safe_work import Scene, Told, listed
from training.trade.speech import say, saying

_HELD = Told(
    "job.vehicle",
    {
        "held": (
            saying(
                "The vehicle was set down on rated stands at its lift points, the wheels on the floor chocked; its "
                "nuts are loosened."
            ),
            saying("The vehicle hangs on a lift with its locks in, at the points its maker names; a wheel comes off."),
            saying(
                "As soon as the jack has lifted it at its lift point a rated stand goes under, and chocks lie at the "
                "other wheels; a nut that rolled away is fetched from beneath."
            ),
            saying("On the lift the locks are let in, the arms under the lift points, before anybody goes beneath."),
        ),
        "on a jack alone": (
            saying("The vehicle stands on a trolley jack at its lift point, the other wheels chocked; its nuts are "
                   "loosened."),
            saying("For a minute only the vehicle stays on its jack, on level ground with its brake set; a wheel comes "
                   "off."),
            saying(
                "While the stands are fetched from the next bay the vehicle waits on the jack, and chocks lie at the "
                "other wheels; a nut that rolled away is fetched from beneath."
            ),
            saying("On the jack the vehicle is shaken to see that it stands firm, before anybody goes beneath."),
        ),
    },
)  # fmt: skip
_LIFTS = tuple(
    Scene({"mass": Told("job.lifted_by_one", least=0.5)}, says)
    for says in (
        saying("Alone, a technician takes a wheel with its tire, {mass}, from the bench to the cart at waist height, "
               "close to the body and without a twist."),
        saying("A wheel with its tire, {mass}, is lifted from the balancer onto the bench by one person, held close, "
               "both at waist height."),
        saying("One person lifts a wheel with its tire, {mass}, from the cart onto the bench beside it, held close "
               "and without a twist."),
    )
)  # fmt: skip
_SCENES = (Scene({"done": _HELD}), *_LIFTS)
_BELIEFS = ("jack-holds", "strong-enough")


@item_family(
    "off-the-ground",
    title=saying("A vehicle lifted, a wheel carried"),
    skill="safety",
    formats=("several",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
)
def build(draft: Draft) -> Item:
    repaired(draft)
    return listed(
        draft,
        situation=say("Some of what was seen in a shop in one morning:"),
        asked=[
            say("Which of these were done as they should be? Choose all."),
            say("Which of these keep within what is allowed? Choose all."),
        ],
        scenes=_SCENES,
        beliefs=_BELIEFS,
    )
