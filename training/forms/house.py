"""House rules and repair units as an owner types them in."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, cast

from django import forms
from django.forms import BoundField

from training.forms.base import PlainForm
from training.forms.fields import choice, choices, said, text
from training.forms.measured import LIMITS, RANGE, Measured
from training.models import UnitKind
from training.rulebook import (
    MEASURES,
    Clause,
    Edition,
    HouseRule,
    HouseRuleError,
    HouseRules,
    adjustable_clauses,
    parse_quantity,
    read_house_rules,
    settle,
    words_to_choose,
)
from training.trade.measures import as_read
from training.trade.speech import say, saying
from training.trade.words import CASING_WORDS, CASINGS, capital, written

_MOST_BYTES = 64 * 1024
_INCOMPLETE = saying("the page was not complete; open it again.")
_NO_LENGTH = saying("it is empty; give a length, such as 6 mm.")
_WITH_SIDES = frozenset({UnitKind.PATCH, UnitKind.ONE_PIECE})
_LENGTHS = {
    "length": (saying("Length, toward the beads"), saying("Of a patch or one-piece unit.")),
    "width": (saying("Width, around the tire"), saying("Of a patch or one-piece unit.")),
    "stem_diameter": (saying("Stem diameter"), saying("Of a one-piece unit only.")),
    "injury_min": (
        saying("Smallest injury"),
        saying("Of a stem only: the smallest hole it fills, by the maker's table."),
    ),
    "injury_max": (
        saying("Largest injury"),
        saying("After damage removal, by the maker's table. The rulebook's limit holds too."),
    ),
}
# a length that only some kinds have: which, what is said where it is missing, and where it is too much
_NEEDED = {
    "length": (_WITH_SIDES, _NO_LENGTH, saying("a stem has no sides; leave this empty.")),
    "width": (_WITH_SIDES, _NO_LENGTH, saying("a stem has no sides; leave this empty.")),
    "stem_diameter": (
        frozenset({UnitKind.ONE_PIECE}),
        saying("it is empty; a one-piece unit has a stem, give its diameter."),
        saying("only a one-piece unit has a stem of its own; leave this empty."),
    ),
    "injury_min": (
        frozenset({UnitKind.STEM}),
        saying("it is empty; give the smallest hole the stem fills, such as 3 mm."),
        saying("only a stem has it; leave this empty."),
    ),
}
_THE_TIRE = saying("The tire")
# where a clause stands on the page, by what its quantity is about
_SUBJECTS = (
    (saying("The injury"), ("injury",)),
    (saying("Repairs beside it and before it"), ("repairs", "repair", "proposed")),
    (saying("Tread"), ("tread",)),
    (_THE_TIRE, ()),
    (saying("The work"), ("job",)),
)


@dataclass(frozen=True)
class Group:
    """Fields on one subject; open where something is filled in or wrong."""

    title: str
    limits: tuple[BoundField, ...]
    choices: tuple[BoundField, ...]
    is_open: bool


class HouseRulesForm(PlainForm):
    """One field for each limit that can be made stricter. Once valid, `rules` are the settled house rules.

    An empty field, or the rulebook's own limit, leaves the rulebook's limit as it is.
    """

    marks_optional = False
    rules: HouseRules

    def __init__(self, *args: Any, edition: Edition, standing: HouseRules, prefer: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.edition, self.standing = edition, standing
        self.clauses = {clause.id: clause for clause in adjustable_clauses(edition)}
        for clause in self.clauses.values():
            self.fields[clause.id] = _choice(clause, prefer) if words_to_choose(clause) else _limit(clause, prefer)
            self.fields[clause.id].initial = _initial(clause, standing.rule(clause.id))

    def groups(self) -> Iterator[Group]:
        """The fields by subject, in the rulebook's order."""
        for heading, _ in _SUBJECTS:
            names = [name for name, clause in self.clauses.items() if _subject(clause) == heading]
            ticked = tuple(self[name] for name in names if words_to_choose(self.clauses[name]))
            limits = tuple(self[name] for name in names if not words_to_choose(self.clauses[name]))
            is_open = any(field.errors or self.standing.rule(field.name) for field in (*limits, *ticked))
            if names:
                yield Group(heading, limits, ticked, is_open)

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        entered = []
        for name, clause in self.clauses.items():
            limits = tuple(data.get(name) or ())
            old = self.standing.rule(name)
            if words_to_choose(clause) and not limits and name not in self.errors:
                self.add_error(name, say("{title}: nothing is ticked; tick at least one.", title=clause.title))
            elif limits:
                note = old.note if old is not None and old.limits == limits else ""
                entered.append(HouseRule(name, limits, None, note))
        try:
            self.rules = settle(self.edition, HouseRules(tuple(entered)))
        except HouseRuleError as refused:
            for problem in refused.problems:
                self.add_error(problem.clause, f"{self.clauses[problem.clause].title}: {problem.text}.")
        return data


class HouseFileForm(PlainForm):
    """House rules as TOML, pasted or as a file. Once valid, `rules` are the settled house rules."""

    rules: HouseRules
    file = forms.FileField(
        required=False,
        label=saying("A file"),
        help_text=saying("A TOML file such as this page gives out."),
        widget=forms.FileInput(attrs={"accept": ".toml,text/plain"}),
        error_messages={
            "invalid": saying("A file: nothing was sent; choose a file."),
            "empty": saying("A file: it is empty."),
        },
    )
    text = forms.CharField(
        required=False,
        label=saying("Or its text"),
        strip=False,
        widget=forms.Textarea(attrs={"rows": 12, "spellcheck": "false"}),
    )

    def __init__(self, *args: Any, edition: Edition, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.edition = edition

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        file, text = data.get("file"), data.get("text") or ""
        field = "text" if file is None else "file"
        if file is not None:
            if file.size > _MOST_BYTES:
                kept = _MOST_BYTES // 1024
                self.add_error(
                    "file",
                    say("A file: {size} KiB is too large; give at most {kept} KiB.", size=file.size // 1024, kept=kept),
                )
                return data
            try:
                text = file.read().decode("utf-8")
            except UnicodeDecodeError:
                self.add_error("file", say("A file: this is not text; give a TOML file."))
                return data
        if not text.strip() and not self.errors:
            self.add_error("text", say("Or its text: both are empty; choose a file, or paste its text."))
        elif not self.errors:
            try:
                self.rules = settle(self.edition, read_house_rules(text, self.edition))
            except HouseRuleError as refused:
                self.add_error(field, [f"{problem}." for problem in refused.problems])
        return data


class SetRulesForm(PlainForm):
    """The press that puts house rules in force: what was shown, what it was compared with, and why."""

    rules = forms.CharField(required=False, strip=False, widget=forms.HiddenInput)
    base = forms.IntegerField(
        min_value=0,
        widget=forms.HiddenInput,
        error_messages=said(saying("House rules"), required=_INCOMPLETE, invalid=_INCOMPLETE, min_value=_INCOMPLETE),
    )
    reason = text(saying("Why"), most=300, hint=saying("It is kept in the history, for whoever asks later."))


class UnitForm(PlainForm):
    """One size of repair unit or stem for the shelf; lengths come out as text with their unit."""

    marks_optional = False  # which fields are needed goes by the kind, and each says so
    disable_csrf = True  # the page has its own
    name = text(
        saying("Name"),
        most=60,
        empty=saying("it is empty; give what the shop calls it."),
        hint=saying('What the shop calls it, such as "patch, medium". No brand names: the plan prints it.'),
        autocomplete="off",
    )
    kind = choice(
        saying("Kind"),
        UnitKind.choices,
        empty=saying("nothing is chosen; choose one."),
        unknown=saying('"%(value)s" is not accepted; choose one of the three.'),
        widget=forms.RadioSelect,
    )
    casings = choices(
        saying("For which tires"),
        lambda: [(name, capital(words.short)) for name, words in CASING_WORDS.items()],
        empty=saying("nothing is ticked; tick at least one."),
        hint=saying("By the maker's table."),
    )

    def __init__(self, *args: Any, prefer: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, (label, hint) in _LENGTHS.items():
            empty = _NO_LENGTH if name == "injury_max" else ""
            self.fields[name] = Measured(label, "length", prefer=prefer, hint=hint, empty=empty)
        self.order_fields(["name", "kind", *_LENGTHS])
        self.helper.layout = self.helper.build_default_layout(self)

    def clean_name(self) -> str:
        name = " ".join(cast(str, self.cleaned_data["name"]).split())
        if not name.isprintable():
            raise forms.ValidationError(say("Name: it has characters that cannot be printed; give plain text."))
        return name

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        sizes = {name: self._length(name) for name in (*_NEEDED, "injury_max")}
        injury, smallest = sizes["injury_max"], sizes["injury_min"]
        for name, (kinds, needed, not_here) in _NEEDED.items():
            given, label = data.get(name), self.fields[name].label
            if data.get("kind") in kinds and not given and name not in self.errors:
                self.add_error(name, f"{label}: {needed}")
            elif data.get("kind") in set(UnitKind.values) - kinds and given:
                self.add_error(name, f"{label}: {not_here}")
        for name in ("length", "width"):
            side = sizes[name]
            if side is not None and injury is not None and side.value <= injury.value and name not in self.errors:
                label = self.fields[name].label
                self.add_error(
                    name,
                    say(
                        "{label}: {side} does not cover an injury of {injury}; give more than that.",
                        label=label,
                        side=side,
                        injury=injury,
                    ),
                )
        if smallest is not None and injury is not None and smallest.value > injury.value:
            words = say(
                "Smallest injury: {smallest} is above the largest, {injury}; give no more than that.",
                smallest=smallest,
                injury=injury,
            )
            self.add_error("injury_min", words)
        return data

    def _length(self, name: str) -> Any:
        text = self.cleaned_data.get(name)
        if not text:
            return None
        length = parse_quantity(text, "length")
        if length.value <= 0:
            self.add_error(
                name,
                say(
                    "{label}: {length} is not above 0; give more than 0.", label=self.fields[name].label, length=length
                ),
            )
            return None
        return length


def _subject(clause: Clause) -> str:
    about = clause.quantity.partition(".")[0]
    return next((heading for heading, names in _SUBJECTS if about in names), _THE_TIRE)


def _limit(clause: Clause, prefer: str) -> forms.Field:
    how_many = RANGE if clause.of_edition.bound == "between" else LIMITS
    dimension = MEASURES[clause.quantity].dimension
    return Measured(clause.title, dimension, prefer=prefer, how_many=how_many, hint=_hint(clause, prefer))


def _choice(clause: Clause, prefer: str) -> forms.Field:
    bound, words = clause.of_edition.bound, words_to_choose(clause)
    ask = say("Tick what this shop accepts.") if bound == "must_be" else say("Tick what this shop does not accept.")
    offered = [(word, written(word)) for word in words]
    return choices(clause.title, offered, hint=f"{_hint(clause, prefer)} {ask}")


def _hint(clause: Clause, prefer: str) -> str:
    """What is measured, the rulebook's limit with the shop's unit first, and for which tires."""
    meaning = MEASURES[clause.quantity].meaning.partition(" [")[0].partition(";")[0].rstrip(".")
    is_for_all = set(clause.casings) == set(CASINGS)
    tires = say("every tire") if is_for_all else ", ".join(str(CASING_WORDS[casing].short) for casing in clause.casings)
    return say(
        "{meaning}. Rulebook: {printed}, for {tires}.",
        meaning=meaning,
        printed=as_read(clause.of_edition.told_in(prefer)),
        tires=tires,
    )


def _initial(clause: Clause, rule: HouseRule | None) -> str | list[str]:
    if words_to_choose(clause):
        return list(clause.of_edition.words if rule is None else rule.limits)
    if rule is None:
        return ""
    return (" to " if clause.of_edition.bound == "between" else "; ").join(rule.limits)
