"""An answer in the format of its question."""

from collections.abc import Mapping
from typing import Any

from crispy_forms.layout import Layout
from django import forms

from assessments.forms.widgets import LineAndReason, PlaceOnDrawing, StepOrder
from assessments.questions import (
    Answer,
    AnswerError,
    OpenItem,
    canonical,
    check_answer,
    in_millimeters,
    on_ruler,
    ruler_unit,
)
from training.forms.base import PlainForm
from training.forms.measured import MeasuredInput, Taken, Typed
from training.rulebook import UNITS, typed_quantity, units_offered
from training.trade.speech import say, saying


class NumberAndUnit(MeasuredInput):
    """A number as one writes it on a ticket ("5.5", "7/32") and its unit, on one line.

    The units of the system in `prefer` stand first, the first of them chosen. Beside a drawing, and with `prefer` "",
    none is, and one has to be: who reads millimeters off a drawing would send them as inches.
    """

    use_fieldset = True

    def __init__(self, item: OpenItem, *, prefer: str) -> None:
        dimension = next(name for name, units in UNITS.items() if item.units[0] in units)
        units = tuple(unit for unit in units_offered(dimension, prefer) if unit in item.units)
        attrs = {"aria-label": say("Number"), "autocomplete": "off"}
        if "in" not in units:
            attrs["inputmode"] = "decimal"
        is_chosen = len(units) == 1 or (prefer and item.figure is None)
        super().__init__(Taken((dimension,)), units if is_chosen else ("", *units), attrs)


def as_typed(answer: Answer) -> Typed | None:
    """A stored number as its field shows it again."""
    return Typed(answer["value"], answer["unit"]) if isinstance(answer, dict) else None


def typed_number(widget: NumberAndUnit, typed: Typed) -> dict[str, str] | None:
    """A typed number as `check_answer` takes it. Raises AnswerError for one that cannot be read."""
    if not typed:
        return None
    try:
        [read] = widget.takes.read(typed)
    except ValueError as refused:
        raise AnswerError(say("Value: {problem}", problem=refused)) from None
    number, _, unit = read.text.rpartition(" ")
    return {"value": number, "unit": unit}


def typed_place(readings: Mapping[str, str], unit: str) -> dict[str, str]:
    """Both readings off rulers in this unit, as `check_answer` takes them; one that cannot be read stays as it is."""
    return {key: _in_mm(text or "", unit) for key, text in readings.items()}


def _in_mm(text: str, unit: str) -> str:
    try:
        return in_millimeters(typed_quantity(text.strip(), unit, "length"))
    except ValueError:
        return text


def place_as_typed(answer: Answer, unit: str) -> Answer:
    """A stored place as its fields show it again."""
    return {key: on_ruler(text, unit) for key, text in answer.items()} if isinstance(answer, dict) else answer


def _answer_field(item: OpenItem, prefer: str) -> forms.Field:
    choices = [(option.id, option.text) for option in item.options]
    match item.format:
        case "one":
            return forms.CharField(widget=forms.RadioSelect(choices=choices), required=False)
        case "several":
            hint = say("Choose all that are right.")
            return forms.Field(widget=forms.CheckboxSelectMultiple(choices=choices), required=False, help_text=hint)
        case "number":
            return forms.Field(widget=NumberAndUnit(item, prefer=prefer), required=False)
        case "order":
            hint = say("They start out in the wrong order. Where two may change places, either way is right.")
            return forms.Field(widget=StepOrder(item), required=False, help_text=hint)
        case "place":
            if ruler_unit(item.units) == "in":
                hint = say("Point at the drawing, or read both rulers; within 1/32 in is enough.")
            else:
                hint = say("Point at the drawing, or read both rulers; within half a millimeter is enough.")
            return forms.Field(widget=PlaceOnDrawing(item), required=False, help_text=hint)
        case "fault":
            hint = say("Choose a line and what is wrong with it. Where nothing is wrong, no reason is needed.")
            return forms.Field(widget=LineAndReason(item), required=False, help_text=hint)
    raise ValueError(f'format: "{item.format}" has no field')


class AnswerForm(PlainForm):
    """One answer. `cleaned_data["answer"]` is its stored text, "" for none. The legend is the question itself."""

    marks_optional = False
    disable_csrf = True

    def __init__(
        self, data: Mapping[str, Any] | None = None, *, item: OpenItem, prefer: str, answer: Answer = None
    ) -> None:
        shown: object = answer
        if item.format == "number":
            shown = as_typed(answer)
        elif item.format == "place":
            shown = place_as_typed(answer, ruler_unit(item.units))
        super().__init__(data, initial={"answer": shown})
        self.item = item
        self.fields["answer"] = field = _answer_field(item, prefer)
        field.label = item.question
        self.helper.layout = Layout("answer")  # the page has the rest

    def clean_answer(self) -> str:
        """The answer as it is stored."""
        raw, widget = self.cleaned_data["answer"], self.fields["answer"].widget
        try:
            if isinstance(widget, NumberAndUnit):
                raw = typed_number(widget, raw)
            elif self.item.format == "place":
                raw = typed_place(raw, ruler_unit(self.item.units))
            return canonical(check_answer(self.item, raw))
        except AnswerError as problem:
            raise forms.ValidationError(str(problem)) from problem


class PracticeForm(AnswerForm):
    """An answer that is explained at once: pressing the button without one asks for a choice."""

    def clean_answer(self) -> str:
        """The answer as it is stored, "" only when the explanation is asked for without one."""
        answer = super().clean_answer()
        if not answer and self.data.get("go") != "explain":
            raise forms.ValidationError(say('Answer: nothing was given; answer, or choose "Explain it to me"'))
        return answer


class AssessmentForm(AnswerForm):
    """An answer that may be changed until hand-in; `revision` says which answer this page was loaded with."""

    revision = forms.IntegerField(
        min_value=0,
        widget=forms.HiddenInput,
        error_messages={
            "required": saying("This page is incomplete; reload it."),
            "invalid": saying("This page is incomplete; reload it."),
        },
    )
