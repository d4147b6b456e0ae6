"""A tire as tests type it into Check a tire."""

from datetime import date

from training.forms.check_a_tire import TireForm
from training.forms.tire_fields import finding_names

DAY = date(2026, 11, 25)
LOOKED_AT_ALL = dict.fromkeys(finding_names(), "no")
SOUND_TIRE = {
    "casing": "passenger",
    "purpose": "repair",
    "on_wheel": "no",
    "build": "radial",
    "outer_groove": "62 mm",
    "crown_thickness": "13 mm",
    "depths_1": "6/32 in",
    "repairs": "none",
    "injury_A_kind": "puncture",
    "injury_A_diameter": "5 mm",
    "injury_A_angle": "10 deg",
    "injury_A_lateral": "20 mm",
    "injury_A_station": "90 deg",
}


def form_of(**found: str) -> TireForm:
    return TireForm(found, edition="north-america", today=DAY)
