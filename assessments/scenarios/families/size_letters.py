"""The letters in and around a size: what do they say of its build and its use?"""

from ..draft import Choice, Draft
from ..model import Item
from ..molded import KINDS, kinds_for, line, molded
from ..registry import item_family
from ..sizeparts import pick_letter

_READ = (
    "Letters before or after the size say what it is built for. The one before the rim diameter is the build: R is "
    "radial, D or a dash is bias, B is bias with belts."
)


@item_family(
    "size-letters",
    title="What the letters of a size say",
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    size, part = pick_letter(draft.rng, kinds_for(draft.casings))
    return draft.one(
        stem=[
            f"Molded on a sidewall: {molded(size)}",
            draft.rng.choice(
                [f"What does the {part.sign} in this size say?", f"How is the {part.sign} in the size read?"]
            ),
        ],
        key=Choice(part.right),
        wrong=[Choice(text, (why,)) for text, why in part.wrong],
        explanation=[line("size", part.sign, part.right, _READ, "UN Regulation No. 30 / No. 54 (from memory)")],
        features={"marking": molded(size), "part": part.sign},
    )
