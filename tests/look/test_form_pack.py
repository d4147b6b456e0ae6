"""The form pack: each field comes with question, hint and error tied to it, and the summary leads there."""

from typing import Any

import pytest
from crispy_forms.helper import FormHelper
from crispy_forms.layout import HTML, ButtonHolder, Column, Div, Field, Fieldset, Layout, Row, Submit
from crispy_forms.utils import render_crispy_form
from django import forms
from django.forms import formset_factory
from django.template.loader import render_to_string

from tests.look.reading import Element, Page

HINT, ERROR = "As read at the tire.", "Reading: none was given; give a number and a unit."
WORDS: dict[str, Any] = {"help_text": HINT, "error_messages": {"required": ERROR}}
CHOICES = [("1", "Run it"), ("2", "Take it out of service")]


class LengthWidget(forms.MultiWidget):
    def __init__(self) -> None:
        units = forms.Select(choices=[("mm", "mm"), ("in", "in")], attrs={"aria-label": "Unit"})
        super().__init__([forms.TextInput(attrs={"aria-label": "Number"}), units])

    def decompress(self, value: object) -> list[None]:
        return [None, None]


class LengthField(forms.MultiValueField):
    widget = LengthWidget

    def __init__(self, **words: Any) -> None:
        super().__init__([forms.CharField(), forms.CharField()], **words)


SINGLE: dict[str, forms.Field] = {
    "text": forms.CharField(**WORDS),
    "email": forms.EmailField(**WORDS),
    "number": forms.IntegerField(**WORDS),
    "password": forms.CharField(widget=forms.PasswordInput, **WORDS),
    "long text": forms.CharField(widget=forms.Textarea, **WORDS),
    "date": forms.DateField(widget=forms.DateInput(attrs={"type": "date"}), **WORDS),
    "time": forms.TimeField(**WORDS),
    "file": forms.FileField(**WORDS),
    "address": forms.URLField(assume_scheme="https", **WORDS),
    "select": forms.ChoiceField(choices=[("", "Choose"), *CHOICES], **WORDS),
    "select several": forms.MultipleChoiceField(choices=CHOICES, **WORDS),
    "yes or no": forms.NullBooleanField(required=True, **WORDS),
    "check": forms.BooleanField(**WORDS),
}
GROUPS: dict[str, forms.Field] = {
    "radio": forms.ChoiceField(choices=CHOICES, widget=forms.RadioSelect, **WORDS),
    "radio in groups": forms.ChoiceField(choices=[("Now", CHOICES)], widget=forms.RadioSelect, **WORDS),
    "checks": forms.MultipleChoiceField(choices=CHOICES, widget=forms.CheckboxSelectMultiple, **WORDS),
    "number and unit": LengthField(**WORDS),
    "day and time": forms.SplitDateTimeField(
        widget=forms.SplitDateTimeWidget(date_attrs={"aria-label": "Day"}, time_attrs={"aria-label": "Time"}), **WORDS
    ),
}
NEVER_EMPTY = {"yes or no"}  # "unknown" is an answer, so no error to show


def form_with(field: forms.Field, data: dict[str, Any] | None = None) -> Any:
    class ReadingForm(forms.Form):
        reading = field

    return ReadingForm(data)


def described(page: Page, element: Element) -> list[str]:
    return [page.by_id(name).text for name in element.attrs.get("aria-describedby", "").split()]


@pytest.mark.parametrize("kind", SINGLE)
def test_a_single_field_has_its_label_hint_and_error_tied_to_it(kind) -> None:
    page = Page(render_crispy_form(form_with(SINGLE[kind], {})))

    (control,) = page.controls()
    assert page.one("label", for_=control.attrs["id"]).text == "Reading"
    if kind in NEVER_EMPTY:
        assert described(page, control) == [HINT]
    else:
        assert described(page, control) == [HINT, f"Error: {ERROR}"]
        assert control.attrs["aria-invalid"] == "true"


@pytest.mark.parametrize("kind", GROUPS)
def test_a_group_is_a_fieldset_with_hint_and_error_before_the_first_answer(kind) -> None:
    page = Page(render_crispy_form(form_with(GROUPS[kind], {})))

    group = page.one("fieldset")
    legend = page.one("legend")
    hint, error = (page.by_id(name) for name in group.attrs["aria-describedby"].split())
    assert (legend.text, hint.text, error.text) == ("Reading", HINT, f"Error: {ERROR}")
    assert group.place < legend.place < hint.place < error.place < page.controls()[0].place


@pytest.mark.parametrize("kind", GROUPS)
def test_every_answer_of_a_group_has_a_name_of_its_own(kind) -> None:
    page = Page(render_crispy_form(form_with(GROUPS[kind])))

    labels = {label.attrs["for"]: label.text for label in page.all("label")}
    for control in page.controls():
        assert control.attrs.get("aria-label") or labels.get(control.attrs["id"])


@pytest.mark.parametrize("kind", [kind for kind in (*SINGLE, *GROUPS) if kind not in NEVER_EMPTY])
def test_the_summary_says_the_same_words_and_leads_to_a_control(kind) -> None:
    form = form_with({**SINGLE, **GROUPS}[kind], {})
    page = Page(render_to_string("_problem.html", {"form": form}) + render_crispy_form(form))

    (link,) = page.all("a")
    assert link.text == ERROR
    assert page.by_id(link.attrs["href"].removeprefix("#")) in page.controls()
    assert "autofocus" in page.by_id("problem").attrs


def test_a_good_form_has_no_summary() -> None:
    assert render_to_string("_problem.html", {"form": form_with(SINGLE["text"], {"reading": "5 mm"})}).strip() == ""


def test_an_error_of_the_whole_form_stands_in_the_summary_and_above_the_fields() -> None:
    form = form_with(SINGLE["text"], {"reading": "5 mm"})
    form.add_error(None, "Closed <b>at</b> 10:42.")

    assert "Closed &lt;b&gt;at&lt;/b&gt; 10:42." in render_to_string("_problem.html", {"form": form})
    assert Page(render_crispy_form(form)).one("ul", class_="error").text == "Closed <b>at</b> 10:42."


@pytest.mark.parametrize(("marks", "expected"), [(True, "Reading (optional)"), (False, "Reading")])
def test_what_may_stay_empty_says_so_unless_the_form_keeps_quiet(marks, expected) -> None:
    form = form_with(forms.CharField(required=False))
    form.marks_optional = marks

    assert Page(render_crispy_form(form)).one("label").text == expected


def test_a_hidden_field_comes_bare() -> None:
    page = Page(render_crispy_form(form_with(forms.CharField(widget=forms.HiddenInput, **WORDS), {"reading": "3"})))

    assert page.one("input", name="reading").attrs["value"] == "3"
    assert not page.all("label")


def test_a_layout_renders_rows_groups_and_buttons_and_escapes_what_people_typed() -> None:
    form = form_with(SINGLE["text"], {"reading": '"><script>alert(1)</script>'})
    form.fields["note"] = forms.CharField(required=False)
    form.helper = FormHelper()
    form.helper.layout = Layout(
        Fieldset("The tire", Row(Column("reading"), Div(Field("note", css_class="wide"))), css_class="tire"),
        HTML("<p>Off the wheel.</p>"),
        ButtonHolder(Submit("save", "Record hands-on")),
    )
    form.helper.add_input(Submit("suspend", "Suspend certificate", css_class="button--danger"))

    page = Page(render_crispy_form(form, context={"csrf_token": "token-of-this-page"}))

    assert page.one("form").attrs["method"] == "post"
    assert page.one("input", name="csrfmiddlewaretoken").attrs["value"] == "token-of-this-page"
    assert page.one("legend").text == "The tire"
    assert page.one("input", name="reading").attrs["value"] == '"><script>alert(1)</script>'
    assert not page.all("script")
    assert [button.text for button in page.all("button")] == ["Record hands-on", "Suspend certificate"]
    assert page.one("button", name="suspend").attrs["class"] == "button button--danger"


def test_a_form_that_only_asks_sends_no_token() -> None:
    form = form_with(SINGLE["text"])
    form.helper = FormHelper(form)
    form.helper.form_method = "get"

    page = Page(render_crispy_form(form, context={"csrf_token": "token-of-this-page"}))

    assert page.one("form").attrs["method"] == "get"
    assert not page.all("input", name="csrfmiddlewaretoken")


def test_a_set_of_forms_carries_its_management_fields_and_unique_ids() -> None:
    formset = formset_factory(type(form_with(SINGLE["text"])), extra=2)()

    page = Page(render_crispy_form(formset, helper=FormHelper()))

    assert page.one("input", name="form-TOTAL_FORMS").attrs["value"] == "2"
    ids = [element.attrs["id"] for element in page.elements if "id" in element.attrs]
    assert len(ids) == len(set(ids))
    assert {control.attrs["name"] for control in page.controls()} == {"form-0-reading", "form-1-reading"}
