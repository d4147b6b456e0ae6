"""Simulated people: `python -m tests.simulations blind --forms 2000`, `... learners --runs 20`."""

import argparse
import sys
import time

from tests.simulations.blind import blind
from tests.simulations.diagnosing import QUESTIONS, Report, learners
from training.rulebook import load_edition


def print_blind(forms: int, seed: str) -> bool:
    start = time.process_time()
    found = blind(load_edition("north-america"), forms=forms, seed=seed)
    print(f"{forms} forms ({time.process_time() - start:.0f} s of CPU)")
    print(f"{'strategy':26} {'passes':>8} {'of all':>8} {'right':>8}")
    for strategy, marks in sorted(found.items(), key=lambda one: one[1].share):
        print(f"{strategy:26} {marks.passed:8} {marks.rate:8.2%} {marks.share:8.1%}")
    return found["expert"].share == 1 and all(
        marks.rate <= 0.01 for strategy, marks in found.items() if strategy != "expert"
    )


def print_learners(runs: int, seed: str, mixed: bool) -> bool:
    start = time.process_time()
    report = learners(load_edition("north-america"), runs=runs, seed=seed, mixed=mixed)
    where = "all skills mixed" if mixed else "the skill in which the misconception shows"
    print(f"\n{len(report.runs)} misconceptions, {runs} learners each, {QUESTIONS} questions, practicing {where}")
    print(f"precision {report.precision:.3f}, recall {report.recall:.3f} ({time.process_time() - start:.0f} s of CPU)")
    print_others(report)
    return report.precision >= 0.9 and report.recall >= 0.8 and report.none_accused <= 0.05 * report.none_runs


def print_others(report: Report) -> None:
    print(f"learners with none: {report.none_accused} of {report.none_runs} accused")
    print(
        f"two at once: both found in {report.pair_both}, one in {report.pair_one} of {report.pair_runs}; "
        f"something wrong said in {report.pair_wrong}"
    )
    print(
        f"guessers: {report.guessers_accused} of {report.guesser_runs} accused, "
        f"{report.guessers_seen} taken for guessers"
    )
    print("confusion (held, said, how often):")
    for (held, said), count in report.taken_for.most_common(30):
        print(f"  {held:34} {said:34} {count}")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    what = parser.add_subparsers(dest="what", required=True)
    part = what.add_parser("blind")
    part.add_argument("--forms", type=int, default=2000)
    part.add_argument("--seed", default="1")
    part = what.add_parser("learners")
    part.add_argument("--runs", type=int, default=10)
    part.add_argument("--seed", default="1")
    asked = parser.parse_args()
    if asked.what == "blind":
        return 0 if print_blind(asked.forms, asked.seed) else 1
    good = print_learners(asked.runs, asked.seed, mixed=False)
    print_learners(asked.runs, asked.seed, mixed=True)  # reported: 20 questions do not reach over all ten skills
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
