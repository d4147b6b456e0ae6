"""The hands-on sheet, what is kept of it and its refusals say every word in the language spoken."""

from collections.abc import Callable
from dataclasses import replace
from uuid import uuid4

import pytest

from certificates import acts
from certificates.acts import HandsOnRefused
from certificates.queries import scope_of
from tests.certificates.seam.told import typed, unsaid
from tests.evaluations import all_met, evaluate
from tests.factories import MembershipFactory
from tests.pages import url
from tests.speaking import BRACKETED
from training.models import Shop, User
from training.rulebook import load_edition
from training.trade.speech import SOURCE, in_language

pytestmark = pytest.mark.django_db


def test_the_sheet_its_problems_and_its_record(
    read: Callable[..., list[str]], shop: Shop, people: dict[str, User]
) -> None:
    address = url("certificates:hands_on", shop, people["apprentice"].reference)
    known = list(acts.criterion_keys(load_edition(shop.edition), scope_of(shop).casings))
    marks = {f"c{number}": "met" for number in range(1, len(known) + 1)}
    sent = {"press": str(uuid4()), "remarks": typed("Clean.")}

    assert read(address) == []
    assert read(address, post={"press": "none", "c1": "perhaps", "remarks": typed("x" * 3000)}) == []
    assert read(address, post=sent | marks) == []
    assert read(address, post=sent | {"press": str(uuid4())} | dict.fromkeys(marks, "not-met")) == []


def test_a_record_keeps_the_words_of_the_shop_whatever_the_trainer_reads(
    shop: Shop, people: dict[str, User], monkeypatch: pytest.MonkeyPatch
) -> None:
    edition, scope = replace(load_edition(shop.edition), language=BRACKETED), scope_of(shop)
    monkeypatch.setattr("certificates.acts.hands_on.in_language", in_language)
    with in_language(SOURCE):
        made = evaluate(shop, people["apprentice"], people["trainer"], scope=scope, edition=edition)

    made.refresh_from_db()
    assert made.criteria
    assert [word for line in made.criteria for word in unsaid(f"{line['step']} {line['text']}")] == []


def test_refusals(shop: Shop, people: dict[str, User]) -> None:
    edition, scope = load_edition(shop.edition), scope_of(shop)
    learner, trainer = people["apprentice"], people["trainer"]
    for who, by, marks in (
        (trainer, trainer, {}),
        (learner, people["owner"], {}),
        (MembershipFactory.create(user__name=typed("away"), ended=True).user, trainer, {}),
        (learner, trainer, {}),
        (learner, trainer, all_met(edition, scope) | {typed("strange"): "met"}),
    ):
        with pytest.raises(HandsOnRefused) as refused:
            evaluate(shop, who, by, scope=scope, edition=edition, marks=marks)
        assert unsaid(str(refused.value)) == []
