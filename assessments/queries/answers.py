"""What answers mean once they are marked: the explanation of one, the summary of many, the lessons to read again."""

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass

from django.db.models import Exists, OuterRef

from assessments.measurement.passing import Answered, Judgment, judge
from assessments.models import Attempt, FormItem, Response, Withdrawal
from assessments.pages.explained import Reason, known_beliefs, lesson_of, reasons_of
from assessments.pages.lined_up import LinedUp, lined_up
from assessments.pages.shown import Shown, show_answer
from assessments.pages.worked import Worked, worked
from assessments.queries.theory import below_pass_mark
from assessments.queries.withdrawals import that_count, withdrawn_in
from assessments.questions import Item, Misconception, from_canonical, lines_of, thoughts
from training import course
from training.rulebook import Edition
from training.trade.words import SKILLS

BELIEFS_AT_ONCE = 6  # more than these nobody reads


@dataclass(frozen=True)
class Review:
    """The explanation of one practice answer. `thoughts`: the misconceptions each of which gives this whole answer."""

    item: Item
    is_right: bool
    is_unsafe: bool
    is_skipped: bool
    shown: Shown
    reasons: tuple[Reason, ...]
    thoughts: tuple[Misconception, ...]
    lesson: course.Lesson | None
    worked: Worked | None = None
    lined_up: LinedUp | None = None

    @property
    def has_lines(self) -> bool:
        """Do the lines themselves say why what is right is right?"""
        right = [one.line for one in self.shown.choices if one.is_right]
        return (bool(right) and all(right)) or any(one.line for one in self.shown.key_order)

    @property
    def deciding(self) -> tuple[Reason, ...]:
        """The rules that decide the question, or that a wrong answer to it would have otherwise."""
        return tuple(reason for reason in self.reasons if not reason.is_beside)

    @property
    def beside(self) -> tuple[Reason, ...]:
        """The rules that were kept to and that nobody doubts."""
        return tuple(reason for reason in self.reasons if reason.is_beside)

    @property
    def sources(self) -> tuple[str, ...]:
        """Whose rules these are, each once."""
        return tuple(dict.fromkeys(reason.source for reason in self.reasons))


@dataclass(frozen=True)
class SkillLine:
    """Right of asked in one skill, and whether that is below the pass mark."""

    skill: str
    title: str
    right: int
    asked: int
    is_below: bool


@dataclass(frozen=True)
class Summary:
    """What an attempt shows: counts, skills, what the wrong answers have in common, lessons to read again."""

    right: int
    asked: int
    unsafe: int
    skills: tuple[SkillLine, ...]
    beliefs: tuple[tuple[Misconception, int], ...]
    lessons: tuple[course.Lesson, ...]

    @property
    def weakest_first(self) -> tuple[SkillLine, ...]:
        """The skills below the mark, then the others."""
        return tuple(sorted(self.skills, key=lambda line: not line.is_below))

    @property
    def beliefs_to_read(self) -> tuple[tuple[Misconception, int], ...]:
        """What the answers say first: all of it where that is short, else what more than one of them fits."""
        is_short = len(self.beliefs) <= BELIEFS_AT_ONCE
        return self.beliefs if is_short else tuple(one for one in self.beliefs if one[1] > 1)

    @property
    def beliefs_folded(self) -> tuple[Misconception, ...]:
        """What one answer fits alone, where there is too much to read at once."""
        return () if len(self.beliefs) <= BELIEFS_AT_ONCE else tuple(one for one, times in self.beliefs if times == 1)


def practice_review(attempt: Attempt, position: int, *, edition: Edition, prefer: str) -> Review:
    """The explanation of an answered practice question; two queries.

    Each line has its reason only while `edition` is the one that the question was drawn from.
    """
    response = Response.objects.get(attempt=attempt, position=position)
    snapshot = FormItem.objects.values_list("snapshot", flat=True).get(form=attempt.form_id, position=position)
    item = Item.from_json(snapshot)
    answer = from_canonical(response.answer)
    is_same = (item.edition, item.version) == (edition.name, edition.version)
    lines = lines_of(item, edition, prefer=prefer) if is_same else {}
    chosen = answer if isinstance(answer, list) else None
    return Review(
        item=item,
        is_right=bool(response.is_right),
        is_unsafe=bool(response.is_unsafe),
        is_skipped=answer is None,
        shown=show_answer(item, answer, lines),
        reasons=reasons_of(item),
        thoughts=tuple(known_beliefs(thoughts(item, answer))),
        lesson=lesson_of(item.lesson),
        worked=worked(item, edition, prefer=prefer, chosen=chosen or ()) if is_same else None,
        lined_up=lined_up(item, edition, lines, prefer=prefer, chosen=chosen) if is_same else None,
    )


def judgment_of(attempt: Attempt) -> Judgment:
    """How an assessment that was handed in stands against the rule its form was drawn by, without the questions that
    were withdrawn since; three queries.

    Raises ValueError for practice.
    """
    rule, gone = attempt.rule, withdrawn_in(attempt.form_id)
    marks = {
        position: (is_right is True, is_unsafe is True, tuple(misconceptions))
        for position, is_right, is_unsafe, misconceptions in Response.objects.filter(attempt=attempt).values_list(
            "position", "is_right", "is_unsafe", "misconceptions"
        )
    }
    rows = FormItem.objects.filter(form=attempt.form_id).order_by("position").values_list("position", "skill")
    answers = [
        Answered(skill, *marks.get(position, (False, False, ()))) for position, skill in rows if position not in gone
    ]
    return judge(rule, answers)


def summary_of(attempt: Attempt, pass_percent: int, *, said: Collection[str] = ()) -> Summary:
    """The summary of a practice so far, or of an assessment after hand-in, without withdrawn questions; two queries.

    `said` names misconceptions that stand elsewhere on the page and are not repeated.
    """
    responses = {response.position: response for response in that_count(Response.objects.filter(attempt=attempt))}
    rows = (
        FormItem.objects.filter(form=attempt.form_id)
        .exclude(Exists(Withdrawal.objects.filter(item=OuterRef("pk"), taken_back_at=None)))
        .order_by("position")
        .values_list("position", "lesson")
    )
    is_done = attempt.handed_in_at is not None
    beliefs = Counter(name for response in responses.values() for name in response.misconceptions)
    lessons = Counter(
        lesson
        for position, lesson in rows
        if (responses[position].is_right is False if position in responses else is_done)
    )
    for belief in known_beliefs(beliefs):
        lessons[belief.lesson] += beliefs[belief.id]
    below = below_pass_mark(attempt.by_skill, pass_percent)
    return Summary(
        right=sum(right for right, _ in attempt.by_skill.values()),
        asked=sum(asked for _, asked in attempt.by_skill.values()),
        unsafe=sum(response.is_unsafe is True for response in responses.values()),
        skills=tuple(
            SkillLine(skill, title, attempt.by_skill[skill][0], attempt.by_skill[skill][1], skill in below)
            for skill, title in SKILLS.items()
            if skill in attempt.by_skill
        ),
        beliefs=tuple(
            (belief, beliefs[belief.id])
            for belief in known_beliefs(dict(beliefs.most_common()))
            if belief.id not in said
        ),
        lessons=tuple(lesson for key, _ in lessons.most_common() if (lesson := lesson_of(key)) is not None),
    )
