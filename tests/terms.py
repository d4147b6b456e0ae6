"""The terms of a scope, in shops of which a test knows that they work in it."""

from assessments.queries import blueprints
from assessments.questions import Blueprint
from tests.present import present
from training.models import Shop


def terms_of(shop: Shop, scope: str = "") -> Blueprint:
    """The blueprint of a scope of the shop, of its first without a name."""
    return present(blueprints.terms_of(shop, scope))
