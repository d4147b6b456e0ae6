"""The tags `translate` and `blocktranslate`, spoken by the program's own seam: a page has dozens of them.

They are written, marked and found by `manage.py catalogue` as Django's are, and say the same; what Django works out
at every page, the text to look up and the names of its places, is worked out here when a template is read.
"""

from html import escape
from typing import Any

from django import template
from django.template.base import Parser, Token, render_value_in_context
from django.templatetags.i18n import BlockTranslateNode, TranslateNode, do_block_translate, do_translate
from django.utils.safestring import SafeString

from training.trade import speech

register = template.Library()


class Text(template.Node):
    """One constant text."""

    child_nodelists = ()

    def __init__(self, text: str, asvar: str | None) -> None:
        self.text, self.asvar = text, asvar

    def render(self, context: template.Context) -> str:
        told = SafeString(speech.say(self.text).replace("%%", "%"))
        if self.asvar is None:
            return told
        context[self.asvar] = told
        return ""


class Sentence(BlockTranslateNode):
    """A text with places, and perhaps another one for many."""

    def __init__(self, *args: Any, **named: Any) -> None:
        super().__init__(*args, **named)
        self.one, places = self.render_token_list(self.singular)
        self.many, more = self.render_token_list(self.plural or [])
        self.places = tuple(dict.fromkeys([*places, *more]))

    def render(self, context: template.Context, nested: bool = False) -> str:
        """The sentence; Django's own way where a translation cannot be filled."""
        given: dict[str, Any] = {name: value.resolve(context) for name, value in self.extra_context.items()}
        if self.counter is not None and self.countervar is not None:
            given[self.countervar] = count = self.counter.resolve(context)
            if not isinstance(count, int):
                return str(super().render(context, nested))
            told = speech.catalogue(speech.language()).ngettext(self.one, self.many, count)
        else:
            told = speech.say(self.one)
        missing = context.template.engine.string_if_invalid if context.template is not None else ""
        try:
            told %= {
                name: _printed(given[name] if name in given else context.get(name, missing), context)
                for name in self.places
            }
        except (KeyError, ValueError):
            return str(super().render(context, nested))
        if self.asvar is None:
            return told
        context[self.asvar] = SafeString(told)
        return ""


@register.tag
def translate(parser: Parser, token: Token) -> template.Node:
    """A text in the language spoken, as Django's tag of this name."""
    node: TranslateNode = do_translate(parser, token)
    expression = node.filter_expression
    literal = getattr(expression.var, "literal", None)
    if not isinstance(literal, str) or expression.filters or node.noop or node.message_context:
        return node
    return Text(literal.replace("%", "%%"), node.asvar)


@register.tag
def blocktranslate(parser: Parser, token: Token) -> template.Node:
    """A sentence in the language spoken, as Django's tag of this name."""
    node: BlockTranslateNode = do_block_translate(parser, token)
    if node.message_context:
        return node
    return Sentence(
        node.extra_context,
        node.singular,
        node.plural,
        node.countervar,
        node.counter,
        trimmed=node.trimmed,
        asvar=node.asvar,
        tag_name=token.split_contents()[0],
    )


def _printed(value: Any, context: template.Context) -> str:
    """A value as a page prints it."""
    if type(value) is str and context.autoescape:
        return escape(value)
    return value if type(value) is SafeString else str(render_value_in_context(value, context))
