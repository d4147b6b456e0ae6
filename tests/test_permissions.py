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

from assessments.models import Attempt, Blueprint
from certificates.models import HandsOn
from certificates.numbers import show_number
from tests.factories import (
    PASSWORD,
    AssignmentFactory,
    AttemptFactory,
    BlueprintFactory,
    DrawFlagFactory,
    FormFactory,
    HouseRuleSetFactory,
    InvitationFactory,
    MembershipFactory,
    NoticeFactory,
    PaperFactory,
    RepairUnitFactory,
)
from tests.factories_certificates import CertificateFactory
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

# (page, names of its arguments) -> statuses of GET, statuses of an empty POST
TABLE: dict[tuple[str, tuple[str, ...]], tuple[str, str]] = {
    # accounts: anyone without a login; whoever is logged in is sent on
    ("account_login", ()): ("200 302 302 302 302 302 302", "200 302 302 302 302 302 302"),
    ("account_logout", ()): ("302 200 200 200 200 200 200", "302 302 302 302 302 302 302"),
    ("account_inactive", ()): ("200 200 200 200 200 200 200", "405 405 405 405 405 405 405"),
    ("account_change_password", ()): ("302 200 200 200 200 200 200", "302 200 200 200 200 200 200"),
    ("account_reset_password", ()): ("200 200 200 200 200 200 200", "200 200 200 200 200 200 200"),
    ("account_reset_password_done", ()): ("200 200 200 200 200 200 200", "405 405 405 405 405 405 405"),
    ("account_reset_password_from_key_done", ()): ("200 200 200 200 200 200 200", "405 405 405 405 405 405 405"),
    ("account_reset_password_from_key", ("uidb36", "key")): (
        "200 200 200 200 200 200 200",
        "200 200 200 200 200 200 200",
    ),
    # training
    ("training:join", ("secret",)): ("200 409 409 409 409 409 409", "200 409 409 409 409 409 409"),
    ("training:people", ("shop",)): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:invite", ("shop",)): ("302 404 200 200 404 404 404", "302 404 200 200 404 404 404"),
    ("training:invitation_again", ("shop", "invitation")): (
        "405 405 405 405 405 405 405",
        "302 404 302 302 404 404 404",
    ),
    ("training:invitation_withdraw", ("shop", "invitation")): (
        "405 405 405 405 405 405 405",
        "302 404 302 302 404 404 404",
    ),
    ("training:roles", ("shop", "person")): ("302 404 404 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:role_give", ("shop", "person")): ("405 405 405 405 405 405 405", "302 404 404 200 404 404 404"),
    ("training:role_end", ("shop", "person")): ("405 405 405 405 405 405 405", "302 404 404 200 404 404 404"),
    ("training:assign", ("shop",)): ("302 404 200 200 404 404 404", "302 404 200 200 404 404 404"),
    ("training:assignment_withdraw", ("shop", "assignment")): (
        "405 405 405 405 405 405 405",
        "302 404 302 302 404 404 404",
    ),
    ("training:notice_put_away", ("shop", "notice")): ("405 405 405 405 405 405 405", "302 302 404 404 404 404 404"),
    ("training:course", ("shop",)): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:module", ("shop", "module")): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:lesson", ("shop", "module", "lesson")): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:lesson_read", ("shop", "module", "lesson")): (
        "405 405 405 405 405 405 405",
        "302 302 302 302 404 404 404",
    ),
    ("training:from_memory", ("shop",)): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:check", ("shop",)): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    # the shop of the table lets nobody check without login
    ("training:check_public", ("shop",)): ("404 404 404 404 404 404 404", "405 405 405 405 405 405 405"),
    ("training:checks", ("shop",)): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:check_keep", ("shop",)): ("405 405 405 405 405 405 405", "302 302 302 302 404 404 404"),
    ("training:check_record", ("shop", "check")): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:check_statement", ("shop", "check")): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:audit", ("shop",)): ("302 200 200 200 404 404 404", "302 200 200 200 404 404 404"),
    ("training:shop_settings", ("shop",)): ("302 404 404 200 404 404 404", "302 404 404 200 404 404 404"),
    ("training:house_rules", ("shop",)): ("302 404 404 200 404 404 404", "302 404 404 200 404 404 404"),
    ("training:house_rules_import", ("shop",)): ("302 404 404 200 404 404 404", "302 404 404 200 404 404 404"),
    ("training:house_rules_set", ("shop",)): ("405 405 405 405 405 405 405", "302 404 404 302 404 404 404"),
    ("training:house_rules_version", ("shop", "set")): ("302 404 404 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:units", ("shop",)): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("training:unit_add", ("shop",)): ("302 404 404 200 404 404 404", "302 404 404 200 404 404 404"),
    ("training:unit_end", ("shop", "unit")): ("405 405 405 405 405 405 405", "302 404 404 302 404 404 404"),
    # assessments
    ("assessments:practice", ("shop",)): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:practice_start", ("shop",)): ("405 405 405 405 405 405 405", "302 302 302 302 404 404 404"),
    ("assessments:practice_item", ("shop", "practice", "position")): (
        "302 200 404 404 404 404 404",
        "302 200 404 404 404 404 404",
    ),
    ("assessments:practice_end", ("shop", "practice")): ("302 200 404 404 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:assessments", ("shop",)): ("302 302 302 302 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:assessment", ("shop", "scope")): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:assessment_start", ("shop", "scope")): ("405 405 405 405 405 405 405", "302 200 200 200 404 404 404"),
    ("assessments:item", ("shop", "attempt", "position")): (
        "302 200 404 404 404 404 404",
        "302 200 404 404 404 404 404",
    ),
    ("assessments:clock", ("shop", "attempt")): ("302 200 404 404 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:review", ("shop", "attempt")): ("302 200 404 404 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:hand_in", ("shop", "attempt")): ("405 405 405 405 405 405 405", "302 302 404 404 404 404 404"),
    ("assessments:result", ("shop", "handed_in")): ("302 200 404 404 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:extra_round", ("shop", "person", "scope")): (
        "302 404 200 200 404 404 404",
        "302 404 200 200 404 404 404",
    ),
    ("assessments:bench", ("shop",)): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:bench_settle", ("shop", "flag")): ("405 405 405 405 405 405 405", "302 404 302 302 404 404 404"),
    ("assessments:bench_family", ("shop", "family")): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("assessments:bench_draw", ("shop", "family")): ("302 404 200 200 404 404 404", "302 404 200 200 404 404 404"),
    ("assessments:bench_off", ("shop", "family")): ("405 405 405 405 405 405 405", "302 404 200 200 404 404 404"),
    ("assessments:bench_on", ("shop", "family")): ("405 405 405 405 405 405 405", "302 404 302 302 404 404 404"),
    # certificates and start pages
    ("certificates:home", ()): ("302 302 302 302 302 302 302", "405 405 405 405 405 405 405"),
    ("certificates:bay", ("shop",)): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:floor", ("shop",)): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:person", ("shop", "person")): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:hands_on", ("shop", "person")): ("302 404 200 404 404 404 404", "302 404 200 404 404 404 404"),
    ("certificates:hands_on_sheet", ("shop", "person", "scope")): (
        "302 404 200 404 404 404 404",
        "302 404 200 404 404 404 404",
    ),
    ("certificates:scopes", ("shop",)): ("302 404 404 200 404 404 404", "302 404 404 200 404 404 404"),
    ("certificates:hands_on_record", ("shop", "record")): (
        "302 200 200 200 404 404 404",
        "405 405 405 405 405 405 405",
    ),
    ("certificates:issue", ("shop", "person")): ("405 405 405 405 405 405 405", "302 404 302 302 404 404 404"),
    ("certificates:certificate", ("shop", "number")): ("302 200 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:certificate_pdf", ("shop", "number")): (
        "302 200 200 200 404 404 404",
        "405 405 405 405 405 405 405",
    ),
    ("certificates:paper_make", ("shop", "newcomer")): ("302 404 200 404 404 404 404", "302 404 302 404 404 404 404"),
    ("certificates:paper_of_scope", ("shop", "newcomer", "scope")): (
        "302 404 200 404 404 404 404",
        "302 404 302 404 404 404 404",
    ),
    ("certificates:paper", ("shop", "paper")): ("302 404 200 404 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:paper_pdf", ("shop", "paper")): ("302 404 200 404 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:paper_key_pdf", ("shop", "paper")): ("302 404 200 404 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:paper_answers", ("shop", "paper")): ("302 404 200 404 404 404 404", "302 404 302 404 404 404 404"),
    ("certificates:paper_hand_in", ("shop", "paper")): ("405 405 405 405 405 405 405", "302 404 302 404 404 404 404"),
    ("certificates:paper_withdraw", ("shop", "paper")): ("405 405 405 405 405 405 405", "302 404 200 404 404 404 404"),
    ("certificates:suspend", ("shop", "number")): ("405 405 405 405 405 405 405", "302 404 404 200 404 404 404"),
    ("certificates:restore", ("shop", "number")): ("405 405 405 405 405 405 405", "302 404 404 200 404 404 404"),
    ("certificates:revoke", ("shop", "number")): ("302 404 404 200 404 404 404", "302 404 404 200 404 404 404"),
    ("certificates:roster", ("shop",)): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:roster_csv", ("shop",)): ("302 404 200 200 404 404 404", "405 405 405 405 405 405 405"),
    ("certificates:verify_lookup", ()): ("200 200 200 200 200 200 200", "405 405 405 405 405 405 405"),
    ("certificates:verify", ("shown_number",)): ("200 200 200 200 200 200 200", "405 405 405 405 405 405 405"),
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
def values(own_shop: Shop, person: Callable[[str], User]) -> dict[str, Any]:
    """One of each thing an address can name; all belong to the apprentice of the own shop."""
    now = timezone.now()
    for who in WHO[1:]:
        person(who).set_password(PASSWORD)
        person(who).save()
    learner, trainer = person("apprentice"), person("trainer")
    blueprint: Blueprint = BlueprintFactory.create()
    given = {"shop": own_shop, "learner": learner, "edition_version": "2026.1"}
    practice: Attempt = AttemptFactory.create(
        form=FormFactory.create(**given, purpose="practice", blueprint=None, skill="size-limits"),
        closes_at=None,
        open_for="",
    )
    open_attempt = AttemptFactory.create(form=FormFactory.create(**given, blueprint=blueprint), started_at=now)
    handed_in = AttemptFactory.create(form=FormFactory.create(**given, blueprint=blueprint), passed=True)
    record = HandsOn.objects.create(
        press="00000000-0000-4000-8000-000000000001",
        shop=own_shop,
        learner=learner,
        trainer=trainer,
        scope="puncture-light",
        edition="north-america",
        edition_version="2026.1",
        criteria=[],
        has_passed=True,
        recorded_at=now,
    )
    issued = now.astimezone(ZoneInfo(own_shop.time_zone)).date()
    certificate = CertificateFactory.create(
        shop=own_shop,
        holder=learner,
        attempt=handed_in,
        hands_on=record,
        issued_date=issued,  # a day of the shop, not of the server
        expires_date=issued + timedelta(days=700),
        issued_by=person("owner"),
    )
    return {
        "shop": own_shop.slug,
        "person": learner.reference,
        "scope": "north-america-light",
        "module": "inspect-and-reject",
        "lesson": "off-the-wheel",
        "position": 1,
        "practice": practice.form.reference,
        "attempt": open_attempt.form.reference,
        "handed_in": handed_in.form.reference,
        "record": record.reference,
        "number": certificate.number,
        "shown_number": show_number(certificate.number),
        "family": "size-verdict",
        "newcomer": MembershipFactory.create(shop=own_shop).user.reference,
        # the apprentice has an assessment open on the screen, so the paper is another learner's
        "paper": PaperFactory.create(
            form__shop=own_shop, form__learner=MembershipFactory.create(shop=own_shop).user, form__drawn_at=now
        ).form.reference,
        "flag": DrawFlagFactory.create(shop=own_shop, by=trainer).reference,
        "assignment": AssignmentFactory.create(shop=own_shop, learner=learner).reference,
        "notice": NoticeFactory.create(shop=own_shop, person=learner).reference,
        "invitation": InvitationFactory.create(
            shop=own_shop, sent_at=now, secret_digest=digest_of("the-secret")
        ).reference,
        "check": keep(shop=own_shop, person=learner).reference,
        "set": HouseRuleSetFactory.create(shop=own_shop).number,
        "unit": RepairUnitFactory.create(shop=own_shop).reference,
        "secret": "the-secret",
        "uidb36": "1",
        "key": "no-such-key",
    }


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("page", TABLE, ids=[name for name, _ in TABLE])
def test_each_address_answers_each_role_as_listed(
    page: tuple[str, tuple[str, ...]],
    method: str,
    values: dict[str, Any],
    client_as: ClientAs,
) -> None:
    name, arguments = page
    address = reverse(name, args=[values[argument] for argument in arguments])
    row = TABLE[page][method == "post"]
    expected = dict(zip(WHO, row.split(), strict=True))

    # whoever may write comes last, so that no refusal is owed to a change made before it
    order = sorted(WHO, key=lambda who: expected[who] not in ("404", "405"))
    found = {who: str(getattr(client_as(who), method)(address).status_code) for who in order}

    assert " ".join(found[who] for who in WHO) == row
