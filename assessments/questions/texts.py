"""What the data files of questions say, known as soon as they are read: for the catalogues of languages."""

from assessments.questions.blueprints.blueprint import blueprint_names
from assessments.questions.items.wordings import groups
from assessments.questions.mistakes.misconceptions import misconceptions
from assessments.questions.work.facts import facts
from assessments.questions.work.job_log import spoils


def read_texts() -> None:
    """Read every data file of questions that people read something of."""
    for read in (blueprint_names, facts, groups, misconceptions, spoils):
        read()
