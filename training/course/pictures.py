"""`::picture`: a condition beside what is taken for it, each computed from a seed, with what to look for under it.

    ::picture ozone-cracking slight plain grave 3
    **Ozone cracks.** What to look for.

    **Fine weather checking.** What is seen instead.
    ::end

The condition is shown in each degree named, what is taken for it in one that is plain to see; the number is the seed.
A shop's own photographs of either stand under the computed ones.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from html import escape

from training.course import blocks
from training.course.lessons import Block, CourseError, only_known
from training.course.loader import modules
from training.course.prose import to_html, words
from training.pictures import CONDITIONS, FOUND_TOO, NAMED, Degree, Picture, picture_of
from training.rulebook import Clause
from training.trade.speech import say
from training.trade.words import CASING_WORDS

# From the page of a lesson to its pictures, wherever the site stands.
_AT = "../../pictures"
_MOST_PHOTOGRAPHS = 3  # of a condition, and of what is taken for it
_BETWEEN = re.compile(r"\n\s*\n")


def pair(block: Block, page: blocks.Page) -> str:
    """The pictures with their captions and what the rulebook says of each."""
    shown = list(_pictures(block))
    captions = _BETWEEN.split(blocks.written(block).strip())
    if len(captions) != 2:
        raise CourseError(f"::picture {block.argument}: {len(captions)} captions; give one for each of the two")
    name = shown[0].name
    ruled_by = (NAMED[name].quantity, f"finding.{FOUND_TOO.get(name, '')}")
    told = [
        f'<div class="shot-words">{to_html(caption, page.inline)}'
        f'<p class="shot-ruled">{_ruled(page, quantity)}</p></div>'
        for caption, quantity in zip(captions, ruled_by, strict=True)
    ]
    images = [_image(one) for one in shown]
    count = len(shown) - 1
    own = [_photographs(page, name, look_alike) for look_alike in (False, True)]
    photographed = say("Computed, but for the photographs of your shop.")
    note = words(photographed if any(own) else say("All computed, none photographed."))
    return (
        f'<figure class="figure figure--pictures pair pair--{count}">\n'
        f'<div class="shots">{"".join(images[:-1])}{own[0]}</div>{told[0]}\n'
        f'<div class="shots">{images[-1]}{own[1]}</div>{told[1]}\n'
        f"<figcaption>{note}</figcaption>\n</figure>"
    )


@lru_cache(maxsize=1)
def printed() -> Mapping[str, Picture]:
    """The pictures of all lessons, by the name each has in its address."""
    found = (block for module in modules() for lesson in module.lessons for block in lesson.blocks)
    return {_slug(one): one for block in found if block.kind == "picture" for one in _pictures(block)}


def _pictures(block: Block) -> Iterator[Picture]:
    """The condition in its degrees, then what is taken for it. Raises CourseError."""
    name, *rest = block.argument.split()
    only_known("picture", [name], CONDITIONS)
    *degrees, seed = rest or [""]
    if not degrees or not seed.isascii() or not seed.isdigit():
        raise CourseError(f"::picture {block.argument}: give a condition, its degrees and the number of a seed")
    only_known("degree", degrees, [one.value for one in Degree])
    for degree, look_alike in [*((degree, False) for degree in degrees), (Degree.PLAIN.value, True)]:
        yield picture_of({"name": name, "degree": degree, "look_alike": look_alike, "seed": int(seed)})


def _slug(one: Picture) -> str:
    kind = "look-alike" if one.look_alike else "condition"
    return f"{one.name}-{one.degree.value}-{kind}-{one.seed}"


def _image(one: Picture) -> str:
    return (
        f'<div class="shot"><img src="{_AT}/{_slug(one)}/" alt="{words(one.description)}" width="640" height="480" '
        f'loading="lazy" decoding="async"></div>'
    )


def _photographs(page: blocks.Page, name: str, look_alike: bool) -> str:
    """The newest few photographs of the shop of a condition, or of what is taken for it."""
    found = [one for one in page.photographs if (one.condition, one.look_alike) == (name, look_alike)]
    shows = NAMED[name].words(look_alike)
    alt = words(say("A photograph of your shop. It shows: {shows}.", shows=shows))
    size = 'width="640" height="480" loading="lazy" decoding="async"'
    told = [say("Photograph of your shop: {tire}", tire=CASING_WORDS[one.casing].one) for one in found]
    return "".join(
        f'<div class="shot no-print"><img src="{escape(one.address)}" alt="{alt}" {size}><p>{words(caption)}</p></div>'
        for one, caption in list(zip(found, told, strict=True))[:_MOST_PHOTOGRAPHS]
    )


def _ruled(page: blocks.Page, quantity: str) -> str:
    """What follows from it by the rulebook."""
    clause = _clause(page, quantity)
    if clause is None:
        return words(say("By the rulebook: no finding."))
    told = page.inline("limit", clause.id)
    follows = blocks.CONSEQUENCES.get(clause.otherwise)
    if follows and not clause.quantity.startswith(blocks.FINDING):  # its limit says what is right, not what follows
        otherwise = words(say("if not: {consequence}", consequence=follows))
        told = f"{told}; {otherwise}"
    source = words(say("By the rulebook:"))
    return f"{source} {told}"


def _clause(page: blocks.Page, quantity: str) -> Clause | None:
    every = page.edition.clauses.values()
    return next(
        (one for one in every if one.quantity == quantity and set(page.casings) & set(one.casings)),
        None,
    )
