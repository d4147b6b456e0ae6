"""Reasons, the Roster's day and the number to look up."""

from typing import cast

from django.utils.text import format_lazy

from certificates.acts import REASON_LENGTH
from training.forms.base import PlainForm
from training.forms.fields import KEPT, day, text
from training.templatetags.trade import whole
from training.trade.speech import saying


class ReasonForm(PlainForm):
    """Why a certificate is suspended, restored or revoked."""

    reason = text(
        saying("Reason"),
        most=REASON_LENGTH,
        empty=saying("nothing was given; say why in a sentence."),
        too_long=KEPT,
        hint=saying("Kept with the certificate for good. People outside the shop do not see it."),
    )


class RosterForm(PlainForm):
    """The day to show the Roster for; today when empty."""

    disable_csrf = True
    marks_optional = False

    on = day(
        saying("On"),
        wrong=saying("this is not a day; give year, month and day, for example 2026-11-25."),
        input_formats=["%Y-%m-%d"],
    )


class LookupForm(PlainForm):
    """A certificate's number as somebody reads it from paper."""

    disable_csrf = True

    number = text(
        saying("Certificate number"),
        most=40,
        empty=saying("nothing was given; type the ten letters and digits from the certificate."),
        too_long=saying("this is too long; type the ten letters and digits from the certificate."),
        hint=cast(
            str,
            format_lazy(
                saying("Ten letters and digits, for example {number}. Capitals and hyphens do not matter."),
                number=whole("3F9K-72XM-QP"),
            ),
        ),
        autocomplete="off",
        autocapitalize="characters",
        spellcheck="false",
    )
