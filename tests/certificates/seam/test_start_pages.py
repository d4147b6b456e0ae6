"""The start pages and the tables say every word in the language spoken."""

import re
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone

from tests.certificates.seam.told import LIGHT, STEEL, certified, typed, unsaid
from tests.factories import NOW, AssignmentFactory, AttemptFactory, MembershipFactory, NoticeFactory
from tests.factories_certificates import HandsOnFactory, add_event, passed_attempt
from tests.pages import ClientAs, url
from training.models import Shop, User

pytestmark = pytest.mark.django_db


def test_the_bay_of_somebody_new(read: Callable[..., list[str]], shop: Shop) -> None:
    assert read(url("certificates:bay", shop), as_role="apprentice") == []


def test_the_bay_with_what_is_asked_and_certified(
    read: Callable[..., list[str]], both: Shop, people: dict[str, User]
) -> None:
    learner, trainer = people["apprentice"], people["trainer"]
    certified(both, learner, trainer)
    AttemptFactory.create(not_passed=True, form__shop=both, form__learner=learner, form__blueprint__scope=STEEL)
    AssignmentFactory.create(shop=both, learner=learner, due_date=NOW.date() - timedelta(days=3))
    NoticeFactory.create(shop=both, person=learner, text=typed("Read the limits again."))

    assert read(url("certificates:bay", both), as_role="apprentice") == []


@pytest.mark.parametrize(
    "state", ["certified", "passed", "seen", "open", "paper", "failed", "used-up", "suspended", "due", "late"]
)
def test_a_learner_on_the_way_as_everybody_sees_them(
    read: Callable[..., list[str]], shop: Shop, people: dict[str, User], state: str, request: Any
) -> None:
    learner, trainer = people["apprentice"], people["trainer"]
    ours = {"form__shop": shop, "form__learner": learner, "form__blueprint__scope": LIGHT}
    match state:
        case "certified":
            certified(shop, learner, trainer)
        case "suspended":
            add_event(certified(shop, learner, trainer), "suspended")
        case "passed":
            passed_attempt(shop, learner, scope=LIGHT)
            HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT, failed=True)
        case "seen":
            HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT)
        case "open":
            AttemptFactory.create(started_at=timezone.now(), **ours)
        case "paper":
            request.getfixturevalue("paper")
        case "failed":
            AttemptFactory.create(not_passed=True, **ours)
        case "used-up":
            AttemptFactory.create_batch(3, not_passed=True, **ours)
        case "due":
            AssignmentFactory.create(shop=shop, learner=learner, due_date=timezone.now().date() + timedelta(days=9))
        case "late":
            AssignmentFactory.create(shop=shop, learner=learner, due_date=timezone.now().date() - timedelta(days=9))

    assert read(url("certificates:bay", shop), as_role="apprentice") == []
    assert read(url("certificates:floor", shop)) == []
    assert read(url("certificates:person", shop, learner.reference)) == []
    assert read(url("certificates:roster", shop), as_role="owner") == []


def test_the_pages_of_a_shop_with_two_scopes(
    read: Callable[..., list[str]], both: Shop, people: dict[str, User]
) -> None:
    learner, trainer, owner = (people[role] for role in ("apprentice", "trainer", "owner"))
    certified(both, learner, trainer)
    passed_attempt(both, learner, scope=STEEL)
    HandsOnFactory.create(shop=both, learner=learner, trainer=trainer, scope=STEEL)
    HandsOnFactory.create(shop=both, learner=owner, trainer=trainer, scope=STEEL)
    passed_attempt(both, trainer, scope=LIGHT)

    assert read(url("certificates:floor", both)) == []
    assert read(url("certificates:person", both, learner.reference)) == []
    assert read(url("certificates:roster", both)) == []
    assert read(url("certificates:roster", both) + "?on=2026-12-01") == []
    assert read(url("certificates:roster", both) + "?on=2019-01-01") == []
    assert read(url("certificates:roster", both) + "?on=never") == []
    assert read(url("certificates:scopes", both), as_role="owner") == []
    assert read(url("certificates:hands_on", both, learner.reference)) == []
    assert read(url("certificates:paper_make", both, learner.reference)) == []


def test_nobody_and_no_shop(read: Callable[..., list[str]], shop: Shop, people: dict[str, User]) -> None:
    people["apprentice"].memberships.update(ended_at=NOW)
    people["trainer"].memberships.create(shop=shop, role="owner", since_at=NOW)

    assert read(url("certificates:floor", shop)) == []
    assert read(reverse("certificates:home"), as_role="apprentice") == []


def test_several_shops(read: Callable[..., list[str]], shop: Shop, other_shop: Shop, people: dict[str, User]) -> None:
    assert shop != other_shop
    other_shop.name = typed("Mill Street")
    other_shop.save()
    MembershipFactory.create(shop=other_shop, user=people["trainer"])

    assert read(reverse("certificates:home")) == []


def test_the_table_to_download(client_as: ClientAs, both: Shop, people: dict[str, User]) -> None:
    certified(both, people["apprentice"], people["trainer"])

    table = client_as("owner").get(url("certificates:roster_csv", both)).content.decode()

    assert unsaid(re.sub(r"\d{4}-\d\d-\d\d", " ", table)) == []
