"""Solvent and fluid stand open in a shop: what there is as it should be?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.safe_work import Scene, Told, listed
from training.trade.speech import say, saying

_SEEN = (
    Told("job.ignition", {
        "kept away": (
            saying("The lid goes back on the can of cleaner before anybody switches the buffer on."),
            saying("While fluid is brushed on, the heater in the next bay is off, and nobody smokes."),
            saying("The open can of fluid stands at one end of the shop, and the drill is left alone till it is shut."),
            saying("The rasp cools on bare metal in one corner, and the cleaner stays shut until it is cold."),
        ),
        "near": (
            saying("The lid stays off the can of cleaner while a buffer runs at the same bench."),
            saying("While fluid is brushed on, a heater warms the floor in the next bay, and the air moves that way."),
            saying("The open can of fluid stands on the floor, and a drill runs some steps behind it."),
            saying("The rasp, still hot, is laid down beside the open cleaner, with a rag under it."),
        ),
    }),
    Told("job.pouring", {
        "bonded": (
            saying("Cleaner runs from a drum into a metal can, with a wire clipped from one to the other."),
            saying("A small metal can is filled from a large one, its rim resting on the spout."),
            saying("Before the tap of the drum is opened, the can is wired to it, metal to metal."),
        ),
        "not bonded": (
            saying("Cleaner runs from a drum into a metal can that hangs from a cord, clear of the tap."),
            saying("A small metal can is filled from a large one, held away from the spout so that nothing drips."),
            saying("Before the tap of the drum is opened, the can is set on a rubber mat, apart from it."),
        ),
    }),
    Told("job.chlorinated", {
        "away from heat": (
            saying("The fluid is chlorinated and hardly burns; the welder in the same bay still waits till it is dry."),
            saying("Chlorinated fluid is used at the far bench, away from the heater and its hot pipe."),
        ),
        "near heat": (
            saying("The fluid is chlorinated and hardly burns; the welder in the same bay goes on beside it."),
            saying("Chlorinated fluid is used beside the heater, where its hot pipe keeps the bench warm."),
        ),
    }),
    Told("job.data_sheet", {
        "at hand": (saying("The safety data sheets hang in an open folder at the bench, for all shifts."),),
        "locked away": (saying("The safety data sheets lie in the office; the manager has the key by day."),),
    }),
    Told("job.eyewash", {
        "in the work area": (saying("The eyewash hangs on the wall of the bay, with nothing in front of it."),),
        "elsewhere": (saying("The eyewash hangs in the paint shop across the yard, with its door never locked."),),
    }),
    Told("job.extinguisher", {
        "within reach": (saying("An extinguisher for burning liquids hangs in plain sight beside the bench."),),
        "out of reach": (saying("An extinguisher for burning liquids stands in the storeroom, behind the tires."),),
    }),
)  # fmt: skip
_SCENES = tuple(Scene({"done": told}) for told in _SEEN)
_BELIEFS = ("vapor-stays-in-the-can", "pouring-makes-no-spark", "hard-to-light-is-harmless", "help-is-somewhere")


@item_family(
    "open-solvent",
    title=saying("Where solvent stands open"),
    skill="safety",
    formats=("several",),
    casings=REPAIRED,
    lesson="prepare-install-return/cement-and-dry",
)
def build(draft: Draft) -> Item:
    repaired(draft)
    return listed(
        draft,
        situation=say("In a shop that works with cleaner and fluid this was seen:"),
        asked=[
            say("Which of these are as they should be? Choose all."),
            say("Which of these may stay as they are? Choose all."),
        ],
        scenes=_SCENES,
        beliefs=_BELIEFS,
    )
