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
from certificates.queries.scope_rows import ScopeRow, scope_rows
from certificates.queries.scopes import Scope, UnknownScope, casing_words, scope_of, scope_title, scopes, scopes_of

__all__ = [
    "Rests",
    "Roster",
    "Scope",
    "ScopeRow",
    "UnknownScope",
    "casing_words",
    "certificates_in",
    "hands_on_in",
    "learner_in",
    "member_in",
    "on_the_web",
    "printed",
    "rests",
    "rests_by_scope",
    "roster",
    "scope_of",
    "scope_rows",
    "scope_title",
    "scopes",
    "scopes_of",
    "standing_of",
]
