"""The pages of a shop whose rulebook cannot be read say so; pages that need none go on, and so do all other shops."""

import logging
import shutil
from collections.abc import Iterator
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from tests.factories import MembershipFactory
from tests.factories_certificates import CertificateFactory
from tests.pages import Visit, text_of
from training.models import Shop, User
from training.rulebook import EDITIONS, editions_in

pytestmark = pytest.mark.django_db
NEED_IT = ["bay", "floor", "course", "practice", "check", "audit", "house-rules", "scopes", "bench"]
NEED_NONE = ["people", "checks", "roster", "assessment", "repair-units"]


@pytest.fixture
def british_owner(other_shop: Shop) -> User:
    """The owner of the other shop, which goes by the edition that is broken here."""
    Shop.objects.filter(pk=other_shop.pk).update(edition="united-kingdom", public_check=True)
    return MembershipFactory.create(shop=other_shop, role="owner").user


@pytest.fixture
def broken(tmp_path: Path) -> Iterator[Path]:
    """One file of the edition of the United Kingdom is no TOML."""
    folder = shutil.copytree(EDITIONS, tmp_path / "editions")
    (folder / "united-kingdom" / "tread.toml").write_text("[[clause]")
    with editions_in(folder):
        yield folder


@pytest.mark.usefixtures("broken")
@pytest.mark.parametrize("page", NEED_IT)
def test_a_page_that_needs_it_names_the_rulebook_and_says_whom_to_tell(
    page: str, visit: Visit, other_shop: Shop, british_owner: User, caplog: pytest.LogCaptureFixture
) -> None:
    with caplog.at_level(logging.ERROR, "training.config.unreadable"):
        answer = visit(f"/shop/{other_shop.slug}/{page}/", as_role=british_owner)

    assert answer.status_code == 503
    assert "The rulebook United Kingdom cannot be read now" in text_of(answer)
    assert "The owner of the shop should tell whoever runs the site" in text_of(answer)
    assert "tread.toml" not in text_of(answer)
    assert "united-kingdom: tread.toml: is not TOML" in caplog.text


@pytest.mark.usefixtures("broken", "british_owner")
def test_the_check_without_login_names_it_too(visit: Visit, other_shop: Shop) -> None:
    answer = visit(f"/check/{other_shop.slug}/", as_role="anonymous")

    assert answer.status_code == 503
    assert "The rulebook United Kingdom cannot be read now" in text_of(answer)


@pytest.mark.usefixtures("broken")
@pytest.mark.parametrize("page", NEED_NONE)
def test_a_page_that_needs_none_opens(page: str, visit: Visit, other_shop: Shop, british_owner: User) -> None:
    answer = visit(f"/shop/{other_shop.slug}/{page}/", as_role=british_owner)

    assert answer.status_code in (200, 302)


@pytest.mark.usefixtures("broken")
def test_its_certificates_are_still_verified(visit: Visit, other_shop: Shop, british_owner: User) -> None:
    certificate = CertificateFactory.create(shop=other_shop, issued_by=british_owner, edition="united-kingdom")

    answer = visit(visit(f"/c/{certificate.number}/")["Location"], as_role="anonymous")

    assert answer.status_code == 200
    assert certificate.holder_name in text_of(answer)


@pytest.mark.usefixtures("broken")
@pytest.mark.parametrize("page", NEED_IT)
def test_the_other_shops_go_on(page: str, visit: Visit, own_shop: Shop) -> None:
    somebody = MembershipFactory.create(shop=own_shop, role="owner").user
    MembershipFactory.create(shop=own_shop, user=somebody, role="trainer")

    assert visit(f"/shop/{own_shop.slug}/{page}/", as_role=somebody).status_code == 200


@pytest.mark.usefixtures("broken")
def test_no_shop_is_opened_with_it() -> None:
    words = ("--name", "Reef", "--owner-email", "mo@shop.example", "--owner-name", "Mo", "--edition", "united-kingdom")

    with pytest.raises(CommandError, match=r"united-kingdom: tread\.toml: is not TOML"):
        call_command("open_shop", *words, stdout=StringIO())
    assert not Shop.objects.exists()
