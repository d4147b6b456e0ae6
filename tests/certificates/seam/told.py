"""What is told of certificates, with all that people typed and records keep in brackets from the start."""

import re
from dataclasses import replace
from typing import Any

from assessments.questions import Blame, Item, Option, Picture
from certificates.models import Certificate
from tests.certificates.sheets import FACTS
from tests.factories import an_item
from tests.factories_certificates import CRITERIA, CertificateFactory, HandsOnFactory, passed_attempt
from tests.speaking import CLOSE, OPEN, outside
from training.models import Shop, User

LIGHT, STEEL = "north-america-light", "north-america-steel"
# read as it stands in every language
AS_IT_STANDS = re.compile(
    r"Sound\s+Casing"  # the name of the program
    r"|https?://\S+"  # addresses
    r"|[0-9a-f]{8}-[0-9a-f-]{27}"  # references of forms
    r"|\b[0-9A-Z]{4}-[0-9A-Z]{4}(?:-[0-9A-Z]{2})?\b"  # numbers of certificates and papers
    r"|(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\s\d{1,2},\s\d{4}"  # days, by CLDR
    r"|\d{1,2}:\d\d(?::\d\d)?\s[AP]M(?:\sM[SD]T)?"  # times of day, by CLDR
    r"|\bA4\b"  # a size of paper by ISO 216
    r"|\d{4}\.\d+(?:\+h[0-9a-f]+)?"  # versions of editions
)


def typed(text: str) -> str:
    """What somebody typed, or a record keeps: no text of the program's."""
    return f"{OPEN}{text}{CLOSE}"


def unsaid(text: str) -> list[str]:
    """The words of a text that never passed the seam."""
    return outside(AS_IT_STANDS.sub(" ", text))


def told_item(**facts: Any) -> Item:
    """A question with every text in brackets: they are kept in the language they were drawn in."""
    item = an_item(**facts)
    keys = ("subject", "found", "limit", "because", "source")
    line = {key: typed(str(value)) if key in keys else value for key, value in item.explanation[0].items()}
    picture = Picture(item.figure.svg, typed(item.figure.description)) if item.figure else None
    return replace(
        item,
        stem="\n".join(typed(part) for part in item.stem.split("\n")),
        options=tuple(Option(one.id, typed(one.text)) for one in item.options),
        reasons=tuple(Option(one.id, typed(one.text)) for one in item.reasons),
        figure=picture,
        explanation=(line,),
        sources=tuple(typed(source) for source in item.sources),
    )


# a paper of every format, and a fault that is none
ITEMS = (*FACTS, FACTS[-1] | {"key": Blame(("1", "2"), "2")}, FACTS[-1] | {"reasons": (), "key": Blame(("3",), "")})


def certified(shop: Shop, holder: User, trainer: User, scope: str = LIGHT, **facts: Any) -> Certificate:
    """A certificate with all that it keeps in brackets."""
    lines = [line | {"step": typed(str(line["step"])), "text": typed(str(line["text"]))} for line in CRITERIA]
    given = {
        "scope": scope,
        "scope_title": typed("Scope"),
        "tires": [typed("car tires"), typed("van tires")],
        "edition_title": typed("North America"),
        "pass_mark": typed("80 % right."),
        "issuer_name": typed("Max"),
        "issued_by": trainer,
        "attempt": passed_attempt(shop, holder, scope=scope, form__blueprint__title=typed("Repair")),
        "hands_on": HandsOnFactory.create(
            shop=shop, learner=holder, trainer=trainer, scope=scope, criteria=lines, remarks=typed("Clean.")
        ),
    }
    made: Certificate = CertificateFactory.create(shop=shop, holder=holder, **(given | facts))
    return made
