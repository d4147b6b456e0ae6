"""Heat on a wheel, gas in a tire, lead in a hand: which of these are done as they should be?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.safe_work import Scene, Told, listed
from training.trade.speech import say, saying

_HEATED = Told(
    "job.hot_work",
    {
        "tire off first": (
            saying(
                "A crack in a rim is to be welded by the wheel maker's own shop; the tire is taken off before that."
            ),
            saying("Rust is ground off the flange of a wheel after its tire was taken off."),
            saying("A burr on a flange is ground away while the tire lies on the rack, off its wheel."),
            saying("For its new weld the wheel goes away bare: the tire stays in the shop."),
        ),
        "tire on the wheel": (
            saying("A crack in a rim is welded by the wheel maker's own shop; the core is taken out before that."),
            saying("Rust is ground off the flange of a wheel after all air was let out of its tire."),
            saying("A burr on a flange is ground away while the tire holds nitrogen alone, on its wheel."),
            saying("For its new weld the wheel goes away flat: both beads are broken and pushed inward."),
        ),
    },
)
_GAS = tuple(
    Scene({"times": Told("job.air_changed", least=0.5, most=1.75)}, says)
    for says in (
        saying("A can of sealant went into a tire that never ran soft. Outdoors, away from sparks, the tire is filled "
               "and emptied {times}; then a bead is broken."),
        saying("A tire with sealant in it held its pressure all the way. Its air is changed {times} in the yard, away "
               "from sparks, before the bead breaker."),
        saying("Nobody knows what was in the can of sealant, and the tire was never low. Its beads are broken after "
               "its air was changed {times} in the open, away from sparks."),
    )
)  # fmt: skip
_WEIGHTS = Told(
    "job.weights",
    {
        "without lead": (
            saying("The old lead weights go into the box for recycling, and weights of steel go on."),
            saying("Zinc weights go on in the place of the lead ones that came off."),
        ),
        "with lead": (
            saying("The old lead weights still hold, and go back on where they came off."),
            saying("Lead weights that are left in the drawer are used up before zinc ones are bought."),
        ),
    },
)
_SCENES = (Scene({"done": _HEATED}), *_GAS, Scene({"done": _WEIGHTS}))
_BELIEFS = ("no-air-no-danger", "one-airing-will-do", "lead-does-no-harm")


@item_family(
    "heat-gas-and-lead",
    title=saying("Heat, gas and lead"),
    skill="safety",
    formats=("several",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    repaired(draft)
    return listed(
        draft,
        situation=say("Some of what was seen around the wheels of a shop in one week:"),
        asked=[
            say("Which of these were done as they should be? Choose all."),
            say("Which of these put nobody at risk? Choose all."),
        ],
        scenes=_SCENES,
        beliefs=_BELIEFS,
    )
