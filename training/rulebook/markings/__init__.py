"""Markings: what is molded on a sidewall, read into values, each refusal naming the part that cannot be right. Pure."""

from training.rulebook.markings.dates import DateCode, Week, read_date_code, week_of, weeks_in
from training.rulebook.markings.designation import CONSTRUCTIONS, Designation, read_designation
from training.rulebook.markings.errors import MarkingError
from training.rulebook.markings.in_use import SizeInUse, sizes_in_use
from training.rulebook.markings.lengths import (
    Dimensions,
    dimensions,
    measuring_rim_mm,
    outer_diameter_mm,
    section_height_mm,
    section_width_mm,
)
from training.rulebook.markings.service import ServiceIndex
from training.rulebook.markings.tables import (
    MemoryValue,
    PublishedSize,
    SpeedLimit,
    load_capacity_kg,
    load_capacity_text,
    load_ranges,
    load_text,
    published_sizes,
    rim_diameter_mm,
    rim_text,
    speed_limit,
    speed_limits,
    values_from_memory,
)
from training.rulebook.markings.tin import Tin, read_tin
