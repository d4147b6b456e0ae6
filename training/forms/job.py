"""The log of a repair: a job sheet with the standard steps of a method, or a job pasted as JSON."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from django import forms
from django.forms import BoundField

from training.forms.base import PlainForm
from training.forms.fields import Targets, choice, said, text
from training.forms.measured import Measured, read_back
from training.rulebook import (
    CASINGS,
    MEASURES,
    STEP_PARAMETERS,
    WORDS,
    Edition,
    Job,
    JobError,
    Step,
    parse_job,
    procedure,
)
from training.trade.json_text import NotJson, read_json
from training.trade.speech import say, saying
from training.trade.words import CASING_WORDS, METHOD_WORDS, capital

LARGEST_FILE = 200_000
_LONGEST = 40
_FILL = "surface-fill"
_MOST_TARGETS = 3  # more stand in a list
_DONE = (("yes", saying("Done")), ("no", saying("Not done")))
# what the tire itself has to say, where no kept check says it: (field, place in the case, label)
_TIRE = (
    ("outer_groove", "tire.outer_groove", saying("Centerline to outer groove")),
    ("crown_thickness", "tire.crown_thickness", saying("Crown thickness")),
    ("lateral", "injuries.0.lateral", saying("Injury, distance from the centerline")),
)


class StartForm(PlainForm):
    """Which casing and which method: they name the steps of the sheet."""

    marks_optional = False
    disable_csrf = True

    def __init__(self, *args: Any, edition: Edition, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        casings = [(casing, capital(WORDS["tire.casing"][casing])) for casing in CASINGS]
        methods = [(method, capital(METHOD_WORDS[method])) for method in edition.orders]
        self.fields["casing"] = choice(say("Casing"), [("", say("Choose")), *casings])
        self.fields["method"] = choice(say("Method"), [("", say("Choose")), *methods])


@dataclass(frozen=True)
class Line:
    """One step on the sheet: its place in the order of work, and what can be said of it."""

    step: Step
    done: BoundField
    place: BoundField
    fields: tuple[BoundField, ...]

    @property
    def is_open(self) -> bool:
        """Whether something of what was done is written down already."""
        return any(field.errors or field.data for field in self.fields if field.form.is_bound)


class SheetForm(PlainForm):
    """One line a step, done or not done; nothing counts that nobody touched. Numbers give another order than the usual.

    `case` is that of a kept check, or None: then the sheet asks for the little it needs. Once valid, `job` and `data`
    hold the job and its JSON.
    """

    marks_optional = False
    job: Job
    data_of_job: dict[str, Any]

    def __init__(
        self,
        *args: Any,
        edition: Edition,
        method: str,
        casing: str,
        case: Mapping[str, Any] | None,
        on: str,
        prefer: str = "in",
        **rest: Any,
    ) -> None:
        super().__init__(*args, **rest)
        self.edition, self.casing, self.case, self.on = edition, casing, case, on
        self.method, self.steps = method, procedure(edition, method=method)
        if case is None:
            for name, _, label in _TIRE:
                self.fields[name] = Measured(label, "length", prefer=prefer, is_signed=name == "lateral", by_thumb=True)
        for number, step in enumerate(self.steps, 1):
            self.fields[f"d{number}"] = choice(
                f"{number}. {step.title}", [("", say("Not said")), *_DONE], required=False, widget=Targets()
            )
            self.fields[f"s{number}"] = forms.IntegerField(
                label=say("{number}. {title}: done as number", number=number, title=step.title),
                required=False,
                min_value=1,
                max_value=999,
                widget=forms.NumberInput(attrs={"inputmode": "numeric"}),
                error_messages=said(
                    step.title,
                    invalid=say("its number is not a whole number; give one such as {number}, or none.", number=number),
                    min_value=say("give a number from 1."),
                    max_value=say("give a number up to 999."),
                ),
            )
            for key, quantity in STEP_PARAMETERS.get(step.id, {}).items():
                self.fields[f"s{number}_{key}"] = _parameter(quantity, prefer, _usual(quantity, edition, casing))

    @property
    def title(self) -> str:
        """For which work and which tire the sheet is: "two-piece repair, passenger tire"."""
        return f"{METHOD_WORDS[self.method]}, {CASING_WORDS[self.casing].one}"

    def about(self) -> tuple[BoundField, ...]:
        """The fields on the tire."""
        return tuple(self[name] for name, *_ in _TIRE) if self.case is None else ()

    def lines(self) -> Iterator[Line]:
        """The sheet, line by line."""
        for number, step in enumerate(self.steps, 1):
            keys = STEP_PARAMETERS.get(step.id, {})
            yield Line(step, self[f"d{number}"], self[f"s{number}"], tuple(self[f"s{number}_{key}"] for key in keys))

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        done = sorted((data.get(f"s{number}") or number, number) for number in self._numbers() if self._is_done(number))
        for number in self._numbers():
            if data.get(f"d{number}") == "no" and self._says(number):
                words = say("you say that it was not done, and also how it was done; take one of the two back.")
                self.add_error(f"d{number}", f"{self.steps[number - 1].title}: {words}")
        for (place, _), (again, number) in pairwise(done):
            if place == again:
                title = self.steps[number - 1].title
                words = say("number {place} is given twice; one step comes before the other.", place=place)
                self.add_error(f"s{number}", f"{title}: {words}")
        if self.errors:
            return data
        self.data_of_job = {"edition": self.edition.name, "case": self._case(data), "steps": []}
        for _, number in done:
            step = self.steps[number - 1]
            said = {key: data[f"s{number}_{key}"] for key in STEP_PARAMETERS.get(step.id, {})}
            stated = {key: _counted(value, STEP_PARAMETERS[step.id][key]) for key, value in said.items() if value}
            self.data_of_job["steps"].append({"step": step.id, **stated})
        try:
            self.job = parse_job(self.data_of_job, edition=self.edition)
        except JobError as refused:
            self._place(refused, [number for _, number in done])
        return data

    @property
    def has_order(self) -> bool:
        """Whether another order than the usual one is written down."""
        return self.is_bound and any(self[f"s{number}"].data for number in self._numbers())

    @property
    def untouched(self) -> tuple[str, ...]:
        """The steps of which nobody said whether they were done."""
        silent = (n for n in self._numbers() if not self.cleaned_data.get(f"d{n}") and not self._says(n))
        return tuple(self.steps[number - 1].id for number in silent)

    @property
    def not_done(self) -> tuple[str, ...]:
        """The steps that are said not to be done."""
        said = (n for n in self._numbers() if self.cleaned_data.get(f"d{n}") == "no")
        return tuple(self.steps[number - 1].id for number in said)

    def _says(self, number: int) -> bool:
        """Whether a place in the order, or how it was done, is written beside a step."""
        keys = STEP_PARAMETERS.get(self.steps[number - 1].id, {})
        names = (f"s{number}", *(f"s{number}_{key}" for key in keys))
        return any(self.cleaned_data.get(name) for name in names)

    def _is_done(self, number: int) -> bool:
        return self.cleaned_data.get(f"d{number}") == "yes" or self._says(number)

    def read_back(self) -> list[tuple[str, str]]:
        """How bare numbers were understood, by label."""
        return read_back(self)

    def job_text(self) -> str:
        """The job as JSON text, to keep or to change by hand."""
        return json.dumps(self.data_of_job, indent=1)

    def _numbers(self) -> range:
        return range(1, len(self.steps) + 1)

    def _case(self, data: Mapping[str, Any]) -> dict[str, Any]:
        if self.case is not None:
            return dict(self.case)
        tire: dict[str, Any] = {"casing": self.casing}
        injury: dict[str, Any] = {"id": "A", "kind": "surface" if self.method == _FILL else "puncture"}
        for name, path, *_ in _TIRE:
            if data[name]:
                (tire if path.startswith("tire.") else injury)[name] = data[name]
        return {"on": self.on, "tire": tire, "injuries": [injury]}

    def _place(self, refused: JobError, numbers: list[int]) -> None:
        """Put each problem beside the field it came from."""
        for line in refused.problems:
            path, _, words = line.partition(": ")
            name = self._field_at(path, numbers)
            if name is None:
                self.add_error(None, line)
            else:
                self.add_error(name, f"{self.fields[name].label}: {words}")

    def _field_at(self, path: str, numbers: list[int]) -> str | None:
        if path.startswith("steps["):
            place, _, key = path.removeprefix("steps[").partition("].")
            name = f"s{numbers[int(place)]}_{key}" if place.isdigit() else ""
        else:
            name = path.rpartition(".")[2]
        return name if name in self.fields else None


class PasteForm(PlainForm):
    """A job as JSON, pasted or as a file. Once valid, `job` holds it."""

    job: Job

    text = text(
        saying("A job as JSON"),
        most=LARGEST_FILE,
        too_long=saying("it is too long; give at most %(limit_value)d characters."),
        hint='{"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "deflate"}, ...]}',
        rows=6,
        spellcheck="false",
        autocomplete="off",
    )
    file = forms.FileField(
        label=saying("Or a file with it"),
        required=False,
        error_messages=said(
            saying("A file with a job"),
            invalid=saying("none arrived; choose it again."),
            empty=saying("it is empty; choose one that holds a job."),
        ),
    )

    def __init__(self, *args: Any, edition: Edition, on: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.edition, self.on = edition, on

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        if self.errors:
            return data
        text, file = data.get("text", "").strip(), data.get("file")
        if bool(text) == bool(file):
            wrong = (
                say("A job as JSON: a text and a file are given; give one of them.")
                if text
                else say("A job as JSON: it is empty; paste a job, or choose a file.")
            )
            self.add_error("text", wrong)
            return data
        if file and file.size > LARGEST_FILE:
            self.add_error(
                "file",
                say(
                    "A file with a job: {size} bytes are too many; give at most {most}.",
                    size=file.size,
                    most=LARGEST_FILE,
                ),
            )
            return data
        try:
            self.job = self._read(file.read() if file else text.encode())
        except NotJson as refused:
            self.add_error("file" if file else "text", say("A job as JSON: {refused}.", refused=refused))
        except JobError as refused:
            for problem in refused.problems:
                self.add_error("file" if file else "text", problem)
        return data

    def job_text(self) -> str:
        """The job as it was pasted; nothing for a file, which the reader has."""
        return str(self.cleaned_data["text"])

    def _read(self, text: bytes) -> Job:
        data = read_json(text, "job")
        if isinstance(data, dict):
            named = data.get("edition", self.edition.name)
            if named != self.edition.name:
                raise JobError(
                    (
                        say(
                            'edition: {given} is not the rulebook of this shop; give "{edition}"',
                            given=json.dumps(named),
                            edition=self.edition.name,
                        ),
                    )
                )
            case = data.get("case")
            if isinstance(case, dict) and case.get("on") is None:
                case["on"] = self.on
        return parse_job(data, edition=self.edition)


def _usual(quantity: str, edition: Edition, casing: str) -> str:
    """What the rulebook asks of a quantity, as a hint beside its field; "" where it asks nothing."""
    limits = [one.printed_limit() for one in edition.clauses.values()
              if one.quantity == quantity and casing in one.casings and not one.when]  # fmt: skip
    return say("Usual: {limits}.", limits="; ".join(map(str, limits))) if limits else ""


def _parameter(quantity: str, prefer: str, usual: str) -> forms.Field:
    measure = MEASURES[quantity]
    label = str(measure.meaning).rstrip(".")
    if measure.dimension == "count":
        hint = usual or say("A whole number, for example 3.")
        return text(label, hint=hint, most=_LONGEST, autocomplete="off", inputmode="numeric")
    if measure.dimension:
        return Measured(label, measure.dimension, prefer=prefer, hint=usual, by_thumb=True)
    words = [("", say("Not said")), *((word, capital(word)) for word in measure.words)]
    widget = Targets() if len(measure.words) <= _MOST_TARGETS else forms.Select()
    return choice(label, words, required=False, hint=usual, widget=widget)


def _counted(value: str, quantity: str) -> str | int:
    """A bare number typed where something is counted needs no unit."""
    is_number = MEASURES[quantity].dimension == "count" and value.isascii() and value.isdigit()
    return int(value) if is_number else value
