"""The pages of papers say every word in the language spoken."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from assessments import acts as theory
from assessments.models import Paper
from certificates.forms.papers import PaperAnswersForm
from certificates.queries import sheet_lines
from tests.certificates.seam.told import ITEMS, LIGHT, STEEL, told_item, typed, unsaid
from tests.certificates.sheets import SHEET
from tests.factories import AttemptFactory, PaperFactory
from tests.pages import url
from training.models import Shop, User

pytestmark = pytest.mark.django_db


def test_from_the_making_to_the_result(
    read: Callable[..., list[str]], shop: Shop, people: dict[str, User], paper: Paper
) -> None:
    reference = paper.form.reference

    assert read(url("certificates:paper_make", shop, people["apprentice"].reference)) == []
    assert read(url("certificates:paper", shop, reference)) == []
    assert read(url("certificates:paper_withdraw", shop, reference), post={"reason": ""}) == []
    assert read(url("certificates:paper_answers", shop, reference)) == []
    assert read(url("certificates:paper_answers", shop, reference), post=SHEET) == []
    assert read(url("certificates:paper_hand_in", shop, reference), post={}) == []
    assert read(url("certificates:paper_answers", shop, reference), post=SHEET) == []
    assert read(url("certificates:paper_make", shop, people["apprentice"].reference)) == []


def test_one_withdrawn_and_one_whose_time_ran_out(
    read: Callable[..., list[str]], shop: Shop, people: dict[str, User], paper: Paper
) -> None:
    reference = paper.form.reference
    gone = PaperFactory.create(
        form__shop=shop,
        form__learner=people["owner"],
        form__blueprint=paper.form.blueprint,
        form__items=[told_item()],
        made_by=people["trainer"],
        made_at=timezone.now() - timedelta(days=31),
    )

    assert read(url("certificates:paper", shop, gone.form.reference)) == []
    assert read(url("certificates:paper_withdraw", shop, reference), post={"reason": typed("Printed twice.")}) == []


def test_a_paper_for_oneself(read: Callable[..., list[str]], both: Shop, people: dict[str, User]) -> None:
    AttemptFactory.create(form__shop=both, form__learner=people["apprentice"], form__blueprint__scope=LIGHT)
    for scope in (LIGHT, STEEL):
        address = url("certificates:paper_of_scope", both, people["apprentice"].reference, scope)
        assert read(address) == []
        assert read(address, post={}) == []


def test_a_family_that_stands_in(read: Callable[..., list[str]], shop: Shop, people: dict[str, User]) -> None:
    theory.switch_family_off(
        shop=shop, family_name="torque-recheck", reason="Not here.", by=people["trainer"], at=timezone.now()
    )

    assert read(url("certificates:paper_make", shop, people["apprentice"].reference)) == []


def test_what_the_sheet_says_back(paper: Paper) -> None:
    asked = [told_item(**facts).open() for facts in ITEMS]
    answers: dict[int, Any] = {
        5: {"x": "60", "y": "8"},
        6: {"step": "1", "reason": "2"},
        7: {"step": "3", "reason": ""},
    }

    for _, words in sheet_lines(asked, answers):
        assert unsaid(words) == []


def test_what_cannot_stand_on_the_sheet() -> None:
    asked = [told_item(**facts).open() for facts in ITEMS]
    data = {"a1": "9", "a3": "9", "a4": "A A B", "a5_0": "60", "a6_0": "1"}
    form = PaperAnswersForm(data, asked=asked, saved={})

    assert not form.is_valid()
    assert [unsaid(str(problem)) for problems in form.errors.values() for problem in problems] == [[]] * len(
        form.errors
    )
    assert {"a1", "a3", "a4", "a5", "a6"} <= set(form.errors)
