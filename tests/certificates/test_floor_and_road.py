"""What waits for a trainer, the costliest first with the page that deals with it; and the road, block by block."""

import re
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from certificates.models import Certificate
from certificates.queries import start
from certificates.queries.road import CERTIFICATE, DONE, ENDED, FAILED, HANDS_ON, OPEN, READ, THEORY, Road
from tests.factories import AssignmentFactory, AttemptFactory, MembershipFactory
from tests.factories_certificates import CertificateFactory, HandsOnFactory, add_event, passed_attempt
from tests.pages import Visit
from tests.present import present
from training.access import Place
from training.models import Shop, User

pytestmark = pytest.mark.django_db
LIGHT = "north-america-light"


def blocks(road: Road | None) -> dict[str, tuple[str, ...]]:
    return {one.kind: one.blocks for one in present(road).stretches}


def here(road: Road | None) -> list[tuple[str, int]]:
    return [(one.kind, one.here) for one in present(road).stretches if one.here is not None]


def on_the_bay(shop: Shop, person: User) -> Road | None:
    place = Place(shop, person, frozenset({"apprentice"}))
    return start.bay(place=place, at=timezone.now()).road


def certify(shop: Shop, person: User) -> Certificate:
    attempt = passed_attempt(shop, person, scope=LIGHT)
    seen = HandsOnFactory.create(shop=shop, learner=person, scope=LIGHT)
    made: Certificate = CertificateFactory.create(shop=shop, holder=person, attempt=attempt, hands_on=seen, scope=LIGHT)
    return made


class TestFloor:
    def lines(self, visit: Visit, shop: Shop, role: str = "trainer") -> list[tuple[str, str, str]]:
        """Who, what, and where the deed leads, line by line."""
        page = visit(reverse("certificates:floor", args=[shop.slug]), as_role=role).content.decode()
        found = []
        for part in re.findall(r"<li><p class=\"deed-who\">.*?</li>", page, re.S):
            who, what = (re.search(pattern, part) for pattern in (r"deed-who\">(.*?)<", r"<h3>(.*?)</h3>"))
            found.append((present(who)[1], present(what)[1], present(re.search(r'href="(.*?)"', part))[1]))
        return found

    def test_who_may_not_work_stands_before_who_failed_who_waits_and_who_is_late(
        self, visit: Visit, own_shop: Shop, trainer: User
    ) -> None:
        people = {name: MembershipFactory.create(shop=own_shop, user__name=name).user for name in ("A", "B", "C", "D")}
        today = timezone.now().date()
        AssignmentFactory.create(shop=own_shop, learner=people["A"], due_date=today - timedelta(days=40))
        passed_attempt(own_shop, people["B"], scope=LIGHT)
        AttemptFactory.create(
            not_passed=True, form__shop=own_shop, form__learner=people["C"], form__blueprint__scope=LIGHT
        )
        held = certify(own_shop, people["D"])
        add_event(held, "suspended", at=timezone.now() - timedelta(days=1))

        lines = self.lines(visit, own_shop)

        assert [who for who, _, _ in lines] == ["D", "C", "B", "A"]
        assert lines[0][1].startswith("Certificate suspended since")
        assert lines[1][1].startswith("Theory not passed")
        assert lines[2][1] == "Waiting for hands-on"
        assert lines[3][1].startswith("Late since")
        assert lines[0][2] == reverse("certificates:certificate", args=[own_shop.slug, held.number])
        sheet = reverse("certificates:hands_on_sheet", args=[own_shop.slug, people["B"].reference, LIGHT])
        assert lines[2][2] == sheet
        assert lines[3][2] == reverse("training:assign", args=[own_shop.slug])

    def test_an_owner_who_evaluates_nobody_is_led_to_the_person(
        self, visit: Visit, own_shop: Shop, apprentice: User, owner: User
    ) -> None:
        passed_attempt(own_shop, apprentice, scope=LIGHT)

        ((_, what, where),) = self.lines(visit, own_shop, "owner")

        assert what == "Waiting for hands-on"
        assert where == reverse("certificates:person", args=[own_shop.slug, apprentice.reference])

    def test_a_person_has_one_line_and_nobody_has_none_for_nothing(
        self, visit: Visit, own_shop: Shop, apprentice: User, trainer: User
    ) -> None:
        assert self.lines(visit, own_shop) == []

        passed_attempt(own_shop, apprentice, scope=LIGHT)
        AssignmentFactory.create(shop=own_shop, learner=apprentice, due_date=timezone.now().date() - timedelta(days=2))

        assert [what for _, what, _ in self.lines(visit, own_shop)] == ["Waiting for hands-on"]

    def test_one_button_is_black(self, visit: Visit, own_shop: Shop, trainer: User) -> None:
        for name in ("A", "B", "C"):
            passed_attempt(own_shop, MembershipFactory.create(shop=own_shop, user__name=name).user, scope=LIGHT)

        page = visit(reverse("certificates:floor", args=[own_shop.slug]), as_role="trainer").content.decode()

        main = page.partition("<main")[2]
        assert len(re.findall(r'class="button"', main)) == 1
        assert len(re.findall(r'class="button button--quiet"', main)) == 2


class TestRoad:
    def test_somebody_new_stands_on_the_first_lesson(self, own_shop: Shop, apprentice: User) -> None:
        road = on_the_bay(own_shop, apprentice)

        found = blocks(road)
        assert here(road) == [(READ, 0)]
        assert set(found[READ]) == {OPEN}
        assert (found[THEORY], found[HANDS_ON], found[CERTIFICATE]) == ((OPEN,), (OPEN,), (OPEN,))

    def test_who_passed_the_theory_stands_on_the_hands_on(self, own_shop: Shop, apprentice: User) -> None:
        passed_attempt(own_shop, apprentice, scope=LIGHT)

        road = on_the_bay(own_shop, apprentice)

        assert blocks(road)[THEORY] == (DONE,)
        assert here(road) == [(HANDS_ON, 0)]

    def test_a_hands_on_that_was_not_passed_is_told_from_one_that_is_open(
        self, own_shop: Shop, apprentice: User
    ) -> None:
        passed_attempt(own_shop, apprentice, scope=LIGHT)
        HandsOnFactory.create(shop=own_shop, learner=apprentice, scope=LIGHT, failed=True)

        road = on_the_bay(own_shop, apprentice)

        assert blocks(road)[HANDS_ON] == (FAILED,)
        assert here(road) == [(HANDS_ON, 0)]

    def test_who_is_certified_stands_nowhere_and_who_lost_it_has_it_struck(
        self, own_shop: Shop, apprentice: User
    ) -> None:
        held = certify(own_shop, apprentice)

        road = on_the_bay(own_shop, apprentice)
        assert here(road) == []
        assert blocks(road)[CERTIFICATE] == (DONE,)

        add_event(held, "revoked", at=timezone.now())
        assert blocks(on_the_bay(own_shop, apprentice))[CERTIFICATE] == (ENDED,)

    def test_it_is_said_in_words_and_once_in_crayon(self, visit: Visit, own_shop: Shop) -> None:
        page = visit(reverse("certificates:bay", args=[own_shop.slug])).content.decode()

        assert page.count("You are here") == 1
        assert page.count('class="is-here ') == 1
        assert re.search(r"0 of \d+ lessons", page)
