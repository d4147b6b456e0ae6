"""Are the right misconceptions found, and nobody accused of one he does not hold?

People practice as the product lets them: one question after another, chosen by what their answers so far say of them.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from random import Random

from assessments.questions import Ahead, Blueprint, Item, draw, draw_form, draw_practice, family, family_names
from assessments.questions.diagnosis.diagnosis import Diagnosis, Outlook, diagnose
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.marking import Answer
from tests.simulations.learners import SLIPS, answered, guessed
from training.rulebook import Edition
from training.trade.words import LIGHT

# Questions in a row, as the product asks them: of one skill, and of all of them mixed.
PRACTICES = (6, 6)
MIXED = (10, 10, 10)
QUESTIONS = sum(PRACTICES)

Answering = Callable[[Item], Answer]
Answered = tuple[Item, Answer]


class Shop:
    """What can be asked under an edition about some casings, and in which skill each misconception shows most often."""

    def __init__(self, edition, *, casings=LIGHT, each: int = 25, seed: str = "1") -> None:
        self.edition, self.casings, self.seed = edition, casings, seed
        self.ahead = Ahead()
        self.families: dict[str, list[str]] = {}
        shown: dict[str, Counter[str]] = {}
        for name in family_names():
            if family(name).series or not family(name).asks_about(casings):
                continue
            try:
                items = [self._draw(name, n) for n in range(each)]
            except NoSuchLimit:
                continue
            self.families.setdefault(family(name).skill, []).append(name)
            for item in items:
                for one in Outlook(item).names:
                    shown.setdefault(one, Counter())[item.skill] += 1
        self.skill_of = {name: counts.most_common(1)[0][0] for name, counts in sorted(shown.items())}

    def _draw(self, name: str, number: int) -> Item:
        prefer = ("in", "mm")[number % 2]
        return draw(name, seed=f"{self.seed}/{number}", edition=self.edition, prefer=prefer, casings=self.casings)

    def near(self, name: str) -> list[str]:
        """The other misconceptions that show in the same skill."""
        return [other for other, skill in self.skill_of.items() if skill == self.skill_of[name] and other != name]

    def practiced(
        self, skills: Sequence[str], answer: Answering, seed: str, told: list[Answered] | None = None
    ) -> Diagnosis:
        """What is known of a person after so many questions of these skills, and after what was answered before."""
        names = [name for skill in skills for name in self.families[skill]]
        told = list(told or ())
        for turn, count in enumerate(PRACTICES if len(skills) == 1 else MIXED):
            asked: list[str] = []
            for number in range(count):
                [item] = draw_practice(
                    sorted(names, key=lambda name: hash_of(seed, turn, number, name)),
                    seed=f"{seed}/{turn}/{number}",
                    count=1,
                    edition=self.edition,
                    casings=self.casings,
                    beliefs=diagnose(told),
                    asked=asked,
                    ahead=self.ahead,
                )
                asked.append(item.family)
                told.append((item, answer(item)))
        return diagnose(told)

    def assessed(self, plan: Blueprint, answer: Answering, seed: str) -> list[Answered]:
        """The answers to a form of the assessment."""
        form = draw_form(plan, secret=b"assessed", form_id=seed, edition=self.edition)
        return [(item, answer(item)) for item in form]


def holding(held: set[str], rng: Random, edition: Edition) -> Answering:
    """How somebody answers who holds these misconceptions, and slips."""
    return lambda item: answered(item, held, rng, SLIPS, edition)


def hash_of(*parts: object) -> float:
    """A number that depends on these alone, for an order that is mixed and can be repeated."""
    return Random(repr(parts)).random()


@dataclass
class Report:
    """What came out of many examinations."""

    found: Counter[str] = field(default_factory=Counter)
    runs: Counter[str] = field(default_factory=Counter)
    accused: Counter[str] = field(default_factory=Counter)
    rightly: Counter[str] = field(default_factory=Counter)
    taken_for: Counter[tuple[str, str]] = field(default_factory=Counter)
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


def learners(shop: Shop, *, runs: int, seed: str = "1", others: int = 100, mixed: bool = False, names=None) -> Report:
    """Examine people with one misconception each, with none, with two, and people who guess.

    They practice the skill in which their misconception shows, or all skills mixed; the others practice all skills, one
    after another.
    """
    rng = Random(f"learners {seed}")
    report = Report()
    able = list(shop.skill_of)

    def told_of(name: str, answer: Answering, run: object) -> tuple[Diagnosis, set[str]]:
        skills = list(shop.families) if mixed else [shop.skill_of[name]]
        known = shop.practiced(skills, answer, f"{seed}/{name}/{run}")
        return known, {belief.misconception for belief in known.probable}

    for name in names or able:
        for run in range(runs):
            _, said = told_of(name, holding({name}, rng, shop.edition), run)
            report.runs[name] += 1
            report.found[name] += name in said
            report.accused.update(said)
            report.rightly.update(said & {name})
            report.taken_for.update((name, other) for other in said - {name})
            if not said:
                report.taken_for[name, "nothing"] += 1
    for run in range(others):
        _, said = told_of(rng.choice(able), holding(set(), rng, shop.edition), f"none {run}")
        report.none_runs += 1
        report.none_accused += bool(said)
    for run in range(others):
        first = rng.choice(able)
        pair = {first, rng.choice(shop.near(first))}
        _, said = told_of(first, holding(pair, rng, shop.edition), f"two {run}")
        report.pair_runs += 1
        report.pair_both += said >= pair
        report.pair_one += len(said & pair) == 1
        report.pair_wrong += bool(said - pair)
    for run in range(others):
        known, said = told_of(rng.choice(able), lambda item: guessed(item, rng), f"guess {run}")
        report.guesser_runs += 1
        report.guessers_accused += bool(said)
        report.guessers_seen += known.guessing > 0.5
    return report


def after_an_assessment(shop: Shop, plan: Blueprint, *, runs: int, seed: str = "1") -> tuple[int, int, int]:
    """How many of so many people with one misconception are told it by their assessment, and how many after they have
    also practiced the skill it shows in."""
    rng = Random(f"assessed {seed}")
    at_once = later = 0
    for name, skill in shop.skill_of.items():
        for run in range(runs):
            answer = holding({name}, rng, shop.edition)
            told = shop.assessed(plan, answer, f"{seed}/{name}/{run}")
            at_once += name in {belief.misconception for belief in diagnose(told).probable}
            known = shop.practiced([skill], answer, f"{seed}/{name}/{run}", told)
            later += name in {belief.misconception for belief in known.probable}
    return at_once, later, runs * len(shop.skill_of)
