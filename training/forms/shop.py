"""A shop's settings."""

from zoneinfo import available_timezones

from django import forms

from training.forms.base import PlainForm
from training.forms.fields import choice, said, text
from training.models import Units
from training.trade.speech import saying

_PLACES = ("Africa/", "America/", "Antarctica/", "Asia/", "Atlantic/", "Australia/", "Europe/", "Indian/", "Pacific/")


def time_zones() -> list[tuple[str, str]]:
    """Time zones named after places, and UTC."""
    named = sorted(name for name in available_timezones() if name.startswith(_PLACES))
    return [(name, name.replace("_", " ")) for name in ("UTC", *named)]


class ShopForm(PlainForm):
    """Name, units, time zone, how long a certificate lasts, and who may check a tire."""

    name = text(
        saying("Name of the shop"),
        most=120,
        empty=saying("it is empty; give a name."),
        hint=saying("It is printed on certificates issued from now on."),
    )
    units = choice(
        saying("Units"),
        Units.choices,
        empty=saying("nothing is chosen; choose one."),
        unknown=saying('"%(value)s" is not accepted; choose one of the two.'),
        hint=saying("The other unit follows in brackets."),
        widget=forms.RadioSelect,
    )
    time_zone = choice(
        saying("Time zone"),
        time_zones,
        empty=saying("nothing is chosen; choose one."),
        unknown=saying('"%(value)s" is not known; choose one from the list.'),
        hint=saying("Due days and certificates begin and end by it."),
    )
    certificate_months = forms.IntegerField(
        label=saying("A certificate lasts (months)"),
        help_text=saying("From 1 to 60. Certificates issued before keep the dates printed on them."),
        min_value=1,
        max_value=60,
        widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
        error_messages=said(
            saying("A certificate lasts"),
            required=saying("no number is given; give months from 1 to 60."),
            invalid=saying("this is not a whole number; give months from 1 to 60."),
            min_value=saying("at least %(limit_value)s month; give months from 1 to 60."),
            max_value=saying("at most %(limit_value)s months; give months from 1 to 60."),
        ),
    )
    public_check = forms.BooleanField(
        label=saying("Anyone may use Check a tire without logging in"),
        help_text=saying("The page shows the shop's name and rulebook, and nobody of its people; it keeps nothing."),
        required=False,
    )
