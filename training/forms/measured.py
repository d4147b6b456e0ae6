"""Fields for what is measured: a number as people write it, and beside it the unit that a bare number takes."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django import forms

from training.rulebook import (
    Quantity,
    limits_from_text,
    read_as,
    typed_quantities,
    typed_quantity,
    unit_label,
    units_offered,
)
from training.trade.speech import say

UNIT = "_u"  # behind a field's name: the unit shown beside it
LONGEST = 200
ONE, READINGS, LIMITS, RANGE = HOW_MANY = ("one", "readings", "limits", "range")
_WITH_MINUS = frozenset({"temperature"})


@dataclass(frozen=True)
class Typed:
    """What was typed, and the unit shown beside it; "" where none was shown."""

    text: str
    unit: str

    def __bool__(self) -> bool:
        return bool(self.text)

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True)
class Taken:
    """What a field takes, of these dimensions: one quantity, several "readings", "limits" or the ends of a "range"."""

    dimensions: tuple[str, ...]
    how_many: str = ONE

    def read(self, typed: Typed) -> tuple[Quantity, ...]:
        """The quantities typed. Raises ValueError with the sentence that refuses them."""
        dimensions = ["length" if one == "tread" else one for one in self.dimensions]
        if self.how_many == READINGS:
            return typed_quantities(typed.text, typed.unit, *dimensions)
        if self.how_many == ONE:
            return (typed_quantity(typed.text, typed.unit, *dimensions),)
        limits = limits_from_text(typed.text, is_range=self.how_many == RANGE)
        return tuple(typed_quantity(one, typed.unit, *dimensions) for one in limits)

    def told(self, typed: Typed) -> str:
        """How it was understood, where that says more than what was typed; "" where it cannot be read."""
        try:
            found = self.read(typed)
        except ValueError:
            return ""
        part = {LIMITS: "; ", RANGE: " to "}.get(self.how_many, ", ")
        as_typed, as_read = (one.replace(" ", "") for one in (typed.text, part.join(one.text for one in found)))
        if as_typed == as_read:
            return ""
        told = [read_as(one) for one in found]
        is_range = self.how_many == RANGE and len(told) == 2
        return say("{least} to {most}", least=told[0], most=told[1]) if is_range else part.join(told)


class MeasuredInput(forms.TextInput):
    """A number and its unit on one line. One unit alone is only printed; a text with a unit of its own shows that."""

    template_name = "training/widgets/measured.html"

    def __init__(self, takes: Taken, units: tuple[str, ...], attrs: dict[str, Any]) -> None:
        super().__init__(attrs)
        self.takes, self.units = takes, units

    def value_from_datadict(self, data: Mapping[str, Any], files: Any, name: str) -> Typed:
        """What was typed, with the unit that stood beside it."""
        unit = self.units[0] if len(self.units) == 1 else data.get(f"{name}{UNIT}", "")
        return Typed(str(data.get(name) or "").strip(), str(unit))

    def value_omitted_from_data(self, data: Mapping[str, Any], files: Any, name: str) -> bool:
        """Whether the page had no such field."""
        return name not in data

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        """The input, the units to choose from, and how it was understood."""
        typed = value if isinstance(value, Typed) else Typed(str(value or ""), "")
        context = super().get_context(name, typed.text or None, attrs)
        chosen = self._unit_of(typed)
        context["widget"] |= {
            "unit_name": f"{name}{UNIT}",
            "units": [(unit, unit_label(unit), unit == chosen) for unit in self.units],
            "told": self.takes.told(typed),
            "takes": self.takes,
        }
        return context

    def _unit_of(self, typed: Typed) -> str:
        try:
            named = {one.unit for one in self.takes.read(typed)} if typed else set()
        except ValueError:
            named = set()
        own = named.pop() if len(named) == 1 else ""
        return own if own in self.units else typed.unit if typed.unit in self.units else self.units[0]


class MeasuredByThumb(MeasuredInput):
    """The same for a thumb: each unit is a target, and sizes that a gauge shows are filled in by one press."""

    template_name = "training/widgets/measured_by_thumb.html"
    sizes: tuple[str, ...] = ()  # in the first of the units

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        """The same, and the sizes with the unit that goes with them."""
        context = super().get_context(name, value, attrs)
        typed = value if isinstance(value, Typed) else Typed(str(value or ""), "")
        is_own = self._unit_of(typed) == self.units[0]
        context["widget"] |= {
            "sizes": [(size, is_own and typed.text == size) for size in self.sizes],
            "size_unit": (self.units[0], unit_label(self.units[0])),
        }
        return context


class Measured(forms.Field):
    """What is measured. Cleaned it is the text of the quantity with its unit, "" for nothing; a list of them
    where it takes more than one.

    `said_as` is the label in the sentence of a refusal; `by_thumb` makes targets of the units.
    """

    widget: MeasuredInput

    def __init__(
        self,
        label: str,
        *dimensions: str,
        prefer: str,
        hint: str = "",
        how_many: str = ONE,
        is_signed: bool = False,
        empty: str = "",
        said_as: str = "",
        by_thumb: bool = False,
    ) -> None:
        self.takes = Taken(dimensions, how_many)
        self.said_as = said_as or label
        units = tuple(unit for one in dimensions for unit in units_offered(one, prefer))
        attrs = {"autocomplete": "off", "autocapitalize": "none"}
        # the keypad for decimals has no slash, no minus and no comma on some phones
        if not ("in" in units[:1] or how_many != ONE or is_signed or _WITH_MINUS.intersection(dimensions)):
            attrs["inputmode"] = "decimal"
        super().__init__(
            label=label,
            help_text=hint,
            required=bool(empty),
            widget=(MeasuredByThumb if by_thumb else MeasuredInput)(self.takes, units, attrs),
            error_messages={"required": f"{self.said_as}: {empty}"},
        )

    def clean(self, value: Any) -> str | list[str]:
        """The text with its unit. Raises ValidationError naming the field, what was typed, and what is accepted."""
        typed = value if isinstance(value, Typed) else Typed(str(value or ""), "")
        if not typed:
            self.validate("")
            return "" if self.takes.how_many == ONE else []
        if len(typed.text) > LONGEST:
            raise forms.ValidationError(
                say(
                    "{field}: {count} characters are too many; give {most}.",
                    field=self.said_as,
                    count=len(typed.text),
                    most=LONGEST,
                )
            )
        try:
            found = [one.text for one in self.takes.read(typed)]
        except ValueError as refused:
            raise forms.ValidationError(f"{self.said_as}: {refused}.") from None
        return found[0] if self.takes.how_many == ONE else found


def read_back(form: forms.Form) -> list[tuple[str, str]]:
    """How what was typed was understood, by label, where that says more than the text itself."""
    fields = [(field, form[name].data) for name, field in form.fields.items() if isinstance(field, Measured)]
    told = [(field.said_as, field.takes.told(typed)) for field, typed in fields if typed]
    return [(label, words) for label, words in told if words]
