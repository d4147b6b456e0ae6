"""A blueprint whose families a shop has switched off in part: others of the same skill stand in for them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import replace

from assessments.questions.blueprints.blueprint import Blueprint, Cell
from assessments.questions.draws.registry import family, parts_of


def with_their_series(names: Collection[str]) -> frozenset[str]:
    """These families and all that ask of the same tire as one of them: a case with a part missing makes no sense."""
    series = {family(name).series for name in names} - {""}
    return frozenset(names).union(*(parts_of(one) for one in series))


def with_stand_ins(plan: Blueprint, *, off: Collection[str], among: Collection[str]) -> Blueprint:
    """The plan with the questions of the families in `off` given to others of the same skill, first to those that catch
    the same grave misconception, then to the least asked.

    `among` are the families that have something to ask. A family without any stand-in stays: a form is never short of
    a skill. Each cell says in `instead_of` for which families it stands in.
    """
    without = with_their_series([*off, *(cell.family for cell in plan.cells if cell.family not in among)])
    counts = {cell.family: cell.count for cell in plan.cells}
    instead: dict[str, Counter[str]] = {}
    for cell in plan.cells:
        others = stand_ins_for(cell.family, off=without, among=among)
        if cell.family not in without or not others:
            continue
        del counts[cell.family]
        alike = {name for grave in plan.graves if cell.family in grave.asked_by for name in grave.asked_by}
        for _ in range(cell.count):
            chosen = min(others, key=lambda name: (name not in alike, counts.get(name, 0), name))
            counts[chosen] = counts.get(chosen, 0) + 1
            instead.setdefault(chosen, Counter())[cell.family] += 1
    cells = tuple(Cell(name, count, tuple(instead.get(name, ()))) for name, count in counts.items())
    return plan if not instead else replace(plan, cells=cells)


def stand_ins_for(name: str, *, off: Collection[str], among: Collection[str]) -> list[str]:
    """The families that can be asked instead: of the same skill, on, and no part of a longer case."""
    skill = family(name).skill
    return [
        other
        for other in sorted(among)
        if other != name and other not in off and family(other).skill == skill and not family(other).series
    ]
