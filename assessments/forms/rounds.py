"""Beginning an assessment, and a trainer's new round of attempts."""

from django import forms

from training.forms.base import PlainForm
from training.forms.fields import reason
from training.trade.speech import saying


class StartForm(PlainForm):
    """A press by mistake would cost an attempt, so starting takes a mark and a press."""

    disable_csrf = True

    is_ready = forms.BooleanField(
        label=saying("I am ready: the clock starts when I press Start"),
        error_messages={"required": saying("I am ready: the box is empty; mark it, then press Start")},
    )


class ExtraRoundForm(PlainForm):
    """Why a learner gets a new round of attempts."""

    disable_csrf = True

    reason = reason(
        saying("Why a new round?"),
        empty=saying("nothing was given; write at least a few words"),
        hint=saying("What you went through together. The reason stays on record."),
        rows=3,
    )
