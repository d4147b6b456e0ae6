"""A trainer gives a learner a new round of attempts, with a reason that stays on record."""

from datetime import datetime

from django.db import transaction

from assessments.acts.assessment import NotNow
from assessments.acts.blueprints import keep_blueprint
from assessments.acts.draws import stand_in_line
from assessments.models import ExtraRound
from assessments.queries import State, late_of, theory_of
from assessments.questions import Blueprint as Terms
from training.models import Shop, User
from training.trade.speech import say


def give_extra_round(
    *, shop: Shop, learner: User, terms: Terms, given_by: User, reason: str, at: datetime
) -> ExtraRound | None:
    """Open a new round of a scope after the attempts were used up, to renew after a pass, or because answers to the
    last attempt of this round arrived after its end; None when none of that is so.

    The waiting time since the last attempt still holds. Raises NotNow for oneself.
    """
    if learner == given_by:
        raise NotNow(say("A new round for yourself must come from another trainer or the owner."))
    blueprint = keep_blueprint(terms)
    with transaction.atomic():
        stand_in_line(shop=shop, learner=learner)
        theory = theory_of(shop, learner, terms)
        if theory.state(at) not in (State.USED_UP, State.PASSED) and late_of(theory, at) is None:
            return None
        return ExtraRound.objects.create(
            shop=shop, learner=learner, blueprint=blueprint, given_by=given_by, given_at=at, reason=reason
        )
