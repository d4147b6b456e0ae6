"""What the draw bench shows: families and what they cover, draws with all that is behind them, flags."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from django.db.models import QuerySet

from assessments.models import DrawFlag, FamilyOff
from assessments.queries.answers import Reason, reasons_of
from assessments.scenarios import SKILLS, Family, Item, family, misconceptions
from assessments.scenarios.coverage import coverage
from assessments.scenarios.telling import CASING_WORDS, FORMAT_WORDS, letter, right_answer, wrong_answers
from training.models import Shop
from training.rulebook import Edition


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
class Drawn:
    """One draw with all that is behind it."""

    number: int
    item: Item
    choices: tuple[tuple[str, str], ...]  # (letter, text) as offered
    reasons_offered: tuple[tuple[str, str], ...]
    right: tuple[str, ...]
    wrong: tuple[Wrong, ...]
    reasons: tuple[Reason, ...]
    flags: tuple[DrawFlag, ...]

    @property
    def path(self) -> str:
        """The seed without its namespace, as addresses carry it."""
        return self.item.seed.partition(":")[2]


def families_off(shop: Shop) -> dict[str, FamilyOff]:
    """The families the shop does not ask now, by name; one query."""
    return {row.family: row for row in FamilyOff.objects.filter(shop=shop, ended_at=None).select_related("by")}


def open_flags(shop: Shop) -> QuerySet[DrawFlag]:
    """Flags nobody has settled, the latest first."""
    return DrawFlag.objects.filter(shop=shop, resolved_at=None).select_related("by")


def flags_of(shop: Shop, family_name: str) -> QuerySet[DrawFlag]:
    """All flags on a family, settled ones too, the latest first."""
    return DrawFlag.objects.filter(shop=shop, family=family_name).select_related("by", "resolved_by")


def family_rows(edition: Edition, *, off: Mapping[str, FamilyOff], flags: Iterable[DrawFlag]) -> list[FamilyRow]:
    """Every family by skill, then title; no query."""
    flagged = Counter(flag.family for flag in flags)
    order = list(SKILLS)
    rows = [
        FamilyRow(
            family=family(one.family),
            skill=SKILLS[family(one.family).skill],
            formats=tuple(FORMAT_WORDS[form] for form in FORMAT_WORDS if any(form == f for _, f in one.counts)),
            casings=tuple(words for slug, words in CASING_WORDS.items() if any(slug == c for c, _ in one.counts)),
            off=off.get(one.family),
            flags=flagged[one.family],
        )
        for one in coverage(edition)
    ]
    return sorted(rows, key=lambda row: (order.index(row.family.skill), row.family.title))


def coverage_table(edition: Edition, *, off: Iterable[str]) -> CoverageTable:
    """How many families ask each skill, of which casing and in which format; families switched off are left out."""
    without = set(off)
    counts: Counter[tuple[str, str, str]] = Counter()
    for one in coverage(edition):
        if one.family not in without:
            counts.update((family(one.family).skill, casing, form) for casing, form in one.counts)
    casings = [casing for casing in CASING_WORDS if any(casing == c for _, c, _ in counts)]
    rows = []
    for skill, title in SKILLS.items():
        cells = []
        for casing in casings:
            found = [
                (words, counts[skill, casing, form])
                for form, words in FORMAT_WORDS.items()
                if counts[skill, casing, form]
            ]
            cells.append((CASING_WORDS[casing], tuple(found)))
        rows.append((title, tuple(cells)))
    return CoverageTable(tuple(CASING_WORDS[casing] for casing in casings), tuple(rows))


def drawn(number: int, item: Item, flags: Iterable[DrawFlag] = ()) -> Drawn:
    """One draw opened up; no query."""
    known = misconceptions()
    return Drawn(
        number=number,
        item=item,
        choices=tuple((letter(option.id), option.text) for option in item.options),
        reasons_offered=tuple((letter(option.id), option.text) for option in item.reasons),
        right=right_answer(item),
        wrong=tuple(
            Wrong(
                one.letter,
                one.words,
                one.is_unsafe,
                tuple(known[name].title for name in one.misconceptions if name in known),
            )
            for one in wrong_answers(item)
        ),
        reasons=reasons_of(item),
        flags=tuple(flag for flag in flags if flag.seed == item.seed),
    )
