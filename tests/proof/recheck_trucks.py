"""Puts questions about large wheels and about the shoulders of steel bodies back to the rulebook."""

from __future__ import annotations

from typing import Any

from assessments.questions.items.numbers import parse_measure
from tests.proof.recheck import Bench, Recheck, judge
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


@judge("run-low")
def _run_low(bench: Bench) -> Recheck:
    """The pressures are read from the stem, the vehicle from the case."""
    told = {"recommended": bench.found("should have " + _PRESSURE), "found": bench.found("found with " + _PRESSURE)}
    wheel = bench.found(r"on a (\S+-piece) wheel")
    data = bench.data
    verdict = bench.decide({**data, "pressure": told, "position": {**data["position"], "wheel": wheel}}).verdict
    return bench.which(lambda text: text.startswith(_OPENINGS[verdict]))


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


@judge("repairs-by-axle")
def _repairs_by_axle(bench: Bench) -> Recheck:
    def holds(text: str) -> bool:
        where, _, look = text.partition(": ")
        kind = next(kind for words, kind in _KINDS if words in look)
        zone = next(zone for zone in ("crown", "shoulder", "sidewall") if f"in the {zone}" in look)
        earlier: dict[str, Any] = {"id": "R1", "kind": kind, "zone": zone, "sound": "lifting" not in look}
        position = {**bench.data["position"], "axle": _AXLES[where]}
        data = {**bench.data, "position": position, "earlier_repairs": [{**earlier, "injury": "6 mm"}]}
        return bench.decide(data).verdict == "accept"

    return bench.which(holds)
