"""Whoever sits an assessment finds every page closed that could answer it, in each of their shops, until it is over."""

from collections.abc import Callable
from datetime import timedelta

import pytest
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from assessments import acts
from tests.factories import AttemptFactory, FormFactory, MembershipFactory
from tests.pages import ClientAs, Visit
from tests.permissions import TABLE, WHO
from training.models import Shop, User

# where nothing could answer a question: the assessment itself, and who works here with which certificate
STAYS_OPEN = {
    *(f"assessments:{name}" for name in ("assessments", "assessment", "assessment_start", "item", "picture", "clock")),
    *(f"assessments:{name}" for name in ("keep", "review", "hand_in", "result", "result_flag", "extra_round")),
    *(f"certificates:{name}" for name in ("bay", "floor", "roster", "roster_csv", "certificate", "certificate_pdf")),
    *(f"certificates:{name}" for name in ("issue", "suspend", "restore", "revoke")),
    *(f"training:{name}" for name in ("people", "invite", "invitation_again", "invitation_withdraw", "roles")),
    *(f"training:{name}" for name in ("role_give", "role_end", "assign", "assignment_withdraw", "notice_put_away")),
    "training:shop_settings",
}
OF_A_SHOP = {page: rows for page, rows in TABLE.items() if "shop" in page[1] and page[0] != "training:check_public"}
# the ways to an answer that somebody in an assessment would think of first
WAYS = (
    ("training:course", ()),
    ("training:module", ("inspect-and-reject",)),
    ("training:lesson", ("inspect-and-reject", "off-the-wheel")),
    ("training:check", ()),
    ("training:checks", ()),
    ("training:audit", ()),
    ("training:from_memory", ()),
    ("assessments:practice", ()),
)


@pytest.fixture
def sit(other_shop: Shop) -> Callable[..., None]:
    """`sit(person)`: they have an assessment open, in another shop, where they work too."""

    def begin(person: User, **more: object) -> None:
        if not person.memberships.filter(shop=other_shop).exists():
            MembershipFactory.create(user=person, shop=other_shop, role="apprentice")
        form = {"form__shop": other_shop, "form__learner": person}
        AttemptFactory.create(**{"started_at": timezone.now(), **form, **more})

    return begin


@pytest.mark.walk
@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("page", OF_A_SHOP, ids=[name for name, _ in OF_A_SHOP])
def test_each_page_of_a_shop_is_closed_or_stays_open_as_listed(
    page: tuple[str, tuple[str, ...]],
    method: str,
    value: Callable[[str], object],
    person: Callable[[str], User],
    client_as: ClientAs,
    sit: Callable[..., None],
) -> None:
    name, arguments = page
    address = reverse(name, args=[value(argument) for argument in arguments])
    usual = dict(zip(WHO, OF_A_SHOP[page][method == "post"].split(), strict=True))
    staff = ("apprentice", "trainer", "owner")
    for who in staff:
        sit(person(who))

    found = {who: str(getattr(client_as(who), method)(address).status_code) for who in staff}

    refused = ("404", "405")
    if name in STAYS_OPEN:
        assert "403" not in found.values()
    else:
        # a page of somebody else's record may be refused before it is looked for
        assert all(found[who] in {"403", usual[who]} for who in staff)
        assert all(found[who] == "403" for who in staff if usual[who] not in refused)


@pytest.mark.parametrize(("name", "arguments"), WAYS)
def test_a_closed_page_says_why_and_leads_back(
    name: str, arguments: tuple[str, ...], apprentice: User, visit: Visit, sit: Callable[..., None], own_shop: Shop
) -> None:
    sit(apprentice)

    answer = visit(reverse(name, args=[own_shop.slug, *arguments]))

    assert answer.status_code == 403
    text = answer.content.decode()
    assert "Until you hand it in" in text
    assert "/shop/mill-street/assessment/" in text


def test_a_part_of_a_page_reloads_the_page_which_says_it(
    apprentice: User, visit: Visit, sit: Callable[..., None], own_shop: Shop
) -> None:
    sit(apprentice)
    answer = visit(reverse("training:check", args=[own_shop.slug]), HX_Request="true")
    assert answer.headers["HX-Refresh"] == "true"


def test_it_is_over_when_the_clock_has_run_out(
    apprentice: User, visit: Visit, sit: Callable[..., None], own_shop: Shop
) -> None:
    sit(apprentice, started_at=timezone.now() - timedelta(minutes=61))
    assert visit(reverse("training:course", args=[own_shop.slug])).status_code == 200


def test_it_is_over_when_it_is_handed_in(
    apprentice: User, visit: Visit, sit: Callable[..., None], own_shop: Shop
) -> None:
    sit(apprentice)
    acts.hand_in(attempt=apprentice.forms.get().attempt, at=timezone.now())
    assert visit(reverse("training:course", args=[own_shop.slug])).status_code == 200


def test_who_has_left_the_shop_of_the_assessment_cannot_hand_it_in_and_is_not_kept_out(
    apprentice: User, visit: Visit, sit: Callable[..., None], own_shop: Shop, other_shop: Shop
) -> None:
    sit(apprentice)
    apprentice.memberships.filter(shop=other_shop).update(ended_at=timezone.now())
    assert visit(reverse("training:course", args=[own_shop.slug])).status_code == 200


def test_practice_and_papers_close_nothing(
    apprentice: User, visit: Visit, sit: Callable[..., None], own_shop: Shop
) -> None:
    sit(apprentice, practice=True)
    sit(apprentice, form=FormFactory.create(shop=own_shop, learner=apprentice, purpose="paper"))
    assert visit(reverse("training:course", args=[own_shop.slug])).status_code == 200


def test_another_persons_assessment_closes_nothing(
    person: Callable[[str], User], visit: Visit, sit: Callable[..., None], own_shop: Shop
) -> None:
    sit(person("trainer"))
    assert visit(reverse("training:course", args=[own_shop.slug])).status_code == 200


def test_the_check_for_everybody_is_closed_to_whoever_is_logged_in_and_sits(
    apprentice: User, visit: Visit, sit: Callable[..., None], own_shop: Shop
) -> None:
    own_shop.public_check = True
    own_shop.save()
    address = reverse("training:check_public", args=[own_shop.slug])
    assert visit(address).status_code == 200
    sit(apprentice)
    assert visit(address).status_code == 403
    assert visit(address, as_role="anonymous").status_code == 200


def test_looking_whether_somebody_sits_costs_no_query(
    apprentice: User,
    client_as: ClientAs,
    own_shop: Shop,
    django_assert_num_queries: Callable[..., CaptureQueriesContext],
) -> None:
    client = client_as(apprentice)
    address = reverse("training:from_memory", args=[own_shop.slug])
    client.get(address)
    with django_assert_num_queries(2) as asked:  # the person, and their place
        client.get(address)
    assert "training_membership" in asked[1]["sql"]
    assert "assessments_attempt" in asked[1]["sql"]
