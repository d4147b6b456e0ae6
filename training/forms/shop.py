"""A shop's settings."""

from zoneinfo import available_timezones

from django import forms

from training.forms.base import PlainForm
from training.models import Units

_PLACES = ("Africa/", "America/", "Antarctica/", "Asia/", "Atlantic/", "Australia/", "Europe/", "Indian/", "Pacific/")


def time_zones() -> list[tuple[str, str]]:
    """Time zones named after places, and UTC."""
    named = sorted(name for name in available_timezones() if name.startswith(_PLACES))
    return [(name, name.replace("_", " ")) for name in ("UTC", *named)]


class ShopForm(PlainForm):
    """Name, units, time zone, how long a certificate lasts, and who may check a tire."""

    name = forms.CharField(
        label="Name of the shop",
        help_text="It is printed on certificates issued from now on.",
        max_length=120,
        error_messages={
            "required": "Name of the shop: it is empty; give a name.",
            "max_length": "Name of the shop: %(show_value)d characters are too many; give at most 120.",
        },
    )
    units = forms.ChoiceField(
        choices=Units.choices,
        widget=forms.RadioSelect,
        help_text="The other unit follows in brackets.",
        error_messages={
            "required": "Units: nothing is chosen; choose one.",
            "invalid_choice": 'Units: "%(value)s" is not accepted; choose one of the two.',
        },
    )
    time_zone = forms.ChoiceField(
        choices=time_zones,
        help_text="Due days and certificates begin and end by it.",
        error_messages={
            "required": "Time zone: nothing is chosen; choose one.",
            "invalid_choice": 'Time zone: "%(value)s" is not known; choose one from the list.',
        },
    )
    certificate_months = forms.IntegerField(
        label="A certificate lasts (months)",
        help_text="From 1 to 60. Certificates issued before keep the dates printed on them.",
        min_value=1,
        max_value=60,
        widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
        error_messages={
            "required": "A certificate lasts: no number is given; give months from 1 to 60.",
            "invalid": "A certificate lasts: this is not a whole number; give months from 1 to 60.",
            "min_value": "A certificate lasts: at least %(limit_value)s month; give months from 1 to 60.",
            "max_value": "A certificate lasts: at most %(limit_value)s months; give months from 1 to 60.",
        },
    )
    public_check = forms.BooleanField(
        label="Anyone may use Check a tire without login",
        help_text="The page shows the shop's name and rulebook, and nobody of its people; it keeps nothing.",
        required=False,
    )
