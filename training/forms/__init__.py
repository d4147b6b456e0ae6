"""What people may type into the pages of the training app."""

from training.forms.learning import AssignForm
from training.forms.people import InviteForm, JoinForm, RoleForm
from training.forms.shop import ShopForm

__all__ = ["AssignForm", "InviteForm", "JoinForm", "RoleForm", "ShopForm"]
