"""Every write of assessments: practice, assessments, and rounds that trainers give."""

from assessments.acts.assessment import (
    AttemptClosed,
    NotNow,
    StaleAnswer,
    close_overdue,
    hand_in,
    record_response,
    start_assessment,
)
from assessments.acts.practice import AlreadyAnswered, UnknownSkill, answer_practice, start_practice
from assessments.acts.rounds import give_extra_round

__all__ = [
    "AlreadyAnswered",
    "AttemptClosed",
    "NotNow",
    "StaleAnswer",
    "UnknownSkill",
    "answer_practice",
    "close_overdue",
    "give_extra_round",
    "hand_in",
    "record_response",
    "start_assessment",
    "start_practice",
]
