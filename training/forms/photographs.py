"""A shop's own photograph: the file, what it shows and on what casing; that it may be kept; why it is taken back."""

from collections.abc import Mapping
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from training.forms.base import PlainForm
from training.forms.fields import choice, reason, said
from training.pictures import CONDITIONS, MOST_BYTES, NAMED, Taken, UnfitPhotograph, taken, too_large
from training.trade.speech import say, saying
from training.trade.words import CASING_WORDS

_LOOK_ALIKE = ".look-alike"
_SURFACES: Mapping[str, str] = {
    "liner": saying("On the liner"),
    "sidewall": saying("On the sidewall"),
    "tread": saying("On the tread"),
    "bead": saying("At the bead"),
}


def _what_it_may_show() -> list[tuple[str, list[tuple[str, str]]]]:
    """The conditions and what is taken for each, by where they are seen."""
    return [
        (
            str(title),
            [
                (f"{name}{_LOOK_ALIKE if look_alike else ''}", str(NAMED[name].words(look_alike)))
                for name, condition in CONDITIONS.items()
                if condition.surface == surface
                for look_alike in (False, True)
            ],
        )
        for surface, title in _SURFACES.items()
    ]


class PhotographForm(PlainForm):
    """Once valid, `cleaned_data` are the arguments of `bring_photograph`."""

    photograph = forms.FileField(
        label=saying("Photograph"),
        help_text=saying("Take one with your phone or choose a file: JPEG or PNG, up to 12 MiB."),
        widget=forms.FileInput(attrs={"accept": "image/jpeg,image/png"}),
        error_messages=said(
            saying("Photograph"),
            required=saying("nothing was chosen; take one or choose a file."),
            invalid=saying("nothing was sent; choose a file."),
            empty=saying("the file is empty; send the photograph again."),
        ),
    )
    shows = choice(saying("What it shows"), lambda: [("", say("Choose")), *_what_it_may_show()])
    casing = choice(
        saying("On what tire"),
        lambda: [("", say("Choose")), *((name, words.label) for name, words in CASING_WORDS.items())],
    )

    def clean_photograph(self) -> Taken:
        """The picture made of it. What is too large is not even read."""
        file: UploadedFile[bytes] = self.cleaned_data["photograph"]
        if (file.size or 0) > MOST_BYTES:
            raise forms.ValidationError(too_large(file.size or 0))
        try:
            return taken(file.read())
        except UnfitPhotograph as refusal:
            raise forms.ValidationError(str(refusal)) from None

    def clean(self) -> dict[str, Any]:
        """What the act takes."""
        data = super().clean() or {}
        if self.errors:
            return data
        name, _, is_other = data["shows"].partition(_LOOK_ALIKE[0])
        return {
            "taken": data["photograph"],
            "condition": name,
            "look_alike": bool(is_other),
            "casing": data["casing"],
        }


class KeepPhotographForm(PlainForm):
    """That it was looked at before it is kept."""

    marks_optional = False
    is_clean = forms.BooleanField(
        label=saying("I looked: there is no face, no license plate and no name in it."),
        error_messages=said(
            saying("Look first"),
            required=saying("tick this once there is none, or bring another photograph."),
        ),
    )


class TakeBackForm(PlainForm):
    """Why a photograph is taken back."""

    reason = reason(saying("Why it is taken back"), rows=2)
