"""An answer in the format of its question."""

from collections.abc import Mapping
from typing import Any

from crispy_forms.layout import Layout
from django import forms

from assessments.forms.widgets import LineAndReason, PlaceOnDrawing, StepOrder
from assessments.questions import Answer, AnswerError, OpenItem, canonical, check_answer
from training.forms.base import PlainForm


class NumberAndUnit(forms.MultiWidget):
    """A number as one writes it on a ticket ("5.5", "7/32") and its unit, on one line."""

    def __init__(self, units: tuple[str, ...]) -> None:
        number = forms.TextInput(
            attrs={
                "inputmode": "decimal" if "in" not in units else "text",
                "autocomplete": "off",
                "aria-label": "Number",
            }
        )
        # none is chosen beforehand: who reads millimeters off a drawing would send them as inches
        to_choose = [("", "unit")] if len(units) > 1 else []
        unit = forms.Select(choices=[*to_choose, *((one, one) for one in units)], attrs={"aria-label": "Unit"})
        super().__init__([number, unit])

    def decompress(self, value: Any) -> list[str | None]:
        """A stored answer into its two parts."""
        return [value["value"], value["unit"]] if value else [None, None]


def _answer_field(item: OpenItem) -> forms.Field:
    choices = [(option.id, option.text) for option in item.options]
    match item.format:
        case "one":
            return forms.CharField(widget=forms.RadioSelect(choices=choices), required=False)
        case "several":
            hint = "Mark all that are right."
            return forms.Field(widget=forms.CheckboxSelectMultiple(choices=choices), required=False, help_text=hint)
        case "number":
            return forms.Field(widget=NumberAndUnit(item.units), required=False)
        case "order":
            hint = "They start out in the wrong order. Where two may change places, either way is right."
            return forms.Field(widget=StepOrder(item), required=False, help_text=hint)
        case "place":
            hint = "Point at the drawing, or read both rulers; within half a millimeter is enough."
            return forms.Field(widget=PlaceOnDrawing(item), required=False, help_text=hint)
        case "fault":
            hint = "Choose a line and what is wrong with it. Where nothing is wrong, no reason is needed."
            return forms.Field(widget=LineAndReason(item), required=False, help_text=hint)
    raise ValueError(f'format: "{item.format}" has no field')


class AnswerForm(PlainForm):
    """One answer. `cleaned_data["answer"]` is its stored text, "" for none. The legend is the question itself."""

    marks_optional = False
    disable_csrf = True

    def __init__(self, data: Mapping[str, Any] | None = None, *, item: OpenItem, answer: Answer = None) -> None:
        super().__init__(data, initial={"answer": answer})
        self.item = item
        self.fields["answer"] = field = _answer_field(item)
        field.label = item.question
        self.helper.layout = Layout("answer")  # the page has the rest

    def clean_answer(self) -> str:
        """The answer as it is stored."""
        raw = self.cleaned_data["answer"]
        if self.item.format == "number":
            raw = dict(zip(("value", "unit"), raw, strict=True))
        try:
            return canonical(check_answer(self.item, raw))
        except AnswerError as problem:
            raise forms.ValidationError(str(problem)) from problem


class PracticeForm(AnswerForm):
    """An answer that is explained at once: pressing the button without one asks for a choice."""

    def clean_answer(self) -> str:
        """The answer as it is stored, "" only when the explanation is asked for without one."""
        answer = super().clean_answer()
        if not answer and self.data.get("go") != "explain":
            raise forms.ValidationError('Answer: nothing was given; answer, or choose "Explain it to me"')
        return answer


class AssessmentForm(AnswerForm):
    """An answer that may be changed until hand-in; `revision` says which answer this page was loaded with."""

    revision = forms.IntegerField(
        min_value=0,
        widget=forms.HiddenInput,
        error_messages={"required": "revision: is missing; reload the page", "invalid": "revision: reload the page"},
    )
