"""Drawing items: one from a family by a seed, or a run of different ones for practice."""

from __future__ import annotations

from collections.abc import Sequence

from training.rulebook import Edition, RepairUnit

from .draft import Draft, NoSuchLimit, Redraw
from .model import SKILLS, Item
from .registry import family, family_names

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

    A family with fewer different questions than asked for repeats itself at last rather than failing. Where the edition
    or the house rules of a shop leave a family nothing fair to ask, another family of its skill stands in for it.
    """
    items: list[Item] = []
    seen: set[object] = set()
    for name, seed in zip(names, seeds, strict=True):
        item = _draw_or_stand_in(name, seed=seed, edition=edition, prefer=prefer, units=units)
        for again in range(1, tries):
            if item.content not in seen:
                break
            item = _draw_or_stand_in(name, seed=f"{seed}/{again}", edition=edition, prefer=prefer, units=units)
        seen.add(item.content)
        items.append(item)
    return items


def _draw_or_stand_in(
    name: str, *, seed: str, edition: Edition, prefer: str, units: Sequence[RepairUnit] | None
) -> Item:
    try:
        return draw(name, seed=seed, edition=edition, prefer=prefer, units=units)
    except (CannotDraw, NoSuchLimit) as refused:
        skill = family(name).skill
        others = sorted((one for one in family_names() if one != name), key=lambda one: family(one).skill != skill)
        for other in others:
            try:
                return draw(other, seed=seed, edition=edition, prefer=prefer, units=units)
            except (CannotDraw, NoSuchLimit):
                continue
        raise refused


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
        names = [name for name in family_names() if family(name).skill == what]
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
