"""Are the right misconceptions found, and nobody accused of one he does not hold?"""

from collections import Counter
from dataclasses import dataclass, field
from random import Random

from assessments.scenarios import draw, family_names, misconceptions
from assessments.scenarios.diagnosis import Diagnosis, Outlook, diagnose
from tests.simulations.learners import SLIPS, answered, guessed

QUESTIONS, CANDIDATES = 20, 120


def pool(edition, each: int, seed: str) -> list[Outlook]:
    """Questions to choose from, so many of each family, and more until every misconception shows in some."""

    def drawn(name: str, n: int) -> Outlook:
        return Outlook(draw(name, seed=f"{seed}/{n}", edition=edition, prefer=("in", "mm")[n % 2]))

    found = [drawn(name, n) for name in family_names() for n in range(each)]
    for n in range(each, 10 * each):
        unseen = set(misconceptions()) - {one for outlook in found for one in outlook.names}
        if not unseen:
            break
        found += [more for name in family_names() if not unseen.isdisjoint((more := drawn(name, n)).names)]
    return found


def examined(outlooks: list[Outlook], answer, rng: Random, questions: int = QUESTIONS) -> Diagnosis:
    """A person is asked one question after another, always the one that tells most; what is known in the end."""
    known, told = Diagnosis(unseen=1 / len(misconceptions())), []
    asked: set[int] = set()
    for _ in range(questions):
        offered = rng.sample(range(len(outlooks)), min(CANDIDATES, len(outlooks)))
        places = [place for place in offered if place not in asked]
        place = max(places, key=lambda place: outlooks[place].information(known))
        asked.add(place)
        told.append((outlooks[place], answer(outlooks[place].item)))
        known = diagnose(told)
    return known


@dataclass
class Report:
    """What came out of many examinations."""

    found: Counter = field(default_factory=Counter)
    runs: Counter = field(default_factory=Counter)
    accused: Counter = field(default_factory=Counter)
    rightly: Counter = field(default_factory=Counter)
    taken_for: Counter = field(default_factory=Counter)
    none_accused: int = 0
    none_runs: int = 0
    pair_both: int = 0
    pair_one: int = 0
    pair_wrong: int = 0
    pair_runs: int = 0
    guessers_accused: int = 0
    guessers_seen: int = 0
    guesser_runs: int = 0

    @property
    def recall(self) -> float:
        """How often what is held is said, averaged over misconceptions."""
        return sum(self.found[name] / self.runs[name] for name in self.runs) / max(1, len(self.runs))

    @property
    def precision(self) -> float:
        """How often what is said is held, averaged over the misconceptions that were said."""
        said = [name for name in self.accused if self.accused[name]]
        return sum(self.rightly[name] / self.accused[name] for name in said) / max(1, len(said))


def practiced(outlooks: list[Outlook], name: str) -> list[Outlook]:
    """The questions of the skill in which a misconception shows most often."""
    skills = Counter(outlook.item.skill for outlook in outlooks if name in outlook.names)
    (skill, _), *_ = skills.most_common(1)
    return [outlook for outlook in outlooks if outlook.item.skill == skill]


def learners(
    edition, *, runs: int, seed: str = "1", each: int = 25, others: int = 100, mixed: bool = False, names=None
) -> Report:
    """Examine people with one misconception each, with none, with two, and people who guess.

    They practice the skill in which their misconception shows, or all skills mixed; the others practice all skills, one
    after another.
    """
    rng = Random(f"learners {seed}")
    outlooks = pool(edition, each, seed)
    able = sorted({name for outlook in outlooks for name in outlook.names})
    report = Report()

    def asked(name: str) -> list[Outlook]:
        return outlooks if mixed else practiced(outlooks, name)

    for name in names or able:
        for _ in range(runs):
            known = examined(asked(name), lambda item, held={name}: answered(item, held, rng, SLIPS), rng)
            report.runs[name] += 1
            said = {belief.misconception for belief in known.probable}
            report.found[name] += name in said
            report.accused.update(said)
            report.rightly.update(said & {name})
            report.taken_for.update((name, other) for other in said - {name})
            if not said:
                report.taken_for[name, "nothing"] += 1
    for _ in range(others):
        known = examined(asked(rng.choice(able)), lambda item: answered(item, set(), rng, SLIPS), rng)
        report.none_runs += 1
        report.none_accused += bool(known.probable)
    for _ in range(others):
        first = rng.choice(able)
        near = sorted({name for outlook in asked(first) for name in outlook.names} - {first})
        pair = {first, rng.choice(near)}
        known = examined(asked(first), lambda item, held=pair: answered(item, held, rng, SLIPS), rng)
        said = {belief.misconception for belief in known.probable}
        report.pair_runs += 1
        report.pair_both += said >= pair
        report.pair_one += len(said & pair) == 1
        report.pair_wrong += bool(said - pair)
    for _ in range(others):
        known = examined(asked(rng.choice(able)), lambda item: guessed(item, rng), rng)
        report.guesser_runs += 1
        report.guessers_accused += bool(known.probable)
        report.guessers_seen += known.guessing > 0.5
    return report
