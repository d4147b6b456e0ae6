"""Sizes as they are molded, picked from those in use, with a load index and a speed symbol of theirs. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from training.rulebook.markings import Designation, SizeInUse, sizes_in_use

# Which kinds a shop meets that works on these casings; the size tells nothing of the body.
KINDS = {
    "passenger": ("passenger", "temporary-spare"),
    "light-truck-fabric": ("light-truck", "commercial", "special-trailer"),
    "light-truck-steel": ("light-truck", "commercial"),
    "truck": ("truck",),
    "motorcycle": ("motorcycle",),
}
# Written in inches: those that name their overall diameter and their width, and those that name only their width.
IN_INCHES = {"light-truck": "flotation", "truck": "code"}


def kinds_for(casings: Sequence[str], *, leave_out: Sequence[str] = (), in_inches: bool = False) -> tuple[str, ...]:
    """The kinds of tire that belong to these casings, each once; with those written in inches where wanted."""
    found = dict.fromkeys(kind for casing in casings for kind in KINDS[casing] if kind not in leave_out)
    if in_inches:
        found |= dict.fromkeys(IN_INCHES[kind] for kind in found if kind in IN_INCHES)
    return tuple(found)


def pick_size(rng: Random, *kinds: str, for_duals: bool = False) -> Designation:
    """A size in use of one of these kinds, with its service description; one that may run in a pair where wanted."""
    sizes = [size for kind in kinds for size in sizes_in_use()[kind] if size.is_for_duals or not for_duals]
    size = rng.choice(sizes)
    return size.with_symbol(rng.choice(size.speed_symbols))


def pick_built(rng: Random, kind: str, least: int) -> tuple[SizeInUse, ...]:
    """One size of this kind as it is built, by load index: a size built for two and more, with `least` services."""
    found: dict[str, list[SizeInUse]] = {}
    for size in sizes_in_use()[kind]:
        found.setdefault(size.size, []).append(size)
    wide = [each for each in found.values() if len(each) > 1 and sum(len(one.speed_symbols) for one in each) >= least]
    return tuple(rng.choice(wide))


def molded(size: Designation) -> str:
    """A size with its service description as it stands on the sidewall."""
    return size.text.replace("M/C", " M/C")


def line(subject: str, found: str, limit: str, because: str, source: str, kind: str = "standard") -> dict[str, object]:
    """A line of an explanation that reads a marking."""
    return {
        "clause": "", "subject": str(subject), "holds": None, "found": str(found), "limit": str(limit),
        "because": str(because), "kind": kind, "source": str(source),
    }  # fmt: skip
