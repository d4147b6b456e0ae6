"""Every word of the pages, papers and messages of certificates is said in the language spoken.

What people typed and what a record keeps as it was on the day stands in brackets from the start: the program only shows
it. What else may stand outside is listed in `AS_IT_STANDS`, each with its reason.
"""

import gettext
import random
import re
from collections.abc import Callable, Iterator
from contextlib import nullcontext
from dataclasses import replace
from datetime import timedelta
from html import unescape
from io import BytesIO
from itertools import pairwise
from typing import Any
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader
from reportlab.pdfbase import pdfmetrics

from assessments import acts as theory
from assessments.acts.blueprints import keep_blueprint
from assessments.models import Paper
from assessments.questions import Blame, Frame, Item, Option, Picture, Region
from certificates import acts
from certificates.acts import CertificateRefused, EventRefused, HandsOnRefused
from certificates.documents.certificate import certificate_pdf
from certificates.documents.paper import answer_key_pdf, question_paper_pdf
from certificates.forms.papers import PaperAnswersForm
from certificates.management.commands.demo import Command
from certificates.models import Certificate, EventKind, Status
from certificates.numbers import MalformedNumber, read_number, show_number
from certificates.queries import key_entries, printed, printed_paper, scope_of, sheet_lines
from certificates.views.verify import LOOKUPS_A_MINUTE
from tests.documents.papers import FORMATS, a_paper, an_entry
from tests.documents.records import a_record
from tests.factories import (
    NOW,
    AssignmentFactory,
    AttemptFactory,
    MembershipFactory,
    NoticeFactory,
    PaperFactory,
    an_item,
)
from tests.factories_certificates import CRITERIA, CertificateFactory, HandsOnFactory, add_event, passed_attempt
from tests.pages import ClientAs, url
from tests.speaking import BRACKETED, CLOSE, OPEN, bracketed, outside
from tests.terms import terms_of
from training.models import Shop, User
from training.rulebook import load_edition
from training.trade.speech import SOURCE, in_language

pytestmark = pytest.mark.django_db
LIGHT, STEEL = "north-america-light", "north-america-steel"
# read as it stands in every language
AS_IT_STANDS = re.compile(
    r"Sound\s+Casing"  # the name of the program
    r"|https?://\S+"  # addresses
    r"|[0-9a-f]{8}-[0-9a-f-]{27}"  # references of forms
    r"|\b[0-9A-Z]{4}-[0-9A-Z]{4}(?:-[0-9A-Z]{2})?\b"  # numbers of certificates and papers
    r"|(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\s\d{1,2},\s\d{4}"  # days, by CLDR
    r"|\d{1,2}:\d\d(?::\d\d)?\s[AP]M(?:\sM[SD]T)?"  # times of day, by CLDR
    r"|\bA4\b"  # a size of paper by ISO 216
    r"|\d{4}\.\d+(?:\+h[0-9a-f]+)?"  # versions of editions
)


def typed(text: str) -> str:
    """What somebody typed, or a record keeps: no text of the program's."""
    return f"{OPEN}{text}{CLOSE}"


def words_of(page: str) -> str:
    """What a page says to eyes and ears: its text, and the attributes that are shown or read aloud."""
    html = re.sub(r"<(svg|style|script)\b.*?</\1>", " ", page, flags=re.DOTALL)
    told = re.findall(r'\s(?:aria-label|data-label|title|alt|placeholder)="([^"]*)"', html)
    return unescape(" ".join([re.sub(r"<[^>]*>", " ", html), *told]))


def unsaid(text: str) -> list[str]:
    """The words of a text that never passed the seam."""
    return outside(AS_IT_STANDS.sub(" ", text))


LEAST_MARGIN = 8  # [pt] what printers leave white at the edge of a sheet: common practice, no published source


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
        return unsaid(words_of(page.content.decode()))

    return go


def told_item(**facts: Any) -> Item:
    """A question with every text in brackets: they are kept in the language they were drawn in."""
    item = an_item(**facts)
    keys = ("subject", "found", "limit", "because", "source")
    line = {key: typed(str(value)) if key in keys else value for key, value in item.explanation[0].items()}
    picture = Picture(item.figure.svg, typed(item.figure.description)) if item.figure else None
    return replace(
        item,
        stem="\n".join(typed(part) for part in item.stem.split("\n")),
        options=tuple(Option(one.id, typed(one.text)) for one in item.options),
        reasons=tuple(Option(one.id, typed(one.text)) for one in item.reasons),
        figure=picture,
        explanation=(line,),
        sources=tuple(typed(source) for source in item.sources),
    )


STEPS = (Option("1", "Buff"), Option("2", "Measure"), Option("3", "Nothing is wrong"))
ITEMS: tuple[dict[str, Any], ...] = (
    {},
    {"format": "several", "key": ("1", "2"), "distractors": {}},
    {"format": "number"},
    {
        "format": "order",
        "options": STEPS,
        "key": ("2", "1", "3"),
        "before": (("2", "1"),),
        "distractors": {},
        "unsafe": (),
    },
    {
        "format": "place",
        "options": (),
        "key": Region(59, 65, 4, 12),
        "distractors": {},
        "frame": Frame(0, 0, 90, 40),
        "unsafe": (),
    },
    {
        "format": "fault",
        "options": STEPS,
        "reasons": (Option("1", "Too hot"), Option("2", "Too fast")),
        "key": Blame(("1", "2"), "2"),
        "distractors": {},
        "unsafe": (),
    },
    {"format": "fault", "options": STEPS, "reasons": (), "key": Blame(("3",), ""), "distractors": {}, "unsafe": ()},
)


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


def certified(shop: Shop, holder: User, trainer: User, scope: str = LIGHT, **facts: Any) -> Certificate:
    """A certificate with all that it keeps in brackets."""
    lines = [line | {"step": typed(str(line["step"])), "text": typed(str(line["text"]))} for line in CRITERIA]
    given = {
        "scope": scope,
        "scope_title": typed("Scope"),
        "tires": [typed("car tires"), typed("van tires")],
        "edition_title": typed("North America"),
        "pass_mark": typed("80 % right."),
        "issuer_name": typed("Max"),
        "issued_by": trainer,
        "attempt": passed_attempt(shop, holder, scope=scope, form__blueprint__title=typed("Repair")),
        "hands_on": HandsOnFactory.create(
            shop=shop, learner=holder, trainer=trainer, scope=scope, criteria=lines, remarks=typed("Clean.")
        ),
    }
    made: Certificate = CertificateFactory.create(shop=shop, holder=holder, **(given | facts))
    return made


class TestStartPages:
    def test_the_bay_of_somebody_new(self, read: Callable[..., list[str]], shop: Shop) -> None:
        assert read(url("certificates:bay", shop), as_role="apprentice") == []

    def test_the_bay_with_what_is_asked_and_certified(
        self, read: Callable[..., list[str]], both: Shop, people: dict[str, User]
    ) -> None:
        learner, trainer = people["apprentice"], people["trainer"]
        certified(both, learner, trainer)
        AttemptFactory.create(not_passed=True, form__shop=both, form__learner=learner, form__blueprint__scope=STEEL)
        AssignmentFactory.create(shop=both, learner=learner, due_date=NOW.date() - timedelta(days=3))
        NoticeFactory.create(shop=both, person=learner, text=typed("Read the limits again."))

        assert read(url("certificates:bay", both), as_role="apprentice") == []

    @pytest.mark.parametrize(
        "state", ["certified", "passed", "seen", "open", "paper", "failed", "used-up", "suspended", "due", "late"]
    )
    def test_a_learner_on_the_way_as_everybody_sees_them(
        self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User], state: str, request: Any
    ) -> None:
        learner, trainer = people["apprentice"], people["trainer"]
        ours = {"form__shop": shop, "form__learner": learner, "form__blueprint__scope": LIGHT}
        match state:
            case "certified":
                certified(shop, learner, trainer)
            case "suspended":
                add_event(certified(shop, learner, trainer), "suspended")
            case "passed":
                passed_attempt(shop, learner, scope=LIGHT)
                HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT, failed=True)
            case "seen":
                HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT)
            case "open":
                AttemptFactory.create(started_at=timezone.now(), **ours)
            case "paper":
                request.getfixturevalue("paper")
            case "failed":
                AttemptFactory.create(not_passed=True, **ours)
            case "used-up":
                AttemptFactory.create_batch(3, not_passed=True, **ours)
            case "due":
                AssignmentFactory.create(shop=shop, learner=learner, due_date=timezone.now().date() + timedelta(days=9))
            case "late":
                AssignmentFactory.create(shop=shop, learner=learner, due_date=timezone.now().date() - timedelta(days=9))

        assert read(url("certificates:bay", shop), as_role="apprentice") == []
        assert read(url("certificates:floor", shop)) == []
        assert read(url("certificates:person", shop, learner.reference)) == []
        assert read(url("certificates:roster", shop), as_role="owner") == []

    def test_the_pages_of_a_shop_with_two_scopes(
        self, read: Callable[..., list[str]], both: Shop, people: dict[str, User]
    ) -> None:
        learner, trainer, owner = (people[role] for role in ("apprentice", "trainer", "owner"))
        certified(both, learner, trainer)
        passed_attempt(both, learner, scope=STEEL)
        HandsOnFactory.create(shop=both, learner=learner, trainer=trainer, scope=STEEL)
        HandsOnFactory.create(shop=both, learner=owner, trainer=trainer, scope=STEEL)
        passed_attempt(both, trainer, scope=LIGHT)

        assert read(url("certificates:floor", both)) == []
        assert read(url("certificates:person", both, learner.reference)) == []
        assert read(url("certificates:roster", both)) == []
        assert read(url("certificates:roster", both) + "?on=2026-12-01") == []
        assert read(url("certificates:roster", both) + "?on=2019-01-01") == []
        assert read(url("certificates:roster", both) + "?on=never") == []
        assert read(url("certificates:scopes", both), as_role="owner") == []
        assert read(url("certificates:hands_on", both, learner.reference)) == []
        assert read(url("certificates:paper_make", both, learner.reference)) == []

    def test_nobody_and_no_shop(self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User]) -> None:
        people["apprentice"].memberships.update(ended_at=NOW)
        people["trainer"].memberships.create(shop=shop, role="owner", since_at=NOW)

        assert read(url("certificates:floor", shop)) == []
        assert read(reverse("certificates:home"), as_role="apprentice") == []

    def test_several_shops(
        self, read: Callable[..., list[str]], shop: Shop, other_shop: Shop, people: dict[str, User]
    ) -> None:
        assert shop != other_shop
        other_shop.name = typed("Mill Street")
        other_shop.save()
        MembershipFactory.create(shop=other_shop, user=people["trainer"])

        assert read(reverse("certificates:home")) == []

    def test_the_table_to_download(self, client_as: ClientAs, both: Shop, people: dict[str, User]) -> None:
        certified(both, people["apprentice"], people["trainer"])

        table = client_as("owner").get(url("certificates:roster_csv", both)).content.decode()

        assert unsaid(re.sub(r"\d{4}-\d\d-\d\d", " ", table)) == []


class TestHandsOn:
    def test_the_sheet_its_problems_and_its_record(
        self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User]
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
        self, shop: Shop, people: dict[str, User], monkeypatch: pytest.MonkeyPatch
    ) -> None:
        edition, scope = replace(load_edition(shop.edition), language=BRACKETED), scope_of(shop)
        monkeypatch.setattr("certificates.acts.hands_on.in_language", in_language)
        marks = {key: acts.MET for key, _, _ in acts.criterion_keys(edition, scope.casings)}
        with in_language(SOURCE):
            made = acts.record_hands_on(
                shop=shop,
                learner=people["apprentice"],
                trainer=people["trainer"],
                scope=scope,
                edition=edition,
                marks=marks,
                remarks="",
                press=uuid4(),
                at=NOW,
            )

        made.refresh_from_db()
        assert made.criteria
        assert [word for line in made.criteria for word in unsaid(f"{line['step']} {line['text']}")] == []

    def test_refusals(self, shop: Shop, people: dict[str, User]) -> None:
        edition, scope = load_edition(shop.edition), scope_of(shop)
        learner, trainer = people["apprentice"], people["trainer"]
        for who, by, marks in (
            (trainer, trainer, {}),
            (learner, people["owner"], {}),
            (MembershipFactory.create(user__name=typed("away"), ended=True).user, trainer, {}),
            (learner, trainer, {}),
            (learner, trainer, {key: "met" for key, _, _ in acts.criterion_keys(edition)} | {typed("strange"): "met"}),
        ):
            with pytest.raises(HandsOnRefused) as refused:
                acts.record_hands_on(
                    shop=shop,
                    learner=who,
                    trainer=by,
                    scope=scope,
                    edition=edition,
                    marks=marks,
                    remarks="",
                    press=uuid4(),
                    at=NOW,
                )
            assert unsaid(str(refused.value)) == []


class TestCertificates:
    @pytest.mark.parametrize("kinds", [(), ("suspended",), ("suspended", "restored"), ("revoked",)])
    @pytest.mark.parametrize("expires", ["2028-11-25", "2026-11-26"])
    def test_its_pages_in_every_standing(
        self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User], kinds: tuple[str, ...], expires: str
    ) -> None:
        rules = [typed("Size of the hole: at most 5 mm")]
        made = certified(
            shop,
            people["apprentice"],
            people["trainer"],
            house_rules=rules,
            unsafe_count=len(kinds),
            expires_date=expires,
        )
        for kind in kinds:
            event = add_event(made, kind, reason=typed("A torn patch came back."))
            event.by.name = typed("Max")
            event.by.save()
        number = show_number(made.number)

        assert read(url("certificates:certificate", shop, number), as_role="owner") == []
        assert read(url("certificates:revoke", shop, number), as_role="owner") == []
        assert read(reverse("certificates:verify", args=[number]), as_role="anonymous") == []
        Certificate.objects.filter(pk=made.pk).update(holder_name="", trainer_name="", issuer_name="")
        assert read(reverse("certificates:verify", args=[number]), as_role="anonymous") == []
        assert read(url("certificates:certificate", shop, number), as_role="owner") == []

    def test_what_an_owner_does_and_may_not_do(
        self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User]
    ) -> None:
        number = show_number(certified(shop, people["apprentice"], people["trainer"]).number)
        reason = {"reason": typed("It came back.")}
        for page, sent in (
            ("suspend", {}),
            ("suspend", {"reason": typed("x" * 500)}),
            ("restore", reason),
            ("suspend", reason),
            ("restore", reason),
            ("revoke", {}),
            ("revoke", reason),
            ("suspend", reason),
            ("restore", reason),
        ):
            assert read(url(f"certificates:{page}", shop, number), as_role="owner", post=sent) == [], page

    def test_refusals_of_an_event(self, shop: Shop, people: dict[str, User]) -> None:
        made = certified(shop, people["owner"], people["trainer"])
        told = []
        for act, by, reason in (
            (acts.restore, people["owner"], "Back."),
            (acts.suspend, people["trainer"], "Stop."),
            (acts.suspend, people["owner"], " "),
            (acts.suspend, people["owner"], "x" * 301),
        ):
            with pytest.raises(EventRefused) as refused:
                act(certificate=made, by=by, reason=reason, at=NOW)
            told.append(str(refused.value))

        assert [unsaid(words) for words in told] == [[]] * 4

    def test_issuing_and_what_keeps_from_it(
        self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User]
    ) -> None:
        learner, trainer = people["apprentice"], people["trainer"]
        address = url("certificates:issue", shop, learner.reference)

        assert read(address, post={"scope": typed("anything")}) == []
        assert read(address, post={}) == []
        passed_attempt(shop, learner, scope=LIGHT)
        assert read(address, post={}) == []
        HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT)
        assert read(address, post={}) == []
        assert Certificate.objects.get().holder == learner

    def test_refusals_of_issuing(self, shop: Shop, people: dict[str, User]) -> None:
        learner, trainer, owner = (people[role] for role in ("apprentice", "trainer", "owner"))
        away = MembershipFactory.create(user__name=typed("away"), ended=True).user
        scope = scope_of(shop)
        suspended = certified(shop, trainer, owner)
        add_event(suspended, "suspended")
        for holder, issuer in ((owner, owner), (owner, learner), (away, owner), (trainer, owner), (learner, owner)):
            with pytest.raises(CertificateRefused) as refused:
                acts.issue_certificate(shop=shop, holder=holder, issuer=issuer, scope=scope, at=NOW)
            assert unsaid(str(refused.value)) == []

    @pytest.mark.parametrize("whose", ["holder", "shop", "trainer", "issuer"])
    def test_a_name_that_cannot_be_printed(self, shop: Shop, people: dict[str, User], whose: str) -> None:
        learner, trainer, owner = (people[role] for role in ("apprentice", "trainer", "owner"))
        passed_attempt(shop, learner, scope=LIGHT)
        HandsOnFactory.create(shop=shop, learner=learner, trainer=trainer, scope=LIGHT)
        named: Any = {"holder": learner, "shop": shop, "trainer": trainer, "issuer": owner}[whose]
        named.name = typed("نور")
        named.save()

        with pytest.raises(CertificateRefused) as refused:
            acts.issue_certificate(shop=shop, holder=learner, issuer=owner, scope=scope_of(shop), at=NOW)
        assert unsaid(str(refused.value).replace('"نور"', "")) == []

    def test_a_number_that_is_none(self, read: Callable[..., list[str]]) -> None:
        assert read(reverse("certificates:verify_lookup"), as_role="anonymous") == []
        for number in ("", "K7QD", "K7QD-2M9X-4U", "K7QD-2M9X-4S", "x" * 60):
            asked = reverse("certificates:verify_lookup") + f"?number={number}"
            assert [word for word in read(asked, as_role="anonymous") if word not in number] == [], number
        for number in ("0000-0000-01", "0000-0000-02"):
            assert read(reverse("certificates:verify", args=[number]), as_role="anonymous", status=404) == []
        with pytest.raises(MalformedNumber) as problem:
            read_number("U")
        assert unsaid(str(problem.value)) == []

    def test_too_many_checks(self, read: Callable[..., list[str]], client: Client) -> None:
        address = reverse("certificates:verify", args=["0000-0000-02"])
        for _ in range(LOOKUPS_A_MINUTE):
            client.get(address)

        assert read(address, as_role="anonymous", status=429) == []

    def test_words_of_every_status_and_every_kind_of_event(self) -> None:
        assert [unsaid(status.words) for status in Status] == [[]] * len(Status)
        assert [unsaid(str(kind.label)) for kind in EventKind] == [[]] * len(EventKind)


class TestPapers:
    def test_from_the_making_to_the_result(
        self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User], paper: Paper
    ) -> None:
        reference = paper.form.reference
        answers = {
            "a1": "2",
            "a3": "9",
            "a3_u": "mm",
            "a4": "b a C",
            "a5_0": "60",
            "a5_1": "8",
            "a6_0": "1",
            "a6_1": "2",
        }

        assert read(url("certificates:paper_make", shop, people["apprentice"].reference)) == []
        assert read(url("certificates:paper", shop, reference)) == []
        assert read(url("certificates:paper_withdraw", shop, reference), post={"reason": ""}) == []
        assert read(url("certificates:paper_answers", shop, reference)) == []
        assert read(url("certificates:paper_answers", shop, reference), post=answers) == []
        assert read(url("certificates:paper_hand_in", shop, reference), post={}) == []
        assert read(url("certificates:paper_answers", shop, reference), post=answers) == []
        assert read(url("certificates:paper_make", shop, people["apprentice"].reference)) == []

    def test_one_withdrawn_and_one_whose_time_ran_out(
        self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User], paper: Paper
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

    def test_a_paper_for_oneself(self, read: Callable[..., list[str]], both: Shop, people: dict[str, User]) -> None:
        AttemptFactory.create(form__shop=both, form__learner=people["apprentice"], form__blueprint__scope=LIGHT)
        for scope in (LIGHT, STEEL):
            address = url("certificates:paper_of_scope", both, people["apprentice"].reference, scope)
            assert read(address) == []
            assert read(address, post={}) == []

    def test_a_family_that_stands_in(self, read: Callable[..., list[str]], shop: Shop, people: dict[str, User]) -> None:
        theory.switch_family_off(
            shop=shop, family_name="torque-recheck", reason="Not here.", by=people["trainer"], at=timezone.now()
        )

        assert read(url("certificates:paper_make", shop, people["apprentice"].reference)) == []

    def test_what_the_sheet_says_back(self, paper: Paper) -> None:
        asked = [told_item(**facts).open() for facts in ITEMS]
        answers: dict[int, Any] = {
            5: {"x": "60", "y": "8"},
            6: {"step": "1", "reason": "2"},
            7: {"step": "3", "reason": ""},
        }

        for _, words in sheet_lines(asked, answers):
            assert unsaid(words) == []

    def test_what_cannot_stand_on_the_sheet(self) -> None:
        asked = [told_item(**facts).open() for facts in ITEMS]
        data = {"a1": "9", "a3": "9", "a4": "A A B", "a5_0": "60", "a6_0": "1"}
        form = PaperAnswersForm(data, asked=asked, saved={})

        assert not form.is_valid()
        assert [unsaid(str(problem)) for problems in form.errors.values() for problem in problems] == [[]] * len(
            form.errors
        )
        assert {"a1", "a3", "a4", "a5", "a6"} <= set(form.errors)


def text_of_pdf(pdf: bytes) -> str:
    """What a PDF says, with its title and subject."""
    read = PdfReader(BytesIO(pdf))
    facts: dict[str, Any] = dict(read.metadata or {})
    return " ".join(
        [*(page.extract_text() for page in read.pages), str(facts.get("/Title")), str(facts.get("/Subject"))]
    )


class TestPrinted:
    @pytest.mark.parametrize("unsafe", [0, 1, 2])
    def test_the_certificate(self, shop: Shop, people: dict[str, User], unsafe: int) -> None:
        rules = [typed(f"Rule {number}") for number in range(6 + unsafe)]
        made = certified(shop, people["apprentice"], people["trainer"], house_rules=rules, unsafe_count=unsafe)
        record = printed(made, site="https://training.example.org", path="/c/")

        assert unsaid(text_of_pdf(certificate_pdf(record))) == []

    def test_the_paper_and_its_key(self, paper: Paper) -> None:
        items = [told_item(**facts) for facts in ITEMS]
        told = printed_paper(paper, [item.open() for item in items])

        assert unsaid(text_of_pdf(question_paper_pdf(told))) == []
        assert unsaid(text_of_pdf(answer_key_pdf(told, key_entries(items)))) == []

    def test_the_certificate_keeps_the_words_of_the_shop_whatever_the_issuer_reads(
        self, shop: Shop, people: dict[str, User]
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


def longer(text: str, times: int) -> str:
    """A text in a language whose words need so much more room; what fills its places is as long as ever."""
    words = re.sub(r"\{\w+\}", "", text)
    return " ".join([text, *[words] * (times - 1)])


class Longer(gettext.NullTranslations):
    """Every text so many times as long."""

    def __init__(self, times: int) -> None:
        super().__init__()
        self.times = times

    def gettext(self, message: str) -> str:
        return longer(message, self.times)


class TestLongerWords:
    """Papers are set by the width of their words, whatever the language."""

    @pytest.fixture(autouse=True)
    def spoken(self) -> None:
        """Speak American English but where a text is made longer."""

    def test_no_line_of_a_paper_runs_into_another_or_off_the_page(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr("training.trade.speech.catalogue", lambda tag: Longer(4))
        with in_language(BRACKETED):
            self._look_at_papers()

    def _look_at_papers(self) -> None:
        paper = a_paper(questions=FORMATS)

        for pdf in (question_paper_pdf(paper), answer_key_pdf(paper, [an_entry(one) for one in FORMATS])):
            for page in PdfReader(BytesIO(pdf)).pages:
                assert collisions(page) == []

    @pytest.mark.parametrize("sheet", ["a4", "letter"])
    def test_the_certificate_keeps_to_its_page(self, monkeypatch: pytest.MonkeyPatch, sheet: str) -> None:
        monkeypatch.setattr("training.trade.speech.catalogue", lambda tag: Longer(2))
        with in_language(BRACKETED):
            read = PdfReader(BytesIO(certificate_pdf(a_record(house_rules=("A rule",) * 9), paper=sheet)))

        assert len(read.pages) == 1
        assert collisions(read.pages[0]) == []


def collisions(page: Any) -> list[str]:
    """Pieces of text that run into the next one on their line, off the page, or below it."""
    lines: dict[int, list[tuple[float, float, str]]] = {}
    found: list[str] = []

    def visit(text: str, cm: Any, tm: Any, font: Any, size: float) -> None:
        told = text.strip()
        if told and font:
            name = str(font["/BaseFont"]).partition("+")[2]
            left, base = tm[4] * cm[0] + cm[4], tm[5] * cm[3] + cm[5]
            width = max(pdfmetrics.stringWidth(line, name, size) * cm[0] for line in told.split("\n"))
            lines.setdefault(round(base), []).append((left, left + width, told))
            if base - 1.35 * size * cm[3] * told.count("\n") < LEAST_MARGIN:  # lines of a paragraph come as one
                found.append(told)

    page.extract_text(visitor_text=visit)
    room = float(page.mediabox.width)
    for line in lines.values():
        ordered = [*sorted(line), (room - LEAST_MARGIN, 0.0, "")]
        found += [told for (_, right, told), (following, _, _) in pairwise(ordered) if right > following + 1]
    return found


def test_the_help_of_the_demo() -> None:
    told = Command().create_parser("manage.py", "demo").format_help()

    for words in ("prepare the database, do not serve", "server processes"):
        assert f"{OPEN}{words}" in " ".join(told.split())
