"""Keeping a check, and searching the checks that were kept."""

from collections.abc import Iterable
from datetime import date
from typing import Any
from uuid import UUID, uuid4

from django import forms

from training.forms.base import PlainForm
from training.forms.fields import choice, day, text
from training.models import MAY_RUN, User
from training.queries import Wanted
from training.rulebook import Case
from training.rulebook.markings import MarkingError, read_tin
from training.trade.speech import say, saying
from training.trade.words import VERDICT_WORDS

_FULL_CODE = 4


class KeepForm(PlainForm):
    """What makes a check findable again: the identification number, the vehicle or ticket, a note."""

    press = forms.UUIDField(
        widget=forms.HiddenInput, error_messages={"invalid": saying("Load the page again, then keep it.")}
    )
    tin = text(
        saying("Tire identification number"),
        most=40,
        hint=saying("As molded after DOT, for example 1AB CDEFHJ 3219."),
        autocomplete="off",
        autocapitalize="characters",
    )
    ticket = text(
        saying("Vehicle or ticket"),
        most=80,
        hint=saying("What the shop finds it by: a plate, a unit number, a work order."),
        autocomplete="off",
    )
    note = text(saying("Note"), most=1000, rows=2, hint=saying("It is printed on the customer's statement."))
    taken_along = forms.BooleanField(
        label=saying("The customer took the tire along against our advice"),
        help_text=saying("It is printed on the statement."),
        required=False,
    )

    def __init__(self, *args: Any, case: Case, verdict: str, is_correction: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.case, self.is_correction = case, is_correction
        self.fields["press"].initial = uuid4()
        if verdict in MAY_RUN:
            del self.fields["taken_along"]
            self.helper.layout = self.helper.build_default_layout(self)
        if is_correction:
            self.fields["note"].label = say("What was wrong with the entry")
            self.fields["note"].required = True
            self.fields["note"].error_messages["required"] = say(
                "What was wrong with the entry: it is empty; say what this entry corrects."
            )

    def clean_tin(self) -> str:
        """The number in capitals, held against the grammar of such numbers and the date code of the check."""
        text = " ".join(str(self.cleaned_data["tin"]).upper().split())
        if not text:
            return ""
        tire = self.case.tire
        try:
            tin = read_tin(text, is_retread=tire.retreaded, on=self.case.on)
        except MarkingError as refused:
            raise forms.ValidationError(
                say(
                    "Tire identification number: {problem}. If that is what the sidewall says, leave this "
                    "empty and write it in the note.",
                    problem=refused,
                )
            ) from None
        code = tire.date_code
        digits = "".join(sign for sign in text if sign.isalnum())[-_FULL_CODE:]
        if tin.date_code and not tin.is_retread and code and len(code) == _FULL_CODE and digits != code:
            raise forms.ValidationError(
                say(
                    "Tire identification number: it ends in {digits}, and the date code of this check is "
                    "{code}; read the sidewall again and correct one of the two.",
                    digits=digits,
                    code=code,
                )
            )
        return text

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        if "tin" not in self.errors and not data.get("tin") and not data.get("ticket"):
            self.add_error(
                "ticket",
                say(
                    "Vehicle or ticket: it is empty, and so is the identification number; give one of them, "
                    "or nobody finds this entry again."
                ),
            )
        data.setdefault("taken_along", False)
        return data


class SearchForm(PlainForm):
    """What to look for among the kept checks; everything may stay empty."""

    marks_optional = False
    disable_csrf = True

    q = text(saying("Number, vehicle, ticket or size"), most=80, too_long=saying("give at most 80 characters."))
    verdict = choice(
        saying("Decision"),
        [("", saying("Any")), *((verdict, words.name) for verdict, words in VERDICT_WORDS.items())],
        unknown=saying('"%(value)s" is not in the list; choose one from the list.'),
        required=False,
    )
    since, until = day(saying("From")), day(saying("To"))

    def __init__(self, *args: Any, people: Iterable[User], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["by"] = choice(
            say("Who looked"),
            [("", say("Anybody")), *((str(person.reference), person.name) for person in people)],
            unknown=say("nobody of that name; choose one from the list."),
            required=False,
        )

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        since, until = data.get("since"), data.get("until")
        if isinstance(since, date) and isinstance(until, date) and since > until:
            self.add_error(
                "until",
                say(
                    "To: {last} is before {first}; give a later day.",
                    last=until.isoformat(),
                    first=since.isoformat(),
                ),
            )
        return data

    def wanted(self) -> Wanted:
        """The search as values; a field that was refused counts as empty."""
        data = self.cleaned_data if self.is_bound and (self.is_valid() or self.cleaned_data) else {}
        by = data.get("by")
        return Wanted(
            text=data.get("q", "").strip(),
            verdict=data.get("verdict", ""),
            since=data.get("since"),
            until=data.get("until"),
            by=UUID(by) if by else None,
        )
