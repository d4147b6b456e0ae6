"""What a trainer writes at the draw bench: a doubt about a draw, why a family is switched off."""

import re

from training.forms.base import PlainForm
from training.forms.fields import reason
from training.trade.speech import saying

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
