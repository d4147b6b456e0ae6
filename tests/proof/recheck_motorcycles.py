"""Puts questions about motorcycle tires back to the rulebook: each option is read as a claim on a case of its own."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from assessments.questions.cases.phrases import DOUBTFUL, SEEN
from assessments.questions.families.motorcycles.common import STATES, verdicts
from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import LENGTH, judge

_SECOND_HAND = ("may be fitted", "fitted as used")


@judge(
    "motorcycle-may-run",
    "motorcycle-earlier-repair",
    "motorcycle-cut",
    "motorcycle-method",
    "motorcycle-pressure",
    "motorcycle-markings",
)
def _verdict(bench: Bench) -> Recheck:
    right = verdicts(bench.decide(), bench.edition, bench.data["purpose"])
    return bench.which(lambda text: text in right)


@judge("motorcycle-comes-in")
def _comes_in(bench: Bench) -> Recheck:
    opening = {"inspect": "Take the tire off the wheel", "refer": "Ask the tire maker", "reject": "Take it out"}
    verdict = bench.decide().verdict
    return bench.which(lambda text: text.startswith(opening[verdict]))


_NOTED: tuple[tuple[str, dict[str, Any]], ...] = (
    (r"5/32 in of tread", {"tread_depths": ["5/32 in"]}),
    (r"A nick", {"injuries": [{"id": "S", "kind": "surface"}]}),
    (r"An open nail hole", {"injuries": [{"id": "A", "kind": "puncture", "diameter": "3 mm"}]}),
    (r"An identification number that was buffed off", {"findings": {"tin-unreadable": True}}),
    (r"A size that can no longer", {"findings": {"size-unreadable": True}}),
    (r"Sealant inside", {"findings": {"sealant-residue": True}}),
    (r"An identification number that its maker", {"findings": {"recalled": True}}),
)
_KINDS = (
    (r"plug", "string"),
    (r"one-piece unit", "one-piece"),
    (r"stem and patch", "two-piece"),
    (r"on the liner alone", "patch-only"),
    (r"boot", "ply-repair"),
    (r"section repair", "section"),
)


def _read(text: str) -> dict[str, Any]:
    """The fields of a case that a note states. StopIteration for a note that is not known."""
    seen: dict[str, dict[str, object]] = {words: {slug: True} for slug, (words, _) in SEEN.items()}
    seen |= {words: {slug: "doubt"} for slug, words in DOUBTFUL.items()}
    for words, findings in seen.items():
        if text.lower() == words.lower():
            return {"findings": findings}
    zone = next((one for one in ("sidewall", "shoulder") if f" {one}" in text), "crown")
    for opening, more in _NOTED:
        if text.startswith(opening):
            return {name: [{**value[0], "zone": zone}] if name == "injuries" else value for name, value in more.items()}
    kind = next(kind for pattern, kind in _KINDS if re.search(pattern, text))
    repair = {"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": "lifting" not in text}
    return {"earlier_repairs": [repair]}


def _with(data: Mapping[str, Any], text: str) -> dict[str, Any]:
    more = _read(text)
    findings = {**data["findings"], **more.pop("findings", {})}
    return {**data, **more, "findings": findings}


@judge("motorcycle-findings", "motorcycle-used", "motorcycle-places")
def _list(bench: Bench) -> Recheck:
    wanted = any(words in bench.item.stem for words in _SECOND_HAND)
    data = {**bench.data, "purpose": "fit-used" if wanted else bench.data["purpose"]}

    def holds(text: str) -> bool:
        return (bench.decide(_with(data, text)).verdict == "reject") != wanted

    return bench.which(holds)


@judge("motorcycle-hole-size")
def _hole_size(bench: Bench) -> Recheck:
    def holds(text: str) -> bool:
        casing = "motorcycle" if "motorcycle" in text else "passenger"
        tire = {**bench.data["tire"], "casing": casing}
        injury = {"id": "A", "kind": "puncture", "diameter": bench.found(f"hole of {LENGTH}", text), "lateral": "0 mm",
                  "angle": "0 deg", "azimuth": "0 deg", "station": "0 deg"}  # fmt: skip
        return bench.decide({**bench.data, "tire": tire, "injuries": [injury]}).verdict == "repair"

    return bench.which(holds)


@judge("motorcycle-tread")
def _tread(bench: Bench) -> Recheck:
    """The uses are told by their words: which of them are named by an option, and for which is the tread enough?"""
    places = {name: slug for slug, name in STATES.items()}
    enough = set()
    uses = re.findall(r"^([ABC]): to (stay|be fitted)[^,\n]*?(?: in ([A-Z][A-Za-z ]+))?, ", bench.item.stem, re.M)
    for name, use, place in uses:
        where = {"jurisdiction": places[place]} if place else {}
        data = {name: value for name, value in bench.data.items() if name != "jurisdiction"}
        data |= {"purpose": "service" if use == "stay" else "fit-used", **where}
        if bench.decide(data).verdict == "accept":
            enough.add(name)
    names = {one[0] for one in uses}

    def claimed(text: str) -> set[str]:
        if text in ("All three", "For both of them"):
            return names
        if text in ("None of them", "For neither of them"):
            return set()
        return set(re.findall(r"\b[ABC]\b", text.partition(", not")[0]))

    return bench.which(lambda text: claimed(text) == enough)
