"""Drawing items: one from a family by a seed, a run of different ones, or the parts of one case."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from itertools import count, groupby, islice

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.foretelling import Enough, Foretold
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.draws.fairness import KeyPlaces
from assessments.questions.draws.registry import family, family_names, parts_of
from assessments.questions.items.digest import digest
from assessments.questions.items.figures import Photo
from assessments.questions.items.item import SERIES, Item
from training.rulebook import Edition, OnShelf
from training.trade.lists import one_of

_TRIES = 200
_FEW = 12
_PREFERENCES = ("in", "mm")


class CannotDraw(ValueError):
    """What was asked for cannot be drawn; the message names it and what is accepted."""


def draw(
    name: str,
    *,
    seed: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[OnShelf] | None = None,
    casings: Collection[str] | None = None,
    photographs: Sequence[Photo] = (),
    assessed: bool = False,
) -> Item:
    """One item of a family in the language spoken. The same arguments give the same item, byte for byte.

    Another language may come to other options or another order, since lengths are weighed as they are read.

    `seed` is any text, `prefer` the shop's unit ("in" or "mm"), `units` its repair units if it has entered them,
    `casings` what the question may be about, None for all that the family can ask about, `photographs` those of the
    shop that may stand beside computed pictures: in practice alone. `assessed`: for an assessment, where no key rests
    on a value from memory. Raises UnknownFamily, CannotDraw for another unit, and NoSuchLimit where family or edition
    say nothing on what is asked.
    """
    if prefer not in _PREFERENCES:
        raise CannotDraw(f'prefer: "{prefer}" is not accepted; choose {one_of(_PREFERENCES)}')
    found = family(name)
    draft = Draft(
        found, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings, photographs=photographs
    )
    silent: NoSuchLimit | None = None
    for _ in range(_TRIES):
        try:
            item = draft.build()
            if not (assessed and rests_on_memory(item, edition)):
                return item
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


def rests_on_memory(item: Item, edition: Edition) -> bool:
    """Does something decide in this question that nobody read in its source, and no other source states?"""
    refused = (edition.clauses.get(str(line["clause"])) for line in item.explanation if line["holds"] is False)
    return any(clause is not None and all(one.kind == "from-memory" for one in clause.statements) for clause in refused)


def foretold(
    name: str,
    *,
    seed: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[OnShelf] | None = None,
    casings: Collection[str] | None = None,
) -> Foretold | None:
    """What `draw` of the same will come to, at a small part of its cost; None of a family that does not foretell, or
    where a draw fails before it is known. A draw that comes out at a later try may come to something else.
    """
    if not family(name).foretells:
        return None
    try:
        Draft(
            family(name),
            seed=seed,
            edition=edition,
            prefer=prefer,
            units=units,
            casings=casings,
            only_foretells=True,
        ).build()
    except Enough as told:
        return told.foretold
    except (Redraw, NoSuchLimit):
        pass
    return None


def draw_different(
    names: Sequence[str],
    *,
    seeds: Sequence[str],
    edition: Edition,
    prefer: str,
    units: Sequence[OnShelf] | None = None,
    casings: Collection[str] | None = None,
    tries: int = 50,
    shown: Collection[str] = (),
    off: Collection[str] = (),
    balanced: bool = False,
    photographs: Sequence[Photo] = (),
    assessed: bool = False,
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
        for again, seeds_of in enumerate(islice(_seeds(group, places if balanced else None), tries)):
            drawn = [
                _draw_or_stand_in(
                    name,
                    seed=seed,
                    edition=edition,
                    prefer=prefer,
                    units=units,
                    casings=casings,
                    off=off,
                    photographs=photographs,
                    assessed=assessed,
                )
                for (name, _), seed in zip(group, seeds_of, strict=True)
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


def _seeds(group: Sequence[tuple[str, str]], places: KeyPlaces | None) -> Iterator[list[str]]:
    """The seeds by which to draw what stands together, first its own; then others, and of a single question those by
    which its key comes to stand where there is room."""
    is_single = places is not None and len(group) == 1 and family(group[0][0]).formats == ("one",)
    for again in count():
        seeds = [f"{seed}/{again}" if again else seed for _, seed in group]
        if places is None or not is_single or places.may_take(group[0][0], seeds[0]):
            yield seeds


def _draw_or_stand_in(
    name: str,
    *,
    seed: str,
    edition: Edition,
    prefer: str,
    units: Sequence[OnShelf] | None,
    casings: Collection[str] | None,
    off: Collection[str],
    photographs: Sequence[Photo],
    assessed: bool,
) -> Item:
    def drawn(name: str) -> Item:
        return draw(
            name,
            seed=seed,
            edition=edition,
            prefer=prefer,
            units=units,
            casings=casings,
            photographs=photographs,
            assessed=assessed,
        )

    try:
        return drawn(name)
    except (CannotDraw, NoSuchLimit) as refused:
        skill = family(name).skill
        alone = [one for one in family_names() if one != name and one not in off and not family(one).series]
        for other in sorted(alone, key=lambda one: family(one).skill != skill):
            try:
                return drawn(other)
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


def draw_series(
    series: str,
    *,
    seed: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[OnShelf] | None = None,
    casings: Collection[str] | None = None,
) -> list[Item]:
    """All parts of a case in several parts, one tire from its first question to its last. Raises CannotDraw."""
    names = parts_of(series)
    if not names:
        raise CannotDraw(f'series: "{series}" is not known; choose {", ".join(SERIES)}')
    return [draw(name, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings) for name in names]
