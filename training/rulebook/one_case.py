"""One case that several rulebooks decide, such as a shop's own and those that people have in mind who are wrong.

Most clauses of an altered rulebook are those of the one it comes from, and come to the same: that is worked out once.
"""

from collections.abc import Sequence

from training.rulebook.case import Case
from training.rulebook.geometry import CrownRule
from training.rulebook.measures import Facts
from training.rulebook.units import OnShelf
from training.trade.speech import language


class OneCase:
    """The facts of the case that is being decided, with what clauses came to of them.

    Facts differ by what of a rulebook they are computed with. They are forgotten when another case comes, another shelf
    or another language. It is meant for one thread.
    """

    __slots__ = ("_about", "_facts")

    def __init__(self) -> None:
        self._about: tuple[Case, Sequence[OnShelf], str] | None = None
        self._facts: list[Facts] = []

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
        about = self._about
        if about is None or about[0] is not case or about[1] is not shelf or about[2] != language():
            self._about, self._facts = (case, shelf, language()), []
        for known in self._facts:
            if (known.crown is crown and known.margin_mm == margin_mm and known.free_mm == free_mm
                    and known.prefer == prefer):  # fmt: skip
                return known
        found = Facts(case, crown, shelf, margin_mm, prefer, free_mm=free_mm)
        found.came_to, found.read = {}, {}
        self._facts.append(found)
        return found
