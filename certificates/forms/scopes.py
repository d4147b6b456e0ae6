"""The scopes a shop works in."""

from collections.abc import Sequence
from typing import Any

from django import forms

from certificates.queries import Scope
from training.forms.base import PlainForm
from training.trade.speech import saying


class ScopesForm(PlainForm):
    """Which of the rulebook's scopes are on; at least one."""

    marks_optional = False

    scopes = forms.MultipleChoiceField(
        label=saying("The shop works on and certifies for"),
        help_text=saying("At least one stays on."),
        widget=forms.CheckboxSelectMultiple,
        error_messages={
            "required": saying("Scopes: nothing is chosen; at least one stays on."),
            "invalid_choice": saying('Scopes: "%(value)s" is not accepted; choose among those listed.'),
        },
    )

    def __init__(self, *args: Any, scopes: Sequence[Scope], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["scopes"]
        if isinstance(field, forms.MultipleChoiceField):
            field.choices = [(scope.slug, scope.tires) for scope in scopes]
