"""What is written about questions: a doubt about a draw or one that was asked, why a family or a question is out."""

import re
from typing import Any

from django import forms
from django.core.validators import MaxValueValidator

from training.forms.base import PlainForm
from training.forms.fields import reason
from training.trade.speech import say, saying

SEED = re.compile(r"[A-Za-z0-9-]{1,20}")  # of twelve draws
DRAW_SEED = re.compile(r"[A-Za-z0-9-]{1,20}(/[0-9]{1,4}){1,2}")  # of one draw: the number in its dozen, and a redraw


class FlagForm(PlainForm):
    """What is doubtful about a draw."""

    marks_optional = False

    comment = reason(
        saying("What is wrong with it?"),
        most=500,
        hint=saying("For those who look after the questions. It stays on record with the draw."),
        rows=3,
    )


class SwitchOffForm(PlainForm):
    """Why the shop asks a family no more."""

    marks_optional = False

    reason = reason(
        saying("Why is it switched off?"),
        hint=saying("For example: we do not do this work here. The reason stays on record."),
        rows=2,
    )


class QuestionFlagForm(PlainForm):
    """What seems wrong with a question that was asked."""

    marks_optional = False

    comment = reason(
        saying("What seems wrong with it?"),
        most=500,
        hint=saying("Your trainer reads it beside the question, its key and its source."),
        rows=3,
    )


class AssessmentFlagForm(QuestionFlagForm):
    """The same of one question of an assessment that is handed in, by its number."""

    position = forms.IntegerField(label=saying("Number of the question"), min_value=1)
    field_order = ("position", "comment")

    def __init__(self, *args: Any, size: int, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["position"]
        field.validators.append(MaxValueValidator(size))
        field.widget.attrs.update(min=1, max=size, inputmode="numeric")
        field.help_text = say("From 1 to {count}, as it stood on the page.", count=size)
        refusal = say("Number of the question: give a whole number from 1 to {count}", count=size)
        field.error_messages.update(dict.fromkeys(("required", "invalid", "min_value", "max_value"), refusal))


class WithdrawQuestionForm(PlainForm):
    """Why a question that was asked does not count."""

    marks_optional = False

    reason = reason(
        saying("Why does it not count?"),
        hint=saying("The person reads it beside their result. It stays on record."),
        rows=3,
    )


class TakeBackForm(PlainForm):
    """Why a question that was withdrawn counts again."""

    marks_optional = False

    reason = reason(
        saying("Why does it count again?"),
        hint=saying("It stays on record beside the first reason."),
        rows=3,
    )
