"""Every write of assessments: practice, assessments on screen and on paper, new rounds, scopes, and the draw bench."""

from assessments.acts.assessment import (
    AttemptClosed,
    NotNow,
    StaleAnswer,
    close_overdue,
    hand_in,
    note_shown,
    record_response,
    start_assessment,
)
from assessments.acts.bench import (
    FlagRefused,
    LastOfSkill,
    flag_draw,
    settle_flag,
    switch_family_off,
    switch_family_on,
)
from assessments.acts.late import keep_late_answer
from assessments.acts.papers import hand_in_paper, make_paper, type_answers, withdraw_paper
from assessments.acts.practice import (
    MOST_ITEMS,
    PRACTICE_ITEMS,
    AlreadyAnswered,
    UnknownSkill,
    answer_practice,
    read_taught,
    start_practice,
)
from assessments.acts.rounds import give_extra_round
from assessments.acts.scopes import ScopesRefused, choose_scopes
from assessments.acts.withdrawals import WithdrawalRefused, flag_question, take_back_withdrawal, withdraw_question
