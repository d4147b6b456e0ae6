"""Every read of assessments, each a constant number of queries; all start from a shop and a person in it."""

from assessments.queries.answers import Review, Summary, judgment_of, practice_review, summary_of
from assessments.queries.attempts import (
    Block,
    Question,
    Saved,
    attempt_of,
    drawn_in,
    question_of,
    saved_in,
    taught_last,
    times_in,
    to_read,
    tread_row,
    unfinished_practice,
)
from assessments.queries.beliefs import LATELY_DAYS, HeldBelief, beliefs_of, diagnosis_of, exposure_of, shown_to
from assessments.queries.bench import families_off, flags_in, flags_of, open_flags
from assessments.queries.blueprints import (
    casings_of_scope,
    off_in,
    plan_of,
    plans_of,
    practiced_as,
    terms_about,
    terms_in,
    terms_in_edition,
    terms_of,
    tires_asked,
)
from assessments.queries.late import Late, late_count, late_in, late_of
from assessments.queries.pictures import (
    one_file,
    one_shown,
    photograph_shown,
    photographs_to_ask,
    picture_asked,
    picture_files,
)
from assessments.queries.sittings import sits, sitting_of
from assessments.queries.skills import SkillResult, skill_results
from assessments.queries.theory import State, Theory, theories_of, theory_of, theory_of_shop
from assessments.queries.withdrawals import (
    Asked,
    AskedLine,
    asked_in,
    attempt_looked_at,
    fallen_in,
    is_answered,
    own_question,
    question_asked,
    that_count,
    withdrawn_count,
    withdrawn_in,
)
