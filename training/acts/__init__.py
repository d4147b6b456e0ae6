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
from training.acts.roles import RoleRefused, end_role, give_role
from training.acts.rules import RulesChanged, UnitRefused, add_unit, end_unit, set_house_rules
from training.acts.shops import OpenedShop, ShopRefused, change_shop, open_shop

__all__ = [
    "Assigned",
    "AssignmentRefused",
    "CheckRefused",
    "InvitationClosed",
    "InvitationRefused",
    "Invited",
    "OpenedShop",
    "RoleRefused",
    "RulesChanged",
    "ShopRefused",
    "UnitRefused",
    "accept_invitation",
    "add_unit",
    "assign",
    "change_shop",
    "end_role",
    "end_unit",
    "give_role",
    "invite",
    "keep_check",
    "mark_lesson_read",
    "open_shop",
    "put_away_notice",
    "roles_to_invite",
    "set_house_rules",
    "why_closed",
    "withdraw_assignment",
    "withdraw_invitation",
]
