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
from certificates.queries.ready import Rests, rests, rests_by_scope
from certificates.queries.roster import Roster, roster
from certificates.queries.scopes import ScopeRow, scope_rows

__all__ = [
    "Rests",
    "Roster",
    "ScopeRow",
    "certificates_in",
    "hands_on_in",
    "learner_in",
    "member_in",
    "on_the_web",
    "printed",
    "rests",
    "rests_by_scope",
    "roster",
    "scope_rows",
    "standing_of",
]
