"""Every read that a page of the training app needs, in a constant number of queries, always from the shop."""

from training.queries.kept_checks import Wanted, checks_in, found_checks, shops_open_to_all, who_looked
from training.queries.learning import (
    LearnerProgress,
    LessonRead,
    ModuleProgress,
    NextLesson,
    assignments_in,
    assignments_of,
    course_of,
    learners,
    next_lesson,
    next_lesson_in,
    notices_of,
    open_assignments,
    own_notices,
    progress_of_shop,
)
from training.queries.people import Member, invitation_of_secret, members, open_invitations, person_in, places_of
from training.queries.rules import house_rule_sets, latest_number, shelf, taken_off, units_in
from training.queries.scopes import scopes_of
from training.queries.shop_rulebook import edition_of, house_rules_of, house_rules_of_version, units_of, units_of_rows

__all__ = [
    "LearnerProgress",
    "LessonRead",
    "Member",
    "ModuleProgress",
    "NextLesson",
    "Wanted",
    "assignments_in",
    "assignments_of",
    "checks_in",
    "course_of",
    "edition_of",
    "found_checks",
    "house_rule_sets",
    "house_rules_of",
    "house_rules_of_version",
    "invitation_of_secret",
    "latest_number",
    "learners",
    "members",
    "next_lesson",
    "next_lesson_in",
    "notices_of",
    "open_assignments",
    "open_invitations",
    "own_notices",
    "person_in",
    "places_of",
    "progress_of_shop",
    "scopes_of",
    "shelf",
    "shops_open_to_all",
    "taken_off",
    "units_in",
    "units_of",
    "units_of_rows",
    "who_looked",
]
