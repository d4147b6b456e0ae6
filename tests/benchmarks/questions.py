"""CPU and calls of questions and forms: `python -m tests.benchmarks.questions --seeds 20`.

Of every family under every edition, in both units, and of a form of every blueprint: median and 95th percentile.
"""

import argparse
import time
from collections.abc import Callable, Sequence
from functools import partial
from statistics import fmean, median

from assessments.questions import Blueprint, blueprint, blueprint_names, draw, draw_form, families_of
from tests.calls import calls_of
from training.rulebook import Edition, edition_names, load_edition
from training.trade.speech import in_language

_SHOWN = 10
_WARM = 4  # draws before the first that counts


def _high(values: Sequence[float]) -> float:
    """The 95th percentile."""
    return sorted(values)[int(0.95 * len(values))]


def measured(act: Callable[[int], object], times: int) -> tuple[list[float], list[int]]:
    """CPU in ms and calls of Python functions, of the same acts."""
    for number in range(_WARM):
        act(number)
    spent = []
    for number in range(_WARM, _WARM + times):
        start = time.process_time()
        act(number)
        spent.append(1000 * (time.process_time() - start))
    return spent, [calls_of(partial(act, number)) for number in range(_WARM, _WARM + times)]


def _line(name: str, spent: Sequence[float], calls: Sequence[int]) -> str:
    return (
        f"    {name:32} {median(spent):8.2f} ms, 95 % {_high(spent):8.2f} ms "
        f"{median(calls):10.0f} calls, 95 % {_high(calls):9.0f}"
    )


def _question(name: str, edition: Edition, number: int) -> object:
    return draw(name, seed=f"bench {number}", edition=edition, prefer=("in", "mm")[number % 2])


def families(edition_name: str, seeds: int) -> None:
    edition = load_edition(edition_name)
    found: dict[str, tuple[list[float], list[int]]] = {}
    with in_language(edition.language):
        for name in families_of(edition):
            found[name] = measured(partial(_question, name, edition), seeds)
    spent, calls = (fmean(fmean(one[part]) for one in found.values()) for part in (0, 1))
    print(
        f"  {edition_name}: {len(found)} families, on average {spent:.2f} ms (aim 0.6 ms), {calls:.0f} calls; dearest"
    )
    for name, one in sorted(found.items(), key=lambda pair: -fmean(pair[1][1]))[:_SHOWN]:
        print(_line(name, *one))


def _form(plan: Blueprint, edition: Edition, number: int) -> object:
    return draw_form(plan, secret=b"bench", form_id=str(number), edition=edition)


def main() -> None:
    reader = argparse.ArgumentParser(prog="python -m tests.benchmarks.questions", description=__doc__)
    reader.add_argument("--seeds", type=int, default=20, metavar="N", help="draws of each family (20)")
    reader.add_argument("--forms", type=int, default=8, metavar="N", help="forms of each blueprint (8)")
    asked = reader.parse_args()
    print("questions (aim at most 2 ms)")
    for edition_name in edition_names():
        families(edition_name, asked.seeds)
    print("forms (aim at most 3.75 ms a question: 150 ms for forty, 225 ms for sixty)")
    for name in blueprint_names():
        plan = blueprint(name)
        edition = load_edition(plan.edition)
        with in_language(edition.language):
            print(_line(f"{name}, {plan.count} questions", *measured(partial(_form, plan, edition), asked.forms)))


if __name__ == "__main__":
    main()
