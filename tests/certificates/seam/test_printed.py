"""What is printed says every word in the language spoken, whatever its reader speaks."""

import random
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from assessments.models import Paper
from certificates import acts
from certificates.documents.certificate import certificate_pdf
from certificates.documents.paper import answer_key_pdf, question_paper_pdf
from certificates.queries import key_entries, printed, printed_paper, scope_of
from tests.certificates.seam.told import ITEMS, LIGHT, certified, told_item, typed, unsaid
from tests.factories import NOW
from tests.factories_certificates import HandsOnFactory, passed_attempt
from training.models import Shop, User
from training.trade.speech import SOURCE, in_language

pytestmark = pytest.mark.django_db


def text_of_pdf(pdf: bytes) -> str:
    """What a PDF says, with its title and subject."""
    read = PdfReader(BytesIO(pdf))
    facts: dict[str, Any] = dict(read.metadata or {})
    return " ".join(
        [*(page.extract_text() for page in read.pages), str(facts.get("/Title")), str(facts.get("/Subject"))]
    )


@pytest.mark.parametrize("unsafe", [0, 1, 2])
def test_the_certificate(shop: Shop, people: dict[str, User], unsafe: int) -> None:
    rules = [typed(f"Rule {number}") for number in range(6 + unsafe)]
    made = certified(shop, people["apprentice"], people["trainer"], house_rules=rules, unsafe_count=unsafe)
    record = printed(made, site="https://training.example.org", path="/c/")

    assert unsaid(text_of_pdf(certificate_pdf(record))) == []


def test_the_paper_and_its_key(paper: Paper) -> None:
    items = [told_item(**facts) for facts in ITEMS]
    told = printed_paper(paper, [item.open() for item in items])

    assert unsaid(text_of_pdf(question_paper_pdf(told))) == []
    assert unsaid(text_of_pdf(answer_key_pdf(told, key_entries(items)))) == []


def test_the_certificate_keeps_the_words_of_the_shop_whatever_the_issuer_reads(
    shop: Shop, people: dict[str, User]
) -> None:
    learner, owner = people["apprentice"], people["owner"]
    passed_attempt(shop, learner, scope=LIGHT)
    HandsOnFactory.create(shop=shop, learner=learner, trainer=people["trainer"], scope=LIGHT)

    with in_language(SOURCE):
        made = acts.issue_certificate(
            shop=shop, holder=learner, issuer=owner, scope=scope_of(shop), at=NOW, rng=random.Random("seam")
        )

    made.refresh_from_db()
    kept = [made.scope_title, made.edition_title, *made.tires, made.pass_mark]
    assert [unsaid(words) for words in kept] == [[]] * len(kept)
