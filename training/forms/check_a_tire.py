"""Check a tire: what was found, typed into one form, read by the rulebook's own parser.

The form knows where each of its fields stands in a case, so that a problem the rulebook names by its place in the case
appears beside the field it came from, in the rulebook's words.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from datetime import date
from functools import cached_property
from typing import Any

from django.forms import BoundField

from training.forms.base import PlainForm
from training.forms.fields import Targets
from training.forms.measured import UNIT, Measured, MeasuredByThumb, Typed, read_back
from training.forms.tire_case import CaseTyped
from training.forms.tire_fields import fields_of_a_tire, finding_names, full_label, meanings
from training.forms.tire_needs import fields_at
from training.forms.tire_parts import (
    FIRST,
    HOLE,
    INJURY_ROWS,
    INSIDE,
    OUTSIDE,
    PARTS,
    TIRE_PART,
    finding_name,
    lean_name,
    pressed_name,
)
from training.forms.tire_sections import Layout, Section
from training.rulebook import Case, CaseError, parse_case
from training.trade.speech import say
from training.trade.words import CASING_WORDS, capital


class TireForm(PlainForm):
    """What was found. Once valid, `case` is the rulebook's reading of it; empty fields were not examined.

    It reads every field; the page shows those of `asks`, and whatever was filled in (all where `asks` is None). The
    units that the shop prefers, "in" or "mm", stand first beside a number.
    """

    marks_optional = False
    disable_csrf = True
    case: Case

    def __init__(
        self,
        *args: Any,
        edition: str,
        today: date,
        asks: Collection[str] | None = None,
        prefer: str = "in",
        on_page: str = "",
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.edition, self.today, self.asks, self.prefer, self.on_page = edition, today, asks, prefer, on_page
        self.fields |= fields_of_a_tire(prefer=prefer, today=today)

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """The page's groups that ask for something, in the order of the work."""
        layout = Layout(
            bound=self._bound,
            pressed=lambda slug: self[pressed_name(slug)],
            by_press=self._by_press,
            is_for_use=str(self.data.get("purpose", "")) == "service",
            is_for_repair=str(self.data.get("purpose", "repair")) == "repair",
        )
        return tuple(section for section in layout.sections() if section.fields)

    @property
    def is_first_step(self) -> bool:
        """Whether the page asks only what has to be known before the rest can be asked."""
        return self.asks == FIRST

    def findings_in(self, slug: str) -> tuple[str, ...]:
        """The findings that the page asks for in one section; none where it has no such section of findings."""
        return tuple(
            field.name for one in self.sections if one.slug == slug and one.asks_findings for field in one.fields
        )

    def with_nothing_else(self, found: Mapping[str, str], section: str) -> dict[str, str]:
        """What was filled in, with all that is still open in a section of findings answered "not found".

        It remembers which answers came from this press.
        """
        names = self.findings_in(section)
        answered = [name for name in names if not found.get(name)]
        pressed = [name for name in names if name in answered or name in self._by_press(section)]
        if not answered:
            return dict(found)
        return {**found, **dict.fromkeys(answered, "no"), pressed_name(section): " ".join(pressed)}

    def without_press(self, found: Mapping[str, str], section: str) -> dict[str, str]:
        """What was filled in, less what one press said of a section of findings."""
        if not self.findings_in(section):
            return dict(found)
        taken_back = {*self._by_press(section), pressed_name(section)}
        return {name: value for name, value in found.items() if name not in taken_back}

    @cached_property
    def parts_shown(self) -> tuple[str, ...]:
        """The parts on the page: those with something to correct, else the one asked for; all where all is asked."""
        if self.asks is None:
            return PARTS
        wrong = [one.part for one in self.sections if any(field.errors for field in one.fields if self.is_bound)]
        if wrong and not self.is_first_step:
            return tuple(part for part in PARTS if part in wrong)
        return (self.on_page or TIRE_PART,)

    @cached_property
    def shown(self) -> tuple[Section, ...]:
        """The groups on the page."""
        return tuple(one for one in self.sections if one.part in self.parts_shown)

    @property
    def groups(self) -> tuple[Section, ...]:
        """What stands on the page at once, or unfolds one group after the other."""
        return tuple(one for one in self.shown if not one.is_folded)

    @property
    def more(self) -> tuple[Section, ...]:
        """What few tires need, behind one press."""
        return tuple(one for one in self.shown if one.is_folded)

    @property
    def more_title(self) -> str:
        """What stands behind that press."""
        titles = {
            HOLE: say("Further injuries, and what is rarely measured"),
            INSIDE: say("Earlier repairs, and what these look like"),
            OUTSIDE: say("Sidewall, vehicle, and what these look like"),
        }
        return titles.get(self.parts_shown[0], say("More")) if len(self.parts_shown) == 1 else say("More")

    @property
    def is_more_open(self) -> bool:
        """Whether something in it is filled in or wrong."""
        return any(one.is_open for one in self.more)

    @property
    def open_group(self) -> str:
        """The group of findings that stands open: one with something to correct, else the first that is not done."""
        groups = [one for one in self.groups if one.asks_findings]
        wrong = [one for one in groups if any(field.errors for field in one.fields if self.is_bound)]
        begun = [one for one in groups if one.looked_at < len(one.fields)]
        return next((one.slug for one in (*wrong, *begun)), "")

    @property
    def meanings(self) -> tuple[tuple[str, str], ...]:
        """What the findings on the page are, in full."""
        slugs = {finding_name(slug): meaning for slug, meaning in meanings()["findings"].items()}
        fields = [field for one in self.shown if one.asks_findings for field in one.fields]
        return tuple((str(field.label), f"{capital(slugs[field.name])}.") for field in fields)

    @property
    def is_in_parts(self) -> bool:
        """Whether the page is one of the three parts."""
        return len(self.parts_shown) == 1 and self.parts_shown[0] != TIRE_PART

    @property
    def place(self) -> int:
        """Which of the three parts the page is, from 1."""
        return PARTS.index(self.parts_shown[0])

    @property
    def part_title(self) -> str:
        """The head of the page."""
        return dict(self.parts_in_words)[self.parts_shown[0]] if len(self.parts_shown) == 1 else say("Check a tire")

    @property
    def parts_in_words(self) -> tuple[tuple[str, str], ...]:
        """Every part, with its title."""
        hole = say("The hole") if self.data.get("purpose", "repair") == "repair" else say("Holes and cuts")
        titles = (say("The tire"), hole, say("Inside the tire"), say("Outside and wheel"))
        return tuple(zip(PARTS, titles, strict=True))

    @property
    def part_before(self) -> str:
        """The part to go back to."""
        return PARTS[PARTS.index(self.parts_shown[0]) - 1]

    @property
    def part_after(self) -> tuple[str, str] | None:
        """The part that follows, with its title; None after the last."""
        at = PARTS.index(self.parts_shown[-1]) + 1
        return self.parts_in_words[at] if len(self.parts_shown) == 1 and at < len(PARTS) else None

    @property
    def tire_line(self) -> str:
        """Size, kind and where it is, in a line."""
        casing = CASING_WORDS.get(str(self.data.get("casing", "")))
        where = {"yes": say("on the wheel"), "no": say("off the wheel")}.get(str(self.data.get("on_wheel", "")), "")
        parts = (str(self.data.get("designation", "")).strip(), casing.one if casing else "", where)
        return ", ".join(str(part) for part in parts if part)

    def carried(self, shown: Collection[str]) -> list[tuple[str, str]]:
        """What was filled in elsewhere, to be sent along: name and value."""
        found = self.found() if self.is_bound else {}
        return [(name, value) for name, value in found.items() if name.removesuffix(UNIT) not in shown]

    @property
    def carried_past_the_page(self) -> list[tuple[str, str]]:
        """What was filled in that the page does not show."""
        return self.carried({field.name for one in self.shown for field in one.fields} | self._pressed_on_page())

    def _pressed_on_page(self) -> set[str]:
        return {one.pressed.name for one in self.shown if one.pressed is not None and one.pressed.value()}

    def filled_in(self, found: Mapping[str, str], pressed: str) -> dict[str, str]:
        """What was filled in, with a size that a field offers for one press, given as name and size."""
        name, _, size = pressed.partition(" ")
        field = self.fields.get(name)
        widget = field.widget if isinstance(field, Measured) else None
        if not isinstance(widget, MeasuredByThumb) or size not in widget.sizes:
            return dict(found)
        return {**found, name: size, name + UNIT: widget.units[0]}

    def place_of(self, pressed: str) -> str:
        """The place on the page of a field into which a size was filled by one press; "" for none."""
        name = pressed.partition(" ")[0]
        return f"#{self[name].id_for_label}" if name in self.fields else ""

    def part_of(self, section: str) -> str:
        """The part in which a section stands; "" for none."""
        return next((one.part for one in self.sections if one.slug == section), "")

    def emptied(self, found: Mapping[str, str], section: str) -> dict[str, str]:
        """What was filled in, less what was chosen in one section."""
        chosen = [field for one in self.sections if one.slug == section for field in one.fields]
        names = {field.name for field in chosen if isinstance(field.field.widget, Targets)}
        return {name: value for name, value in found.items() if name not in names}

    def still_open(self, paths: Iterable[str]) -> list[Section]:
        """The groups with only what is still to be looked at, the place that costs the least first."""
        wanted: dict[str, None] = {}
        for path in paths:
            wanted |= dict.fromkeys(self._begun(path)[:1])
        groups = []
        for one in self.sections:
            fields = tuple(field for field in one.fields if field.name in wanted)
            if fields:
                whole = one.asks_findings and len(fields) == len(one.fields)
                groups.append(replace(one, fields=fields, pressed=one.pressed if whole else None))
        order = list(wanted)
        return sorted(groups, key=lambda one: min(order.index(field.name) for field in one.fields))

    def _by_press(self, section: str) -> tuple[str, ...]:
        """The findings that one press for the section said were not there, as far as they still say so."""
        if not self.is_bound:
            return ()
        names = str(self.data.get(pressed_name(section), "")).split()
        return tuple(name for name in names if name in finding_names() and self.data.get(name) == "no")

    def anchor_of(self, path: str) -> str:
        """The place on this page where a fact of a case is typed in; empty where the page does not ask it.

        Of an injury or an earlier repair it is the first row that holds something, else the first.
        """
        names = self._begun(path)
        return str(self[names[0]].id_for_label) if names else ""

    def _begun(self, path: str) -> list[str]:
        names = [name for name in fields_at(path) if self._is_shown(name)]
        return [name for name in names if self.is_bound and self._is_begun(name)] or names

    def _is_begun(self, name: str) -> bool:
        row = name.rpartition("_")[0] if name.startswith(("injury_", "repair_")) else name
        return any(str(self.data.get(one, "")).strip() for one in self.fields if one.startswith(row))

    def found(self) -> dict[str, str]:
        """What was filled in, by field, with the unit shown beside each number."""
        given = {name: str(self.data.get(name, "")).strip() for name in self.fields}
        for name, field in self.fields.items():
            if isinstance(field, Measured) and given[name]:
                given[name + UNIT] = str(self.data.get(name + UNIT, ""))
        return {name: value for name, value in given.items() if value}

    def read_back(self) -> list[tuple[str, str]]:
        """How bare numbers were understood, by label."""
        return read_back(self)

    def entered(self) -> list[tuple[str, str]]:
        """What was typed, as (label, value) pairs in the order of the page, for print.

        Behind a group of findings stands what was said of it by one press.
        """
        told: list[tuple[str, str]] = []
        for section in self.sections:
            told += [(full_label(self.fields, field.name), _shown(field)) for field in section.fields if field.value()]
            if section.by_press:
                names = "; ".join(str(self.fields[name].label) for name in section.by_press)
                told.append(
                    (
                        say("{title}, by one press", title=section.title),
                        say("looked for all; not there: {names}", names=names),
                    )
                )
        return told

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        labels = {name: str(self.fields[name].label) for name in ("injuries", "repairs")}
        typed = CaseTyped(self.edition, self.today, labels)
        typed.read(data)
        for name, words in typed.contradictions.items():
            self.add_error(name, words)
        # one round shows all problems, also when the casing is still missing
        had_errors = bool(self.errors)
        try:
            case = parse_case(typed.case)
        except CaseError as refused:
            self._place_problems(refused, typed)
            return data
        if not had_errors:
            self.case = case
        return data

    def _place_problems(self, refused: CaseError, typed: CaseTyped) -> None:
        for line in refused.problems:
            path, _, words = line.partition(": ")
            name = typed.field_at(path)
            if name is None:
                self.add_error(None, line)
            elif name not in self.errors:
                self.add_error(name, f"{full_label(self.fields, name)}: {words}")

    def _bound(self, names: Iterable[str]) -> tuple[BoundField, ...]:
        return tuple(self[name] for name in names if self._is_shown(name))

    def _is_shown(self, name: str) -> bool:
        asked = name.replace("_lean", "_azimuth") if name in _LEAN_NAMES else name
        if self.asks is None or asked in self.asks:
            return True
        return self.is_bound and bool(self[name].data or name in self.errors)


_LEAN_NAMES = tuple(lean_name(row) for row in INJURY_ROWS)


def _shown(field: BoundField) -> str:
    value = field.value()
    if isinstance(field.field, Measured) and isinstance(value, Typed):
        return field.field.takes.told(value) or value.text
    choices = dict(getattr(field.field, "choices", ()))
    return str(choices.get(value, value))
