"""What people may type into the pages of certificates."""

from certificates.forms.certificates import LookupForm, ReasonForm, RosterForm
from certificates.forms.hands_on import HandsOnForm
from certificates.forms.papers import PaperAnswersForm, WithdrawForm

__all__ = ["HandsOnForm", "LookupForm", "PaperAnswersForm", "ReasonForm", "RosterForm", "WithdrawForm"]
