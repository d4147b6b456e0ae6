"""A shop under the rulebook of the United Kingdom: course, practice, Check a tire, assessment and certificate."""

import random
import re
from urllib.parse import urlencode

import pytest

from assessments.models import Attempt, FormItem
from certificates.acts import issue_certificate
from certificates.queries.scopes import scope_of
from tests.factories import NOW, MembershipFactory, ShopFactory
from tests.factories_certificates import HandsOnFactory, passed_attempt
from tests.kept_checks import SMALL_HOLE
from tests.pages import text_of
from training import course
from training.models import Shop, User
from training.rulebook import load_edition

SCOPE = "united-kingdom-light"
LESSONS = [lesson for module in course.modules() for lesson in module.lessons]


@pytest.fixture
def british_shop(db: None) -> Shop:
    return ShopFactory.create(slug="canal-street", name="Canal Street Tyres", edition="united-kingdom", units="mm")


@pytest.fixture
def learner(british_shop: Shop) -> User:
    return MembershipFactory.create(shop=british_shop, role="apprentice").user


@pytest.mark.parametrize("lesson", LESSONS, ids=[lesson.key for lesson in LESSONS])
def test_every_lesson_opens_and_speaks_of_this_country_alone(lesson, visit, british_shop, learner) -> None:
    page = visit(f"/shop/{british_shop.slug}/course/{lesson.module}/{lesson.slug}/", as_role=learner)

    assert page.status_code == 200
    assert not re.findall(r"North America|[Ss]ome states|two adjacent grooves|Not a rule of", text_of(page))


# BS AU 159g as summarised: at most 6 mm after preparation. C&U Regulations 1986 reg 27: 1.6 mm.
@pytest.mark.parametrize(
    ("lesson", "printed"),
    [
        ("measure-and-choose/measure-the-injury", "At most 6 mm"),
        ("measure-and-choose/where-it-may-be", "The whole hole inside area T"),
        ("inspect-and-reject/tread-and-wear", "At least 1.6 mm"),
        # Motor Vehicle Tyres (Safety) Regulations 1994, part-worn tyres: 2 mm, from memory.
        ("inspect-and-reject/tread-and-wear", "At least 2 mm"),
    ],
)
def test_a_lesson_prints_the_limit_of_this_country(lesson, printed, visit, british_shop, learner) -> None:
    text = text_of(visit(f"/shop/{british_shop.slug}/course/{lesson}/", as_role=learner))

    assert printed in text
    assert "1/4 in" not in text


def test_the_repairable_crown_is_taught_by_the_rule_of_this_country(visit, british_shop, learner) -> None:
    text = text_of(visit(f"/shop/{british_shop.slug}/course/measure-and-choose/where-it-may-be/", as_role=learner))

    assert "60% of the nominal section width up to 155, 65% over 155 to 200, 70% over 200" in text
    assert "outer circumferential grooves" not in text
    assert "There is a drawing here" not in text


@pytest.mark.parametrize("skill", ["", "position", "measuring", "rejecting-conditions"])
def test_practice_asks_by_this_rulebook_and_leaves_out_what_does_not_apply(skill, visit, british_shop, learner) -> None:
    address = f"/shop/{british_shop.slug}/practice/"

    started = visit(f"{address}start/", as_role=learner, post={"skill": skill})

    attempt = Attempt.objects.get()
    for position in range(1, 9):
        visit(f"{address}{attempt.form.reference}/{position}/", as_role=learner, post={"go": "explain"})
    items = FormItem.objects.filter(form=attempt.form)
    assert started.status_code == 302
    assert visit(started["Location"], as_role=learner).status_code == 200
    assert {item.snapshot["edition"] for item in items} == {"united-kingdom"}
    assert not {"tread-by-axle", "run-low", "edge-to-shoulder"} & {item.family for item in items}
    assert len(items) == attempt.form.size > 0


def test_the_assessment_asks_sixty_questions_by_this_rulebook(visit, british_shop, learner) -> None:
    address = f"/shop/{british_shop.slug}/assessment/{SCOPE}/"

    page = visit(address, as_role=learner)
    visit(f"{address}start/", as_role=learner, post={"is_ready": "on"})

    items = FormItem.objects.filter(form=Attempt.objects.get().form)
    assert "90 minutes" in text_of(page)
    assert len(items) == 60
    assert {item.snapshot["edition"] for item in items} == {"united-kingdom"}
    assert {"repair-area", "tread-by-vehicle", "tread-across", "age-on-axle", "cut-on-road", "cut-limit"} <= {
        item.family for item in items
    }


def test_the_certificate_names_the_rulebook_of_this_country(visit, british_shop, learner) -> None:
    owner, here = MembershipFactory.create(shop=british_shop, role="owner").user, {"edition": "united-kingdom"}
    passed_attempt(british_shop, learner, scope=SCOPE, form__edition="united-kingdom")
    HandsOnFactory.create(shop=british_shop, learner=learner, scope=SCOPE, **here)

    made = issue_certificate(
        shop=british_shop, holder=learner, issuer=owner, scope=scope_of(british_shop), at=NOW, rng=random.Random("uk")
    )

    assert (made.edition, made.casings) == ("united-kingdom", ["passenger", "light-truck-fabric"])
    page = visit(visit(f"/c/{made.number}/")["Location"])
    assert "Rulebook United Kingdom, version" in text_of(page)
    assert "fabric-body van tyres, United Kingdom" in text_of(page)


# 185 mm wide: T = 120 mm as printed; a hole of 6 mm at 57 mm touches its edge, at 58 mm it lies outside.
@pytest.mark.parametrize(("lateral", "verdict"), [("57 mm", "Repair"), ("58 mm", "Reject")])
def test_check_a_tire_decides_in_millimeters_by_area_t(lateral, verdict, visit, british_shop, learner) -> None:
    query = SMALL_HOLE | {
        "designation": "185/65R15",
        "on": "2026-11-25",
        "injury_A_kind": "puncture",
        "injury_A_diameter": "6 mm",
        "injury_A_angle": "0 deg",
        "injury_A_lateral": lateral,
    }
    page = visit(f"/shop/{british_shop.slug}/check/?{urlencode(query)}", as_role=learner)

    assert page.status_code == 200
    assert verdict in re.findall(r'verdict-word">\s*(\w+)', page.content.decode())
    assert "BS AU 159g" in text_of(page)


def test_the_rulebook_page_shows_every_clause_and_marks_what_nobody_has_read(visit, british_shop, learner) -> None:
    page = visit(f"/shop/{british_shop.slug}/rulebook/", as_role=learner)
    text, html = text_of(page), page.content.decode()

    assert all(f'id="rule-{id}"' in html for id in load_edition("united-kingdom").clauses)
    assert "as printed 125: 75 mm" in text
    unread = html.partition('id="from-memory"')[2].partition("</section>")[0]
    assert "tread-depth-used" in unread
    assert "run-flat-damage" not in unread


@pytest.mark.parametrize("role", ["trainer", "owner"])
@pytest.mark.parametrize(
    "page",
    ["bay", "floor", "roster", "people", "course", "practice", "check", "checks", "audit", "assign", "repair-units"],
)
def test_every_page_of_the_shop_opens(page, role, visit, british_shop, learner) -> None:
    member = MembershipFactory.create(shop=british_shop, role=role).user

    assert visit(f"/shop/{british_shop.slug}/{page}/", as_role=member).status_code == 200


@pytest.mark.parametrize("page", ["floor", "hands-on"])
def test_the_page_of_a_learner_opens_for_a_trainer(page, visit, british_shop, learner) -> None:
    trainer = MembershipFactory.create(shop=british_shop, role="trainer").user

    assert visit(f"/shop/{british_shop.slug}/{page}/{learner.reference}/", as_role=trainer).status_code == 200


def test_house_rules_are_laid_over_this_rulebook(visit, british_shop) -> None:
    owner = MembershipFactory.create(shop=british_shop, role="owner").user

    page = visit(f"/shop/{british_shop.slug}/house-rules/", as_role=owner)

    assert page.status_code == 200
    assert "at most 6 mm" in text_of(page)


def test_a_stranger_reads_a_certificate_in_the_language_of_its_shop(visit, british_shop, learner, client) -> None:
    owner, here = MembershipFactory.create(shop=british_shop, role="owner").user, {"edition": "united-kingdom"}
    passed_attempt(british_shop, learner, scope=SCOPE, form__edition="united-kingdom")
    HandsOnFactory.create(shop=british_shop, learner=learner, scope=SCOPE, **here)
    made = issue_certificate(
        shop=british_shop, holder=learner, issuer=owner, scope=scope_of(british_shop), at=NOW, rng=random.Random("uk")
    )

    page = client.get(client.get(f"/c/{made.number}/")["Location"], headers={"accept-language": "en-US"})

    assert '<html lang="en-gb">' in page.content.decode()
    assert "25 Nov 2026" in text_of(page)
