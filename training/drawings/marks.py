"""The strokes by which an inspector marks a verdict on a tire, each verdict its own."""

from collections.abc import Mapping

_STROKES: Mapping[str, str] = {
    "accept": '<path d="M6 27c3.5 2.5 7 7 9.5 12C20 26 29 14 42.5 7"/>',
    "advise": '<path d="M8 20c3 2 5.5 5.5 7.5 9.5C19.5 19 27 10.5 38 5"/>'
    '<path d="M6 41c5-6 8 4 13-1s8 4 13-1 6 1 10-1"/>',
    "repair": '<path d="M27 5.5C13 3.5 4.5 13 6 25.5S18 44 28.5 41.5 44 29 42 19 31 5 20 7.5"/>'
    '<path d="M24 16v16M17.5 32h13" stroke-width="5.5"/>',
    "inspect": '<path d="M39.5 14C35 6.5 26 3.5 17.5 7S4.5 21 7 30s12 14 21.5 12.5S42 36 43 29"/>'
    '<path d="M43.5 8 25 25.5M24 16.5v10h10"/>',
    "refer": '<path d="M22 6.5C15 6 9.5 6 6.5 7c-1 11-.5 23 .5 34 4 .8 10 .8 15.5 0"/>'
    '<path d="M16 24.5c9 .8 17-.5 26-.5M32.5 14c3.5 3.5 7 6.5 10.5 10-4 3-7.5 6.5-10.5 10.5"/>',
    "reject": '<path d="M7 8c11 9.5 22 20.5 34 33.5M41.5 6.5C29 18 18 29 6.5 42"/>',
}


def verdict_mark(verdict: str) -> str:
    """The mark of a verdict as SVG, in the color of the text around it; the word beside it says the same."""
    return (
        '<svg viewBox="0 0 48 48" aria-hidden="true" focusable="false" fill="none" stroke="currentColor"'
        f' stroke-width="4.5" stroke-linecap="round" stroke-linejoin="round">{_STROKES[verdict]}</svg>'
    )
