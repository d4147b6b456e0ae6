"""Every read of assessments, each a constant number of queries; all start from a shop and a person in it."""

from assessments.queries.answers import Review, Summary, lessons_on, practice_review, summary_of
from assessments.queries.attempts import (
    Block,
    Question,
    Saved,
    attempt_of,
    question_of,
    saved_in,
    tread_row,
    unfinished_practice,
)
from assessments.queries.skills import SkillResult, skill_results
from assessments.queries.theory import State, Theory, theory_of, theory_of_shop

__all__ = [
    "Block",
    "Question",
    "Review",
    "Saved",
    "SkillResult",
    "State",
    "Summary",
    "Theory",
    "attempt_of",
    "lessons_on",
    "practice_review",
    "question_of",
    "saved_in",
    "skill_results",
    "summary_of",
    "theory_of",
    "theory_of_shop",
    "tread_row",
    "unfinished_practice",
]
