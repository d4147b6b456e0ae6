"""What an answer is explained by: the rules of its item, the misconceptions it fits, the lessons on it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from assessments.questions import Item, Misconception, doubted_clauses, misconceptions
from training import course
from training.rulebook import said_by
from training.trade.speech import saying
from training.trade.words import finding_in_words

_SUBJECTS = {"tire": "", "proposal": saying("the repair proposed")}


@dataclass(frozen=True)
class Reason:
    """One rule of an explanation, and each thing it was held against: (subject, found, holds)."""

    because: str
    limit: str
    source: str
    findings: tuple[tuple[str, str, bool], ...]
    title: str = ""  # none was kept with the first questions
    is_beside: bool = False  # kept to, and none of the wrong answers doubts it

    @property
    def explains_a_failure(self) -> bool:
        """Is there something to explain? Why a rule refuses is no news where everything keeps to it."""
        return not self.findings or any(not holds for _, _, holds in self.findings)


def reasons_of(item: Item) -> tuple[Reason, ...]:
    """The explanation of an item with each rule once; the subject is named only where there are several."""
    groups: dict[tuple[str, str, str], list[tuple[str, str, bool]]] = {}
    titles: dict[tuple[str, str, str], str] = {}
    decide: set[tuple[str, str, str]] = set()
    doubted = doubted_clauses(item)
    for line in item.explanation:
        rule = (str(line["because"]), str(line["limit"]), _source_words(line))
        findings = groups.setdefault(rule, [])
        titles.setdefault(rule, str(line.get("title", "")))
        if line["holds"] is not None:
            findings.append((str(line["subject"]), str(line["found"]), bool(line["holds"])))
        if not line["holds"] or line.get("clause", "") in doubted:
            decide.add(rule)
    several = len({subject for findings in groups.values() for subject, _, _ in findings if subject}) > 1
    return tuple(
        Reason(
            *rule,
            tuple((_about(subject) if several else "", found, holds) for subject, found, holds in findings),
            titles[rule],
            is_beside=bool(decide) and rule not in decide and bool(titles[rule]),
        )
        for rule, findings in groups.items()
    )


def _about(subject: str) -> str:
    """What a ruling is about, inside a sentence: an injury or an earlier repair by its mark, a doubt by the finding."""
    return _SUBJECTS[subject] if subject in _SUBJECTS else finding_in_words(subject)


def _source_words(line: Mapping[str, object]) -> str:
    return said_by(str(line["kind"]), str(line["source"]))


def known_beliefs(names: Iterable[str]) -> list[Misconception]:
    """The misconceptions of these names that we still have, in their order."""
    known = misconceptions()
    return [known[name] for name in names if name in known]


def lesson_of(key: str) -> course.Lesson | None:
    """The lesson of "module/lesson"; None when the course no longer has it."""
    try:
        return course.lesson_by_key(key)
    except course.UnknownLesson:
        return None


def lessons_on(skills: Iterable[str]) -> tuple[course.Lesson, ...]:
    """The lessons that teach any of these skills, in the order of the course."""
    wanted = set(skills)
    return tuple(
        lesson for module in course.modules() for lesson in module.lessons if not wanted.isdisjoint(lesson.skills)
    )
