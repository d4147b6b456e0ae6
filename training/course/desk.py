"""Where the pieces of a lesson lie: section by section, each drawing on the bench beside the text it belongs to.

The order of the page is the order of the lesson. On a wide screen and on paper the stylesheet puts what is on the bench
beside the text before and after it; on a phone all stands in one column, a drawing where it is met.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html import escape, unescape

# How a piece lies: in the column of text, on the bench beside it, or across both.
TEXT, BENCH, ACROSS = "text", "bench", "across"

# A worked example with less text than this beside it lies across, its own words beside its drawing [letters].
_BESIDE = 420
_HEADING = re.compile(r"(?m)^<h2>(.*)</h2>$")


@dataclass(frozen=True, slots=True)
class Part:
    """A section of a lesson: the name of its place on the page, and its heading as plain text."""

    anchor: str
    title: str


@dataclass(slots=True)
class Section:
    """A heading with the pieces under it, each with how it lies. What stands before the first heading has none."""

    title: str = ""
    pieces: list[tuple[str, str]] = field(default_factory=list)

    def add(self, lies: str, html: str) -> None:
        """One more piece; nothing where there is nothing to print."""
        if html.strip():
            self.pieces.append((lies, html))


def plain_title(section: Section) -> str:
    """The heading of a section as plain text."""
    return unescape(_plain(section.title))


def cut(html: str) -> Iterator[tuple[str, str]]:
    """Text cut at its headings of sections: each heading, "" for what stands before the first, and what follows it."""
    first, *others = _HEADING.split(html)
    return zip(["", *others[::2]], [first, *others[1::2]], strict=True)


def laid_out(sections: list[Section]) -> tuple[str, tuple[Part, ...]]:
    """The page of a lesson, and its sections with where they are."""
    parts: list[Part] = []
    pages: list[str] = []
    for section in sections:
        head = ""
        if section.title:
            parts.append(Part(f"part-{len(parts) + 1}", unescape(_plain(section.title))))
            head = f"<h2>{section.title}</h2>\n"
            pages.append(f'<section class="lesson-part" id="{parts[-1].anchor}">')
        elif section.pieces:
            pages.append('<section class="lesson-part">')
        else:
            continue
        pages.extend(_scenes(section, head))
        pages.append("</section>")
    return "\n".join(pages), tuple(parts)


def contents(parts: tuple[Part, ...]) -> str:
    """Links to the sections of a lesson, as the items of a list."""
    titled = ((part.anchor, escape(part.title)) for part in parts)
    return "".join(f'\n<li><a href="#{at}" data-title="{title}"><span>{title}</span></a></li>' for at, title in titled)


def _scenes(section: Section, head: str) -> Iterator[str]:
    """A section as scenes: a thing on the bench with the text beside it, or text alone, or what lies across."""
    before, bench, after = head, "", ""
    for lies, html in section.pieces:
        if lies == TEXT and not bench:
            before += f"{html}\n"
        elif lies == TEXT:
            after += f"{html}\n"
        else:
            if bench or lies == ACROSS:
                yield from _scene(before, bench, after)
                before, bench, after = "", "", ""
            if lies == ACROSS:
                yield html
            else:
                bench = html
    yield from _scene(before, bench, after)


def _scene(before: str, bench: str, after: str) -> Iterator[str]:
    if not bench:
        if before:
            yield f'<div class="scene-text">\n{before}</div>'
        return
    is_across = bench.startswith("<section") and len(_plain(before + after)) < _BESIDE
    texts = [f'<div class="scene-text">\n{text}</div>\n' if text else "" for text in (before, after)]
    kind = "scene scene--across" if is_across else "scene"
    yield f'<div class="{kind}">\n{texts[0]}<div class="bench">\n{bench}\n</div>\n{texts[1]}</div>'


def _plain(html: str) -> str:
    return re.sub(r"<[^>]+>", "", html)
