"""The lessons' named drawings: one function each, numbers printed only as the edition states them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from training.drawings.illustrations import casing, repairing, sidewall, tools, wheels
from training.drawings.ink import Figure
from training.rulebook import Edition
from training.trade.speech import once_a_language

Draw = Callable[[Edition], Figure]

ILLUSTRATIONS: Mapping[str, Draw] = {
    "off-the-wheel": casing.off_the_wheel,
    "reject-on-sight": casing.reject_on_sight,
    "cross-section-parts": casing.cross_section_parts,
    "where-it-may-be": casing.where_it_may_be,
    "area-by-size": casing.area_by_size,
    "exit-outside": casing.exit_outside,
    "sidewall-markings": sidewall.sidewall_markings,
    "ply-material": sidewall.ply_material,
    "date-code": sidewall.date_code,
    "tread-gauge": tools.tread_gauge,
    "probe-and-caliper": tools.probe_and_caliper,
    "star-pattern": tools.star_pattern,
    "one-piece-two-piece": repairing.one_piece_two_piece,
    "stem-stands": repairing.stem_stands,
    "outline": repairing.outline,
    "unit-arrows": repairing.unit_arrows,
    "unit-footprints": repairing.unit_footprints,
    "stitching": repairing.stitching,
    "restraint": wheels.restraint,
    "dual-pair": wheels.dual_pair,
    "motorcycle-section": wheels.motorcycle_section,
}


@once_a_language(256)
def illustration(name: str, edition: Edition) -> Figure:
    """A drawing by its name.

    Raises:
        ValueError: for a name that is not in ILLUSTRATIONS.
    """
    if name not in ILLUSTRATIONS:
        raise ValueError(f'illustration: "{name}" is not accepted; choose {", ".join(ILLUSTRATIONS)}')
    return ILLUSTRATIONS[name](edition)
