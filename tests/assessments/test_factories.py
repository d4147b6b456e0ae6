"""The factories make what they say, and what the database accepts."""

import pytest

from tests.factories import AttemptFactory, FormFactory, MembershipFactory, ResponseFactory, UserFactory


@pytest.mark.django_db
@pytest.mark.parametrize("trait", ["practice", "overdue", "passed", "not_passed"])
def test_every_kind_of_attempt_stands_in_the_database(trait) -> None:
    attempt = AttemptFactory.create(**{trait: True})

    assert attempt.form.items.count() == 3


@pytest.mark.django_db
def test_traits_and_defaults() -> None:
    assert UserFactory.create(with_password=True).check_password("a-quiet-valve-core")
    assert MembershipFactory.create(trainer=True).role == "trainer"
    assert FormFactory.create(practice=True, size=5).items.count() == 5
    assert ResponseFactory.create().attempt.is_open(at=ResponseFactory.create().saved_at)
