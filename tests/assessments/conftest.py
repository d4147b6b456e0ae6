"""What tests of assessments share."""

import pytest

from tests.asking import Asking
from training.models import Shop, User


@pytest.fixture
def asking(own_shop: Shop, apprentice: User, trainer: User) -> Asking:
    return Asking(own_shop, apprentice, trainer)
