"""Every read that a page of the training app needs, in a constant number of queries, always from the shop."""

from training.queries.kept_checks import Wanted, checks_in, found_checks, shops_open_to_all, who_looked
from training.queries.learning import (
    LearnerProgress,
    ModuleProgress,
    NextLesson,
    assignments_in,
    course_of,
    learners,
    next_lesson_in,
    notices_of,
    own_notices,
    progress_of_shop,
)
from training.queries.people import Member, invitation_of_secret, members, open_invitations, person_in, places_of
from training.queries.photographs import (
    photograph_drafts,
    photograph_picture,
    photographs_in,
    standing_photographs,
    trainers_of,
)
from training.queries.pictures import drawn_by, picture_file
from training.queries.rules import house_rule_sets, latest_number, shelf, taken_off, units_in
from training.queries.scopes import scopes_of
from training.queries.shop_rulebook import (
    Rules,
    edition_of,
    house_rules_of,
    house_rules_of_version,
    rules_of,
    units_of,
    units_of_rows,
)
