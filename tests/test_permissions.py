"""Every address of the site against everybody who may ask: one table, and a test that no address is missing from it.

Columns: nobody, then apprentice, trainer and owner of the shop, then the same three of another shop. "The apprentice"
is the person the records of the page belong to. 302 for nobody is the way to the login.
"""

from collections.abc import Callable, Iterator
from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.urls import URLPattern, URLResolver, get_resolver, reverse
from django.utils import timezone

from certificates.models import Certificate
from certificates.numbers import show_number
from tests.factories import (
    PASSWORD,
    AssignmentFactory,
    AttemptFactory,
    DrawFlagFactory,
    HouseRuleSetFactory,
    InvitationFactory,
    NoticeFactory,
    PaperFactory,
    RepairUnitFactory,
)
from tests.factories_certificates import CertificateFactory, HandsOnFactory
from tests.kept_checks import keep
from tests.pages import ClientAs
from training.models import Shop, User
from training.models.shops import digest_of

WHO = (
    "anonymous",
    "apprentice",
    "trainer",
    "owner",
    "apprentice_of_other_shop",
    "trainer_of_other_shop",
    "owner_of_other_shop",
)

# rows that stand for many pages: a page, or with _ON a page that leads on
NEVER = "405 405 405 405 405 405 405"
ANYONE = "200 200 200 200 200 200 200"
SHOP = "302 200 200 200 404 404 404"
LEARNER = "302 200 404 404 404 404 404"
TRAINER = "302 404 200 404 404 404 404"
STAFF = "302 404 200 200 404 404 404"
STAFF_ON = "302 404 302 302 404 404 404"
OWNER = "302 404 404 200 404 404 404"

# (page, names of its arguments) -> statuses of GET, statuses of an empty POST
TABLE: dict[tuple[str, tuple[str, ...]], tuple[str, str]] = {
    # accounts: anyone without a login; whoever is logged in is sent on
    ("account_login", ()): ("200 302 302 302 302 302 302", "200 302 302 302 302 302 302"),
    ("account_logout", ()): ("302 200 200 200 200 200 200", "302 302 302 302 302 302 302"),
    ("account_inactive", ()): (ANYONE, NEVER),
    ("account_change_password", ()): ("302 200 200 200 200 200 200", "302 200 200 200 200 200 200"),
    ("account_reset_password", ()): (ANYONE, ANYONE),
    ("account_reset_password_done", ()): (ANYONE, NEVER),
    ("account_reset_password_from_key_done", ()): (ANYONE, NEVER),
    ("account_reset_password_from_key", ("uidb36", "key")): (ANYONE, ANYONE),
    # training
    ("training:join", ("secret",)): ("200 409 409 409 409 409 409", "200 409 409 409 409 409 409"),
    ("training:people", ("shop",)): (STAFF, NEVER),
    ("training:invite", ("shop",)): (STAFF, STAFF),
    ("training:invitation_again", ("shop", "invitation")): (NEVER, STAFF_ON),
    ("training:invitation_withdraw", ("shop", "invitation")): (NEVER, STAFF_ON),
    ("training:roles", ("shop", "person")): (OWNER, NEVER),
    ("training:role_give", ("shop", "person")): (NEVER, OWNER),
    ("training:role_end", ("shop", "person")): (NEVER, OWNER),
    ("training:assign", ("shop",)): (STAFF, STAFF),
    ("training:assignment_withdraw", ("shop", "assignment")): (NEVER, STAFF_ON),
    ("training:notice_put_away", ("shop", "notice")): (NEVER, "302 302 404 404 404 404 404"),
    ("training:course", ("shop",)): (SHOP, NEVER),
    ("training:module", ("shop", "module")): (SHOP, NEVER),
    ("training:lesson", ("shop", "module", "lesson")): (SHOP, NEVER),
    ("training:lesson_read", ("shop", "module", "lesson")): (NEVER, "302 302 302 302 404 404 404"),
    ("training:from_memory", ("shop",)): (SHOP, NEVER),
    ("training:check", ("shop",)): (SHOP, NEVER),
    # the shop of the table lets nobody check without login
    ("training:check_public", ("shop",)): ("404 404 404 404 404 404 404", NEVER),
    ("training:checks", ("shop",)): (SHOP, NEVER),
    ("training:check_keep", ("shop",)): (NEVER, "302 302 302 302 404 404 404"),
    ("training:check_record", ("shop", "check")): (SHOP, NEVER),
    ("training:check_statement", ("shop", "check")): (SHOP, NEVER),
    ("training:audit", ("shop",)): (SHOP, SHOP),
    ("training:shop_settings", ("shop",)): (OWNER, OWNER),
    ("training:house_rules", ("shop",)): (OWNER, OWNER),
    ("training:house_rules_import", ("shop",)): (OWNER, OWNER),
    ("training:house_rules_set", ("shop",)): (NEVER, "302 404 404 302 404 404 404"),
    ("training:house_rules_version", ("shop", "set")): (OWNER, NEVER),
    ("training:units", ("shop",)): (STAFF, NEVER),
    ("training:unit_add", ("shop",)): (OWNER, OWNER),
    ("training:unit_end", ("shop", "unit")): (NEVER, "302 404 404 302 404 404 404"),
    # assessments
    ("assessments:practice", ("shop",)): (SHOP, NEVER),
    ("assessments:practice_start", ("shop",)): (NEVER, "302 302 302 302 404 404 404"),
    ("assessments:practice_item", ("shop", "practice", "position")): (LEARNER, LEARNER),
    ("assessments:practice_end", ("shop", "practice")): (LEARNER, NEVER),
    ("assessments:assessments", ("shop",)): ("302 302 302 302 404 404 404", NEVER),
    ("assessments:assessment", ("shop", "scope")): (SHOP, NEVER),
    ("assessments:assessment_start", ("shop", "scope")): (NEVER, SHOP),
    ("assessments:item", ("shop", "attempt", "position")): (LEARNER, LEARNER),
    ("assessments:clock", ("shop", "attempt")): (LEARNER, NEVER),
    ("assessments:review", ("shop", "attempt")): (LEARNER, NEVER),
    ("assessments:hand_in", ("shop", "attempt")): (NEVER, "302 302 404 404 404 404 404"),
    ("assessments:result", ("shop", "handed_in")): (LEARNER, NEVER),
    ("assessments:extra_round", ("shop", "person", "scope")): (STAFF, STAFF),
    ("assessments:bench", ("shop",)): (STAFF, NEVER),
    ("assessments:bench_settle", ("shop", "flag")): (NEVER, STAFF_ON),
    ("assessments:bench_family", ("shop", "family")): (STAFF, NEVER),
    ("assessments:bench_draw", ("shop", "family")): (STAFF, STAFF),
    ("assessments:bench_off", ("shop", "family")): (NEVER, STAFF),
    ("assessments:bench_on", ("shop", "family")): (NEVER, STAFF_ON),
    # certificates and start pages
    ("certificates:home", ()): ("302 302 302 302 302 302 302", NEVER),
    ("certificates:bay", ("shop",)): (SHOP, NEVER),
    ("certificates:floor", ("shop",)): (STAFF, NEVER),
    ("certificates:person", ("shop", "person")): (STAFF, NEVER),
    ("certificates:hands_on", ("shop", "person")): (TRAINER, TRAINER),
    ("certificates:hands_on_sheet", ("shop", "person", "scope")): (TRAINER, TRAINER),
    ("certificates:scopes", ("shop",)): (OWNER, OWNER),
    ("certificates:hands_on_record", ("shop", "record")): (SHOP, NEVER),
    ("certificates:issue", ("shop", "person")): (NEVER, STAFF_ON),
    ("certificates:certificate", ("shop", "number")): (SHOP, NEVER),
    ("certificates:certificate_pdf", ("shop", "number")): (SHOP, NEVER),
    ("certificates:paper_make", ("shop", "person")): (TRAINER, "302 404 302 404 404 404 404"),
    ("certificates:paper_of_scope", ("shop", "person", "scope")): (TRAINER, "302 404 302 404 404 404 404"),
    ("certificates:paper", ("shop", "paper")): (TRAINER, NEVER),
    ("certificates:paper_pdf", ("shop", "paper")): (TRAINER, NEVER),
    ("certificates:paper_key_pdf", ("shop", "paper")): (TRAINER, NEVER),
    ("certificates:paper_answers", ("shop", "paper")): (TRAINER, "302 404 302 404 404 404 404"),
    ("certificates:paper_hand_in", ("shop", "paper")): (NEVER, "302 404 302 404 404 404 404"),
    ("certificates:paper_withdraw", ("shop", "paper")): (NEVER, TRAINER),
    ("certificates:suspend", ("shop", "number")): (NEVER, OWNER),
    ("certificates:restore", ("shop", "number")): (NEVER, OWNER),
    ("certificates:revoke", ("shop", "number")): (OWNER, OWNER),
    ("certificates:roster", ("shop",)): (STAFF, NEVER),
    ("certificates:roster_csv", ("shop",)): (STAFF, NEVER),
    ("certificates:verify_lookup", ()): (ANYONE, NEVER),
    ("certificates:verify", ("shown_number",)): (ANYONE, NEVER),
}


def _named(patterns: list[Any], namespace: str = "") -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, URLResolver):
            inner = f"{namespace}{pattern.namespace}:" if pattern.namespace else namespace
            yield from _named(pattern.url_patterns, inner)
        elif isinstance(pattern, URLPattern) and pattern.name:
            yield namespace + pattern.name


def test_the_table_names_every_address_of_the_site() -> None:
    assert {name for name, _ in TABLE} == set(_named(get_resolver().url_patterns))


@pytest.fixture
def value(own_shop: Shop, person: Callable[[str], User]) -> Callable[[str], object]:
    """`value("paper")` is made when it is asked for; what can be is the apprentice's of the own shop."""
    now = timezone.now()
    for who in WHO[1:]:
        person(who).set_password(PASSWORD)
        person(who).save()
    learner, trainer = person("apprentice"), person("trainer")
    ours = {"form__shop": own_shop, "form__learner": learner}
    today = now.astimezone(ZoneInfo(own_shop.time_zone)).date()  # a day of the shop, not of the server

    def certificate() -> Certificate:
        days = {"issued_date": today, "expires_date": today + timedelta(days=700)}
        return CertificateFactory.create(shop=own_shop, holder=learner, issued_by=person("owner"), **days)

    made: dict[str, Callable[[], object]] = {
        "shop": lambda: own_shop.slug,
        "person": lambda: learner.reference,
        "scope": lambda: "north-america-light",
        "module": lambda: "inspect-and-reject",
        "lesson": lambda: "off-the-wheel",
        "position": lambda: 1,
        "practice": lambda: AttemptFactory.create(practice=True, **ours).form.reference,
        "attempt": lambda: AttemptFactory.create(started_at=now, **ours).form.reference,
        "handed_in": lambda: AttemptFactory.create(passed=True, **ours).form.reference,
        "record": lambda: HandsOnFactory.create(shop=own_shop, learner=learner, trainer=trainer).reference,
        "number": lambda: certificate().number,
        "shown_number": lambda: show_number(certificate().number),
        "family": lambda: "size-verdict",
        "paper": lambda: PaperFactory.create(**ours, form__drawn_at=now).form.reference,
        "flag": lambda: DrawFlagFactory.create(shop=own_shop, by=trainer).reference,
        "assignment": lambda: AssignmentFactory.create(shop=own_shop, learner=learner).reference,
        "notice": lambda: NoticeFactory.create(shop=own_shop, person=learner).reference,
        "invitation": lambda: InvitationFactory.create(shop=own_shop, sent_at=now).reference,
        "secret": lambda: InvitationFactory.create(sent_at=now, secret_digest=digest_of("the-secret")) and "the-secret",
        "check": lambda: keep(shop=own_shop, person=learner).reference,
        "set": lambda: HouseRuleSetFactory.create(shop=own_shop).number,
        "unit": lambda: RepairUnitFactory.create(shop=own_shop).reference,
        "uidb36": lambda: "1",
        "key": lambda: "no-such-key",
    }
    return lambda name: made[name]()


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("page", TABLE, ids=[name for name, _ in TABLE])
def test_each_address_answers_each_role_as_listed(
    page: tuple[str, tuple[str, ...]],
    method: str,
    value: Callable[[str], object],
    client_as: ClientAs,
) -> None:
    name, arguments = page
    address = reverse(name, args=[value(argument) for argument in arguments])
    row = TABLE[page][method == "post"]
    expected = dict(zip(WHO, row.split(), strict=True))

    # whoever may write comes last, so that no refusal is owed to a change made before it
    order = sorted(WHO, key=lambda who: expected[who] not in ("404", "405"))
    found = {who: str(getattr(client_as(who), method)(address).status_code) for who in order}

    assert " ".join(found[who] for who in WHO) == row
