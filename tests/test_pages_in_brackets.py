"""Every page passes all of its words through the seam for language: in brackets, none stands outside of them."""

import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

import pytest
from django.apps import apps
from django.core import mail as django_mail
from django.db import models
from django.template.loader import render_to_string
from django.urls import reverse

from tests.heard import heard
from tests.pages import Answer, ClientAs
from tests.permissions import TABLE, WHO
from tests.speaking import bracketed, outside
from tests.strings import strings
from training.acts import invite
from training.forms.job import PasteForm
from training.forms.shop import time_zones
from training.models import Shop, User
from training.rulebook import cited_sources, edition_names, edition_versions
from training.rulebook.markings import values_from_memory

pytestmark = pytest.mark.walk  # over every page there is: a new one passes it too

# pages whose words are still being brought to the seam: Check a tire
# (page, names of its arguments), the first who may see it, and whether an empty form is sent
PAGES = [
    (page, WHO[answers.split().index(status)], is_sent)
    for page, row in TABLE.items()
    for is_sent, answers in enumerate(row)
    for status in ("200", "409")
    if status in answers.split()
]
ROOT = Path(__file__).parents[1]
MAILS = ROOT / "training" / "templates" / "account" / "email"
# a day and a time as CLDR writes them, the number of a certificate, an address on the net, marks as molded and initials
SPELLED = (
    r"\b(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) \d+, \d{4}(?:, \d+:\d\d(?::\d\d)?.[AP]M(?: [A-Z]{3,4})?)?"
    r"|\b[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{2}\b|https?://\S+|(?<![^\W\d]|⟦)[A-Z/]{2,5}(?![\w⟧])"
)


def outside_of(html: str, as_it_stands: re.Pattern[str]) -> list[str]:
    """The words of a page that never passed the seam, without those read as they stand in every language."""
    words = {word for text in heard(html) for word in outside(as_it_stands.sub(" ", text))}
    return sorted(word for word in words if not re.search(r"\d", word))  # sizes and marks, as they are molded


def typed() -> Iterator[str]:
    """What people have typed, as the database keeps it, what was decided and kept, and what a factory makes up."""
    for model in apps.get_models():
        plain = [one.name for one in model._meta.fields if isinstance(one, models.CharField | models.TextField)]
        names = (*plain, *(one.name for one in model._meta.fields if isinstance(one, models.JSONField)))
        for row in model._default_manager.values_list(*names) if names else ():
            for value in row:
                yield from strings(value)


@cache
def published() -> frozenset[str]:
    """How publishers name their texts and the parts of them, and where a text stands: proper names everywhere."""
    named: set[str] = set()
    for edition in (edition for name in edition_names() for edition in edition_versions(name)):
        cited = [one.cited for clause in edition.clauses.values() for one in clause.statements]
        cited += [one.cited for step in edition.procedure for one in step.criteria]
        cited += [crown.cited for crown in edition.crowns.values()]
        named |= {str(one.named) for each in cited if each is not None for one in each.citations}
        for source in cited_sources(edition):
            named |= {source.publisher, source.title, source.year, source.place, source.address}
    return frozenset((*named, *(one.source for one in values_from_memory())))


def as_it_stands(typed: Iterable[str]) -> re.Pattern[str]:
    """What is read as it stands in every language: names, what was typed, days and numbers."""
    example = str(PasteForm.base_fields["text"].help_text)  # a job as a file spells it
    zones = (label for _, label in time_zones())
    names = {" ".join(one.split()) for one in (*typed, *published(), *zones, example, "Sound Casing") if len(one) > 1}
    longest_first = "|".join(re.escape(one) for one in sorted(names, key=len, reverse=True))
    return re.compile(rf"(?<!\w)(?:{longest_first})(?!\w)|{SPELLED}")


@pytest.mark.parametrize(("page", "who", "is_sent"), PAGES, ids=[f"{page[0]}-{sent}" for page, _, sent in PAGES])
def test_no_word_of_a_page_stands_outside(
    page: tuple[str, tuple[str, ...]],
    who: str,
    is_sent: bool,
    value: Callable[[str], object],
    client_as: ClientAs,
) -> None:
    name, arguments = page
    with bracketed():
        address = reverse(name, args=[value(argument) for argument in arguments])
        client = client_as(who)
        answer: Answer = client.post(address, {}) if is_sent else client.get(address)  # type: ignore[assignment]
        html = answer.content.decode() if answer["Content-Type"].startswith("text/html") else ""

        found = outside_of(html, as_it_stands(typed()))
    assert not found, " ".join(found)


@pytest.mark.parametrize("name", [400, 403, "403_csrf", 404, 429, 500, 503])
def test_no_word_of_an_error_stands_outside(name: object) -> None:
    with bracketed():
        found = outside_of(render_to_string(f"{name}.html", {"rulebook": "2026.1"}), as_it_stands(()))
    assert not found, " ".join(found)


@pytest.mark.parametrize("name", [path.name for path in sorted(MAILS.glob("*.txt")) if "base" not in path.name])
def test_no_word_of_a_mail_on_an_account_stands_outside(name: str) -> None:
    with bracketed():
        context = {"email": "dana@example.org", "password_reset_url": "https://x.example/1/", "ip": "127.0.0.1"}
        told = render_to_string(f"account/email/{name}", {**context, "user_agent": "1", "timestamp": "2"})
        found = outside(as_it_stands((*context.values(),)).sub(" ", told))
    assert not found, " ".join(found)


def test_no_word_of_an_invitation_stands_outside(
    own_shop: Shop, owner: User, django_capture_on_commit_callbacks: Callable[..., AbstractContextManager[object]]
) -> None:
    with bracketed(), django_capture_on_commit_callbacks(execute=True):
        invited = invite(
            shop=own_shop,
            invited_by=owner,
            email="dana@example.org",
            name="Dana Reed",
            role="apprentice",
            at=datetime(2026, 11, 30, 12, 0, tzinfo=UTC),
        )
    (mail,) = django_mail.outbox
    names = as_it_stands((invited.link, *typed()))
    assert not [word for text in (mail.subject, mail.body) for word in outside(names.sub(" ", str(text)))]


@pytest.mark.parametrize("script", sorted(ROOT.glob("*/static/**/*.js")), ids=lambda path: path.name)
def test_a_script_is_handed_its_texts_by_the_page(script: Path) -> None:
    """A sentence or a label in a script would be read in one language."""
    assert re.findall(r"""["'`]([A-Z][a-z]+(?: [\w ]+)?[.:]?)["'`]""", script.read_text("utf-8")) == []
