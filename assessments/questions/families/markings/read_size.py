"""The size on a sidewall, part by part: what does this number say?"""

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for
from assessments.questions.families.markings.size_parts import ask_part, pick_number
from assessments.questions.items.item import Item
from training.trade.speech import saying

_READ = saying(
    "First the width, behind the slash the height as a percentage of the width, then the diameter of the rim."
)
_IN_INCHES = saying(
    "A size in inches: with an x, the diameter of the tire and the width; else the width. The rim comes last."
)


@item_family(
    "read-size",
    title=saying("What the numbers of a size say"),
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
    converts=True,
)
def build(draft: Draft) -> Item:
    size, part = pick_number(draft.rng, kinds_for(draft.casings))
    return ask_part(draft, size, part, _READ if size.form == "metric" else _IN_INCHES)
