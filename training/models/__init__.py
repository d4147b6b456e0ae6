"""People, shops, and what they have been asked to learn."""

from training.models.learning import Assignment, Notice, Progress
from training.models.people import User
from training.models.shops import Invitation, Membership, Role, Shop, Units

__all__ = ["Assignment", "Invitation", "Membership", "Notice", "Progress", "Role", "Shop", "Units", "User"]
