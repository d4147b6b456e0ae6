"""What the pages of certificates read."""

from certificates.queries.certificates import (
    certificates_in,
    hands_on_in,
    learner_in,
    member_in,
    on_the_web,
    printed,
    standing_of,
)
from certificates.queries.ready import Rests, rests
from certificates.queries.roster import Roster, roster

__all__ = [
    "Rests",
    "Roster",
    "certificates_in",
    "hands_on_in",
    "learner_in",
    "member_in",
    "on_the_web",
    "printed",
    "rests",
    "roster",
    "standing_of",
]
