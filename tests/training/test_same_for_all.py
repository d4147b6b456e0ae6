"""What is made once for all under one rulebook: a shop of another rulebook, language, unit or rules gets its own."""

from datetime import timedelta

import pytest
from django.test import Client

from tests.factories import NOW, MembershipFactory, ShopFactory
from tests.pages import fields_of, text_of
from training import acts
from training.models import Shop
from training.rulebook import HouseRule, HouseRules

pytestmark = pytest.mark.django_db

PAGES = ("rulebook/", "house-rules/", "house-rules/file/", "repair-units/add/")
# US association puncture repair procedures (wall chart): 1/4 in (6 mm), so 5 mm is stricter
SIZE = HouseRules((HouseRule("injury-size", ("5 mm",)),))


def owner_of(**shop: str) -> tuple[Client, Shop]:
    made = ShopFactory.create(**shop)
    browser = Client()
    browser.force_login(MembershipFactory.create(shop=made, role="owner").user)
    return browser, made


@pytest.fixture
def shops() -> dict[str, tuple[Client, Shop]]:
    """Four that differ in one thing each from the first, or in all."""
    found = {
        "inch": owner_of(edition="north-america", units="in"),
        "mm": owner_of(edition="north-america", units="mm"),
        "stricter": owner_of(edition="north-america", units="in"),
        "british": owner_of(edition="united-kingdom", units="mm"),
    }
    shop = found["stricter"][1]
    acts.set_house_rules(shop=shop, rules=SIZE, reason="", by=shop.memberships.get().user, base=0, at=NOW)
    shop.refresh_from_db()
    return found


def read(shops: dict[str, tuple[Client, Shop]], name: str, page: str) -> str:
    browser, shop = shops[name]
    answer = browser.get(f"/shop/{shop.slug}/{page}")
    assert answer.status_code == 200
    return answer.content.decode().replace(shop.slug, "").replace(shop.name, "")


@pytest.mark.parametrize("names", [["inch", "mm", "stricter", "british"], ["british", "stricter", "mm", "inch"]])
def test_each_shop_reads_its_own_whoever_came_before(shops, names) -> None:
    book, fields, file, unit = ({name: read(shops, name, page) for name in names} for page in PAGES)
    # BS AU 159g as summarized: area T; elsewhere nothing is so called
    assert [name for name in shops if "area T" in text_of(book[name])] == ["british"]
    assert [name for name in shops if "at most 5 mm" in text_of(book[name])] == ["stricter"]
    assert [name for name in shops if "tyre maker's instructions" in text_of(book[name])] == ["british"]

    hints = {
        "inch": "Rulebook: at most 1/4 in (6 mm), for",
        "mm": "Rulebook: at most 6 mm (1/4 in), for",
        "stricter": "Rulebook: at most 1/4 in (6 mm), for",
        "british": "Rulebook: at most 6 mm, for",
    }
    for name, hint in hints.items():
        assert hint in text_of(fields[name])
        held = fields_of(fields[name])
        assert held["injury-size"] == ["5 mm" if name == "stricter" else ""]
        assert held["injury-size_u"] == ["in" if name == "inch" else "mm"]  # what is stated in mm shows that
        assert fields_of(unit[name])["length_u"] == ["in" if name in {"inch", "stricter"} else "mm"]
    assert [name for name in shops if "5 mm" in text_of(file[name]).partition("Limits of the rulebook")[0]] == [
        "stricter"
    ]
    assert [name for name in shops if "tyres" in text_of(unit[name]).casefold()] == ["british"]


def test_a_rule_taken_back_is_gone_from_every_page_at_once(shops) -> None:
    shop = shops["stricter"][1]
    before = read(shops, "stricter", "house-rules/")

    acts.set_house_rules(
        shop=shop, rules=HouseRules(), reason="", by=shop.memberships.get().user, base=1, at=NOW + timedelta(days=1)
    )

    assert fields_of(before)["injury-size"] == ["5 mm"]
    assert fields_of(read(shops, "stricter", "house-rules/"))["injury-size"] == [""]
    assert "at most 5 mm" not in text_of(read(shops, "stricter", "rulebook/"))


@pytest.mark.parametrize("page", PAGES)
def test_nothing_that_is_kept_holds_a_token_of_somebodys_session(shops, page) -> None:
    first, second = (set(fields_of(read(shops, "inch", page))["csrfmiddlewaretoken"]) for _ in range(2))

    assert not first & second  # each page masks its own anew


@pytest.mark.parametrize("page", ["house-rules/", "repair-units/add/"])
def test_what_one_owner_typed_and_was_refused_is_shown_to_nobody_else(shops, page) -> None:
    browser, shop = shops["inch"]
    refused = browser.post(
        f"/shop/{shop.slug}/{page}", {"injury-size": "9 in", "name": "nine inches", "length": "9 in"}
    )

    assert "9 in" in refused.content.decode()
    assert "9 in" not in read(shops, "inch", page)
