"""Every read of assessments, each a constant number of queries; all start from a shop and a person in it."""

from assessments.queries.answers import Review, Summary, practice_review, summary_of
from assessments.queries.attempts import (
    Block,
    Question,
    Saved,
    attempt_of,
    drawn_in,
    question_of,
    saved_in,
    tread_row,
    unfinished_practice,
)
from assessments.queries.beliefs import (
    LATELY_DAYS,
    Exposure,
    HeldBelief,
    beliefs_of,
    diagnosis_of,
    exposure_of,
    shown_to,
)
from assessments.queries.bench import (
    families_off,
    flags_in,
    flags_of,
    open_flags,
)
from assessments.queries.skills import SkillResult, skill_results
from assessments.queries.theory import State, Theory, theories_of, theory_of, theory_of_shop

__all__ = [
    "LATELY_DAYS",
    "Block",
    "Exposure",
    "HeldBelief",
    "Question",
    "Review",
    "Saved",
    "SkillResult",
    "State",
    "Summary",
    "Theory",
    "attempt_of",
    "beliefs_of",
    "diagnosis_of",
    "drawn_in",
    "exposure_of",
    "families_off",
    "flags_in",
    "flags_of",
    "open_flags",
    "practice_review",
    "question_of",
    "saved_in",
    "shown_to",
    "skill_results",
    "summary_of",
    "theories_of",
    "theory_of",
    "theory_of_shop",
    "tread_row",
    "unfinished_practice",
]
