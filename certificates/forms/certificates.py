"""Reasons, the Roster's day and the number to look up."""

from django import forms

from certificates.acts import REASON_LENGTH
from training.forms.base import PlainForm


class ReasonForm(PlainForm):
    """Why a certificate is suspended, restored or revoked."""

    reason = forms.CharField(
        label="Reason",
        max_length=REASON_LENGTH,
        help_text="Kept with the certificate for good. People outside the shop do not see it.",
        error_messages={
            "required": "Reason: nothing was given; say why in a sentence.",
            "max_length": "Reason: %(show_value)d characters are too many; at most %(limit_value)d are kept.",
        },
    )


class RosterForm(PlainForm):
    """The day to show the Roster for; today when empty."""

    disable_csrf = True
    marks_optional = False

    on = forms.DateField(
        label="On",
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        input_formats=["%Y-%m-%d"],
        error_messages={"invalid": "On: this is not a day; give year, month and day, for example 2026-11-25."},
    )


class LookupForm(PlainForm):
    """A certificate's number as somebody reads it from paper."""

    disable_csrf = True

    number = forms.CharField(
        label="Certificate number",
        max_length=40,
        help_text="Ten letters and digits, for example 3F9K-72XM-QP. Capitals and hyphens do not matter.",
        widget=forms.TextInput(attrs={"autocomplete": "off", "autocapitalize": "characters", "spellcheck": "false"}),
        error_messages={
            "required": "Certificate number: nothing was given; type the ten letters and digits from the certificate.",
            "max_length": "Certificate number: this is too long; type the ten letters and digits from the certificate.",
        },
    )
