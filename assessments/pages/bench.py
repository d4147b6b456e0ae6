"""What the draw bench shows: families and what they cover, and a draw with all that is behind it."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from assessments.models import Blueprint, DrawFlag, FamilyOff
from assessments.pages.explained import Reason, reasons_of
from assessments.pages.pictures import Shot, explained_shots
from assessments.pages.shown import show_answer
from assessments.questions import (
    FORMAT_WORDS,
    TOLD_TIRES,
    Cell,
    Family,
    Item,
    Picture,
    coverage,
    family,
    family_names,
    letter,
    misconceptions,
    right_in_words,
    wrong_in_words,
)
from training.rulebook import Edition
from training.trade.words import SKILLS


@dataclass(frozen=True)
class FamilyRow:
    """One family in the list of the bench. `casings` in words; both lists are empty where the edition asks nothing."""

    family: Family
    skill: str
    formats: tuple[str, ...]
    casings: tuple[str, ...]
    off: FamilyOff | None
    flags: int

    @property
    def has_draws(self) -> bool:
        """Whether the edition says something on what the family asks."""
        return bool(self.formats)


@dataclass(frozen=True)
class CoverageTable:
    """Skills against casings; a cell lists (format in words, how many families ask so)."""

    casings: tuple[str, ...]
    rows: tuple[tuple[str, tuple[tuple[str, tuple[tuple[str, int], ...]], ...]], ...]


@dataclass(frozen=True)
class Wrong:
    """A wrong answer as the bench shows it."""

    letter: str
    words: str
    is_unsafe: bool
    beliefs: tuple[str, ...]


@dataclass(frozen=True)
class Offered:
    """An option with what is behind it: whom it catches, or for a right one of several, who leaves it out."""

    letter: str
    text: str
    is_right: bool
    is_unsafe: bool
    beliefs: tuple[str, ...]


@dataclass(frozen=True)
class Drawn:
    """One draw with all that is behind it. `offered` are the options of a choice; other formats list `wrong`."""

    number: int
    item: Item
    figure: Picture | None  # a place that is right is marked on it
    offered: tuple[Offered, ...]
    choices: tuple[tuple[str, str], ...]  # (letter, text) of steps or lines
    reasons_offered: tuple[tuple[str, str], ...]
    right: tuple[str, ...]
    wrong: tuple[Wrong, ...]
    reasons: tuple[Reason, ...]
    flags: tuple[DrawFlag, ...]
    pictures: tuple[Shot, ...]

    @property
    def tire(self) -> str:
        """The casing it is about, in words, "" for none: a question does not say it where its scope does."""
        tire = (self.item.case or {}).get("tire")
        return TOLD_TIRES[tire["casing"]] if isinstance(tire, dict) and "casing" in tire else ""

    @property
    def situation(self) -> tuple[str, ...]:
        """The paragraphs before the question."""
        return self.item.open().situation

    @property
    def question(self) -> str:
        """What is asked."""
        return self.item.open().question

    @property
    def path(self) -> str:
        """The seed as addresses carry it."""
        return path_of(self.item)


def path_of(item: Item) -> str:
    """The seed of a draw without its namespace."""
    return item.seed.partition(":")[2]


def stand_ins(cells: Iterable[Cell]) -> list[tuple[str, str]]:
    """(title of the family that stands in, titles of those it stands in for), from the cells of a plan."""
    return [
        (family(cell.family).title, ", ".join(str(family(name).title) for name in cell.instead_of))
        for cell in cells
        if cell.instead_of
    ]


def stand_ins_of(blueprint: Blueprint) -> list[tuple[str, str]]:
    """The same from the cells a form's blueprint was stored with; families we no longer have are left out."""
    known = set(family_names())
    cells = [
        Cell(cell["family"], cell["count"], tuple(name for name in cell.get("instead_of", ()) if name in known))
        for cell in blueprint.cells
        if cell["family"] in known
    ]
    return stand_ins(cells)


def family_rows(edition: Edition, *, off: Mapping[str, FamilyOff], flags: Iterable[DrawFlag]) -> list[FamilyRow]:
    """Every family by skill, then title; no query."""
    flagged = Counter(flag.family for flag in flags)
    order = list(SKILLS)
    rows = [
        FamilyRow(
            family=family(one.family),
            skill=SKILLS[family(one.family).skill],
            formats=tuple(FORMAT_WORDS[form] for form in FORMAT_WORDS if any(form == f for _, f in one.counts)),
            casings=tuple(words for slug, words in TOLD_TIRES.items() if any(slug == c for c, _ in one.counts)),
            off=off.get(one.family),
            flags=flagged[one.family],
        )
        for one in coverage(edition)
    ]
    return sorted(rows, key=lambda row: (order.index(row.family.skill), str(row.family.title)))


def coverage_table(edition: Edition, *, off: Iterable[str]) -> CoverageTable:
    """How many families ask each skill, of which casing and in which format; families switched off are left out."""
    without = set(off)
    counts: Counter[tuple[str, str, str]] = Counter()
    for one in coverage(edition):
        if one.family not in without:
            counts.update((family(one.family).skill, casing, form) for casing, form in one.counts)
    casings = [casing for casing in TOLD_TIRES if any(casing == c for _, c, _ in counts)]
    rows = []
    for skill, title in SKILLS.items():
        cells = []
        for casing in casings:
            found = [
                (words, counts[skill, casing, form])
                for form, words in FORMAT_WORDS.items()
                if counts[skill, casing, form]
            ]
            cells.append((TOLD_TIRES[casing], tuple(found)))
        rows.append((title, tuple(cells)))
    return CoverageTable(tuple(TOLD_TIRES[casing] for casing in casings), tuple(rows))


def drawn(number: int, item: Item, flags: Iterable[DrawFlag], address: Callable[[str, int], str]) -> Drawn:
    """One draw opened up; no query. `address` is that of a picture, by the draw's path and the picture's number."""
    is_choice = item.format in ("one", "several")
    right = (item.key,) if isinstance(item.key, str) else item.key
    listed = [(letter(option.id), option) for option in item.options]
    return Drawn(
        number=number,
        item=item,
        figure=show_answer(item, None).figure,
        offered=tuple(
            Offered(
                place,
                item.line_of(option),
                isinstance(right, tuple) and option.id in right,
                option.id in item.unsafe,
                _titles(item.distractors.get(option.id, item.omissions.get(option.id, ()))),
            )
            for place, option in listed
            if is_choice
        ),
        choices=tuple((place, option.text) for place, option in listed if not is_choice),
        reasons_offered=tuple((letter(option.id), option.text) for option in item.reasons),
        right=right_in_words(item),
        wrong=tuple(
            Wrong(one.letter, one.words, one.is_unsafe, _titles(one.misconceptions)) for one in wrong_in_words(item)
        ),
        reasons=reasons_of(item),
        flags=tuple(flag for flag in flags if flag.seed == item.seed),
        pictures=tuple(explained_shots(item.figure, lambda place: address(path_of(item), place))),
    )


def _titles(names: Iterable[str]) -> tuple[str, ...]:
    known = misconceptions()
    return tuple(known[name].title for name in names if name in known)
