"""Test-takers who do not read: each answers by looks alone. Does any of them pass?"""

import re
from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from statistics import median

from assessments.measurement.passing import Answered, judge
from assessments.questions import Blueprint, blueprint, draw_form, mark
from assessments.questions.items.item import Item, Mark, OpenItem
from assessments.questions.items.marking import Answer
from tests.present import present
from tests.simulations.learners import the_key
from training.rulebook import Edition

WORD = re.compile(r"[a-z]{3,}")
NUMBER = re.compile(r"\d+(?:[,.]\d+)?(?:/\d+)?")
REJECTS = ("Out of service", "Reject", "Take it out", "None")
CAUTIOUS = ("Out of service", "Reject", "Take", "None", "Wait", "Repair: stem", "Repair: only", "Leave")


Strategy = Callable[[OpenItem], Answer]


def words(text: str) -> list[str]:
    return WORD.findall(text.lower())


def value(text: str) -> float:
    """The first number in a text, whatever it measures."""
    found = NUMBER.search(text)
    if found is None:
        return 0.0
    above, _, below = found[0].replace(",", "").partition("/")
    return float(above) / float(below or 1)


def by(score: Callable[[str, OpenItem], float]) -> Strategy:
    """A strategy that takes the option with the highest score, of `several` those above the middle."""

    def choose(item: OpenItem) -> Answer:
        scores = {option.id: score(option.text, item) for option in item.options}
        if item.format == "several":
            middle = median(scores.values())
            return [one for one in scores if scores[one] > middle] or list(scores)
        return max(scores, key=lambda one: scores[one])

    return choose


def nearest_the_middle(text: str, item: OpenItem) -> float:
    values = sorted(value(option.text) or len(option.text) for option in item.options)
    return -abs((value(text) or len(text)) - median(values))


def shared_with_stem(text: str, item: OpenItem) -> int:
    return len(set(words(text)) & set(words(item.stem)))


def frequent_words(text: str, item: OpenItem) -> float:
    counts = Counter(word for option in item.options for word in set(words(option.text)))
    return sum(counts[word] for word in words(text)) / max(1, len(words(text)))


def caution(text: str, item: OpenItem) -> float:
    """The milder the verdict and the larger the number, the less cautious."""
    place = next((n for n, opening in enumerate(CAUTIOUS) if text.startswith(opening)), len(CAUTIOUS))
    return -place - value(text) / 1e5


CHOICES: dict[str, Strategy] = {
    "longest": by(lambda text, item: len(text)),
    "shortest": by(lambda text, item: -len(text)),
    "first": lambda item: [item.options[0].id] if item.format == "several" else item.options[0].id,
    "last": lambda item: [item.options[-1].id] if item.format == "several" else item.options[-1].id,
    "middle value": by(nearest_the_middle),
    "reject always": by(lambda text, item: text.startswith(REJECTS)),
    "most cautious": by(caution),
    "most frequent word": by(frequent_words),
    "most words of the stem": by(shared_with_stem),
    "everything": lambda item: [o.id for o in item.options] if item.format == "several" else item.options[0].id,
}


def in_stem(place: str) -> Strategy:
    """The number at a place among those in the stem, in its first unit."""

    def choose(item: OpenItem) -> Answer:
        numbers = sorted(NUMBER.findall(item.stem), key=value)
        if not numbers:
            return None
        text = numbers[{"least": 0, "middle": len(numbers) // 2, "greatest": -1}[place]].replace(",", "")
        return {"value": text, "unit": item.units[0]}

    return choose


NUMBERS = {"longest": "greatest", "shortest": "least", "most cautious": "least"}


def answer(strategy: str, item: OpenItem) -> Answer:
    """What a strategy answers an open question."""
    match item.format:
        case "one" | "several":
            return CHOICES[strategy](item)
        case "number":
            return in_stem(NUMBERS.get(strategy, "middle"))(item)
        case "order":
            ids = [option.id for option in item.options]
            return sorted(ids, key=lambda one: len(item.options[int(one) - 1].text)) if strategy == "shortest" else ids
        case "place":
            frame = present(item.frame)
            return {"x": f"{frame.width / 2:.1f}", "y": f"{frame.height / 2:.1f}"}
        case "fault":
            if strategy in ("first", "reject always", "most cautious"):
                return {"step": item.options[0].id, "reason": item.reasons[0].id}
            return {"step": item.options[-1].id, "reason": ""}
    raise ValueError(item.format)


def lesson_numbers(edition: Edition) -> dict[str, list[str]]:
    """All numbers that each lesson prints, by lesson."""
    from training import course

    return {
        f"{lesson.module}/{lesson.slug}": NUMBER.findall(
            re.sub(r"<[^>]+>", " ", course.render(lesson, edition=edition, prefer="in").html)
        )
        for module in course.modules()
        for lesson in module.lessons
    }


def by_lesson_numbers(item: OpenItem, numbers: list[str]) -> Answer:
    """Someone who has the numbers of the lesson, and no rule for combining them."""
    known = Counter(numbers)
    if item.format in ("one", "several"):
        return by(lambda text, _: sum(known[number] > 0 for number in NUMBER.findall(text)))(item)
    if item.format == "number" and known:
        return {"value": known.most_common(1)[0][0].replace(",", ""), "unit": item.units[0]}
    return answer("first", item)


def has_passed(plan: Blueprint, form: Sequence[Item], marks: list[Mark]) -> bool:
    """Would the product pass whoever got these marks on this form?"""
    pairs = zip(form, marks, strict=True)
    return judge(
        plan.rule, [Answered(item.skill, one.right, one.unsafe, one.misconceptions) for item, one in pairs]
    ).passed


class Marks:
    """How a strategy did over forms: passes, and the mean share right."""

    def __init__(self) -> None:
        self.passed = self.forms = self.right = self.asked = 0

    def add(self, form: list[Item], marks: list[Mark], plan: Blueprint) -> None:
        self.forms += 1
        self.right, self.asked = self.right + sum(m.right for m in marks), self.asked + len(marks)
        self.passed += has_passed(plan, form, marks)

    @property
    def rate(self) -> float:
        return self.passed / self.forms

    @property
    def share(self) -> float:
        return self.right / self.asked


def blind(
    edition: Edition, *, forms: int, seed: str = "1", plan: Blueprint | None = None, learn: int = 100
) -> dict[str, Marks]:
    """Marks of every strategy, of the best mixture, of the numbers of the lessons and of an expert.

    The mixture takes for each family the strategy that did best on `learn` other forms, for which it was told the keys;
    "usual answer" gives the commonest right answer of the family in those forms, where it is offered.
    """
    plan = plan or blueprint("north-america-light")
    best: dict[str, Counter[str]] = defaultdict(Counter)
    usual: dict[str, Counter[str]] = defaultdict(Counter)
    for number in range(learn):
        for item in draw_form(plan, secret=b"learn", form_id=f"{seed}/{number}", edition=edition):
            for strategy in CHOICES:
                best[item.family][strategy] += mark(item, answer(strategy, item.open())).right
            usual[item.family][item.key_text] += 1
    numbers = lesson_numbers(edition)
    found: dict[str, Marks] = defaultdict(Marks)
    for number in range(forms):
        form = draw_form(plan, secret=b"blind", form_id=f"{seed}/{number}", edition=edition)
        opened = [(item, item.open()) for item in form]
        for strategy in CHOICES:
            found[strategy].add(form, [mark(item, answer(strategy, shown)) for item, shown in opened], plan)
        found["best mixture"].add(
            form, [mark(item, answer(best[item.family].most_common(1)[0][0], shown)) for item, shown in opened], plan
        )
        found["usual answer"].add(form, [mark(item, usual_answer(usual, item, shown)) for item, shown in opened], plan)
        found["numbers of the lesson"].add(
            form, [mark(item, by_lesson_numbers(shown, numbers[item.lesson])) for item, shown in opened], plan
        )
        found["expert"].add(form, [mark(item, the_key(item)) for item in form], plan)
    return dict(found)


def usual_answer(usual: dict[str, Counter[str]], item: Item, shown: OpenItem) -> Answer:
    """The commonest right answer of this family that is on offer, else the first option."""
    if item.format == "one":
        ids = {option.text: option.id for option in shown.options}
        for text, _ in usual[item.family].most_common():
            if text in ids:
                return ids[text]
    if item.format == "number":
        text, _, unit = usual[item.family].most_common(1)[0][0].rpartition(" ")
        return {"value": text, "unit": unit}
    if item.format == "several":
        common = {text for key in usual[item.family] for text in key.split("; ")}
        return [option.id for option in shown.options if option.text in common] or [shown.options[0].id]
    return answer("first", shown)
