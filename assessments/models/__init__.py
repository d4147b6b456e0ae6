"""What was asked of whom, and what they answered."""

from assessments.models.attempts import Attempt, ExtraRound, Moment, Outcome, Reach, Response
from assessments.models.bench import DrawFlag, FamilyOff
from assessments.models.forms import COUNTED, Blueprint, Form, FormItem, Purpose
from assessments.models.late import LateAnswer
from assessments.models.papers import Paper
from assessments.models.taught import Taught
from assessments.models.withdrawals import Withdrawal
