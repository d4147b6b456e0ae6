"""Tires of the right size for a vehicle, each with its load index and speed symbol: which of them may go on?"""

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.markings.load_and_speed import Service, by_alphabet, speeds
from assessments.questions.families.markings.molded_sizes import line, pick_built
from assessments.questions.items.claims import All, AtLeast, Molded
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_OFFERED = 5
_BECAUSE = saying(
    "A replacement must be good for at least the load and the speed that the vehicle's placard asks for. More "
    "of either is allowed; less of either is not, and more of the other does not make up for it."
)


@item_family(
    "replacement-service",
    title=saying("Which replacement may go on"),
    skill="markings",
    formats=("several",),
    casings=("passenger",),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng, clause = draft.rng, draft.limit("load.of_asked_index", "passenger")
    built = pick_built(rng, "passenger", _OFFERED + 1)
    size = built[0].size
    services = [Service(int(one.load_index), symbol) for one in built for symbol in one.speed_symbols]
    asked, *offered = rng.sample(services, _OFFERED + 1)
    actual, believed = ({name: limit.km_h for name, limit in table.items()} for table in (speeds(), by_alphabet()))
    right: list[Choice] = []
    wrong: list[Choice] = []

    def claim(own: Service) -> All:
        parts = ("load_kg", "speed_km_h")
        mine, placard = (f"{size} {service.text}" for service in (own, asked))
        return All(tuple(AtLeast(Molded(mine, part), Molded(placard, part)) for part in parts))

    for one in offered:
        carries, fast = one.load_index >= asked.load_index, actual[one.symbol] >= actual[asked.symbol]
        takes_alphabet = (believed[one.symbol] >= believed[asked.symbol]) != fast
        why = []
        if carries and takes_alphabet:
            why.append("symbols-by-alphabet")
        if carries and fast:
            right.append(Choice(one.text, (*why, "only-the-same-will-do"), claim=claim(one)))
            continue
        if carries:
            why.append("speed-symbol-ignored")
        elif fast:
            why.append("load-index-ignored")
        why.append("size-alone-decides")
        wrong.append(Choice(one.text, tuple(why), unsafe=True, claim=claim(one)))
    if not right or not wrong:
        raise Redraw("all of them, or none")
    return draft.several(
        stem=[
            say(
                "The placard of a car asks for {size} {service}. All-season tires of this size are on the shelf.",
                size=size,
                service=asked.text,
            ),
            rng.choice(
                [
                    say("Which of them may go on, by load index and speed symbol? Choose all."),
                    say("Which of these carry enough and are fast enough for this car? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        explanation=[
            line(
                say("placard"),
                asked.text,
                say("at least {load_index} and {symbol}", load_index=asked.load_index, symbol=asked.symbol),
                _BECAUSE,
                clause.source,
                clause.kind,
            )
        ],
        features={"marking": f"{size} {asked.text}", "fitting": len(right)},
    )
