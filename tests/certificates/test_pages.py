"""Pages of hands-on records and certificates inside the shop: who may open them, what they say, what they do."""

import re
from collections.abc import Callable
from io import BytesIO
from uuid import uuid4

import pytest
from django.urls import reverse
from pypdf import PdfReader

from certificates.acts import criterion_keys
from certificates.models import Certificate, HandsOn
from certificates.numbers import show_number
from certificates.queries.scopes import scope_of
from tests.factories import MembershipFactory
from tests.factories_certificates import SCOPE, CertificateFactory, HandsOnFactory, add_event, passed_attempt
from tests.pages import ClientAs, Visit
from training.models import Shop, User
from training.rulebook import load_edition

pytestmark = pytest.mark.django_db
CHECKED = re.compile(r"<input[^>]* checked")
CRITERIA = list(criterion_keys(load_edition("north-america"), SCOPE.casings))


@pytest.fixture
def certificate(own_shop: Shop, apprentice: User) -> Certificate:
    return CertificateFactory.create(shop=own_shop, holder=apprentice)


def at(name: str, certificate: Certificate) -> str:
    return reverse(f"certificates:{name}", args=[certificate.shop.slug, show_number(certificate.number)])


def sheet(own_shop: Shop, **changed: str) -> dict[str, str]:
    """A filled hands-on sheet: everything met."""
    marks = {f"c{number}": "met" for number in range(1, len(CRITERIA) + 1)}
    return {"press": str(uuid4()), "remarks": ""} | marks | changed


class TestHandsOnSheet:
    def test_it_lists_every_criterion_and_names_the_critical_ones(
        self, visit: Visit, own_shop: Shop, apprentice: User
    ) -> None:
        page = visit(reverse("certificates:hands_on", args=[own_shop.slug, apprentice.reference]), as_role="trainer")

        assert page.status_code == 200
        text = page.content.decode()
        assert text.count('value="met"') == text.count('value="not-met"') == len(CRITERIA)
        assert text.count("Critical: ") == sum(criterion.critical for _, _, criterion in CRITERIA)
        assert not CHECKED.findall(text)

    def test_a_trainer_has_no_sheet_for_themself_or_for_somebody_elsewhere(
        self, visit: Visit, own_shop: Shop, trainer: User, person: Callable[[str], User]
    ) -> None:
        former = MembershipFactory.create(shop=own_shop, ended=True).user

        for who in (trainer, person("apprentice_of_other_shop"), former):
            url = reverse("certificates:hands_on", args=[own_shop.slug, who.reference])
            assert visit(url, as_role="trainer").status_code == 404

    def test_recording_leads_to_the_record(self, visit: Visit, own_shop: Shop, apprentice: User, trainer: User) -> None:
        url = reverse("certificates:hands_on", args=[own_shop.slug, apprentice.reference])

        answer = visit(url, as_role="trainer", post=sheet(own_shop, remarks="Clean work."))

        record = HandsOn.objects.get()
        assert (record.learner, record.trainer, record.has_passed) == (apprentice, trainer, True)
        assert answer.headers["Location"] == reverse(
            "certificates:hands_on_record", args=[own_shop.slug, record.reference]
        )

    def test_the_same_press_twice_is_one_record(self, visit: Visit, own_shop: Shop, apprentice: User) -> None:
        url = reverse("certificates:hands_on", args=[own_shop.slug, apprentice.reference])
        filled = sheet(own_shop)

        first, second = (visit(url, as_role="trainer", post=filled) for _ in range(2))

        assert first.headers["Location"] == second.headers["Location"]
        assert HandsOn.objects.count() == 1

    def test_an_unmarked_line_is_named_and_nothing_is_stored(
        self, visit: Visit, own_shop: Shop, apprentice: User
    ) -> None:
        url = reverse("certificates:hands_on", args=[own_shop.slug, apprentice.reference])
        filled = sheet(own_shop)
        del filled["c3"]

        page = visit(url, as_role="trainer", post=filled).content.decode()

        assert f"{CRITERIA[2][2].text}: not marked; choose Met or Not met." in page
        assert 'href="#id_c3_0"' in page
        assert "<title>Error: " in page
        assert len(CHECKED.findall(page)) == len(CRITERIA) - 1  # what was marked stays marked
        assert not HandsOn.objects.exists()


class TestHandsOnRecord:
    def test_a_colleague_does_not(self, visit: Visit, own_shop: Shop, apprentice: User) -> None:
        record = HandsOnFactory.create(shop=own_shop, learner=apprentice)
        colleague = MembershipFactory.create(shop=own_shop).user

        url = reverse("certificates:hands_on_record", args=[own_shop.slug, record.reference])

        assert visit(url, as_role=colleague).status_code == 404

    def test_a_failed_one_says_on_what(self, visit: Visit, own_shop: Shop, apprentice: User) -> None:
        record = HandsOnFactory.create(shop=own_shop, learner=apprentice, failed=True)

        page = visit(reverse("certificates:hands_on_record", args=[own_shop.slug, record.reference])).content.decode()

        assert "Not passed" in page
        assert "<li>Probes the channel</li>" in page


class TestCertificatePage:
    @pytest.mark.parametrize("name", ["certificate", "certificate_pdf"])
    def test_a_colleague_does_not(self, name: str, visit: Visit, certificate: Certificate) -> None:
        colleague = MembershipFactory.create(shop=certificate.shop).user

        assert visit(at(name, certificate), as_role=colleague).status_code == 404

    def test_a_number_of_another_shop_or_of_nobody_is_404(self, visit: Visit, own_shop: Shop, other_shop: Shop) -> None:
        theirs = CertificateFactory.create(shop=other_shop)

        for number in (show_number(theirs.number), "0000-0000-01", "not-a-number"):
            url = reverse("certificates:certificate", args=[own_shop.slug, number])
            assert visit(url, as_role="owner").status_code == 404

    def test_only_an_owner_sees_what_an_owner_can_do(self, visit: Visit, certificate: Certificate) -> None:
        for role, sees in (("owner", True), ("trainer", False), ("apprentice", False)):
            page = visit(at("certificate", certificate), as_role=role).content.decode()
            assert ("Suspend certificate" in page) is sees
            assert ("Revoke for good" in page) is sees

    def test_the_pdf_is_the_certificate_on_the_shops_paper(self, visit: Visit, certificate: Certificate) -> None:
        answer = visit(at("certificate_pdf", certificate))

        page = PdfReader(BytesIO(answer.content)).pages[0]
        assert answer.headers["Content-Type"] == "application/pdf"
        assert answer.headers["Cache-Control"] == "private, no-store"
        assert show_number(certificate.number) in page.extract_text()
        assert certificate.holder_name in page.extract_text()
        assert float(page.mediabox.width) == 612  # inches first, so US Letter: 8.5 in of 72 points
        metric = visit(at("certificate_pdf", certificate) + "?paper=a4")
        assert float(PdfReader(BytesIO(metric.content)).pages[0].mediabox.width) == pytest.approx(595.3, abs=0.1)

    def test_a_removed_name_is_said_to_be_removed(self, visit: Visit, certificate: Certificate) -> None:
        for_trainer = certificate.trainer_name
        Certificate.objects.filter(pk=certificate.pk).update(trainer_name="")

        words = PdfReader(BytesIO(visit(at("certificate_pdf", certificate)).content)).pages[0].extract_text()

        assert for_trainer not in words
        assert "(name removed on request)" in words

    @pytest.mark.parametrize("kind", ["suspended", "revoked"])
    def test_one_out_of_force_is_not_printed_anew(self, kind: str, visit: Visit, certificate: Certificate) -> None:
        add_event(certificate, kind)

        answer = visit(at("certificate_pdf", certificate))

        assert answer.headers["Location"] == at("certificate", certificate)
        assert f"It cannot be printed while it is {kind}" in visit(at("certificate", certificate)).content.decode()


class TestOwnersActs:
    def test_suspend_then_restore_then_revoke(self, visit: Visit, certificate: Certificate) -> None:
        for name in ("suspend", "restore", "revoke"):
            answer = visit(at(name, certificate), as_role="owner", post={"reason": f"To {name} it."})
            assert answer.headers["Location"] == at("certificate", certificate)

        kinds = [event.kind for event in certificate.events.all()]
        assert kinds == ["issued", "suspended", "restored", "revoked"]

    @pytest.mark.parametrize("name", ["suspend", "revoke"])
    def test_without_a_reason_nothing_happens_and_the_page_says_so(
        self, name: str, visit: Visit, certificate: Certificate
    ) -> None:
        page = visit(at(name, certificate), as_role="owner", post={"reason": " "})

        assert "Reason: nothing was given; say why in a sentence." in page.content.decode()
        assert certificate.events.count() == 1

    def test_revoking_is_asked_once_more(self, visit: Visit, certificate: Certificate) -> None:
        page = visit(at("revoke", certificate), as_role="owner").content.decode()

        assert "This cannot be undone" in page
        assert certificate.events.count() == 1

    @pytest.mark.parametrize("name", ["suspend", "restore"])
    def test_a_link_alone_changes_nothing(self, name: str, visit: Visit, certificate: Certificate) -> None:
        assert visit(at(name, certificate), as_role="owner").status_code == 405

    def test_what_may_not_follow_is_said_in_words(self, visit: Visit, certificate: Certificate) -> None:
        page = visit(at("restore", certificate), as_role="owner", post={"reason": "Back."}).content.decode()

        assert "This certificate was issued on Nov 25, 2026; it cannot be restored now." in page


class TestIssuing:
    @pytest.fixture
    def ready(self, own_shop: Shop, apprentice: User) -> User:
        slug = scope_of(own_shop).slug
        passed_attempt(own_shop, apprentice, scope=slug)
        HandsOnFactory.create(shop=own_shop, learner=apprentice, scope=slug)
        return apprentice

    @pytest.mark.parametrize("role", ["owner", "trainer"])
    def test_owners_and_trainers_issue(self, role: str, visit: Visit, own_shop: Shop, ready: User) -> None:
        url = reverse("certificates:issue", args=[own_shop.slug, ready.reference])

        answer = visit(url, as_role=role, post={})

        made = Certificate.objects.get()
        assert made.holder == ready
        assert answer.headers["Location"] == at("certificate", made)

    def test_what_is_missing_is_said_on_the_roster(self, client_as: ClientAs, own_shop: Shop, apprentice: User) -> None:
        client = client_as("owner")

        url = reverse("certificates:issue", args=[own_shop.slug, apprentice.reference])

        page = client.post(url, {}, follow=True).content.decode()
        assert "has no passed assessment of this scope that still counts." in page
        page = client.post(url, {"scope": "anything"}, follow=True).content.decode()
        assert "Scope: &quot;anything&quot; is not accepted" in page
