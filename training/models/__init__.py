"""People, shops, what they add to the rulebook, and what they have been asked to learn."""

from training.models.documents import DocumentField
from training.models.kept_checks import MAY_RUN, TireCheck, symbols_of
from training.models.learning import Assignment, Notice, Progress
from training.models.people import User
from training.models.photographs import Photograph
from training.models.rules import HouseRuleSet, RepairUnit, UnitKind
from training.models.shops import Invitation, Membership, Role, Shop, ShopScope, Units, digest_of
