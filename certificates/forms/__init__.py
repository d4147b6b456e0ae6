"""What people may type into the pages of certificates."""

from certificates.forms.certificates import LookupForm, ReasonForm, RosterForm
from certificates.forms.hands_on import HandsOnForm
from certificates.forms.papers import PaperAnswersForm, WithdrawForm
from certificates.forms.scopes import ScopesForm

__all__ = ["HandsOnForm", "LookupForm", "PaperAnswersForm", "ReasonForm", "RosterForm", "ScopesForm", "WithdrawForm"]
