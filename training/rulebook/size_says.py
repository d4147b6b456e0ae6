"""What a size marking says of a tire besides its size: the casings it is on, the build, what limits its use."""

from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from training.rulebook.case import Finding, Tire
from training.rulebook.case_words import UNREADABLE
from training.rulebook.designation import size_of
from training.trade.speech import say, saying
from training.trade.words import written

_VANS = ("light-truck", "light-truck-fabric", "light-truck-steel")
# Which casings a size marking speaks of, the one it is read as first. A trailer tire or a spare is built as one or the
# other, and a size in inches, such as 7.50-16, is molded on many.
_CASINGS_OF = {
    "passenger": ("passenger",),
    "light-truck": _VANS,
    "commercial": _VANS,
    "truck": ("truck",),
    "motorcycle": ("motorcycle",),
    "temporary-spare": ("passenger", *_VANS),
    "special-trailer": (*_VANS, "passenger"),
}
# Widths in millimeters are molded in tens on motorcycle tires, up to 240, and end in 5 on those of cars and vans
# (common practice of the makers; a rim measured in millimeters has widths of its own).
_WIDEST_MOTORCYCLE_MM = 240
_LARGEST_RIM_CODE = 30
_NARROW_CODE_IN = 6  # a width in inches below this is on no truck tire


@lru_cache(maxsize=4096)
def casings_of(marking: str | None) -> tuple[str, ...]:
    """The casings that a size marking is molded on, the one it is read as first; none where it may be on any.

    >>> casings_of("205/55R16 91V"), casings_of("120/70ZR17"), casings_of("7.50-16")
    (('passenger',), ('motorcycle',), ())
    """
    size = size_of(marking) if marking not in (None, UNREADABLE) else None
    if size is None:
        return ()
    if size.kind == "passenger" and size.prefix is None and size.section_width_mm is not None:
        is_in_tens = size.section_width_mm % 10 == 0 and size.section_width_mm <= _WIDEST_MOTORCYCLE_MM
        if is_in_tens and size.form == "metric" and Fraction(size.rim_code) < _LARGEST_RIM_CODE:
            return _CASINGS_OF["motorcycle"]
        if size.load_index_dual is not None:  # of two load indexes the second is for a dual pair
            return _CASINGS_OF["commercial"]
    if size.kind == "unstated" and size.form == "code" and Fraction(size.section_code or 0) < _NARROW_CODE_IN:
        return ("passenger", "motorcycle", *_VANS)
    return _CASINGS_OF.get(size.kind, ())


@lru_cache(maxsize=4096)
def other_casing(casing: str, marking: str | None) -> str | None:
    """The casing that the size marking is read as, where it is not on the one stated; else None.

    >>> other_casing("light-truck-steel", "205/55R16 91V")
    'passenger'
    """
    casings = casings_of(marking)
    return casings[0] if casings and casing not in casings else None


def marked_build(marking: str | None) -> str | None:
    """The build that a size marking gives: "radial", "bias" or "self-supporting"; None where it cannot be read."""
    size = size_of(marking)
    if size is None:
        return None
    return "self-supporting" if size.is_self_supporting else "radial" if size.construction == "R" else "bias"


# What a marking says, and the finding that says so too.
_SAID_BY = {"temporary-spare": ("temporary-spare", saying("no temporary spare")),
            "special-trailer": ("trailer-only", saying("not for trailers only")),
            "NHS": ("restricted-use", saying("no marking that keeps it off the road")),
            "FRT": ("not-for-steering", saying("may steer"))}  # fmt: skip


@lru_cache(maxsize=4096)
def _said_by(marking: str | None) -> tuple[tuple[str, str], ...]:
    """The findings that a marking says itself, each with the words for its not having been found."""
    if marking == UNREADABLE:
        return (("size-unreadable", saying("size readable")),)
    size = size_of(marking)
    marks = () if size is None else (size.kind, *size.marks)
    return tuple(_SAID_BY[mark] for mark in marks if mark in _SAID_BY)


def unsaid(tire: Tire, findings: Mapping[str, Finding]) -> list[tuple[str, str]]:
    """Findings that were not found although the marking says them, each with both facts in words."""
    said = _said_by(tire.designation)
    if not said:
        return []
    marking = written(UNREADABLE) if tire.designation == UNREADABLE else tire.designation
    return [
        (slug, say("{finding}, marking {designation}", finding=words, designation=marking))
        for slug, words in said
        if findings.get(slug) is False
    ]
