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
from assessments.queries.beliefs import HeldBelief, beliefs_of, diagnosis_of, exposure_in, shown_to
from assessments.queries.bench import (
    Drawn,
    coverage_table,
    drawn,
    families_off,
    family_rows,
    flags_in,
    flags_of,
    open_flags,
    stand_ins,
    stand_ins_of,
)
from assessments.queries.skills import SkillResult, skill_results
from assessments.queries.theory import State, Theory, theory_of, theory_of_shop

__all__ = [
    "Block",
    "Drawn",
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
    "coverage_table",
    "diagnosis_of",
    "drawn",
    "exposure_in",
    "families_off",
    "family_rows",
    "flags_in",
    "flags_of",
    "lessons_on",
    "open_flags",
    "practice_review",
    "question_of",
    "saved_in",
    "shown_to",
    "skill_results",
    "stand_ins",
    "stand_ins_of",
    "summary_of",
    "theory_of",
    "theory_of_shop",
    "tread_row",
    "unfinished_practice",
]
