"""Drawing items: one from a family by a seed, or a run of different ones for practice."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import count, groupby

from training.rulebook import Edition, RepairUnit

from .draft import Draft, NoSuchLimit, Redraw
from .model import SERIES, SKILLS, Item
from .registry import family, family_names, parts_of

_TRIES = 200
_PREFERENCES = ("in", "mm")


class CannotDraw(ValueError):
    """What was asked for cannot be drawn; the message names it and what is accepted."""


def draw(
    name: str, *, seed: str, edition: Edition, prefer: str = "in", units: Sequence[RepairUnit] | None = None
) -> Item:
    """One item of a family. The same arguments give the same item, byte for byte.

    `seed` is any text, `prefer` the shop's unit ("in" or "mm"), `units` its repair units if it has entered them. Raises
    UnknownFamily, CannotDraw for another unit, and NoSuchLimit where the edition says nothing on what the family asks.
    """
    if prefer not in _PREFERENCES:
        raise CannotDraw(f'prefer: "{prefer}" is not accepted; choose {" or ".join(_PREFERENCES)}')
    found = family(name)
    draft = Draft(found, seed=seed, edition=edition, prefer=prefer, units=units)
    for _ in range(_TRIES):
        try:
            return found.build(draft)
        except Redraw:
            continue
    raise CannotDraw(f'family "{name}": no fair question in {_TRIES} tries under {edition.name} {edition.version}')


def draw_different(
    names: Sequence[str],
    *,
    seeds: Sequence[str],
    edition: Edition,
    prefer: str,
    units: Sequence[RepairUnit] | None = None,
    tries: int = 50,
) -> list[Item]:
    """One item for each name, its seed beside it; a question that is already there is drawn again under another seed.

    Parts of a series that follow one another under one seed are drawn again together, so that they stay one tire.
    A family with fewer different questions than asked for repeats itself at last rather than failing. Where the edition
    or the house rules of a shop leave a family nothing fair to ask, another family of its skill stands in for it.
    """
    items: list[Item] = []
    seen: set[object] = set()
    together = groupby(zip(names, seeds, strict=True), key=_with())
    for group in (list(found) for _, found in together):
        for again in range(tries):
            drawn = [
                _draw_or_stand_in(
                    name, seed=f"{seed}/{again}" if again else seed, edition=edition, prefer=prefer, units=units
                )
                for name, seed in group
            ]
            if seen.isdisjoint(item.content for item in drawn):
                break
        seen.update(item.content for item in drawn)
        items += drawn
    return items


def _draw_or_stand_in(
    name: str, *, seed: str, edition: Edition, prefer: str, units: Sequence[RepairUnit] | None
) -> Item:
    try:
        return draw(name, seed=seed, edition=edition, prefer=prefer, units=units)
    except (CannotDraw, NoSuchLimit) as refused:
        skill = family(name).skill
        alone = [one for one in family_names() if one != name and not family(one).series]
        for other in sorted(alone, key=lambda one: family(one).skill != skill):
            try:
                return draw(other, seed=seed, edition=edition, prefer=prefer, units=units)
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
) -> list[Item]:
    """Practice on a skill (its slug) or on the named families, which take turns. Raises CannotDraw."""
    if isinstance(what, str):
        if what not in SKILLS:
            raise CannotDraw(f'skill: "{what}" is not accepted; choose {", ".join(SKILLS)}')
        names = [name for name in family_names() if family(name).skill == what and not family(name).series]
    else:
        names = list(what)
    if not names or count < 1:
        raise CannotDraw(f"practice: {count} items of {names} cannot be drawn; give a skill or families, and 1 or more")
    # Which family comes first depends on the seed, so that short practices do not always meet the same ones.
    start = sum(seed.encode()) % len(names)
    turns = [names[(start + turn) % len(names)] for turn in range(count)]
    return draw_different(
        turns,
        seeds=[f"{seed}/{turn}" for turn in range(count)],
        edition=edition,
        prefer=prefer,
        units=units,
    )


def draw_series(
    series: str, *, seed: str, edition: Edition, prefer: str = "in", units: Sequence[RepairUnit] | None = None
) -> list[Item]:
    """All parts of a case in several parts, one tire from its first question to its last. Raises CannotDraw."""
    names = parts_of(series)
    if not names:
        raise CannotDraw(f'series: "{series}" is not known; choose {", ".join(SERIES)}')
    return [draw(name, seed=seed, edition=edition, prefer=prefer, units=units) for name in names]
