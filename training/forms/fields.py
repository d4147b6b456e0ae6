"""The fields of our forms: each problem is said with the field's label, what is wrong, and what to do."""

from collections.abc import Callable, Iterable
from typing import Any

from django import forms
from django.utils.text import format_lazy

from training.trade.speech import saying

TOO_LONG = saying("%(show_value)d characters are too many; give at most %(limit_value)d.")
KEPT = saying("%(show_value)d characters are too many; at most %(limit_value)d are kept.")
LISTED = saying('"%(value)s" is not accepted; choose from those listed.')


class Targets(forms.RadioSelect):
    """One of a few, each a target for a thumb; of one alone, a box to tick."""

    template_name = "training/widgets/targets.html"

    def __init__(self, *, is_single: bool = False) -> None:
        super().__init__()
        if is_single:
            self.input_type = "checkbox"

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        """The targets, without the one that says nothing."""
        context = super().get_context(name, value, attrs)
        groups = context["widget"]["optgroups"]
        context["widget"]["targets"] = [one for _, options, _ in groups for one in options if one["value"]]
        return context

    def id_for_label(self, id_: str, index: str | None = None) -> str:
        """The row as a whole, or one target."""
        return f"{id_}_{index}" if id_ and index is not None else id_


def said(label: str, **problems: str) -> dict[str, Any]:
    """Error messages by Django's name of the problem, the field's label before each, in the language then spoken."""
    return {problem: format_lazy("{}: {}", label, words) for problem, words in problems.items()}


def text(
    label: str,
    *,
    empty: str = "",
    most: int | None = None,
    too_long: str = TOO_LONG,
    hint: str = "",
    rows: int = 0,
    **attributes: str,
) -> forms.CharField:
    """A line of text, or several `rows`. It may stay empty unless `empty` says what to do about that.

    `attributes` are those of the input; an underscore in a name counts as a hyphen.
    """
    attrs: dict[str, Any] = {name.replace("_", "-"): value for name, value in attributes.items()}
    return forms.CharField(
        label=label,
        help_text=hint,
        required=bool(empty),
        max_length=most,
        widget=forms.Textarea(attrs={"rows": rows, **attrs}) if rows else forms.TextInput(attrs=attrs),
        error_messages=said(label, required=empty, max_length=too_long),
    )


def reason(
    label: str,
    *,
    most: int = 300,
    empty: str = saying("nothing was given; say it in a sentence"),
    hint: str = "",
    rows: int = 0,
) -> forms.CharField:
    """Why somebody does what stays on record."""
    too_long = saying("%(show_value)s characters are too many; write at most %(limit_value)s")
    return text(label, most=most, empty=empty, too_long=too_long, hint=hint, rows=rows)


def choice(
    label: str,
    choices: Iterable[Any] | Callable[[], Iterable[Any]] = (),
    *,
    empty: str = saying("nothing is chosen; choose one from the list."),
    unknown: str = saying('"%(value)s" is not accepted; choose one from the list.'),
    hint: str = "",
    required: bool = True,
    widget: type[forms.Widget] | forms.Widget = forms.Select,
) -> forms.ChoiceField:
    """One of several."""
    messages = said(label, required=empty, invalid_choice=unknown)
    return forms.ChoiceField(
        label=label, help_text=hint, choices=choices, required=required, widget=widget, error_messages=messages
    )


def choices(
    label: str,
    choices: Iterable[Any] | Callable[[], Iterable[Any]] = (),
    *,
    empty: str = "",
    unknown: str = LISTED,
    hint: str = "",
) -> forms.MultipleChoiceField:
    """Any number of several; at least one where `empty` says what to do about none."""
    return forms.MultipleChoiceField(
        label=label,
        help_text=hint,
        choices=choices,
        required=bool(empty),
        widget=forms.CheckboxSelectMultiple,
        error_messages=said(label, required=empty, invalid_choice=unknown),
    )


def day(
    label: str,
    *,
    empty: str = "",
    wrong: str = saying("this is not a day; give one such as 2026-11-25."),
    hint: str = "",
    **more: Any,
) -> forms.DateField:
    """A day of the calendar; it may stay empty unless `empty` says what to do about that."""
    return forms.DateField(
        label=label,
        help_text=hint,
        required=bool(empty),
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        error_messages=said(label, required=empty, invalid=wrong),
        **more,
    )
