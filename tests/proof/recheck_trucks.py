"""Puts questions about large wheels and about the shoulders of steel bodies back to the rulebook."""

from __future__ import annotations

from assessments.questions.items.numbers import parse_measure
from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import judge
from training.rulebook import decide, parse_case, parse_quantity

_PRESSURE = r"(\d+ (?:psi|kPa))"
_OPENINGS = {"inspect": "Let all the air out", "accept": "Fill it where it stands", "reject": "Take it out"}
_AXLES = {"Steer axle": "front", "Drive axle": "drive", "Trailer axle": "trailer"}
# How an earlier repair looks, and what it is.
_KINDS = (
    ("section repair", "section"),
    ("stem under a patch", "two-piece"),
    ("one-piece unit", "one-piece"),
    ("patch over an open channel", "patch-only"),
    ("string plug", "string"),
)


@judge("pressure-line")
def _pressure_line(bench: Bench) -> Recheck:
    """Pressures are tried until the greatest is found at which the rulebook looks inside."""
    wanted = bench.found("should have " + _PRESSURE)
    low, high = 0.0, float(parse_measure(wanted)[1])
    for _ in range(20):
        middle = (low + high) / 2
        pressure = {"recommended": wanted, "found": f"{middle:.4f} kPa"}
        data = {**bench.data, "pressure": pressure}
        soft = decide(parse_case(data), edition=bench.edition).verdict in ("inspect", "reject")
        low, high = (middle, high) if soft else (low, middle)
    return bench.number(low)


@judge("edge-to-shoulder")
def _edge_to_shoulder(bench: Bench) -> Recheck:
    """What the rulebook itself measures on the hole that the stem tells."""
    (injury,) = bench.data["injuries"]
    told = bench.found(r"its center lies (.+?) from the crown")
    lateral = next(part for part in told.rstrip(")").split(" (") if part.endswith("mm"))
    wide = next(part for part in bench.found(r"a tread (.+?) wide").rstrip(")").split(" (") if part.endswith("mm"))
    placed = {**injury, "lateral": lateral}
    decision = bench.decide({**bench.data, "injuries": [placed], "tire": {**bench.data["tire"], "tread_width": wide}})
    found = next(one.found for one in decision.rulings if one.found.endswith(" from the shoulder"))
    return bench.number(parse_quantity(found.removesuffix(" from the shoulder"), "length").value)
