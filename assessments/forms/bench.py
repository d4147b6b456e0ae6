"""What a trainer writes at the draw bench: a doubt about a draw, why a family is switched off."""

import re

from django import forms

from training.forms.base import PlainForm

SEED = re.compile(r"[A-Za-z0-9-]{1,20}")  # of twelve draws
DRAW_SEED = re.compile(r"[A-Za-z0-9-]{1,20}(/[0-9]{1,4}){1,2}")  # of one draw: the number in its dozen, and a redraw


class _MarkedForm(PlainForm):
    """One field, always needed."""

    marks_optional = False


class FlagForm(_MarkedForm):
    """What is doubtful about a draw."""

    comment = forms.CharField(
        label="What is wrong with it?",
        help_text="For those who look after the questions. It stays on record with the draw.",
        max_length=500,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={
            "required": "What is wrong with it?: nothing was given; say it in a sentence",
            "max_length": "What is wrong with it?: %(show_value)s characters are too many; "
            "write at most %(limit_value)s",
        },
    )


class SwitchOffForm(_MarkedForm):
    """Why the shop asks a family no more."""

    reason = forms.CharField(
        label="Why is it switched off?",
        help_text="For example: we do not do this work here. The reason stays on record.",
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 2}),
        error_messages={
            "required": "Why is it switched off?: nothing was given; say it in a sentence",
            "max_length": "Why is it switched off?: %(show_value)s characters are too many; "
            "write at most %(limit_value)s",
        },
    )
