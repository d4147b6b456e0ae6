"""The identifiers of rulebook, questions and course, and where a person would read one of them as if it were a word."""

import re
from functools import cache

from assessments.questions import family_names, misconceptions
from training.course import modules
from training.rulebook import CASINGS, FINDINGS, MEASURES, VERDICTS, edition_names, edition_scopes, load_edition
from training.trade.words import PURPOSES, SKILLS

# ids that are also how the trade writes the word, or plain English in a sentence
ORDINARY = frozenset({"off-the-wheel"})


@cache
def identifiers() -> frozenset[str]:
    """All of them that no plain word looks like: with a hyphen, a point or a low line."""
    found = {*FINDINGS, *MEASURES, *SKILLS, *CASINGS, *PURPOSES, *VERDICTS, *family_names(), *misconceptions()}
    for name in edition_names():
        edition = load_edition(name)
        found |= {name, *edition.clauses, *edition.essentials.facts}
        found |= {scope.id for scope in edition_scopes(name)}
        for step in edition.procedure:
            found |= {step.id, *(one.id for one in step.criteria)}
    for module in modules():
        found |= {module.slug, *(lesson.slug for lesson in module.lessons)}
    return frozenset(one for one in found if re.search(r"[-._]", one)) - ORDINARY


def identifiers_in(text: str) -> set[str]:
    """Those that stand in a text by themselves.

    >>> sorted(identifiers_in("Cut by injury-size; see finding.bulge, not post-injury-size."))
    ['finding.bulge', 'injury-size']
    """
    return set(re.findall(r"(?<![\w./-])[a-z]+(?:[-._][a-z]+)+(?![\w/-])", text)) & identifiers()


def visible(html: str) -> str:
    """What a page shows as words: without drawings, code, and what is typed into a field."""
    words = re.sub(r"<(svg|style|script|code|pre|textarea)\b.*?</\1>|<[^>]+>", " ", html, flags=re.DOTALL)
    return " ".join(words.split())
