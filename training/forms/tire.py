"""Check a tire: what was found, typed into one form, read by the rulebook's own parser.

The form knows where each of its fields stands in a case, so that a problem the rulebook names by its place in the case
appears beside the field it came from, in the rulebook's words.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

from django import forms
from django.forms import BoundField

from training.forms.base import PlainForm
from training.rulebook import Case, CaseError, parse_case, vocabulary
from training.tire_words import finding_words

INJURY_ROWS = ("A", "B", "C")
REPAIR_ROWS = ("R1", "R2")
LOOKED = (("", "Not looked"), ("no", "Not found"), ("yes", "Found"), ("doubt", "In doubt"))
SOUND = (("", "Not looked"), ("yes", "Sound"), ("no", "Not sound"), ("doubt", "In doubt"))
NONE_SEEN = (("", "As given here, or not looked"), ("none", "Looked all over: none"))
_ANSWERS: dict[str, bool | str] = {"no": False, "yes": True, "doubt": "doubt"}
# where an inspector looks, in the order of the work; a finding that is not named here comes under "Further"
_PLACES = (
    ("Inside", ("run-flat-damage", "liner-separation", "liner-blistered", "liner-cracked", "casing-separation",
                "sealant-residue", "contamination")),
    ("Outside and beads", ("bead-damage", "exposed-cord", "tread-separation", "bulge", "impact-damage",
                           "ozone-cracking", "weather-checking", "audible-leak")),
    ("Tread", ("excessive-wear", "wear-indicators-flush", "uneven-wear-separation")),
    ("Markings", ("tin-unreadable", "size-unreadable")),
)  # fmt: skip


@dataclass(frozen=True)
class Part:
    """One field: `path` is its place inside its group of the case, `words` the vocabulary's field for a choice."""

    name: str
    path: str
    label: str
    hint: str = ""
    words: str = ""
    length: int = 40


TIRE = (
    Part("casing", "tire.casing", "Casing", "By the ply material on the sidewall, not by load range.", "tire.casing"),
    Part("purpose", "purpose", "What it is wanted for", "", "purpose"),
    Part("on_wheel", "on_wheel", "Where it is now"),
    Part("build", "tire.build", "Build", "", "tire.build"),
    Part("designation", "tire.designation", "Size", 'As molded, for example 205/55R16 91V, or "unreadable".'),
    Part("date_code", "tire.date_code", "Date code", 'Week and year, for example 3219, or "unreadable".'),
    Part("outer_groove", "tire.outer_groove", "Centerline to outer groove",
         "To the inner edge of the outermost groove, for example 62 mm or 2 7/16 in."),
    Part("tread_width", "tire.tread_width", "Tread width", "For example 170 mm or 6 3/4 in."),
    Part("crown_thickness", "tire.crown_thickness", "Crown thickness", "Tread to liner, for example 13 mm or 1/2 in."),
    Part("jurisdiction", "jurisdiction", "State whose code applies", "For example US-UT."),
)  # fmt: skip
POSITION = (
    Part("vehicle", "position.vehicle", "Vehicle", "", "position.vehicle"),
    Part("axle", "position.axle", "Axle", "", "position.axle"),
    Part("recommended", "pressure.recommended", "Recommended pressure", "For example 33 psi or 230 kPa."),
    Part("found", "pressure.found", "Pressure as found", "For example 20 psi or 140 kPa."),
)
INJURY = (
    Part("kind", "kind", "Kind", "", "injury.kind"),
    Part("diameter", "diameter", "Diameter, prepared", "After damage removal, for example 6 mm or 1/4 in."),
    Part("before_removal", "before_removal", "Diameter before removal", "As found, for example 4 mm or 5/32 in."),
    Part("angle", "angle", "Angle", "From the perpendicular, for example 12 deg."),
    Part("lateral", "lateral", "Distance from the centerline", "With a minus on the other side: 20 mm or -3/4 in."),
    Part("azimuth", "azimuth", "Where the channel runs",
         "On its way in: 0 deg toward plus, 180 deg toward minus, 90 deg along the tread."),
    Part("station", "station", "Place around the tire",
         "From the identification number, for example 90 deg or 500 mm."),
    Part("zone", "zone", "Zone, if not measured", "", "injury.zone"),
    Part("length", "length", "Length of a cut", "For example 20 mm or 3/4 in."),
    Part("reaches", "reaches", "A cut reaches", "", "injury.reaches"),
)  # fmt: skip
REPAIR = (
    Part("kind", "kind", "Kind", "", "earlier_repair.kind"),
    Part("zone", "zone", "Zone", "", "earlier_repair.zone"),
    Part("sound", "sound", "Sound"),
    Part("injury", "injury", "Injury it closed", "For example 4 mm or 5/32 in."),
    Part("lateral", "lateral", "Distance from the centerline", "With a minus on the other side: 20 mm or -3/4 in."),
    Part("station", "station", "Place around the tire", "For example 90 deg or 500 mm."),
    Part("unit_length", "unit.length", "Unit, toward the beads", "For example 75 mm or 3 in."),
    Part("unit_width", "unit.width", "Unit, around the tire", "For example 65 mm or 2 1/2 in."),
)
DEPTHS = (
    Part("depths_1", "", "Tread depths in one groove",
         "At three places around the tire, for example 5/32 in, 6/32 in, 5/32 in.", length=120),
    Part("depths_2", "", "In the groove next to it", "At the same places.", length=120),
)  # fmt: skip
PROPOSED = Part("proposed", "", "A repair somebody proposes", "", "proposed")


@dataclass(frozen=True)
class Section:
    """A group of fields on the page. `is_folded` sections open on a press, and stand open when something is in them."""

    slug: str
    title: str
    fields: tuple[BoundField, ...]
    words: str = ""
    is_folded: bool = False

    @property
    def is_open(self) -> bool:
        given = (field.errors or field.data for field in self.fields if field.form.is_bound and field.name != "on")
        return not self.is_folded or any(given)


class TireForm(PlainForm):
    """What was found. Once valid, `case` is the rulebook's reading of it; empty fields were not examined."""

    marks_optional = False
    disable_csrf = True
    case: Case

    def __init__(self, *args: Any, edition: str, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.edition, self.today = edition, today
        self.where: dict[str, str] = {}
        words = _words()
        for part in TIRE:
            self._add(part, part.name, "", words)
        self.fields["casing"].required = True
        self._choose("on_wheel", (("", "Not said"), ("yes", "On the wheel"), ("no", "Off the wheel")))
        self.fields["purpose"].initial = "repair"
        for part in POSITION:
            self._add(part, part.name, "", words)
        self._choose("injuries", NONE_SEEN, "Injuries")
        for row in INJURY_ROWS:
            for part in INJURY:
                self._add(part, f"injury_{row}_{part.name}", f"Injury {row}, ", words)
        self._choose("repairs", NONE_SEEN, "Earlier repairs")
        for row in REPAIR_ROWS:
            for part in REPAIR:
                self._add(part, f"repair_{row}_{part.name}", f"Earlier repair {row}, ", words)
            self._choose(f"repair_{row}_sound", SOUND)
        for slug, meaning in words["findings"].items():
            self._choose(finding_name(slug), LOOKED, finding_words(slug), f"{_capital(meaning)}.")
        for part in (*DEPTHS, PROPOSED):
            self._add(part, part.name, "", words)
        self.fields["on"] = forms.DateField(
            label="Day of the check",
            required=False,
            initial=today,
            widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            error_messages={"invalid": "Day of the check: this is not a day; give one such as 2026-11-25."},
        )

    def sections(self) -> Iterator[Section]:
        """The page's groups, in the order of the work."""
        yield Section("tire", "The tire", self._bound(part.name for part in TIRE))
        for place, row in enumerate(INJURY_ROWS):
            names = [f"injury_{row}_{part.name}" for part in INJURY]
            if place == 0:
                names.insert(0, "injuries")
            yield Section(f"injury-{row}", f"Injury {row}", self._bound(names), is_folded=place > 0)
        for title, slugs in self._findings_by_place():
            yield Section(f"find-{title.split()[0].lower()}", title, self._bound(finding_name(slug) for slug in slugs))
        yield Section("depths", "Tread depth", self._bound(("depths_1", "depths_2")))
        for place, row in enumerate(REPAIR_ROWS):
            names = [f"repair_{row}_{part.name}" for part in REPAIR]
            if place == 0:
                names.insert(0, "repairs")
            yield Section(f"repair-{row}", f"Earlier repair {row}", self._bound(names), is_folded=place > 0)
        rest = (*(part.name for part in POSITION), "proposed", "on")
        yield Section("use", "Vehicle, pressure, proposal, day", self._bound(rest), is_folded=True)

    def entered(self) -> list[tuple[str, str]]:
        """What was typed, as (label, value) pairs in the order of the page, for print."""
        return [
            (self._full_label(field.name), _shown(field))
            for section in self.sections()
            for field in section.fields
            if field.value()
        ]

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
        self.where = {"on": "on", "tire": "casing"}
        for part in (*TIRE, *POSITION):
            self._put(case, part.path, data.get(part.name), part.name)
        if case.get("on_wheel"):
            case["on_wheel"] = _ANSWERS[case["on_wheel"]]
        for name, key, rows, parts, prefix in (
            ("injuries", "injuries", INJURY_ROWS, INJURY, "injury"),
            ("repairs", "earlier_repairs", REPAIR_ROWS, REPAIR, "repair"),
        ):
            case_rows = self._rows(data, key, rows, parts, prefix)
            if case_rows and data.get(name) == "none":
                label = self.fields[name].label
                self.add_error(name, f"{label}: you say that there is none, and give one below; empty one of the two.")
            if case_rows or data.get(name) == "none":
                case[key] = case_rows
        findings = {}
        for slug in _words()["findings"]:
            if answer := data.get(finding_name(slug)):
                findings[slug] = _ANSWERS[answer]
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
            if not entry:
                continue
            if "sound" in entry:
                entry["sound"] = _ANSWERS[entry["sound"]]
            self.where[where] = f"{prefix}_{row}_kind"
            for side in ("length", "width"):  # a unit with one side only: the problem belongs to the other
                self.where.setdefault(f"{where}.unit.{side}", f"{prefix}_{row}_unit_{side}")
            found.append({"id": row, **entry})
        return found

    def _depths(self, data: Mapping[str, Any]) -> list[Any]:
        grooves = [[text.strip() for text in (data.get(part.name) or "").split(",") if text.strip()] for part in DEPTHS]
        readings: list[Any] = []
        for groove, texts in enumerate(grooves, 1):
            for place, text in enumerate(texts):
                self.where[f"tread_depths[{len(readings)}]"] = f"depths_{groove}"
                if grooves[1]:
                    station = f"{360 * place // len(texts)} deg"  # equally spaced, as the codes measure
                    readings.append({"groove": groove, "station": station, "depth": text})
                else:
                    readings.append(text)
        return readings

    def _put(self, case: dict[str, Any], path: str, value: Any, name: str, *, at: str = "") -> None:
        if not value:
            return
        *groups, last = path.split(".")
        target = case
        for group in groups:
            target = target.setdefault(group, {})
        target[last] = value
        self.where[at + path] = name

    def _add(self, part: Part, name: str, group: str, words: Mapping[str, Mapping[str, str]]) -> None:
        if part.words:
            empty = {"casing": [("", "Choose")], "purpose": []}.get(part.name, [("", "Not said")])
            choices = [*empty, *((word, _capital(meaning)) for word, meaning in words[part.words].items())]
            self._choose(name, choices, part.label, part.hint)
        else:
            too_long = f"{group}{part.label}: %(show_value)d characters are too many; give at most {part.length}."
            self.fields[name] = forms.CharField(
                label=part.label,
                help_text=part.hint,
                required=False,
                max_length=part.length,
                widget=forms.TextInput(attrs={"autocomplete": "off"}),
                error_messages={"max_length": too_long},
            )

    def _choose(self, name: str, choices: Any, label: str = "", hint: str = "") -> None:
        before = self.fields.get(name)
        label = label or (str(before.label) if before else name)
        self.fields[name] = forms.ChoiceField(
            label=label,
            help_text=hint or (before.help_text if before else ""),
            choices=choices,
            required=False,
            error_messages={
                "required": f"{label}: nothing is chosen; choose one from the list.",
                "invalid_choice": f'{label}: "%(value)s" is not accepted; choose one from the list.',
            },
        )

    def _findings_by_place(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        known = list(_words()["findings"])
        for title, slugs in _PLACES:
            yield title, tuple(slug for slug in slugs if slug in known)
        if rest := tuple(slug for slug in known if not any(slug in slugs for _, slugs in _PLACES)):
            yield "Further", rest

    def _bound(self, names: Any) -> tuple[BoundField, ...]:
        return tuple(self[name] for name in names)

    def _full_label(self, name: str) -> str:
        for prefix, rows, words in (("injury", INJURY_ROWS, "Injury"), ("repair", REPAIR_ROWS, "Earlier repair")):
            for row in rows:
                if name.startswith(f"{prefix}_{row}_"):
                    return f"{words} {row}, {str(self.fields[name].label).lower()}"
        return str(self.fields[name].label)


def finding_name(slug: str) -> str:
    """The form field of a finding."""
    return f"find_{slug}"


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
    choices = dict(getattr(field.field, "choices", ()))
    return str(choices.get(value, value))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
