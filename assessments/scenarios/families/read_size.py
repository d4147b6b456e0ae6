"""The size on a sidewall, part by part: what does this number, this letter say?"""

from ..draft import Choice, Draft
from ..model import Item
from ..molded import KINDS, kinds_for, line, molded
from ..registry import item_family
from ..sizeparts import pick_part

_READ = (
    "Letters before or after the size say what it is built for. Then come the width, the height as a percentage of the "
    "width, the letter of the build, and the diameter of the rim."
)
_IN_INCHES = "A size in inches: with an x, the diameter of the tire and the width; else the width. The rim comes last."


@item_family(
    "read-size",
    title="What the size says",
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    size, part = pick_part(draft.rng, kinds_for(draft.casings))
    reading = _READ if size.form == "metric" else _IN_INCHES
    return draft.one(
        stem=[
            f"Molded on a sidewall: {molded(size)}",
            draft.rng.choice(
                [f"What does the {part.sign} in this size say?", f"How is the {part.sign} in the size read?"]
            ),
        ],
        key=Choice(part.right),
        wrong=[Choice(text, (why,)) for text, why in part.wrong],
        explanation=[line("size", part.sign, part.right, reading, "UN Regulation No. 30 / No. 54 (from memory)")],
        features={"marking": molded(size), "part": part.sign},
    )
