"""Check a tire: what was found, typed into one form, read by the rulebook's own parser.

The form knows where each of its fields stands in a case, so that a problem the rulebook names by its place in the case
appears beside the field it came from, in the rulebook's words.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from typing import Any

from django.forms import BoundField, CharField, HiddenInput, Select

from training.forms.base import PlainForm
from training.forms.fields import TOO_LONG, Targets, choice, day, said, text
from training.forms.measured import ONE, READINGS, UNIT, Measured, Typed, read_back
from training.forms.tire_needs import fields_at
from training.forms.tire_parts import (
    ANSWERS,
    DEPTHS,
    FIRST,
    HOLE,
    INJURY,
    INJURY_ROWS,
    INSIDE,
    LEANS,
    LOOKED,
    LOOKS,
    NONE_SEEN,
    OF_THE_CROWN,
    OF_THE_HOLE,
    OUTSIDE,
    PARTS,
    PLACES,
    POSITION,
    PROPOSED,
    REPAIR,
    REPAIR_ROWS,
    SOUND,
    TIRE,
    TIRE_PART,
    Part,
    finding_name,
    lean_name,
    pressed_name,
    section_name,
)
from training.rulebook import Case, CaseError, parse_case, vocabulary
from training.trade.speech import say
from training.trade.words import CASING_WORDS, FINDING_WORDS, INJURY_WORDS, capital

MOST_TARGETS = 3  # more stand in a list
SELECTED = ("purpose", "roadside")  # words too long for a target


@dataclass(frozen=True)
class Section:
    """A group of fields on the page. `is_folded` sections open on a press, and stand open when something is in them.

    `pressed` remembers what one press said of a group of findings; `by_press` are the fields that still say so.
    """

    slug: str
    title: str
    fields: tuple[BoundField, ...]
    part: str
    is_folded: bool = False
    pressed: BoundField | None = None
    by_press: tuple[str, ...] = ()

    @property
    def looked_at(self) -> int:
        """How many of its fields say something."""
        return sum(bool(field.data) for field in self.fields if field.form.is_bound)

    @property
    def is_untouched(self) -> bool:
        """Whether none of its fields says anything yet, so that one press can speak for all."""
        return not self.looked_at

    @property
    def can_be_emptied(self) -> bool:
        """Whether something is chosen here that no press said."""
        chosen = [field for field in self.fields if isinstance(field.field.widget, Targets)]
        return not self.by_press and any(field.data for field in chosen if field.form.is_bound)

    @property
    def asks_findings(self) -> bool:
        """Are these findings, of which one press can say that none was found?"""
        return all(field.name in finding_names() for field in self.fields)

    @property
    def is_one_row(self) -> bool:
        """Whether it is one row of targets that names itself."""
        return len(self.fields) == 1 and isinstance(self.fields[0].field.widget, Targets) and not self.asks_findings

    @property
    def is_open(self) -> bool:
        given = (field.errors or field.data for field in self.fields if field.form.is_bound and field.name != "on")
        return not self.is_folded or any(given)


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
        self.where: dict[str, str] = {}
        words = _words()
        for part in TIRE:
            self._add(part, part.name, "", words)
        self.fields["casing"].required = True
        self.fields["purpose"].initial = "repair"
        for part in POSITION:
            self._add(part, part.name, "", words)
        self._choose("injuries", NONE_SEEN, say("Injuries"))
        for row in INJURY_ROWS:
            for part in INJURY:
                self._add(part, f"injury_{row}_{part.name}", say("Injury {row}", row=row), words)
            self._choose(lean_name(row), (("", say("Not said")), *LEANS), say("It leans, on its way in"))
        self._choose("repairs", NONE_SEEN, say("Earlier repairs"))
        for row in REPAIR_ROWS:
            for part in REPAIR:
                self._add(part, f"repair_{row}_{part.name}", say("Earlier repair {row}", row=row), words)
            self._choose(f"repair_{row}_sound", SOUND)
        for slug in words["findings"]:
            self._choose(finding_name(slug), LOOKED, FINDING_WORDS[slug], LOOKS.get(slug, ""))
        for title, _ in self._findings_by_place():
            name = pressed_name(section_name(title))
            self.fields[name] = CharField(
                label=say("{title}, by one press", title=title), required=False, widget=HiddenInput
            )
        for part in (*DEPTHS, PROPOSED):
            self._add(part, part.name, "", words)
        self.fields["on"] = day(say("Day of the check"), initial=today)

    def sections(self) -> Iterator[Section]:
        """The page's groups that ask for something, in the order of the work."""
        return (section for section in self._sections() if section.fields)

    @property
    def is_first_step(self) -> bool:
        """Whether the page asks only what has to be known before the rest can be asked."""
        return self.asks == FIRST

    def findings_in(self, slug: str) -> tuple[str, ...]:
        """The findings that the page asks for in one section; none where it has no such section of findings."""
        return tuple(
            field.name for one in self.sections() if one.slug == slug and one.asks_findings for field in one.fields
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

    def _sections(self) -> Iterator[Section]:
        yield Section("tire", say("The tire"), self._bound(FIRST), TIRE_PART)
        yield from self._sections_of_holes()
        places = list(self._findings_by_place())
        yield self._findings(*places[0], INSIDE)
        for place, row in enumerate(REPAIR_ROWS):
            names = [f"repair_{row}_{part.name}" for part in REPAIR]
            if place == 0:
                yield Section("repairs", say("Earlier repairs"), self._bound(("repairs",)), INSIDE)
            title = say("Earlier repair {row}", row=row)
            yield Section(f"repair-{row}", title, self._bound(names), INSIDE, is_folded=True)
        for title, slugs in places[1:]:
            yield self._findings(title, slugs, OUTSIDE)
            if "excessive-wear" in slugs:
                yield Section("depths", say("Tread depth"), self._bound(("depths_1", "depths_2")), OUTSIDE)
        above = (*FIRST, *OF_THE_CROWN)
        rest = [part.name for part in TIRE if part.name not in above]
        yield Section("sidewall", say("On the sidewall"), self._bound(rest), OUTSIDE, is_folded=True)
        use = self._bound(part.name for part in POSITION)
        is_for_use = str(self.data.get("purpose", "")) == "service"
        yield Section("use", say("Vehicle, wheel and pressure"), use, OUTSIDE, is_folded=not is_for_use)
        yield Section("rest", say("Proposal and day"), self._bound(("proposed", "on")), OUTSIDE, is_folded=True)

    def _sections_of_holes(self) -> Iterator[Section]:
        """The first hole with what its place is measured from; what few holes need, and further ones, folded."""
        for place, row in enumerate(INJURY_ROWS):
            names = [f"injury_{row}_{part.name}" for part in INJURY]
            if place:
                title = say("Injury {row}", row=row)
                yield Section(f"injury-{row}", title, self._bound((*names, lean_name(row))), HOLE, is_folded=True)
                continue
            first = [f"injury_{row}_{name}" for name in OF_THE_HOLE]
            rest = [name for name in names if name not in first]
            main = self._bound((*first, lean_name(row), *OF_THE_CROWN))
            yield Section(f"injury-{row}", say("Injury {row}", row=row), main, HOLE)
            yield Section("injuries", say("Injuries"), self._bound(("injuries",)), HOLE)
            more = say("More of injury {row}", row=row)
            yield Section(f"injury-{row}-more", more, self._bound(rest), HOLE, is_folded=True)

    def _findings(self, title: str, slugs: tuple[str, ...], part: str) -> Section:
        slug = section_name(title)
        fields = self._bound(finding_name(name) for name in slugs)
        return Section(slug, title, fields, part, pressed=self[pressed_name(slug)], by_press=self._by_press(slug))

    @property
    def parts_shown(self) -> tuple[str, ...]:
        """The parts on the page: those with something to correct, else the one asked for; all where all is asked."""
        if self.asks is None:
            return PARTS
        wrong = [one.part for one in self.sections() if any(field.errors for field in one.fields if self.is_bound)]
        if wrong and not self.is_first_step:
            return tuple(part for part in PARTS if part in wrong)
        return (self.on_page or TIRE_PART,)

    def shown(self) -> tuple[Section, ...]:
        """The groups on the page."""
        return tuple(one for one in self.sections() if one.part in self.parts_shown)

    @property
    def meanings(self) -> tuple[tuple[str, str], ...]:
        """What the findings on the page are, in full."""
        slugs = {finding_name(slug): meaning for slug, meaning in _words()["findings"].items()}
        fields = [field for one in self.shown() if one.asks_findings for field in one.fields]
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
        return self.carried({field.name for one in self.shown() for field in one.fields} | self._pressed_on_page())

    def _pressed_on_page(self) -> set[str]:
        return {one.pressed.name for one in self.shown() if one.pressed is not None and one.pressed.value()}

    def part_of(self, section: str) -> str:
        """The part in which a section stands; "" for none."""
        return next((one.part for one in self.sections() if one.slug == section), "")

    def emptied(self, found: Mapping[str, str], section: str) -> dict[str, str]:
        """What was filled in, less what was chosen in one section."""
        chosen = [field for one in self.sections() if one.slug == section for field in one.fields]
        names = {field.name for field in chosen if isinstance(field.field.widget, Targets)}
        return {name: value for name, value in found.items() if name not in names}

    def still_open(self, paths: Iterable[str]) -> list[Section]:
        """The groups with only what is still to be looked at, the place that costs the least first."""
        wanted: dict[str, None] = {}
        for path in paths:
            wanted |= dict.fromkeys(self._begun(path)[:1])
        groups = []
        for one in self.sections():
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
        for section in self.sections():
            told += [(self._full_label(field.name), _shown(field)) for field in section.fields if field.value()]
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
        case_data = self._case(data)
        if self.errors:
            self._refuse_only_what_was_typed(case_data)
            return data
        try:
            self.case = parse_case(case_data)
        except CaseError as refused:
            self._place_problems(refused)
        return data

    def _refuse_only_what_was_typed(self, case_data: dict[str, Any]) -> None:
        # one round shows all problems, also when the casing is still missing
        try:
            parse_case(case_data)
        except CaseError as refused:
            self._place_problems(refused)

    def _place_problems(self, refused: CaseError) -> None:
        for line in refused.problems:
            path, _, words = line.partition(": ")
            name = self._field_at(path)
            if name is None:
                self.add_error(None, line)
            elif name not in self.errors:
                self.add_error(name, f"{self._full_label(name)}: {words}")

    def _field_at(self, path: str) -> str | None:
        while path:
            if path in self.where:
                return self.where[path]
            cut = max(path.rfind("."), path.rfind("["))
            path = path[:cut] if cut > 0 else ""
        return None

    def _case(self, data: Mapping[str, Any]) -> dict[str, Any]:
        """The case as the form holds it; `where` learns which field each place of it came from."""
        case: dict[str, Any] = {"edition": self.edition, "on": (data.get("on") or self.today).isoformat()}
        self.where = {"on": "on", "tire": "casing"} | {part.path: part.name for part in (*TIRE, *POSITION)}
        for part in (*TIRE, *POSITION):
            value = data.get(part.name)
            self._put(case, part.path, ANSWERS[value] if part.flags and value else value, part.name)
        for name, key, rows, parts, prefix in (
            ("injuries", "injuries", INJURY_ROWS, INJURY, "injury"),
            ("repairs", "earlier_repairs", REPAIR_ROWS, REPAIR, "repair"),
        ):
            case_rows = self._rows(data, key, rows, parts, prefix)
            if case_rows and data.get(name) == "none":
                label = self.fields[name].label
                self.add_error(
                    name,
                    say("{label}: you say that there is none, and give one below; empty one of the two.", label=label),
                )
            if case_rows or data.get(name) == "none":
                case[key] = case_rows
        findings = {}
        for slug in _words()["findings"]:
            if answer := data.get(finding_name(slug)):
                findings[slug] = ANSWERS[answer]
                self.where[f"findings.{slug}"] = finding_name(slug)
        if findings:
            case["findings"] = findings
        if depths := self._depths(data):
            case["tread_depths"] = depths
        self._put(case, "proposed", data.get("proposed"), "proposed")
        return case

    def _rows(
        self, data: Mapping[str, Any], key: str, rows: tuple[str, ...], parts: tuple[Part, ...], prefix: str
    ) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = []
        for row in rows:
            entry: dict[str, Any] = {}
            where = f"{key}[{len(found)}]"
            for part in parts:
                name = f"{prefix}_{row}_{part.name}"
                self._put(entry, part.path, data.get(name), name, at=f"{where}.")
            if prefix == "injury":
                self._lean(entry, data, row, where)
            if not entry:
                continue
            if "sound" in entry:
                entry["sound"] = ANSWERS[entry["sound"]]
            self.where[where] = f"{prefix}_{row}_kind"
            for side in ("length", "width"):  # a unit with one side only: the problem belongs to the other
                self.where.setdefault(f"{where}.unit.{side}", f"{prefix}_{row}_unit_{side}")
            found.append({"id": row, **entry})
        return found

    def _lean(self, entry: dict[str, Any], data: Mapping[str, Any], row: str, where: str) -> None:
        """Toward which side the channel runs, from the words inward and outward and the side it lies on."""
        leans, name = data.get(lean_name(row)), lean_name(row)
        if not leans:
            return
        if "azimuth" in entry:
            self.add_error(name, say("Lean: a side and a direction in degrees are given; give one of them."))
        elif "lateral" in entry:
            is_toward_plus = (leans == "out") != str(entry["lateral"]).startswith("-")
            self._put(entry, "azimuth", "0 deg" if is_toward_plus else "180 deg", name, at=f"{where}.")

    def _depths(self, data: Mapping[str, Any]) -> list[Any]:
        grooves = [data.get(part.name) or [] for part in DEPTHS]
        readings: list[Any] = []
        for groove, texts in enumerate(grooves, 1):
            for place, depth in enumerate(texts):
                self.where[f"tread_depths[{len(readings)}]"] = f"depths_{groove}"
                if grooves[1]:
                    station = f"{360 * place // len(texts)} deg"  # equally spaced, as the codes measure
                    readings.append({"groove": groove, "station": station, "depth": depth})
                else:
                    readings.append(depth)
        return readings

    def _put(self, case: dict[str, Any], path: str, value: Any, name: str, *, at: str = "") -> None:
        if value is None or value == "":
            return
        *groups, last = path.split(".")
        target = case
        for group in groups:
            target = target.setdefault(group, {})
        target[last] = value
        self.where[at + path] = name

    def _add(self, part: Part, name: str, group: str, words: Mapping[str, Mapping[str, str]]) -> None:
        if part.words:
            empty = {"casing": [("", say("Choose"))], "purpose": []}.get(part.name, [("", say("Not said"))])
            meant = INJURY_WORDS if part.words == "injury.kind" else words[part.words]
            choices = [*empty, *((word, capital(meaning)) for word, meaning in meant.items())]
            self._choose(name, choices, part.label, part.hint)
        elif part.flags:
            self._choose(name, (("", say("Not said")), *part.flags), part.label, part.hint)
        elif part.of:
            self.fields[name] = Measured(
                part.label,
                *part.of.split(),
                prefer=self.prefer,
                hint=part.hint,
                how_many=READINGS if part.of == "tread" else ONE,
                is_signed=part.is_signed,
                said_as=f"{group}, {part.label.lower()}" if group else part.label,
            )
        else:
            field = text(part.label, most=part.length, hint=part.hint, autocomplete="off")
            field.error_messages |= said(f"{group}, {part.label}" if group else part.label, max_length=TOO_LONG)
            self.fields[name] = field

    def _choose(self, name: str, choices: Any, label: str = "", hint: str = "") -> None:
        before = self.fields.get(name)
        label = label or (str(before.label) if before else name)
        choices = list(choices)
        few = [value for value, _ in choices if value]
        widget = Targets(is_single=len(few) == 1) if len(few) <= MOST_TARGETS and name not in SELECTED else Select()
        self.fields[name] = choice(
            label, choices, hint=hint or (str(before.help_text) if before else ""), required=False, widget=widget
        )

    def _findings_by_place(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        known = list(_words()["findings"])
        for title, slugs in PLACES:
            yield title, tuple(slug for slug in slugs if slug in known)
        if rest := tuple(slug for slug in known if not any(slug in slugs for _, slugs in PLACES)):
            yield say("Further"), rest

    def _bound(self, names: Iterable[str]) -> tuple[BoundField, ...]:
        return tuple(self[name] for name in names if self._is_shown(name))

    def _is_shown(self, name: str) -> bool:
        asked = name.replace("_lean", "_azimuth") if name in _LEAN_NAMES else name
        if self.asks is None or asked in self.asks:
            return True
        return self.is_bound and bool(self[name].data or name in self.errors)

    def _full_label(self, name: str) -> str:
        for prefix, rows, words in (
            ("injury", INJURY_ROWS, say("Injury")),
            ("repair", REPAIR_ROWS, say("Earlier repair")),
        ):
            for row in rows:
                if name.startswith(f"{prefix}_{row}_"):
                    return f"{words} {row}, {str(self.fields[name].label).lower()}"
        return str(self.fields[name].label)


_LEAN_NAMES = tuple(lean_name(row) for row in INJURY_ROWS)


def finding_names() -> tuple[str, ...]:
    """The form fields of all findings."""
    return tuple(finding_name(slug) for slug in _words()["findings"])


@cache
def _words() -> dict[str, dict[str, str]]:
    words: dict[str, dict[str, str]] = {}
    for field, word, meaning in vocabulary():
        words.setdefault(field, {})[word] = meaning
    return words


def _shown(field: BoundField) -> str:
    value = field.value()
    if isinstance(field.field, Measured) and isinstance(value, Typed):
        return field.field.takes.told(value) or value.text
    choices = dict(getattr(field.field, "choices", ()))
    return str(choices.get(value, value))
