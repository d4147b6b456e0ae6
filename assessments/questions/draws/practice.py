"""Practice: questions on a skill or on some families, and the next one chosen by what it would tell of the person."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace
from itertools import islice

from assessments.questions.diagnosis.diagnosis import Diagnosis, Outlook
from assessments.questions.diagnosis.teaching import asks_about
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.registry import family, family_names
from assessments.questions.draws.sampling import CannotDraw, draw, draw_different
from assessments.questions.items.digest import digest
from assessments.questions.items.figures import Photo
from assessments.questions.items.item import Item
from training.rulebook import Edition, OnShelf
from training.trade.words import SKILLS

_CANDIDATES = 128  # questions looked at to choose the most telling one from
_OF_FAMILY = 24  # of them kept of each family: an old one goes when a new one comes
_TRIES_AGAIN = 24  # draws to come upon a question about one misconception
_AT_FIRST, _MORE = 6, 10  # drawn where none is kept yet, and each time after that

Draw = Callable[[str, str], Item]


class Candidate:
    """A question drawn ahead: what its answers would say, and what draws it again; not its picture or explanation."""

    __slots__ = ("digest", "family", "outlook", "seed")

    def __init__(self, item: Item) -> None:
        self.family, self.seed, self.digest = item.family, item.seed, digest(item)
        self.outlook = Outlook(replace(item, figure=None, explanation=(), case=None))


class Ahead:
    """Questions drawn ahead to choose among, all under one edition, for one shelf, about the same casings, and in one
    language.

    Each is asked once. A few are added each time, so that a choice among many costs a few draws. Threads may share it:
    what is kept of a family is replaced as a whole, and a question that two of them choose at once is asked twice.
    """

    def __init__(self, *, at_first: int = _AT_FIRST, more: int = _MORE) -> None:
        self.at_first, self.more = at_first, more
        self._kept: dict[str, tuple[Candidate, ...]] = {}
        self._silent: set[str] = set()  # families that the edition leaves nothing to ask

    def of(self, names: Sequence[str]) -> Iterator[Candidate]:
        """What is kept of these families, in turns, the newest first."""
        for turn in range(1, _CANDIDATES + 1):
            turns = [kept[-turn] for name in names if len(kept := self._kept.get(name, ())) >= turn]
            if not turns:
                return
            yield from turns

    def add(self, names: Sequence[str], seed: str, draw: Draw) -> None:
        """Draw some more, of the families of which least is kept."""
        able = [name for name in names if name not in self._silent]
        kept = Counter({name: len(self._kept.get(name, ())) for name in able})
        for number in range(self.more if kept.total() else self.at_first):
            if not able:
                return
            name = min(able, key=kept.__getitem__)
            try:
                found = Candidate(draw(name, f"{seed}/{number}"))
            except (CannotDraw, NoSuchLimit):
                self._silent.add(name)
                able.remove(name)
                continue
            kept[name] += 1
            self._kept[name] = (*self._kept.get(name, ()), found)[-max(_OF_FAMILY, self.at_first) :]

    def take(self, chosen: Candidate) -> None:
        """Keep this question no longer: it is asked now."""
        name = chosen.family
        self._kept[name] = tuple(one for one in self._kept.get(name, ()) if one is not chosen)


def draw_practice(
    what: str | Sequence[str],
    *,
    seed: str,
    count: int,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[OnShelf] | None = None,
    casings: Collection[str] | None = None,
    beliefs: Diagnosis | None = None,
    shown: Collection[str] = (),
    off: Collection[str] = (),
    asked: Sequence[str] = (),
    ahead: Ahead | None = None,
    photographs: Sequence[Photo] = (),
) -> list[Item]:
    """Practice on a skill (its slug) or on the named families, which take turns. Raises CannotDraw.

    With `beliefs`, what earlier answers say of the person, the questions are those whose answers tell most: they try a
    suspected misconception again, and look for what was not asked yet. They are chosen among those of `ahead`, without
    it among fresh ones. `shown` holds the digests of earlier questions, `off` the families that must not stand in for
    one of these, `asked` the families of the questions before in this practice. `photographs` are those of the shop
    that may be shown; `ahead` must have been drawn with the same.
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
    names = [*names[start:], *names[:start]]
    chosen: list[Item] = []
    if beliefs is not None and beliefs.answers:

        def drawn(name: str, seed: str) -> Item:
            return draw(
                name, seed=seed, edition=edition, prefer=prefer, units=units, casings=casings, photographs=photographs
            )

        ahead = ahead or Ahead(at_first=64, more=0)
        ahead.add(names, seed, drawn)
        unseen = {one.digest: one for one in ahead.of(names) if one.digest not in shown}
        for one in _most_telling(list(islice(unseen.values(), _CANDIDATES)), count, beliefs, asked):
            ahead.take(one)
            chosen.append(drawn(one.family, one.seed))
    missing = range(len(chosen), count)
    return chosen + draw_different(
        [names[turn % len(names)] for turn in missing],
        seeds=[f"{seed}/{turn}" for turn in missing],
        edition=edition,
        prefer=prefer,
        units=units,
        casings=casings,
        shown=shown,
        off=off,
        photographs=photographs,
    )


def draw_again(
    misconception: str,
    names: Sequence[str],
    *,
    seed: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[OnShelf] | None = None,
    casings: Collection[str] | None = None,
    shown: Collection[str] = (),
    photographs: Sequence[Photo] = (),
) -> list[Item]:
    """One question that asks about a misconception, of these families, which take turns; none where none comes up.

    One whose digest is in `shown` only where no other does.
    """
    known = set(family_names())  # a practice may have begun before a family went
    able = [name for name in dict.fromkeys(names) if name in known and family(name).asks_about(casings)]
    seen: list[Item] = []
    for number in range(_TRIES_AGAIN if able else 0):
        name = able[number % len(able)]
        try:
            item = draw(
                name,
                seed=f"{seed}/again/{number}",
                edition=edition,
                prefer=prefer,
                units=units,
                casings=casings,
                photographs=photographs,
            )
        except (CannotDraw, NoSuchLimit):
            continue
        if misconception in asks_about(item):
            if digest(item) not in shown:
                return [item]
            seen.append(item)
    return seen[:1]


def _most_telling(
    candidates: list[Candidate], count: int, beliefs: Diagnosis, asked: Sequence[str]
) -> Iterator[Candidate]:
    """So many of the questions, each time the one that tells most beside those chosen before; each family its share."""
    families, whole = len({one.family for one in candidates}), count + len(asked)
    most = -(-whole // max(1, families)) + (1 if families < whole or asked else 0)
    before = Counter(asked)
    for _ in range(min(count, len(candidates))):
        allowed = [one for one in candidates if before[one.family] < most] or candidates
        best = max(allowed, key=lambda one: one.outlook.information(beliefs))
        yield best
        candidates.remove(best)
        before[best.family] += 1
        beliefs = beliefs.asked_about(best.outlook.names)
