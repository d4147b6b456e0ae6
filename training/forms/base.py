"""The frame of our forms: crispy renders the fields; the template writes the form element and its buttons."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms


class PlainForm(forms.Form):
    """A form whose element, problem summary and buttons stand in the page's template."""

    marks_optional = True
    disable_csrf = False

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = FormHelper(self)
        self.helper.form_tag = False
        self.helper.disable_csrf = self.disable_csrf
