"""Where a question is answered that no choice or number answers: steps in order, a place on the drawing, a fault."""

from collections.abc import Mapping
from typing import Any

from django import forms

from assessments.questions import OpenItem, ruler_unit


class _ItemWidget(forms.Widget):
    """A widget of several inputs for one open question; its value is what `check_answer` reads."""

    use_fieldset = True

    def __init__(self, item: OpenItem) -> None:
        super().__init__()
        self.item = item

    def id_for_label(self, id_: str) -> str:
        """None: the label is the legend of the group, and the first input ends in _0."""
        return ""

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        """What the template shows."""
        context = super().get_context(name, value, attrs)
        context["widget"]["id"] = context["widget"]["attrs"].get("id") or f"id_{name}"
        return context

    def value_omitted_from_data(self, data: Mapping[str, Any], files: Any, name: str) -> bool:
        """Groups of inputs may stay empty."""
        return False


class StepOrder(_ItemWidget):
    """Each step with its place; where a script runs, the steps are moved up and down instead."""

    template_name = "assessments/widgets/order.html"

    def value_from_datadict(self, data: Mapping[str, Any], files: Any, name: str) -> dict[str, str]:
        """The place given to each step, "" where none was."""
        return {option.id: data.get(f"{name}_{option.id}", "") for option in self.item.options}

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        """The steps with their places, in order once every step has one of its own."""
        context = super().get_context(name, value, attrs)
        if isinstance(value, list):
            value = {one: str(place) for place, one in enumerate(value, 1)}
        places: Mapping[str, str] = value or {}
        options = list(self.item.options)
        all_places = [str(place) for place in range(1, len(options) + 1)]
        if sorted(places.values()) == all_places:
            options.sort(key=lambda option: int(places[option.id]))
        context["widget"] |= {
            "rows": [(option.id, option.text, places.get(option.id, "")) for option in options],
            "places": all_places,
        }
        return context


class PlaceOnDrawing(_ItemWidget):
    """Two readings off the rulers of the drawing; where a script runs, pointing at the drawing fills them in."""

    template_name = "assessments/widgets/place.html"

    def value_from_datadict(self, data: Mapping[str, Any], files: Any, name: str) -> dict[str, str]:
        """The two readings as they were written."""
        return {key: data.get(f"{name}_{key}", "") for key in ("x", "y")}

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        """The readings and where the rulers begin."""
        context = super().get_context(name, value, attrs)
        context["widget"] |= {"given": value or {}, "frame": self.item.frame, "unit": ruler_unit(self.item.units)}
        return context


class LineAndReason(_ItemWidget):
    """The lines of a log to choose from, and the reasons."""

    template_name = "assessments/widgets/fault.html"

    def value_from_datadict(self, data: Mapping[str, Any], files: Any, name: str) -> dict[str, str]:
        """The line and the reason that were chosen, "" where none was."""
        return {key: data.get(f"{name}_{key}", "") for key in ("step", "reason")}

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        """Both groups of choices."""
        context = super().get_context(name, value, attrs)
        context["widget"] |= {"given": value or {}, "lines": self.item.options, "reasons": self.item.reasons}
        return context
