"""A hands-on evaluation as a trainer records it: whatever a test does not say is in order."""

from collections.abc import Mapping
from datetime import datetime
from uuid import UUID, uuid4

from certificates import acts
from certificates.models import HandsOn
from certificates.queries.scopes import Scope
from tests.factories import NOW
from tests.factories_certificates import SCOPE
from training.models import Shop, User
from training.queries import edition_of
from training.rulebook import Edition


def all_met(edition: Edition, scope: Scope = SCOPE) -> dict[str, str]:
    """A sheet of the scope with every line met."""
    return {key: acts.MET for key, _, _ in acts.criterion_keys(edition, scope.casings)}


def evaluate(
    shop: Shop,
    learner: User,
    trainer: User,
    *,
    scope: Scope = SCOPE,
    edition: Edition | None = None,
    marks: Mapping[str, str] | None = None,
    remarks: str = "",
    press: UUID | None = None,
    at: datetime = NOW,
) -> HandsOn:
    """Record it, by the shop's rulebook where no other is given."""
    edition = edition or edition_of(shop)
    return acts.record_hands_on(
        shop=shop,
        learner=learner,
        trainer=trainer,
        scope=scope,
        edition=edition,
        marks=all_met(edition, scope) if marks is None else marks,
        remarks=remarks,
        press=press or uuid4(),
        at=at,
    )
