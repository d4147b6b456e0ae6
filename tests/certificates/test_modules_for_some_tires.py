"""A module about some kinds of tires stands between nobody and the assessment for passenger tires."""

from datetime import date

import pytest
from django.urls import reverse

from tests.factories import NOW, AssignmentFactory
from tests.pages import Visit
from training import acts, course
from training.models import Shop, User
from training.queries.shop_rulebook import edition_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def well_read(own_shop: Shop, apprentice: User) -> User:
    """An apprentice who has read every module that is for every tire, and no other."""
    edition = edition_of(own_shop)
    for module in course.modules():
        for lesson in module.lessons if not module.casings else ():
            acts.mark_lesson_read(
                shop=own_shop,
                learner=apprentice,
                module=module.slug,
                lesson=lesson.slug,
                content_version=course.render(lesson, edition=edition, prefer=own_shop.units).content_version,
                at=NOW,
            )
    return apprentice


def next_on_the_bay(visit: Visit, shop: Shop, person: User) -> str:
    page = visit(reverse("certificates:bay", args=[shop.slug]), as_role=person).content.decode()
    return page.partition('id="next"')[2].partition("</section>")[0]


def test_the_assessment_comes_next_with_the_modules_for_some_tires_unread(
    visit: Visit, own_shop: Shop, well_read: User
) -> None:
    assert "Take the assessment" in next_on_the_bay(visit, own_shop, well_read)


@pytest.mark.parametrize("module", ["steel-bodies", "motorcycles"])
def test_a_module_for_some_tires_comes_next_once_the_trainer_asks_for_it(
    module: str, visit: Visit, own_shop: Shop, well_read: User
) -> None:
    AssignmentFactory.create(shop=own_shop, learner=well_read, module=module, due_date=date(2026, 12, 2))

    found = next_on_the_bay(visit, own_shop, well_read)

    assert course.module(module).lessons[0].title in found
    assert "Take the assessment" not in found


@pytest.mark.parametrize(
    ("module", "lesson", "leads_to"),
    [
        ("steel-bodies", "run-soft-and-the-cage", "?casing=light-truck-steel#skills"),
        ("inspect-and-reject", "reject-on-sight", "practice/#skills"),
        ("motorcycles", "motorcycle-tires", None),
    ],
)
def test_a_lesson_leads_to_practice_of_its_tires_and_to_none_where_the_shop_practices_none(
    module: str, lesson: str, leads_to: str | None, visit: Visit, own_shop: Shop
) -> None:
    own_shop.scopes = ["north-america-light", "north-america-steel"]
    own_shop.save()

    page = visit(reverse("training:lesson", args=[own_shop.slug, module, lesson])).content.decode()

    assert ("Practice this" in page) == (leads_to is not None)
    assert leads_to is None or f'{leads_to}">Practice this</a>' in page
