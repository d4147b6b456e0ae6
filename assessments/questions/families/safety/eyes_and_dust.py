"""Two liners are buffed: is each done without harm to eyes, liner and lungs?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.safe_work import Scene, Told, paired
from training.trade.speech import say, saying

_SPEED = Told("job.buffer_speed", step=100)
_EYES = Told(
    "job.eyes",
    {
        "protected": (saying("safety glasses on"), saying("in closed goggles")),
        "bare": (saying("glasses up on the forehead"), saying("looking away from the sparks")),
    },
)
_DUST = Told(
    "job.dust_removal",
    {
        "vacuum": (saying("takes the dust with the vacuum"), saying("holds the vacuum just off the liner")),
        "compressed-air": (saying("blows the dust out with air"), saying("uses the air line on the liner")),
    },
)
_SCENES = tuple(
    Scene({"speed": _SPEED, "eyes": _EYES, "dust": _DUST}, says)
    for says in (
        saying("The technician buffs at {speed}, {eyes}, and afterward {dust}."),
        saying("The technician works {eyes}, at {speed}, and {dust} when the liner is even."),
    )
)
_BELIEFS = ("buffer-at-grinder-speed", "buffer-slow-as-the-cutter", "eyes-look-away", "blow-it-clean")


@item_family(
    "eyes-and-dust",
    title=saying("Buffing without harm"),
    skill="safety",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/outline-and-buff",
)
def build(draft: Draft) -> Item:
    repaired(draft)
    return paired(
        draft,
        situation=say(
            "Two liners are buffed, each with a dust mask on and with a rasp marked for more than its tool turns. "
            "Both stay within their outlines."
        ),
        asked=[say("Which of the two is buffed as it should be?"), say("Which of the two does it rightly?")],
        scenes=_SCENES,
        beliefs=_BELIEFS,
    )
