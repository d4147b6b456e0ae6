"""Recording a hands-on evaluation: who may, what it needs, and what fails it."""

from collections.abc import Callable, Mapping
from uuid import UUID, uuid4

import pytest
from django.db import IntegrityError, transaction

from certificates.acts import HandsOnRefused, criterion_keys
from certificates.models import HandsOn
from tests.evaluations import all_met, evaluate
from tests.factories import MembershipFactory
from tests.factories_certificates import SCOPE, HandsOnFactory
from training.models import Shop, User
from training.rulebook import load_edition

pytestmark = pytest.mark.django_db

EDITION = load_edition("north-america")
CRITICAL = [key for key, _, criterion in criterion_keys(EDITION, SCOPE.casings) if criterion.critical]
OTHER = [key for key, _, criterion in criterion_keys(EDITION, SCOPE.casings) if not criterion.critical]
Record = Callable[..., HandsOn]


def marks(**changed: str) -> dict[str, str]:
    return all_met(EDITION) | changed


@pytest.fixture
def record(own_shop: Shop, apprentice: User, trainer: User) -> Record:
    def do(
        *,
        learner: User = apprentice,
        by: User = trainer,
        given: Mapping[str, str] | None = None,
        press: UUID | None = None,
        remarks: str = "",
    ) -> HandsOn:
        return evaluate(own_shop, learner, by, edition=EDITION, marks=given, remarks=remarks, press=press)

    return do


def test_the_rulebook_has_criteria_both_critical_and_not() -> None:
    assert len(CRITICAL) >= 5
    assert OTHER


def test_everything_met_passes_and_keeps_each_line_as_it_was_read(record: Record, trainer: User) -> None:
    made = record(remarks="Clean work.")

    made.refresh_from_db()
    assert made.has_passed
    assert made.trainer == trainer
    assert made.remarks == "Clean work."
    assert [line["id"] for line in made.criteria] == list(marks())
    assert {line["mark"] for line in made.criteria} == {"met"}
    assert all(line["text"] and line["step"] and line["source"] for line in made.criteria)


@pytest.mark.parametrize("key", CRITICAL)
def test_each_critical_criterion_alone_fails_it(key: str, record: Record) -> None:
    assert not record(given=marks(**{key: "not-met"})).has_passed


@pytest.mark.parametrize("key", OTHER)
def test_another_criterion_alone_does_not_fail_it(key: str, record: Record) -> None:
    assert record(given=marks(**{key: "not-met"})).has_passed


def test_a_criterion_without_a_mark_is_refused(record: Record) -> None:
    given = marks()
    del given[CRITICAL[0]]

    with pytest.raises(HandsOnRefused, match="Mark every criterion as met or not met; missing"):
        record(given=given)
    with pytest.raises(HandsOnRefused, match="missing"):
        record(given=marks(**{OTHER[0]: "maybe"}))
    assert not HandsOn.objects.exists()


def test_a_criterion_of_another_rulebook_is_refused(record: Record) -> None:
    with pytest.raises(HandsOnRefused, match=r'"spin\.twice" is no criterion of North America'):
        record(given=marks(**{"spin.twice": "met"}))


def test_nobody_evaluates_themself(record: Record, trainer: User) -> None:
    with pytest.raises(HandsOnRefused, match="cannot evaluate"):
        record(learner=trainer)


def test_the_database_refuses_a_record_by_oneself() -> None:
    made = HandsOnFactory.create()

    with pytest.raises(IntegrityError, match="hands_on_not_by_oneself"), transaction.atomic():
        HandsOnFactory.create(learner=made.trainer, trainer=made.trainer)


@pytest.mark.parametrize("role", ["apprentice", "owner", "trainer_of_other_shop"])
def test_only_a_trainer_of_the_shop_records(
    role: str, record: Record, own_shop: Shop, person: Callable[[str], User]
) -> None:
    learner = MembershipFactory.create(shop=own_shop).user

    with pytest.raises(HandsOnRefused, match="is no trainer of Quarry Road Tire"):
        record(learner=learner, by=person(role))


def test_a_trainer_who_left_records_nothing(record: Record, own_shop: Shop) -> None:
    former = MembershipFactory.create(shop=own_shop, trainer=True, ended=True).user

    with pytest.raises(HandsOnRefused, match="is no trainer"):
        record(by=former)


def test_only_somebody_of_the_shop_is_evaluated(record: Record, person: Callable[[str], User], own_shop: Shop) -> None:
    former = MembershipFactory.create(shop=own_shop, ended=True).user

    for stranger in (person("apprentice_of_other_shop"), former):
        with pytest.raises(HandsOnRefused, match="does not belong to Quarry Road Tire"):
            record(learner=stranger)


def test_pressing_twice_makes_one_record(record: Record) -> None:
    press = uuid4()

    first = record(press=press)
    second = record(press=press, given=marks(**{CRITICAL[0]: "not-met"}))

    assert second == first
    assert HandsOn.objects.count() == 1
