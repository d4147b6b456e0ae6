"""A check of a tire that somebody of a shop keeps, typed in as people do."""

from datetime import date, datetime
from typing import Any
from uuid import uuid4

from tests.factories import NOW
from training import acts
from training.forms.check_a_tire import TireForm
from training.forms.tire_fields import finding_names
from training.models import Shop, TireCheck, User

DAY = date(2026, 11, 25)
# Source of the limit: US association puncture repair procedures (wall chart), 1/4 in (6 mm) after damage removal.
SMALL_HOLE = dict.fromkeys(finding_names(), "no") | {
    "casing": "passenger",
    "purpose": "repair",
    "on_wheel": "no",
    "build": "radial",
    "depths_1": "6/32 in",
    "repairs": "none",
    "designation": "205/55R16 91V",
    "outer_groove": "62 mm",
    "crown_thickness": "13 mm",
    "injury_A_diameter": "5 mm",
    "injury_A_angle": "10 deg",
    "injury_A_lateral": "20 mm",
}
LARGE_HOLE = SMALL_HOLE | {"injury_A_diameter": "9 mm"}


def keep(*, shop: Shop, person: User, found: dict[str, str] = SMALL_HOLE, at: datetime = NOW, **more: Any) -> TireCheck:
    """Keep a check; `more` is what the act takes beside the case."""
    form = TireForm(found, edition=shop.edition, today=DAY)
    assert form.is_valid(), form.errors
    told: dict[str, Any] = {"tin": "", "ticket": "ticket 4711", "note": "", "taken_along": False, "corrects": None}
    told |= {"press": uuid4(), "at": at, "found": found, "entered": form.entered(), "case": form.case}
    return acts.keep_check(shop=shop, person=person, **(told | more))
