"""Days, instants and verdicts in templates, as `training.trade` writes them."""

from datetime import date, datetime

from django import template

from training.trade.days import written_day, written_instant
from training.trade.words import LOOK_WORDS, VERDICT_WORDS, VerdictWords

register = template.Library()


@register.filter(expects_localtime=True)
def day(value: date | None) -> str:
    """A day, or the day of an instant in the page's time zone; empty for none."""
    return written_day(value) if value else ""


@register.filter(expects_localtime=True)
def instant(value: datetime | None) -> str:
    """An instant in the page's time zone; empty for none."""
    return written_instant(value) if value else ""


@register.filter
def verdict_words(value: str) -> VerdictWords:
    """A verdict in words: `name` and `todo`."""
    return VERDICT_WORDS[value]


@register.filter
def look_words(value: str) -> str:
    """A place where a person looks, in words."""
    return LOOK_WORDS[value]
