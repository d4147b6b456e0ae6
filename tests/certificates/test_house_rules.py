"""A certificate names the edition's version and, in words, the house rules that its assessment was drawn by."""

from collections.abc import Callable
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from certificates import acts
from certificates.documents.certificate import certificate_pdf
from certificates.models import Certificate
from certificates.numbers import show_number
from certificates.queries import printed
from tests.documents.records import a_record
from tests.factories import NOW
from tests.factories_certificates import SCOPE, HandsOnFactory, passed_attempt
from tests.pages import Visit
from training.acts import set_house_rules
from training.models import Shop, User
from training.queries.shop_rulebook import edition_of
from training.rulebook import HouseRule, HouseRules

pytestmark = pytest.mark.django_db

# The chart's own limit: 1/4 in (6 mm), US association, puncture repair procedures, passenger and light truck.
SAID = "Size of the hole: at most 5 mm (rulebook: at most 1/4 in (6 mm))"


def text_of(pdf: bytes) -> str:
    (page,) = PdfReader(BytesIO(pdf)).pages
    return " ".join(page.extract_text().split())


@pytest.fixture
def ready(own_shop: Shop, apprentice: User, owner: User, trainer: User) -> Callable[[], Certificate]:
    """Issue to the apprentice on an assessment drawn under the shop's rulebook as it stands now."""

    def issue() -> Certificate:
        own_shop.refresh_from_db()
        version = edition_of(own_shop).version
        passed_attempt(own_shop, apprentice, form__edition_version=version)
        HandsOnFactory.create(shop=own_shop, learner=apprentice, trainer=trainer)
        return acts.issue_certificate(shop=own_shop, holder=apprentice, issuer=owner, scope=SCOPE, at=NOW)

    return issue


def put(shop: Shop, owner: User, *limits: str, base: int = 0) -> None:
    rules = HouseRules((HouseRule("injury-size", limits),) if limits else ())
    set_house_rules(shop=shop, rules=rules, reason="", by=owner, base=base, at=NOW)


def test_it_keeps_them_in_words(own_shop: Shop, owner: User, ready: Callable[[], Certificate]) -> None:
    put(own_shop, owner, "5 mm")

    assert ready().house_rules == [SAID]


def test_without_house_rules_it_names_none(ready: Callable[[], Certificate]) -> None:
    certificate = ready()

    assert (certificate.house_rules, certificate.edition_version) == ([], "2026.1")


def test_it_names_those_of_its_assessment_though_they_were_taken_back_since(
    own_shop: Shop, owner: User, apprentice: User, trainer: User
) -> None:
    put(own_shop, owner, "5 mm")
    own_shop.refresh_from_db()
    passed_attempt(own_shop, apprentice, form__edition_version=edition_of(own_shop).version)
    put(own_shop, owner, base=1)
    own_shop.refresh_from_db()
    HandsOnFactory.create(shop=own_shop, learner=apprentice, trainer=trainer)

    certificate = acts.issue_certificate(shop=own_shop, holder=apprentice, issuer=owner, scope=SCOPE, at=NOW)

    assert certificate.house_rules == [SAID]


def test_page_check_page_and_paper_name_them(
    own_shop: Shop, owner: User, ready: Callable[[], Certificate], visit: Visit
) -> None:
    put(own_shop, owner, "5 mm")
    certificate = ready()
    number = show_number(certificate.number)

    own = visit(f"/shop/{own_shop.slug}/certificates/{number}/", as_role="owner").content.decode()
    checked = visit(f"/c/{number}/", as_role="anonymous").content.decode()
    paper = text_of(certificate_pdf(printed(certificate, site="https://training.example.org", path=f"/c/{number}/")))

    for told in (own, checked, paper):
        assert SAID in told
        assert certificate.edition_version in told


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_paper_with_many_house_rules_stays_one_page_and_says_how_many_are_left_out(paper: str) -> None:
    rules = [f"Limit number {place}: at most {place} mm (rulebook: at most 1/4 in (6 mm))" for place in range(1, 31)]
    facts: dict[str, Any] = {"house_rules": rules}

    text = text_of(certificate_pdf(a_record(**facts), paper=paper))

    assert rules[0] in text
    assert "and 24 more, on the page below" in text
    assert "For the shop:" in text
