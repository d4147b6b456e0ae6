"""Which conditions there are, by where they are seen; each with what is harmless but taken for it. No numpy here."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from training.pictures.conditions import bead, liner, repairs, sidewall, tread
from training.pictures.conditions.common import Condition, Degree

__all__ = ["CONDITIONS", "Condition", "Degree"]

CONDITIONS: Mapping[str, Condition] = MappingProxyType(
    {**sidewall.CONDITIONS, **bead.CONDITIONS, **tread.CONDITIONS, **liner.CONDITIONS, **repairs.CONDITIONS}
)
