"""Puts options about the work back to the clauses and the procedure: tools, steps, times, gauges, markings."""

from __future__ import annotations

import re

from assessments.questions.items.wordings import plain
from assessments.questions.work.facts import facts, permits
from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import judge, limit_of
from training.rulebook import procedure
from training.trade.words import CASING_WORDS

_TIMES = {"once": 1, "twice": 2, "three times": 3, "four times": 4, "five times": 5, "six times": 6}


@judge("preparation-statements", "installation-statements", "return-to-service-statements", "safety-statements")
def _statements(bench: Bench) -> Recheck:
    steps = {step.id for step in bench.edition.procedure}
    casing = told_casing(bench.item.stem)

    def holds(text: str) -> bool:
        for fact in facts():
            if fact.skill != bench.item.skill or (fact.casings and casing not in fact.casings):
                continue
            if fact.right and text in (plain(fact.right), plain(fact.wrong_text)):
                if fact.step not in steps and not (fact.because or fact.clause in bench.edition.clauses):
                    limit_of(bench, fact.quantity, casing)  # raises where nothing in the rulebook stands behind it
                return text == plain(fact.right)
            for value, words in fact.values:
                if text == plain(fact.say.format(words)):
                    return permits(limit_of(bench, fact.quantity, casing), value)
        raise ValueError(f"{text!r} is no statement of the bench")

    return bench.which(holds)


def told_casing(stem: str) -> str:
    """The casing that a stem tells in words; passenger where it tells none."""
    for casing, words in CASING_WORDS.items():
        if re.search(rf"(?<!light ){words.one}", stem):
            return casing
    return "light-truck-fabric" if "light truck" in stem else "passenger"


@judge("cutter-setting")
def _cutter(bench: Bench) -> Recheck:
    casing = told_casing(bench.item.stem)
    limits = {name: limit_of(bench, f"job.{name}", casing) for name in (
        "cutter_speed", "cutter_direction", "cutter_start", "passes_each_way")}  # fmt: skip

    def holds(text: str) -> bool:
        speed, turn, side, passes = text.split(", ")
        times = passes.removesuffix(" each way")
        claims = {
            "cutter_speed": speed.replace(",", ""),
            "cutter_direction": turn,
            "cutter_start": side.removeprefix("from ").removesuffix(" first"),
            "passes_each_way": f"{_TIMES.get(times) or int(times.split()[0])} passes",
        }
        return all(permits(limits[name], value) for name, value in claims.items())

    return bench.which(holds)


@judge("next-preparation-step", "next-installation-step")
def _next_step(bench: Bench) -> Recheck:
    method = "one-piece" if "one-piece unit" in bench.item.stem.split(".")[0] else "two-piece"
    titles = [step.title for step in procedure(bench.edition, method=method)]
    done = bench.found(r'"(.+?)" is done')
    following = titles[titles.index(done) + 1]
    return bench.which(lambda text: text == following)


@judge("drying")
def _drying(bench: Bench) -> Recheck:
    minutes = bench.found(r"(\d+) minutes? ago")
    looks_dry = bool(re.search(r"looks (?:dull and dry all over|dry to the eye everywhere)", bench.item.stem))
    ready = looks_dry and permits(limit_of(bench, "job.drying"), f"{minutes} min")
    return bench.which(lambda text: text.startswith("Install" if ready else "Wait"))
