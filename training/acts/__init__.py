"""Every write of the training app: one function an act, keyword-only, one transaction, harmless when called twice."""

from training.acts.invitations import (
    InvitationClosed,
    InvitationRefused,
    Invited,
    accept_invitation,
    invite,
    roles_to_invite,
    why_closed,
    withdraw_invitation,
)
from training.acts.kept_checks import CheckRefused, keep_check
from training.acts.learning import (
    Assigned,
    AssignmentRefused,
    assign,
    mark_lesson_read,
    put_away_notice,
    withdraw_assignment,
)
from training.acts.photographs import (
    DRAFT_LASTS,
    PhotographRefused,
    bring_photograph,
    clear_photograph_drafts,
    confirm_photograph,
    discard_photograph,
    keep_photograph,
    take_back_photograph,
)
from training.acts.roles import RoleRefused, end_role, give_role
from training.acts.rules import RulesChanged, UnitRefused, add_unit, end_unit, set_house_rules
from training.acts.shops import ShopRefused, change_shop, open_shop
