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
    pictures_in,
    printed_paper,
    sheet_lines,
    typed_answers,
)
from certificates.queries.ready import Rests, rests, rests_by_scope
from certificates.queries.roster import Roster, roster
from certificates.queries.scope_rows import scope_rows
from certificates.queries.scopes import (
    Scope,
    UnknownScope,
    casing_words,
    scope_of,
    scope_title,
    scopes_in,
    scopes_of,
)
from certificates.queries.start import bay, floor, person_page
from certificates.queries.to_do import ToDo, to_do
