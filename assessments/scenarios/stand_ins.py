"""A blueprint whose families a shop has switched off in part: others of the same skill stand in for them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import replace

from .blueprint import Blueprint, Cell
from .registry import family


def with_stand_ins(plan: Blueprint, *, off: Collection[str], among: Collection[str]) -> Blueprint:
    """The plan with the questions of the families in `off` given to others of the same skill, the least asked first.

    `among` are the families that have something to ask. A family without any stand-in stays: a form is never short of
    a skill. Each cell says in `instead_of` for which families it stands in.
    """
    counts = {cell.family: cell.count for cell in plan.cells}
    instead: dict[str, Counter[str]] = {}
    for cell in plan.cells:
        if cell.family not in off:
            continue
        skill = family(cell.family).skill
        alone = [name for name in sorted(among) if name not in off and not family(name).series]
        others = [name for name in alone if family(name).skill == skill]
        if not others:
            continue
        del counts[cell.family]
        for _ in range(cell.count):
            chosen = min(others, key=lambda name: (counts.get(name, 0), name))
            counts[chosen] = counts.get(chosen, 0) + 1
            instead.setdefault(chosen, Counter())[cell.family] += 1
    cells = tuple(Cell(name, count, tuple(instead.get(name, ()))) for name, count in counts.items())
    return plan if not instead else replace(plan, cells=cells)
