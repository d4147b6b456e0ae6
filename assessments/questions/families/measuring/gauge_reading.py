"""Read a gauge that is drawn to scale: a caliper over a hole, a tread gauge in a groove."""

from assessments.questions.cases.casebook import length, readings
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import Reading
from assessments.questions.items.item import Item
from training.drawings import gauge
from training.rulebook import in_unit
from training.trade.speech import say, saying

_TOOLS = {
    "caliper": (saying("caliper"), saying("The caliper spans the prepared hole."), 2, 12),
    "tread-gauge": (saying("tread gauge"), saying("The tread gauge stands in the groove."), 1, 14),
    "probe": (saying("tapered probe"), saying("The tapered probe sits in the prepared channel."), 2, 10),
}
_TOLERANCE = {"in": "1/128 in", "mm": "0.2 mm"}


def _takes(tool: str, reading: str) -> bool:
    """Is this a reading of such a tool?"""
    *_, low, high = _TOOLS[tool]
    return low < length(reading).value < high


@item_family(
    "gauge-reading",
    title=saying("Read the gauge"),
    skill="measuring",
    formats=("number",),
    casings=(),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    unit = draft.prefer
    # every reading as often as any other, whichever tools take it
    marks = readings(unit, min(low for *_, low, _ in _TOOLS.values()), max(high for *_, high in _TOOLS.values()))
    place = draft.rng.randrange(1, len(marks) - 1)
    reading = marks[place]
    tool = draft.rng.choice([one for one in sorted(_TOOLS) if _takes(one, reading)])
    name, words, *_ = _TOOLS[tool]
    wrong = [(marks[place + 1], "next-mark"), (marks[place - 1], "mark-before")]
    if unit == "in":
        wrong.append((f"{2 * in_unit(length(reading), 'in')} in", "marks-are-sixteenths"))
    elif reading.endswith(".5 mm"):
        wrong.append((reading.replace(".5 mm", " mm"), "half-marks-missed"))
    return draft.number(
        stem=[
            str(words),
            draft.rng.choice(
                [say("What does it read?"), say("What is the reading?"), say("Read it to the nearest mark.")]
            ),
        ],
        key=reading,
        tolerance=_TOLERANCE[unit],
        units=("in", "mm"),
        wrong=wrong,
        asks=Reading(),
        figure=lambda: gauge(tool, length(reading)),
        explanation=[
            {
                "clause": "",
                "subject": str(name),
                "holds": None,
                "found": reading,
                "limit": "",
                "because": say(
                    "Count the marks from the last number to where it stands, and mind what one mark is worth."
                ),
                "kind": "common-practice",
                "source": say("the drawing itself: it is to scale"),
            }
        ],
        features={"unit": unit, "half_mark": ".5" in reading},
    )
