"""Who takes which condition for what looks like it, and back: written from the statements of the misconceptions; and
whether pictures are of what their words and their case say.

The names are the renderer's. Nothing here is taken from the families that show pictures.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from assessments.questions.items.claims import Sighted
from assessments.questions.items.figures import Picture, Sight
from assessments.questions.items.item import Item
from training.pictures import picture_of

_OF_THE_MOLD = {
    *("bulge", "bead-damage", "tread-separation", "liner-cracked", "liner-separation", "string-without-unit"),
}
_ON_THE_RUBBER = {"contamination", "run-flat-damage", "liner-blistered", "uneven-wear-separation"}
_IN_THE_SKIN = {"ozone-cracking", "impact-damage", "exposed-cord", "chunking"}
_WORN = {"excessive-wear", "wear-indicators-flush"}
_UNITS = {"lifted-repair-edge", "bubble-under-unit"}
# by the misconception: what is taken otherwise, and whether it is the look-alike that is
TAKEN: Mapping[str, tuple[set[str], bool]] = {
    "damage-taken-for-mold-mark": (_OF_THE_MOLD, False),
    "mold-mark-taken-for-damage": (_OF_THE_MOLD, True),
    "damage-taken-for-dirt": (_ON_THE_RUBBER, False),
    "dirt-taken-for-damage": (_ON_THE_RUBBER, True),
    "damage-taken-for-skin-deep": (_IN_THE_SKIN, False),
    "skin-mark-taken-for-damage": (_IN_THE_SKIN, True),
    "worn-out-taken-for-worn": (_WORN, False),
    "wear-bar-taken-for-its-end": (_WORN, True),
    "loose-unit-taken-for-bonded": (_UNITS, False),
    "bonded-unit-taken-for-loose": (_UNITS, True),
    "burnt-buffing-taken-for-even": ({"poor-buffing"}, False),
    "even-buffing-taken-for-burnt": ({"poor-buffing"}, True),
}

# Where each condition is on a tire (common practice, no published source).
SEEN_ON: Mapping[str, set[str]] = {
    "sidewall": {"ozone-cracking", "bulge", "impact-damage", "exposed-cord", "contamination"},
    "bead": {"bead-damage"},
    "tread": {"chunking", "tread-separation", "uneven-wear-separation"} | _WORN,
    "liner": {
        *("run-flat-damage", "liner-cracked", "liner-separation", "liner-blistered"),
        *("string-without-unit", "poor-buffing"),
    }
    | _UNITS,
}


def is_placed(shown: Picture) -> bool:
    """Are these pictures, each of a condition whose place on the tire is known here?"""
    return bool(shown.sights) and all(any(one.name in names for names in SEEN_ON.values()) for one in shown.sights)


def misshown(shown: Picture, case: Mapping[str, Any] | None) -> list[str]:
    """What pictures show otherwise than their words and the case say: one line a deviation; none is true.

    One picture shows what the findings of the case say. Of several, one shows a condition that the case, which is of a
    sound tire, does not have. Whether the pixels show it is measured over all pictures, in the tests of the renderer.
    """
    wrong = ["a drawing stands beside pictures"] if shown.svg else []
    names, many = {one.name for one in shown.sights}, len(shown.sights) > 1
    for surface, conditions in SEEN_ON.items():
        said = re.search(rf"\b{surface}{'s' if many else ''}\b", shown.description) is not None
        if said != bool(names & conditions):
            wrong.append(f"{surface}: {'is' if said else 'is not'} said, of {', '.join(sorted(names))}")
    if len({one.seed for one in shown.sights}) != len(shown.sights):
        wrong.append("one picture is shown twice")
    bad = [one.name for one in shown.sights if not one.look_alike]
    if many and (len(bad) != 1 or len(names) != 1):
        wrong.append(f"{len(bad)} of {len(shown.sights)} pictures show a condition, of {', '.join(sorted(names))}")
    if case is not None:
        has = {name for name, is_there in (case.get("findings") or {}).items() if is_there} & names
        meant = set() if many else set(bad)
        wrong += [] if has == meant else [f"findings: {sorted(has)} in the case, {sorted(meant)} in the picture"]
    for one in shown.sights:
        try:
            picture_of(one.parameters)
        except ValueError as problem:
            wrong.append(str(problem))
    return wrong


def is_seen(claim: Sighted, item: Item, names: frozenset[str] = frozenset()) -> bool:
    """Does the picture show what is claimed, to who holds these misconceptions?"""
    sights = () if item.figure is None else item.figure.sights
    sight = sights[claim.number - 1]
    return claim.name in ("", sight.name) and claim.kind == ("look-alike" if _taken(sight, names) else "condition")


def seen_case(item: Item, data: Mapping[str, Any], names: frozenset[str]) -> Mapping[str, Any]:
    """The case as these see it: the finding of the pictures that they take for a condition, without what they miss."""
    sights = () if item.figure is None else item.figure.sights
    turned = {one.name: not _taken(one, names) for one in sights if _taken(one, names) != one.look_alike}
    findings = data.get("findings")
    if not turned or not isinstance(findings, Mapping):
        return data
    return {
        **data,
        "findings": {**findings, **{name: is_there for name, is_there in turned.items() if name in findings}},
    }


def _taken(sight: Sight, names: frozenset[str]) -> bool:
    """Is it a look-alike to them?"""
    for name in names & TAKEN.keys():
        conditions, is_look_alike = TAKEN[name]
        if sight.name in conditions and sight.look_alike == is_look_alike:
            return not is_look_alike
    return sight.look_alike
