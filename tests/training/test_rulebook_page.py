"""The rulebook page: every clause with every statement and source, house rules too, and what nobody has read."""

import re

import pytest
from django.template.loader import render_to_string

from tests.factories import MembershipFactory, ShopFactory
from tests.pages import Visit, cost_of, text_of
from training.models import Shop
from training.pages.rulebook import RulebookPage, rulebook_page
from training.rulebook import load_edition


@pytest.fixture
def html(visit: Visit, own_shop: Shop) -> str:
    return visit(f"/shop/{own_shop.slug}/rulebook/").content.decode()


def rule_in(html: str, clause: str) -> str:
    return text_of(html.partition(f'id="rule-{clause}"')[2].partition("</li>")[0])


def test_every_clause_stands_there_once(html) -> None:
    for clause in load_edition("north-america").clauses:
        assert html.count(f'id="rule-{clause}"') == 1


# Retread and repair materials group 2017: over 25 deg a two-piece repair; some makers: 35 deg. Both are kept.
def test_a_clause_shows_all_its_statements_with_their_sources(html) -> None:
    rule = rule_in(html, "one-piece-angle")

    assert "at most 25°; otherwise repair" in rule
    assert "at most 35°; otherwise repair" in rule
    assert "Tread Rubber and Tire Repair Materials Manufacturers' Group, Industry Recommended Practices" in rule
    assert "some makers of repair materials print it in their instructions" in rule
    assert "Checked Nov 20, 2026" in rule


# California and South Carolina: "2/32 or less" is unsafe; Utah: less than 2/32.
def test_a_statement_says_whose_law_it_is(html) -> None:
    rule = rule_in(html, "tread-depth-used")

    assert "more than 2/32 in, in California and South Carolina; otherwise reject" in rule


def test_what_nobody_has_read_is_listed_and_marked_in_its_place(html) -> None:
    listed = text_of(html.partition('id="from-memory"')[2].partition("<details>")[0])

    assert re.search(
        r"Section repair, truck tire in front no section repair on a front wheel; otherwise reject 49 CFR 570\.62\(d\)",
        listed,
    )
    assert "Not read in full: check it." in rule_in(html, "buffer-speed")
    assert "Not read" not in rule_in(html, "injury-size")


def test_a_rulebook_that_was_read_throughout_says_so() -> None:
    edition = load_edition("north-america")
    book = RulebookPage(crowns=(), groups=rulebook_page(edition).groups, unread=(), unread_tables=(), sources=())

    html = render_to_string("training/_rulebook.html", {"edition": edition, "versions": [edition], "book": book})

    assert "Nothing: every clause was read in the text it names." in text_of(html)


# A reader seeks a rule: the search and the subjects come before anything else, names of clauses last.
def test_the_page_begins_with_a_search_and_the_subjects_and_ends_each_rule_with_its_name(html) -> None:
    places = [html.index(mark) for mark in (
        'type="search"', 'href="#injury"', "in force from", '<h2 id="found">', 'id="from-memory"', 'id="sources"'
    )]  # fmt: skip
    rule = rule_in(html, "one-piece-angle")

    assert places == sorted(places)
    assert rule.endswith("one-piece-angle")
    summary = text_of(html.partition('id="rule-one-piece-angle"')[0].rpartition("<summary>")[2])
    assert summary.startswith("Angle for a one-piece unit")
    assert "at most 25°" in summary
    assert "<details open" not in html


# Cutting and buffing guidance: no more than 5,000 rpm at the buffer; the cutter's 1,200 rpm does not speak of a buffer.
def test_a_search_shows_the_rules_that_say_all_its_words_and_few_lie_open(visit, own_shop) -> None:
    html = visit(f"/shop/{own_shop.slug}/rulebook/?q=BUFFER++5000").content.decode()

    assert "1 rule says “BUFFER 5000”" in text_of(html)
    assert re.findall(r'id="rule-([a-z-]+)"', html) == ["buffer-speed"]
    assert html.count("<details open") == 1
    assert "To be checked" not in html


def test_a_search_that_finds_nothing_says_so_and_leads_back(visit, own_shop) -> None:
    html = visit(f"/shop/{own_shop.slug}/rulebook/?q=%3Cb%3Eparachute").content.decode()

    assert "No rule has these words in it." in text_of(html)
    assert "<b>" not in html
    assert f'href="/shop/{own_shop.slug}/rulebook/"' in html


# A stranger finds publisher, title, year, place and address of what is cited, and what of it was read here.
def test_the_sources_are_listed_with_their_publishers_and_what_was_read(html) -> None:
    listed = text_of(html.partition('id="sources"')[2])

    assert "U.S. Tire Manufacturers Association (until 2017 Rubber Manufacturers Association)" in listed
    assert "vehicle and light truck safety inspections, Utah Administrative Code R714-160" in listed
    assert "Law in Utah" in listed
    assert "http://www.dir.ca.gov/title8/3325.html Only 3325(a), 3325(b), 3325(c), 3325(d) and 3325(e)" in listed


def test_the_crown_is_told_as_it_is_measured(html) -> None:
    assert "to the inner edge of the outermost groove on each side" in text_of(html)


def test_a_larger_rulebook_costs_no_more_queries(client_as, own_shop) -> None:
    british = ShopFactory.create(edition="united-kingdom", units="mm")
    there = client_as(MembershipFactory.create(shop=british, role="apprentice").user)
    here = client_as(MembershipFactory.create(shop=own_shop, role="apprentice").user)

    counted = cost_of(here, f"/shop/{own_shop.slug}/rulebook/")

    assert cost_of(there, f"/shop/{british.slug}/rulebook/") == counted <= 8
    assert cost_of(here, f"/shop/{own_shop.slug}/rulebook/?q=liner") == counted


@pytest.mark.parametrize("page", ["course/", "settings/"])
def test_the_course_and_the_shop_page_lead_there(page, visit, own_shop) -> None:
    html = visit(f"/shop/{own_shop.slug}/{page}", as_role="owner").content.decode()

    assert f'href="/shop/{own_shop.slug}/rulebook/"' in html
