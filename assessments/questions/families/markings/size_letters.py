"""The letters in and around a size: what do they say of its build and its use?"""

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for
from assessments.questions.families.markings.size_parts import ask_part, pick_letter
from assessments.questions.items.item import Item
from training.trade.speech import saying

_READ = saying(
    "Letters before or after the size say what it is built for. The one before the rim "
    "diameter is the build: R is radial, D or a dash is bias, B is bias with belts."
)


@item_family(
    "size-letters",
    title=saying("What the letters of a size say"),
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    size, part = pick_letter(draft.rng, kinds_for(draft.casings))
    return ask_part(draft, size, part, _READ)
