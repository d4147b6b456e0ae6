"""Drawing items: one from a family by a seed, or a run of different ones for practice."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Sequence
from itertools import count, groupby

from assessments.questions.diagnosis.diagnosis import Diagnosis, Outlook
from assessments.questions.drafts.draft import Draft, NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.draws.fairness import KeyPlaces
from assessments.questions.draws.registry import family, family_names, parts_of
from assessments.questions.items.digest import digest
from assessments.questions.items.item import SERIES, Item
from training.rulebook import Edition, RepairUnit
from training.trade.lists import one_of
from training.trade.words import SKILLS

_TRIES = 200
_FEW = 12
_CANDIDATES = 64  # questions looked at to choose the most telling ones from
_PREFERENCES = ("in", "mm")


class CannotDraw(ValueError):
    """What was asked for cannot be drawn; the message names it and what is accepted."""


def draw(
    name: str,
    *,
    seed: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[RepairUnit] | None = None,
    casings: Collection[str] | None = None,
) -> Item:
    """One item of a family. The same arguments give the same item, byte for byte.

    `seed` is any text, `prefer` the shop's unit ("in" or "mm"), `units` its repair units if it has entered them,
    `casings` what the question may be about, None for all that the family can ask about. Raises UnknownFamily,
    CannotDraw for another unit, and NoSuchLimit where family or edition say nothing on what is asked.
    """
    if prefer not in _PREFERENCES:
        raise CannotDraw(f'prefer: "{prefer}" is not accepted; choose {one_of(_PREFERENCES)}')
    found = family(name)
    draft = Draft(found, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings)
    silent: NoSuchLimit | None = None
    for _ in range(_TRIES):
        try:
            return found.build(draft)
        except Redraw:
            continue
        except NoSuchLimit as refused:
            # Another casing may come up, of which the edition says something.
            silent = refused
            if len(draft.casings) < 2:
                break
    if silent is not None:
        raise silent
    raise CannotDraw(f'family "{name}": no fair question in {_TRIES} tries under {edition.name} {edition.version}')


def draw_different(
    names: Sequence[str],
    *,
    seeds: Sequence[str],
    edition: Edition,
    prefer: str,
    units: Sequence[RepairUnit] | None = None,
    casings: Collection[str] | None = None,
    tries: int = 50,
    shown: Collection[str] = (),
    off: Collection[str] = (),
    balanced: bool = False,
) -> list[Item]:
    """One item for each name, its seed beside it; a question that is already there is drawn again under another seed.

    So is one that differs by nothing that determines its key, or whose digest is in `shown`, and, when `balanced`, one
    whose key would stand where enough keys stand.
    Parts of a series that follow one another under one seed are drawn again together, so that they stay one tire.
    A family with fewer different questions than asked for repeats itself at last rather than failing. Where the edition
    or the house rules of a shop leave a family nothing fair to ask, another family of its skill stands in for it, none
    of those in `off`.
    """
    items: list[Item] = []
    seen: set[object] = set()
    kinds: set[str] = set()
    places = KeyPlaces()
    together = groupby(zip(names, seeds, strict=True), key=_with())
    for group in (list(found) for _, found in together):
        best: list[Item] = []
        best_marks: set[str] = set()
        least = 0
        for again in range(tries):
            drawn = [
                _draw_or_stand_in(
                    name,
                    seed=f"{seed}/{again}" if again else seed,
                    edition=edition,
                    prefer=prefer,
                    units=units,
                    casings=casings,
                    off=off,
                )
                for name, seed in group
            ]
            against = 4 * (not seen.isdisjoint(item.content for item in drawn))
            marks = {digest(item) for item in drawn}
            against += 2 * (not marks.isdisjoint(kinds) or any(mark in shown for mark in marks))
            against += balanced and len(drawn) == 1 and not places.takes(drawn[0])
            if not best or against < least:
                best, best_marks, least = drawn, marks, against
            # After some tries a place too many is put up with; a question seen before is not, while there are others.
            if against == 0 or (again >= _FEW and least <= 1):
                break
        seen.update(item.content for item in best)
        kinds |= best_marks
        for item in best:
            places.add(item)
        items += best
    return items


def _draw_or_stand_in(
    name: str,
    *,
    seed: str,
    edition: Edition,
    prefer: str,
    units: Sequence[RepairUnit] | None,
    casings: Collection[str] | None,
    off: Collection[str],
) -> Item:
    try:
        return draw(name, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings)
    except (CannotDraw, NoSuchLimit) as refused:
        skill = family(name).skill
        alone = [one for one in family_names() if one != name and one not in off and not family(one).series]
        for other in sorted(alone, key=lambda one: family(one).skill != skill):
            try:
                return draw(other, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings)
            except (CannotDraw, NoSuchLimit):
                continue
        raise refused


def _with() -> Callable[[tuple[str, str]], object]:
    """What tells the items apart that are drawn alone, and holds those together that are parts of one case."""
    places = count()

    def key(named: tuple[str, str]) -> object:
        name, seed = named
        return (family(name).series, seed) if family(name).series else next(places)

    return key


def draw_practice(
    what: str | Sequence[str],
    *,
    seed: str,
    count: int,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[RepairUnit] | None = None,
    casings: Collection[str] | None = None,
    beliefs: Diagnosis | None = None,
    shown: Collection[str] = (),
    off: Collection[str] = (),
    asked: Sequence[str] = (),
) -> list[Item]:
    """Practice on a skill (its slug) or on the named families, which take turns. Raises CannotDraw.

    With `beliefs`, what earlier answers say of the person, the questions are those whose answers tell most: they try a
    suspected misconception again, and look for what was not asked yet. `shown` holds the digests of earlier questions,
    `off` the families that must not stand in for one of these, `asked` the families of the questions before in this
    practice.
    """
    if isinstance(what, str):
        if what not in SKILLS:
            raise CannotDraw(f'skill: "{what}" is not accepted; choose {", ".join(SKILLS)}')
        names = [name for name in family_names() if family(name).skill == what and not family(name).series]
    else:
        names = list(what)
    names = [name for name in names if family(name).asks_about(casings)]
    if not names or count < 1:
        raise CannotDraw(f"practice: {count} items of {names} cannot be drawn; give a skill or families, and 1 or more")
    # Which family comes first depends on the seed, so that short practices do not always meet the same ones.
    start = 0 if asked else sum(seed.encode()) % len(names)
    names.sort(key=asked.count)
    telling = beliefs is not None and beliefs.answers > 0
    turns = [names[(start + turn) % len(names)] for turn in range(max(count, _CANDIDATES) if telling else count)]
    items = draw_different(
        turns,
        seeds=[f"{seed}/{turn}" for turn in range(len(turns))],
        edition=edition,
        prefer=prefer,
        units=units,
        casings=casings,
        shown=shown,
        off=off,
        tries=4 if telling else 50,
    )
    return items if beliefs is None or not telling else _most_telling(items, count, beliefs, asked)


def _most_telling(items: Sequence[Item], count: int, beliefs: Diagnosis, asked: Sequence[str]) -> list[Item]:
    """So many of the questions, each time the one that tells most beside those chosen before; each family its share."""
    families, whole = len({item.family for item in items}), count + len(asked)
    most = -(-whole // families) + (1 if families < whole or asked else 0)
    left = [Outlook(item) for item in _unlike(items)]
    chosen: list[Item] = []
    while left and len(chosen) < count:
        before = Counter(asked) + Counter(item.family for item in chosen)
        allowed = [one for one in left if before[one.item.family] < most] or left
        best = max(allowed, key=lambda one: one.information(beliefs))
        chosen.append(best.item)
        left.remove(best)
        beliefs = beliefs.asked_about(best.names)
    return chosen


def _unlike(items: Sequence[Item]) -> list[Item]:
    return list({item.content: item for item in items}.values())


def draw_series(
    series: str,
    *,
    seed: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[RepairUnit] | None = None,
    casings: Collection[str] | None = None,
) -> list[Item]:
    """All parts of a case in several parts, one tire from its first question to its last. Raises CannotDraw."""
    names = parts_of(series)
    if not names:
        raise CannotDraw(f'series: "{series}" is not known; choose {", ".join(SERIES)}')
    return [draw(name, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings) for name in names]


def series_in(edition: Edition, casings: Collection[str] | None = None) -> tuple[str, ...]:
    """The cases in several parts that the edition has enough rules for; found by drawing their first and last part."""

    def stands(series: str) -> bool:
        parts = parts_of(series)
        try:
            for name in (parts[0], parts[-1]):
                draw(name, seed="look", edition=edition, casings=casings)
        except (CannotDraw, NoSuchLimit):
            return False
        return True

    return tuple(series for series in SERIES if stands(series))
