"""What practice shows when it stops asking: the thought behind the mistakes, the course on it, two tires."""

from dataclasses import dataclass

from assessments.pages.explained import lesson_of
from assessments.questions import Contrast, Item, Misconception, casing_of, contrast, deciding_clauses, passages
from training import course
from training.rulebook import Edition, named_clauses
from training.trade.words import CASING_WORDS


@dataclass(frozen=True)
class Lesson:
    """`passage` is None where the course has no section on it under the shop's edition; then the lesson is named alone.
    `tire` says of what tires the pair is, "" where it is about the work."""

    misconception: Misconception
    lesson: course.Lesson | None
    passage: course.Passage | None
    pair: Contrast | None
    tire: str


def lesson_on(misconception: Misconception, item: Item, *, edition: Edition, prefer: str) -> Lesson:
    """What clears up a misconception that explains an answer to this item."""
    tie = passages().get(misconception.id)
    lesson = lesson_of(tie.lesson if tie else misconception.lesson)
    passage = course.passage(lesson, tie.heading, edition=edition, prefer=prefer) if lesson and tie else None
    named, deciding = [*named_clauses(misconception.alteration, edition.clauses)], deciding_clauses(item)
    nearest = [id for id in named if id in deciding]
    pair = contrast([*nearest, *named, *deciding], edition=edition, prefer=prefer, casing=casing_of(item))
    return Lesson(
        misconception, lesson, passage, pair, str(CASING_WORDS[pair.casing].one) if pair and pair.casing else ""
    )
