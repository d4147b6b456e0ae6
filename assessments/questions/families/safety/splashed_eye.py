"""Solvent has splashed into an eye: is what each of two shops does right?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.safe_work import Scene, Told, paired
from training.trade.speech import say, saying

_RINSED = Told("job.eye_rinse", least=0.13, most=2.0)
_HANGS = Told(
    "job.eyewash",
    {
        "in the work area": (saying("beside the repair bench"), saying("on the wall of the bay")),
        "elsewhere": (saying("in the office upstairs"), saying("in the hall across the yard")),
    },
)
_SCENES = tuple(
    Scene({"minutes": _RINSED, "place": _HANGS}, says)
    for says in (
        saying("The eyewash hangs {place}. The eye is rinsed for {minutes}, lids held open; then a doctor sees it."),
        saying("With the eyewash {place}, the eye is rinsed at once for {minutes}, lens out and lids held open, and a "
               "doctor sees it after that."),
        saying("A doctor is called while the eye is rinsed for {minutes}, lids held open, at the eyewash {place}."),
    )
)  # fmt: skip
_BELIEFS = ("rinsed-till-it-stops-stinging", "doctor-before-water", "help-is-somewhere")


@item_family(
    "splashed-eye",
    title=saying("Solvent in an eye"),
    skill="safety",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/clean-and-cut",
)
def build(draft: Draft) -> Item:
    repaired(draft)
    return paired(
        draft,
        situation=say(
            "Cleaner splashes into somebody's eye, in two shops. The safety data sheet asks for no longer rinse "
            "than is usual."
        ),
        asked=[say("Which of the two shops has it right?"), say("In which shop is the eye cared for rightly?")],
        scenes=_SCENES,
        beliefs=_BELIEFS,
    )
