"""Can an answer sheet be learned without knowing tires? Pupils are taught a hundred keyed forms and try new ones.

For each family and format the pupil that did best on forms held back while learning answers. With `stems` it reads the
stem and the words of the drawing as well; without, the options alone.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from random import Random

from assessments.questions import Blueprint, draw_form, family, mark
from assessments.questions.items.item import Item
from assessments.questions.items.marking import Answer
from tests.simulations.blind import has_passed
from tests.simulations.learners import guessed
from tests.simulations.pupils import (
    Blamer,
    Chooser,
    Linear,
    Orderer,
    Pupil,
    Together,
    Trees,
    Usual,
    in_silence,
    opened_once,
)
from tests.simulations.writers import Marker, Reckoner, UsualNumber
from training.rulebook import Edition

Kind = tuple[str, str]  # a family and a format
GUESSES = 60  # by chance, for each question of the formats where it is not counted out
FOLDS = 3


def pupils(form: str, *, stems: bool, quick: bool = False) -> list[Callable[[], Pupil]]:
    """Those who may try a format; `quick` leaves out the slow ones."""
    match form:
        case "one" | "several":
            scorers: list[Callable[[], object]] = [
                partial(Usual, "text "),
                partial(Usual, "frame "),
                Linear,
                partial(Linear, 8.0),
                Trees,
            ]
            if not quick:
                scorers += [Together, partial(Together, boosted=True)]
            return [partial(Chooser, scorer, stems=stems) for scorer in scorers]
        case "number":
            return [UsualNumber, Reckoner] if stems else [UsualNumber]
        case "place":
            return [partial(Marker, stems=False), *([partial(Marker, stems=True)] if stems else [])]
        case "order":
            return [Orderer]
        case "fault":
            return [partial(Blamer, Linear, stems=stems), partial(Blamer, partial(Linear, 8.0), stems=stems)]
    raise ValueError(form)


def shares_right(pupil: Pupil, items: Sequence[Item]) -> int:
    answers = pupil.answers([opened_once(item) for item in items])
    return sum(mark(item, answer).right for item, answer in zip(items, answers, strict=True))


def best_pupil(items: Sequence[Item], *, stems: bool, quick: bool = False) -> Pupil:
    """The pupil for questions of one family and format, chosen by folds and then taught all of them."""
    makers = pupils(items[0].format, stems=stems, quick=quick)

    def held_back(make: Callable[[], Pupil]) -> int:
        hits = 0
        for fold in range(FOLDS):
            pupil = make()
            pupil.learn([item for at, item in enumerate(items) if at % FOLDS != fold])
            hits += shares_right(pupil, [item for at, item in enumerate(items) if at % FOLDS == fold])
        return hits

    make = makers[0] if len(makers) == 1 else max(makers, key=held_back)
    pupil = make()
    pupil.learn(items)
    return pupil


def chance(item: Item, rng: Random) -> float:
    """How likely a guesser among the options is right: one of them, any of their sets but none, any order, any line
    with any reason, any place on the drawing. Who is offered nothing to choose from has none."""
    count = len(item.options)
    match item.format:
        case "one":
            return 1 / count
        case "several":
            return 1.0 / ((1 << count) - 1)
        case "number":
            return 0.0
    return sum(mark(item, guessed(item, rng)).right for _ in range(GUESSES)) / GUESSES


@dataclass
class Found:
    """How the questions of a family were answered."""

    asked: int = 0
    right: int = 0
    by_chance: float = 0.0

    @property
    def excess(self) -> float:
        return (self.right - self.by_chance) / max(1, self.asked)


@dataclass
class Taught:
    """What the taught pupils made of new forms."""

    families: dict[Kind, Found] = field(default_factory=lambda: defaultdict(Found))
    forms: int = 0
    passed: int = 0

    @property
    def share(self) -> float:
        return sum(one.right for one in self.families.values()) / max(1, sum(o.asked for o in self.families.values()))

    @property
    def rate(self) -> float:
        return self.passed / max(1, self.forms)


def by_kind(items: Iterable[Item]) -> dict[Kind, list[Item]]:
    found: dict[Kind, list[Item]] = defaultdict(list)
    for item in items:
        found[item.family, item.format].append(item)
    return found


def teach(items: Iterable[Item], *, stems: bool, quick: bool = False) -> dict[Kind, Pupil]:
    """A pupil for each family and format of these questions."""
    return {
        kind: in_silence(partial(best_pupil, some, stems=stems, quick=quick)) for kind, some in by_kind(items).items()
    }


def examine(pupils: Mapping[Kind, Pupil], plan: Blueprint, forms: Iterable[Sequence[Item]]) -> Taught:
    """How taught pupils do on forms, marked as the product marks."""
    found, rng = Taught(), Random("chance")
    forms = [list(form) for form in forms]
    answers: dict[int, Answer] = {}
    for kind, items in by_kind(item for form in forms for item in form).items():
        if kind in pupils:
            given = pupils[kind].answers([opened_once(item) for item in items])
            answers.update((id(item), answer) for item, answer in zip(items, given, strict=True))
    for form in forms:
        marks = []
        for item in form:
            marks.append(mark(item, answers[id(item)] if id(item) in answers else guessed(item, rng)))
            one = found.families[item.family, item.format]
            one.asked += 1
            one.right += marks[-1].right
            one.by_chance += chance(item, rng)
        found.forms += 1
        found.passed += has_passed(plan, form, marks)
    return found


def forms_of(plan: Blueprint, edition: Edition, what: str, count: int, seed: str) -> list[list[Item]]:
    return [
        draw_form(plan, secret=b"taught", form_id=f"{what}/{seed}/{number}", edition=edition) for number in range(count)
    ]


def taught(
    plan: Blueprint, edition: Edition, *, forms: int, learn: int = 100, seed: str = "1", stems: bool = False
) -> Taught:
    """Teach `learn` keyed forms and try `forms` new ones."""
    known = [item for form in forms_of(plan, edition, "learn", learn, seed) for item in form]
    return examine(teach(known, stems=stems), plan, forms_of(plan, edition, "try", forms, seed))


def given_away(found: Taught, *, bound: float) -> dict[Kind, float]:
    """The families that are no recall and were guessed better than chance by more than `bound`, with by how much."""
    return {
        kind: one.excess for kind, one in found.families.items() if one.excess > bound and not family(kind[0]).recall
    }


def table(found: Taught) -> list[str]:
    """A line for each family, the most given away first."""
    lines = [f"{'family':30} {'format':8} {'asked':>6} {'chance':>7} {'right':>7} {'excess':>7}"]
    for (name, form), one in sorted(found.families.items(), key=lambda pair: -pair[1].excess):
        recall = "  recall" if family(name).recall else ""
        lines.append(
            f"{name:30} {form:8} {one.asked:6} {one.by_chance / one.asked:7.1%} {one.right / one.asked:7.1%} "
            f"{one.excess:+7.1%}{recall}"
        )
    lines.append(f"{found.passed} of {found.forms} forms passed ({found.rate:.1%}); {found.share:.1%} right")
    return lines
