"""The hands-on sheet: one pair of answers a criterion of the rulebook's procedure."""

from itertools import groupby
from typing import Any
from uuid import uuid4

from crispy_forms.layout import Fieldset, Layout
from django import forms

from certificates.acts import criterion_keys
from certificates.queries import Scope
from training.forms.base import PlainForm
from training.forms.fields import KEPT, said, text
from training.rulebook import Edition
from training.trade.speech import say, saying

MARKS = [("met", saying("Met")), ("not-met", saying("Not met"))]
UNMARKED = saying("not marked; choose Met or Not met.")
REFUSED = saying('"%(value)s" is not accepted; choose Met or Not met.')


class HandsOnForm(PlainForm):
    """Every criterion for the tires of one scope is marked met or not met; nothing is marked beforehand.

    The fields are named c1, c2, ... in the order of the work; `marks()` gives them back under the act's keys.
    """

    press = forms.UUIDField(
        widget=forms.HiddenInput, error_messages={"invalid": saying("Load the page again, then mark it.")}
    )
    remarks = text(
        saying("Remarks"),
        most=2000,
        too_long=KEPT,
        hint=saying("What was not met and what to do again. The learner reads this too."),
        rows=3,
    )

    def __init__(self, *args: Any, edition: Edition, scope: Scope, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["press"].initial = uuid4()
        self.names: dict[str, str] = {}
        sections = []
        for step, criteria in groupby(
            enumerate(criterion_keys(edition, scope.casings), 1), key=lambda numbered: numbered[1][1]
        ):
            names = []
            for number, (key, _, criterion) in criteria:
                names.append(name := f"c{number}")
                self.names[name] = key
                kind = "pair pair--critical" if criterion.critical else "pair"
                label = say("Critical: {criterion}", criterion=criterion.text) if criterion.critical else criterion.text
                self.fields[name] = forms.ChoiceField(
                    label=label,
                    choices=MARKS,
                    widget=forms.RadioSelect(attrs={"class": kind}),
                    error_messages=said(criterion.text, required=UNMARKED, invalid_choice=REFUSED),
                )
            sections.append(Fieldset(step.title, *names))
        self.helper.layout = Layout("press", *sections, "remarks")
        self.order_fields(["press", *self.names, "remarks"])

    def marks(self) -> dict[str, str]:
        """The marks by the key of their criterion."""
        return {key: self.cleaned_data[name] for name, key in self.names.items()}
