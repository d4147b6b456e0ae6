"""A few cases that several rulebooks decide, such as a shop's own and those that people have in mind who are wrong.

Most clauses of an altered rulebook are those of the one it comes from, and come to the same: that is worked out once.
"""

from collections.abc import Sequence

from training.rulebook.case import Case
from training.rulebook.geometry import CrownRule
from training.rulebook.measures import Facts
from training.rulebook.units import OnShelf
from training.trade.speech import language

_MOST_CASES = 32  # of one question


class OneCase:
    """The facts of the cases that are being decided, with what clauses came to of them.

    Facts differ by the shelf and by what of a rulebook they are computed with. The oldest are forgotten when some other
    cases have come, all of them with another language. It is meant for one thread.
    """

    __slots__ = ("_about", "_language")

    def __init__(self) -> None:
        self._language = language()
        # by case and shelf, and with them, so that no other can take their identity
        self._about: dict[tuple[int, int], tuple[Case, Sequence[OnShelf], list[Facts]]] = {}

    def facts(
        self,
        case: Case,
        crown: CrownRule | None,
        shelf: Sequence[OnShelf],
        margin_mm: float,
        prefer: str,
        free_mm: float,
    ) -> Facts:
        """What `Facts` of the same are, the same object as before where nothing that counts is another."""
        if self._language != language():
            self._language = language()
            self._about.clear()
        kept = self._about.get((id(case), id(shelf)))
        if kept is None:
            if len(self._about) >= _MOST_CASES:
                del self._about[next(iter(self._about))]
            kept = self._about[id(case), id(shelf)] = case, shelf, []
        for known in kept[2]:
            if (known.crown is crown and known.margin_mm == margin_mm and known.free_mm == free_mm
                    and known.prefer == prefer):  # fmt: skip
                return known
        found = Facts(case, crown, shelf, margin_mm, prefer, free_mm=free_mm)
        found.came_to, found.read = {}, {}
        kept[2].append(found)
        return found
