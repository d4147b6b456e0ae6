"""The tag `url`, by the addresses that are put together once."""

from django import template
from django.template.base import Parser, Token
from django.template.defaulttags import URLNode
from django.template.defaulttags import url as url_of_django
from django.urls import NoReverseMatch
from django.utils.html import escape

from training.addresses import address

register = template.Library()


class Url(URLNode):
    """The address of a page."""

    def render(self, context: template.Context) -> str:
        places = [place.resolve(context) for place in self.args]
        named = {name: place.resolve(context) for name, place in self.kwargs.items()}
        try:
            found = address(self.view_name.resolve(context), *places, **named)
        except NoReverseMatch:
            if self.asvar is None:
                raise
            found = ""
        if self.asvar is None:
            return escape(found) if context.autoescape else found
        context[self.asvar] = found
        return ""


@register.tag
def url(parser: Parser, token: Token) -> template.Node:
    """The address of a page, as Django's tag of this name."""
    node: URLNode = url_of_django(parser, token)
    return Url(node.view_name, node.args, node.kwargs, node.asvar)
