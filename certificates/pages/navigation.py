"""The links at the top of every page. It stands in the topmost app, since it names pages of all three."""

from typing import Any

from django.http import HttpRequest

from training.access import Place
from training.addresses import address
from training.models import Role
from training.pages.kept import person_tag
from training.trade.speech import saying

# (label, page, roles that see it)
PAGES: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    (saying("Bay"), "certificates:bay", (Role.APPRENTICE,)),
    (saying("Floor"), "certificates:floor", (Role.TRAINER,)),
    (saying("Roster"), "certificates:roster", (Role.OWNER, Role.TRAINER)),
    (saying("Course"), "training:course", tuple(Role.values)),
    (saying("Practice"), "assessments:practice", tuple(Role.values)),
    (saying("Check a tire"), "training:check", tuple(Role.values)),
    (saying("People"), "training:people", (Role.TRAINER, Role.OWNER)),
    (saying("Shop"), "training:shop_settings", (Role.OWNER,)),
)


def navigation(request: HttpRequest) -> dict[str, Any]:
    """Context of every page: the shop, the person, and the pages open to them."""
    place: Place | None = getattr(request, "place", None)
    if place is None:
        return {"nav_items": []}
    items = []
    for label, page, roles in PAGES:
        if place.has(*roles):
            url = address(page, place.shop.slug)
            items.append({"label": label, "url": url, "current": request.path.startswith(url)})
    return {
        "nav_items": items,
        "place": place,
        "shop_name": place.shop.name,
        "person_name": place.person.name,
        "kept_person": person_tag(place.person),
        "home_url": address("certificates:home"),
    }
