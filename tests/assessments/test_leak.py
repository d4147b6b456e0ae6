"""The page of an open question is the same bytes whichever answer is right, and names nothing beyond the question."""

import json
import re
from dataclasses import replace

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from assessments.models import Attempt, FormItem, Purpose
from assessments.questions import draw, family_names, misconceptions
from assessments.questions.items.item import Item
from tests.factories import AttemptFactory, FormFactory, an_item
from tests.homes import home
from tests.present import as_a
from training.models import Shop, User
from training.rulebook import VERDICTS

pytestmark = [pytest.mark.django_db, pytest.mark.walk]

VARYING = (
    re.compile(rb'name="csrfmiddlewaretoken" value="[^"]+"'),
    re.compile(rb"\d+ min left"),
)


def open_page(client: Client, shop: Shop, attempt: Attempt, position: int = 1) -> bytes:
    is_practice = attempt.form.purpose == Purpose.PRACTICE
    name = "assessments:practice_item" if is_practice else "assessments:item"
    page = client.get(reverse(name, args=[shop.slug, attempt.form.reference, position]))
    assert page.status_code == 200
    content = page.content
    for pattern in VARYING:
        content = pattern.sub(b"", content)
    return content


def attempt_at(shop: Shop, learner: User, items: list[Item], trait: dict[str, bool]) -> Attempt:
    form = FormFactory.create(shop=shop, learner=learner, items=items, **trait)
    fresh = {"started_at": timezone.now()}
    return AttemptFactory.create(form=form, **fresh, **({"closes_at": None, "open_for": ""} if trait else {}))


@pytest.mark.parametrize("trait", [{}, {"practice": True}], ids=["assessment", "practice"])
def test_the_page_is_the_same_bytes_with_each_option_as_the_key(client_as, own_shop, apprentice, trait) -> None:
    attempt = attempt_at(own_shop, apprentice, [an_item()], trait)
    client = client_as(apprentice)
    row = FormItem.objects.get(form=attempt.form)
    pages = set()
    for key in ("1", "2", "3"):
        others = tuple(option for option in ("1", "2", "3") if option != key)
        item = replace(
            an_item(), key=key, unsafe=others[:1], distractors=dict.fromkeys(others, ("size-does-not-matter",))
        )
        row.snapshot, row.open = item.to_json(), item.open().to_json()
        row.save()
        pages.add(open_page(client, own_shop, attempt))

    assert len(pages) == 1


@pytest.mark.parametrize("name", family_names())
def test_an_open_question_names_no_clause_verdict_family_or_misconception(
    client_as, own_shop, apprentice, name
) -> None:
    edition = home(name)
    item = draw(name, seed="leak", edition=edition)
    attempt = attempt_at(own_shop, apprentice, [item], {})

    content = open_page(client_as(apprentice), own_shop, attempt).decode()

    words = json.dumps(item.open().to_json(), ensure_ascii=False)
    for forbidden in (*family_names(), *misconceptions(), *edition.clauses):
        if "-" in forbidden:  # a single plain word can be a word of the question
            assert forbidden not in words
            assert forbidden not in content.replace(str(attempt.form.reference), "")
    marks = re.findall(r'(?:class|id|name|data-[a-z-]+|value|aria-[a-z]+)="([^"]*)"', content)
    described = {item.figure.description} if item.figure else set()
    for mark in marks:
        if mark in described:
            continue
        assert not set(re.findall(r"[a-z-]+", mark.lower())) & {
            *VERDICTS,
            "key",
            "unsafe",
            "distractor",
            "right",
            "wrong",
        }
    assert "<!--" not in content


@pytest.mark.parametrize("name", family_names())
def test_no_claim_leaves_with_an_open_question(name) -> None:
    item = draw(name, seed="leak", edition=home(name))

    opened = item.open()

    assert not any(one.claim for one in (*opened.options, *opened.reasons))
    assert [set(one) for one in as_a(list, opened.to_json()["options"])] == [{"id", "text"}] * len(item.options)
    assert "asks" not in opened.to_json()


def test_no_key_is_even_loaded_for_an_open_question(client_as, own_shop, apprentice) -> None:
    attempt = attempt_at(own_shop, apprentice, [an_item()], {})
    client = client_as(apprentice)

    with CaptureQueriesContext(connection) as queries:
        open_page(client, own_shop, attempt)

    assert any("assessments_formitem" in query["sql"] for query in queries)
    assert not any("snapshot" in query["sql"] for query in queries)


def test_addresses_hold_a_reference_and_a_position_only(own_shop, apprentice) -> None:
    attempt = attempt_at(own_shop, apprentice, [an_item()], {})

    address = reverse("assessments:item", args=[own_shop.slug, attempt.form.reference, 1])

    assert address == f"/shop/{own_shop.slug}/assessment/{attempt.form.reference}/1/"
