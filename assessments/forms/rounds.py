"""Beginning an assessment, and a trainer's new round of attempts."""

from django import forms

from training.forms.base import PlainForm


class StartForm(PlainForm):
    """A press by mistake would cost an attempt, so starting takes a mark and a press."""

    disable_csrf = True

    is_ready = forms.BooleanField(
        label="I am ready: the clock starts when I press Start",
        error_messages={"required": "I am ready: the box is empty; mark it, then press Start"},
    )


class ExtraRoundForm(PlainForm):
    """Why a learner gets a new round of attempts."""

    disable_csrf = True

    reason = forms.CharField(
        label="Why a new round?",
        help_text="What you went through together. The reason stays on record.",
        max_length=300,
        widget=forms.Textarea(attrs={"rows": 3}),
        error_messages={
            "required": "Why a new round?: nothing was given; write at least a few words",
            "max_length": "Why a new round?: %(show_value)s characters are too many; write at most %(limit_value)s",
        },
    )
