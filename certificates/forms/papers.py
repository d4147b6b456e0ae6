"""The answers of a paper, typed in as they stand on its answer sheet: letters, numbers, places."""

import re
from collections.abc import Mapping, Sequence
from typing import Any

from crispy_forms.layout import Layout
from django import forms
from django.utils.html import format_html

from assessments.forms.answers import NumberAndUnit, as_typed, place_as_typed, typed_number, typed_place
from assessments.questions import Answer, AnswerError, OpenItem, canonical, check_answer, letter, ruler_unit
from training.forms.base import PlainForm
from training.forms.fields import reason
from training.trade.speech import say, saying

# the answers in two parts, by format: the keys of the stored answer
_PARTS = {"place": ("x", "y"), "fault": ("step", "reason")}


class TwoParts(forms.MultiWidget):
    """Two short inputs on one line, each with a name of its own; `names` are the keys of the stored answer."""

    def __init__(self, names: tuple[str, str], widgets: Sequence[forms.Widget]) -> None:
        self.names = names
        super().__init__(list(widgets))

    def decompress(self, value: Any) -> list[str | None]:
        """A stored answer into its two parts."""
        return [value.get(name) for name in self.names] if value else [None, None]


def _length(name: str, short: str, mode: str = "decimal") -> forms.TextInput:
    attributes = {"aria-label": name, "placeholder": short, "autocomplete": "off", "inputmode": mode}
    return forms.TextInput(attrs=attributes)


def _numbered(position: int) -> str:
    """The label of a row: to the eye its number alone, in the words of the language to whoever hears it."""
    before, _, after = say("Question {number}", number="\0").partition("\0")
    hidden = [format_html('<span class="visually-hidden">{}</span>', part) if part else "" for part in (before, after)]
    return format_html("{}{}{}", hidden[0], position, hidden[1])


def _sheet_field(item: OpenItem) -> forms.Field:
    """The field for one row of the answer sheet."""
    letters = [(option.id, letter(option.id)) for option in item.options]
    match item.format:
        case "one":
            # a cross can turn out to be none
            return forms.CharField(widget=forms.RadioSelect(choices=[*letters, ("", say("open"))]), required=False)
        case "several":
            return forms.Field(widget=forms.CheckboxSelectMultiple(choices=letters), required=False)
        case "number":
            return forms.Field(widget=NumberAndUnit(item, prefer=""), required=False)  # as it stands on the sheet
        case "order":
            attributes = {"autocomplete": "off", "autocapitalize": "characters", "spellcheck": "false", "size": "14"}
            return forms.CharField(widget=forms.TextInput(attrs=attributes), required=False, max_length=60)
        case "place":
            if ruler_unit(item.units) == "in":
                across, up = (
                    _length(say("Across, in"), say("across"), "text"),
                    _length(say("Up, in"), say("up"), "text"),
                )
            else:
                across, up = _length(say("Across, mm"), say("across")), _length(say("Up, mm"), say("up"))
            return forms.Field(widget=TwoParts(_PARTS["place"], [across, up]), required=False)
        case "fault":
            reasons = [(option.id, letter(option.id)) for option in item.reasons]
            line = forms.Select(choices=[("", say("line")), *letters], attrs={"aria-label": say("Line")})
            cause = forms.Select(choices=[("", say("reason")), *reasons], attrs={"aria-label": say("Reason")})
            return forms.Field(widget=TwoParts(_PARTS["fault"], [line, cause]), required=False)
    raise ValueError(f'format: "{item.format}" has no row on the answer sheet')


class PaperAnswersForm(PlainForm):
    """Every row of an answer sheet; `answers()` gives the stored texts by position, "" for a row left open."""

    marks_optional = False

    def __init__(
        self, data: Mapping[str, Any] | None = None, *, asked: Sequence[OpenItem], saved: Mapping[int, Answer]
    ) -> None:
        super().__init__(data)
        self.asked = asked
        for position, item in enumerate(asked, 1):
            self.fields[f"a{position}"] = field = _sheet_field(item)
            field.label = _numbered(position)
            field.initial = _on_sheet(item, saved.get(position))
        self.helper.layout = Layout(*self.fields)

    def clean(self) -> dict[str, Any]:
        """Each row read by the rules of its question; a problem names the row."""
        for position, item in enumerate(self.asked, 1):
            name = f"a{position}"
            if name not in self.cleaned_data:
                continue
            try:
                self.cleaned_data[name] = canonical(
                    check_answer(item, _from_sheet(item, self.cleaned_data[name], self.fields[name].widget))
                )
            except AnswerError as problem:
                self.add_error(name, say("Question {position}. {problem}", position=position, problem=problem))
        return self.cleaned_data

    def answers(self) -> dict[int, str]:
        """The answers as they are stored."""
        return {position: self.cleaned_data[f"a{position}"] for position in range(1, len(self.asked) + 1)}


def _from_sheet(item: OpenItem, raw: Any, widget: forms.Widget) -> object:
    """What was typed, in the shape that `check_answer` takes. Raises AnswerError."""
    if isinstance(widget, NumberAndUnit):
        return typed_number(widget, raw)
    if item.format in _PARTS:
        parts = dict(zip(_PARTS[item.format], raw or ("", ""), strict=True))
        return typed_place(parts, ruler_unit(item.units)) if item.format == "place" else parts
    return _order(item, raw) if item.format == "order" else raw


def _order(item: OpenItem, raw: str) -> list[str]:
    ids = {letter(option.id): option.id for option in item.options}
    typed = re.findall(r"\w", raw.upper())
    if typed and sorted(typed) != sorted(ids):
        last = letter(item.options[-1].id)
        raise AnswerError(
            say(
                'Order: "{typed}" is not accepted; write each of the letters A to {last} once',
                typed=raw.strip(),
                last=last,
            )
        )
    return [ids[one] for one in typed]


def _on_sheet(item: OpenItem, answer: Answer) -> object:
    """A stored answer as the row shows it again."""
    if item.format == "number":
        return as_typed(answer)
    if item.format == "order" and isinstance(answer, list):
        return " ".join(letter(one) for one in answer)
    if item.format == "place":
        return place_as_typed(answer, ruler_unit(item.units))
    return answer


class WithdrawForm(PlainForm):
    """Why a paper that nobody sat is taken back."""

    marks_optional = False

    reason = reason(
        saying("Why is it withdrawn?"),
        hint=saying("For example: printed for the wrong person. The reason stays on record."),
    )
