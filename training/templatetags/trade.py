"""Days, instants, verdicts and casings in templates, as `training.trade` writes them."""

from collections.abc import Sequence
from datetime import date, datetime

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString, mark_safe

from training.drawings import verdict_mark
from training.forms.check_a_tire import TireForm
from training.trade.days import written_day, written_instant, written_moment, written_time
from training.trade.letters import within
from training.trade.measures import unparted
from training.trade.words import CASING_WORDS, VERDICT_WORDS, VerdictWords

register = template.Library()


@register.filter(expects_localtime=True)
def day(value: date | None) -> str:
    """A day, or the day of an instant in the page's time zone; empty for none."""
    return _whole(written_day(value)) if value else ""


@register.filter(expects_localtime=True)
def instant(value: datetime | None) -> str:
    """An instant in the page's time zone; empty for none."""
    return _unparted(written_instant(value), value) if value else ""


@register.filter(expects_localtime=True)
def clock(value: datetime | None) -> str:
    """The time of day of an instant in the page's time zone; empty for none."""
    return written_time(value) if value else ""


@register.filter(expects_localtime=True)
def moment(value: datetime) -> str:
    """An instant to the second, with the name of the page's time zone."""
    return _unparted(written_moment(value), value)


@register.filter(name="within", is_safe=True)
def within_a_sentence(value: str) -> str:
    """A title or a heading as it stands within a sentence."""
    return within(value)


@register.filter
def verdict_words(value: str) -> VerdictWords:
    """A verdict in words: `name` and `todo`."""
    return VERDICT_WORDS[value]


@register.filter
def tread_blocks(kinds: Sequence[str], here: int | None = None) -> str:
    """Blocks of a tread row, one a kind ("done", "open" ...), the one at `here` marked; in one go: there are many."""
    marked = ["is-here " if here == at else "" for at in range(len(kinds))] if here is not None else [""] * len(kinds)
    blocks = [f'<i class="{mark}is-{kind}"></i>' for mark, kind in zip(marked, kinds, strict=True)]
    return mark_safe("".join(blocks))  # noqa: S308, kinds of our own


@register.filter(name="verdict_mark")
def mark_of_a_verdict(value: str) -> SafeString:
    """The inspector's mark of a verdict, as SVG."""
    return mark_safe(verdict_mark(value))  # noqa: S308, strokes of our own


@register.filter
def casings(value: list[str]) -> str:
    """Casings in words, short, as they stand beside a unit."""
    return ", ".join(str(CASING_WORDS[one].short) for one in value)


@register.filter
def anchor_of(form: object, path: str) -> str:
    """The field of a form in which a fact of a case is typed in; empty where there is none."""
    return form.anchor_of(path) if isinstance(form, TireForm) else ""


@register.filter
def whole(value: object) -> SafeString:
    """A number with a hyphen in it, which no line's end parts there."""
    return format_html('<span class="whole">{}</span>', value)


@register.filter(is_safe=True)
def measured(text: str) -> str:
    """A text of which a line's end parts no number from its unit."""
    return unparted(str(text))  # a pattern looks at what is spoken, once it is a text


def _whole(written: str) -> str:
    return written.replace(" ", "\N{NO-BREAK SPACE}")


def _unparted(written: str, at: datetime) -> str:
    """An instant that a line's end parts between its day and its time alone."""
    day_of_it = written_day(at.date())
    before, _, after = written.partition(day_of_it)
    return f"{before}{_whole(day_of_it)}{after}"
