"""What the tests of this folder share: the language of tests, and a shop whose people's names stand in brackets."""

from collections.abc import Callable, Iterator
from contextlib import nullcontext
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.utils import timezone

from assessments import acts as theory
from assessments.acts.blueprints import keep_blueprint
from assessments.models import Paper
from tests.certificates.seam.told import ITEMS, LIGHT, STEEL, told_item, typed, unsaid
from tests.factories import NOW, PaperFactory
from tests.heard import heard
from tests.pages import ClientAs
from tests.speaking import BRACKETED, bracketed
from tests.terms import terms_of
from training.models import Shop, User


@pytest.fixture(autouse=True)
def spoken(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Speak the language of tests, which is that of every shop."""
    monkeypatch.setattr("certificates.acts.certificates.edition_language", lambda _: BRACKETED)
    monkeypatch.setattr("certificates.acts.hands_on.in_language", lambda _: nullcontext())
    with bracketed():
        yield


@pytest.fixture
def people(person: Callable[[str], User]) -> dict[str, User]:
    """The people of the shop, their names in brackets."""
    found = {role: person(role) for role in ("apprentice", "trainer", "owner")}
    for role, user in found.items():
        user.name = typed(role)
        user.save()
    return found


@pytest.fixture
def shop(own_shop: Shop, people: dict[str, User]) -> Shop:
    """A shop with its name in brackets."""
    own_shop.name = typed("Quarry Road")
    own_shop.save()
    return own_shop


@pytest.fixture
def both(shop: Shop, people: dict[str, User]) -> Shop:
    """The same, working in two scopes."""
    since = NOW - timedelta(days=90)
    return theory.choose_scopes(shop=shop, scopes=[LIGHT, STEEL], by=people["owner"], at=since)


@pytest.fixture
def read(client_as: ClientAs) -> Callable[..., list[str]]:
    """`read(address, as_role="owner", post={...})`: the words of a page that never passed the seam."""

    def go(
        address: str, *, as_role: str = "trainer", status: int = 200, post: dict[str, Any] | None = None
    ) -> list[str]:
        client: Client = client_as(as_role)
        page = client.get(address) if post is None else client.post(address, post, follow=True)
        assert page.status_code == status, (address, page.status_code)
        return [word for text in heard(page.content.decode()) for word in unsaid(text)]

    return go


@pytest.fixture
def paper(shop: Shop, people: dict[str, User]) -> Paper:
    """A paper of every format that is out."""
    blueprint = keep_blueprint(terms_of(shop))
    type(blueprint).objects.filter(pk=blueprint.pk).update(title=typed("Repair"), standing=typed("Provisional."))
    blueprint.refresh_from_db()
    made: Paper = PaperFactory.create(
        form__shop=shop,
        form__learner=people["apprentice"],
        form__blueprint=blueprint,
        form__items=[told_item(**facts) for facts in ITEMS],
        form__drawn_at=timezone.now(),
        made_by=people["trainer"],
    )
    return made
