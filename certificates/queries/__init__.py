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
from certificates.queries.papers import (
    items_of,
    key_entries,
    open_items,
    papers_in,
    printed_paper,
    sheet_lines,
    typed_answers,
)
from certificates.queries.ready import Rests, rests, rests_by_scope
from certificates.queries.roster import Roster, roster
from certificates.queries.scope_rows import ScopeRow, scope_rows
from certificates.queries.scopes import Scope, UnknownScope, casing_words, scope_of, scope_title, scopes_in, scopes_of
from certificates.queries.start import bay, floor, person_page

__all__ = [
    "Rests",
    "Roster",
    "Scope",
    "ScopeRow",
    "UnknownScope",
    "bay",
    "casing_words",
    "certificates_in",
    "floor",
    "hands_on_in",
    "items_of",
    "key_entries",
    "learner_in",
    "member_in",
    "on_the_web",
    "open_items",
    "papers_in",
    "person_page",
    "printed",
    "printed_paper",
    "rests",
    "rests_by_scope",
    "roster",
    "scope_of",
    "scope_rows",
    "scope_title",
    "scopes_in",
    "scopes_of",
    "sheet_lines",
    "standing_of",
    "typed_answers",
]
