"""Size designations as far as geometry needs them: nominal section width and design outer diameter."""

import re
from dataclasses import dataclass
from functools import lru_cache

_METRIC = re.compile(
    r"(?:P|LT|T|ST)?(?P<width>[1-9][0-9]{1,2})/(?P<aspect>[1-9][0-9])\s?(?:ZR|VR|HR|R|D|B|-|F)\s?(?P<rim>[1-9][0-9](?:\.5)?)\b.*",
    re.I,
)
_CODE_MM = 25.4


@dataclass(frozen=True, slots=True)
class Dimensions:
    """Nominal section width and design outer diameter of a new tire [mm]."""

    section_width_mm: int
    outer_diameter_mm: int


@lru_cache(maxsize=4096)
def dimensions(designation: str | None) -> Dimensions | None:
    """Dimensions of a metric designation; None where it cannot be computed (code sizes have published tables).

    D = d + 2 H, H = width * aspect / 100 rounded half up before doubling; d = rim code * 25.4 rounded.
    Source: UN Regulation No. 30 (rounding order from memory).

    >>> dimensions("205/65R15 94V").outer_diameter_mm
    647
    """
    match = _METRIC.fullmatch(designation) if designation else None
    if match is None:
        return None
    width, aspect = int(match["width"]), int(match["aspect"])
    rim_mm = int(float(match["rim"]) * _CODE_MM + 0.5)
    return Dimensions(width, rim_mm + 2 * ((2 * width * aspect + 100) // 200))
