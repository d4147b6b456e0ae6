"""The fields of Check a tire, each made from what `tire_parts` says of it."""

from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from typing import Any, cast

from django.forms import CharField, Field, HiddenInput, Select

from training.forms.fields import TOO_LONG, Targets, choice, day, said, text
from training.forms.measured import ONE, READINGS, Measured, MeasuredByThumb
from training.forms.tire_parts import (
    DEPTHS,
    GAUGE,
    GAUGED,
    INJURY,
    INJURY_ROWS,
    LEANS,
    LOOKED,
    LOOKS,
    NONE_SEEN,
    PLACES,
    POSITION,
    PROPOSED,
    REPAIR,
    REPAIR_ROWS,
    SOUND,
    TIRE,
    Part,
    finding_name,
    lean_name,
    pressed_name,
    section_name,
)
from training.rulebook import vocabulary
from training.trade.speech import once_a_language, say
from training.trade.words import FINDING_WORDS, INJURY_WORDS, PURPOSE_TITLES, capital

MOST_TARGETS = 3  # more stand in a list
SELECTED = ("roadside",)  # words too long for a target


def fields_of_a_tire(*, prefer: str, today: date) -> dict[str, Field]:
    """Every field of the form by its name. The units that the shop prefers, "in" or "mm", stand first.

    All forms of one language, unit and day share them: there are over a hundred, and nothing of a form is kept in them.
    """
    return dict(_fields(prefer, today))


@once_a_language(64)
def _fields(prefer: str, today: date) -> Mapping[str, Field]:
    fields: dict[str, Field] = {}
    for part in (*TIRE, *POSITION):
        fields[part.name] = _field(part, prefer)
    fields["casing"].required = True
    fields["purpose"].initial = "repair"
    fields["injuries"] = _choice("injuries", NONE_SEEN, say("Injuries"))
    for row in INJURY_ROWS:
        for part in INJURY:
            fields[f"injury_{row}_{part.name}"] = _field(part, prefer, say("Injury {row}", row=row))
        name = lean_name(row)
        fields[name] = _choice(name, (("", say("Not said")), *LEANS), say("It leans, on its way in"))
    fields["repairs"] = _choice("repairs", NONE_SEEN, say("Earlier repairs"))
    for row in REPAIR_ROWS:
        for part in REPAIR:
            name, group = f"repair_{row}_{part.name}", say("Earlier repair {row}", row=row)
            is_judged = part.name == "sound"
            fields[name] = _choice(name, SOUND, part.label) if is_judged else _field(part, prefer, group)
    for slug in meanings()["findings"]:
        fields[finding_name(slug)] = _choice(finding_name(slug), LOOKED, FINDING_WORDS[slug], LOOKS.get(slug, ""))
    for title, _ in findings_by_place():
        label = say("{title}, by one press", title=title)
        fields[pressed_name(section_name(title))] = CharField(label=label, required=False, widget=HiddenInput)
    for part in (*DEPTHS, PROPOSED):
        fields[part.name] = _field(part, prefer)
    fields["on"] = day(say("Day of the check"), initial=today)
    return fields


def finding_names() -> tuple[str, ...]:
    """The form fields of all findings."""
    return tuple(finding_name(slug) for slug in meanings()["findings"])


def findings_by_place() -> Iterator[tuple[str, tuple[str, ...]]]:
    """Where one looks, with the findings that are looked for there."""
    known = list(meanings()["findings"])
    for title, slugs in PLACES:
        yield title, tuple(slug for slug in slugs if slug in known)
    if rest := tuple(slug for slug in known if not any(slug in slugs for _, slugs in PLACES)):
        yield say("Further"), rest


@cache
def meanings() -> dict[str, dict[str, str]]:
    """What the words of a case mean, by the field that takes them."""
    words: dict[str, dict[str, str]] = {}
    for field, word, meaning in vocabulary():
        words.setdefault(field, {})[word] = meaning
    return words


def full_label(fields: Mapping[str, Field], name: str) -> str:
    """A field's label, with the row that it stands in."""
    for prefix, rows, words in (
        ("injury", INJURY_ROWS, say("Injury")),
        ("repair", REPAIR_ROWS, say("Earlier repair")),
    ):
        for row in rows:
            if name.startswith(f"{prefix}_{row}_"):
                return f"{words} {row}, {str(fields[name].label).lower()}"
    return str(fields[name].label)


def _field(part: Part, prefer: str, group: str = "") -> Field:
    said_as = f"{group}, {part.label}" if group else part.label
    if part.words:
        empty = {"casing": [("", say("Choose"))], "purpose": []}.get(part.name, [("", say("Not said"))])
        meant = {"injury.kind": INJURY_WORDS, "purpose": PURPOSE_TITLES}.get(part.words) or meanings()[part.words]
        choices = [*empty, *((word, capital(meaning)) for word, meaning in meant.items())]
        return _choice(part.name, choices, part.label, part.hint)
    if part.flags:
        return _choice(part.name, (("", say("Not said")), *part.flags), part.label, part.hint)
    if part.of:
        measured = Measured(
            part.label,
            *part.of.split(),
            prefer=prefer,
            hint=part.hint,
            how_many=READINGS if part.of == "tread" else ONE,
            is_signed=part.is_signed,
            said_as=f"{group}, {part.label.lower()}" if group else part.label,
            by_thumb=True,
        )
        if part.name == GAUGED:
            cast(MeasuredByThumb, measured.widget).sizes = GAUGE[prefer]
        return measured
    field = text(part.label, most=part.length, hint=part.hint, autocomplete="off")
    field.error_messages |= said(said_as, max_length=TOO_LONG)
    return field


def _choice(name: str, choices: Any, label: str, hint: str = "") -> Field:
    choices = list(choices)
    few = [value for value, _ in choices if value]
    widget = Targets(is_single=len(few) == 1) if len(few) <= MOST_TARGETS and name not in SELECTED else Select()
    return choice(label, choices, hint=hint, required=False, widget=widget)
