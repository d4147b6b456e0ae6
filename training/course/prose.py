"""The words of a lesson: Markdown without HTML to HTML, with the inline directives of the course.

`{limit:clause}` becomes a link to the place on the page where that limit stands with its source;
`{lesson:slug}` becomes the other lesson's title. Whatever else looks like HTML is printed as it was typed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from functools import lru_cache
from html import escape

from markdown_it import MarkdownIt
from markdown_it.rules_inline import StateInline
from markdown_it.token import Token
from markdown_it.utils import EnvType, OptionsDict

Inline = Callable[[str, str], str]

_UNSAFE = re.compile("[&<>\"']")
_INLINE = re.compile(r"\{(limit|lesson):([a-z0-9/-]+)\}")


def to_html(text: str, inline: Inline) -> str:
    """Safe HTML of a piece of Markdown. `inline(kind, name)` gives the HTML for each inline directive."""
    parser = _parser()
    return str(parser.renderer.render(_read(text), parser.options, {"inline": inline}))


def words(text: str) -> str:
    """Plain text made safe for HTML."""
    told = str(text)
    return escape(told, quote=True) if _UNSAFE.search(told) else told


def table(caption: str, heads: Sequence[str], rows: Sequence[str], *, is_stacked: bool = False) -> str:
    """A table that scrolls by itself, from the HTML of its rows; a stacked one is read row by row on a phone."""
    head = "".join(f'<th scope="col">{words(title)}</th>' for title in heads)
    return (
        f'<div class="table-box" role="region" aria-label="{words(caption)}" tabindex="0">\n'
        f'<table class="data-table{" stack" if is_stacked else ""}">\n<caption>{words(caption)}</caption>\n'
        f"<thead><tr>{head}</tr></thead>\n<tbody>\n{chr(10).join(rows)}\n</tbody>\n</table>\n</div>"
    )


@lru_cache(maxsize=2048)
def _read(text: str) -> list[Token]:
    """A piece of Markdown as its parser reads it, which is the same under every rulebook."""
    return _parser().parse(text)


@lru_cache(maxsize=1)
def _parser() -> MarkdownIt:
    parser = MarkdownIt("commonmark", {"html": False}).enable("table")
    # A lesson has no address of its own to link to, no image that code has not drawn, and no HTML.
    parser.disable(["image", "autolink", "html_block", "html_inline"])
    parser.inline.ruler.before("emphasis", "course_directive", _read_directive)
    parser.add_render_rule("course_directive", _render_directive)
    return parser


def _read_directive(state: StateInline, silent: bool) -> bool:
    found = _INLINE.match(state.src, state.pos)
    if found is None:
        return False
    if not silent:
        token = state.push("course_directive", "", 0)
        token.meta = {"kind": found.group(1), "name": found.group(2)}
    state.pos = found.end()
    return True


def _render_directive(self: object, tokens: Sequence[Token], idx: int, options: OptionsDict, env: EnvType) -> str:
    inline: Inline = env["inline"]
    return inline(tokens[idx].meta["kind"], tokens[idx].meta["name"])
