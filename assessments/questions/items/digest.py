"""What makes two draws the same question: not the wording, but what determines the key."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping

from assessments.questions.items.claims import essence
from assessments.questions.items.item import Item
from assessments.questions.items.wordings import plain

# Sizes and identification numbers are scenery, but for the date code that ends the latter.
_SIZE = r"\b(?:(?:P|LT)?\d{3}/\d{2}R\d{2}(?:\.\d)?|\d{2}R\d{2}\.\d)\b(?: [\d/]+[A-Z]\b)?"
_SCENERY = re.compile(_SIZE + r"|\bDOT(?: [A-Z0-9]+)*? (?=\d{4}\b)")
_NUMBER = re.compile(r"\d+(?:[ ,.]?\d+)*(?:/\d+)?(?: (?:in|mm|deg|rpm|psi|kPa|min|mi|km|years)\b)?")
_LISTS = ("several", "order", "fault", "place")


def determinant(item: Item) -> str:
    """All that determines the key of an item, as one text: the case, what is asked, what the right answer claims, and
    where several options are judged, what each of them claims."""
    if item.is_claimed:
        claimed = {option.id: repr(essence(option.claim)) for option in item.options if option.claim is not None}
        right = sorted(claimed[one] for one in item.key_ids) if claimed else item.key
        asked = None if item.asks is None else repr(essence(item.asks))
        judged = sorted(claimed.values()) if item.format in _LISTS else []
        said = [item.family, item.edition, item.version, right, _reduced(item.case), asked, judged]
        return json.dumps(said, sort_keys=True, default=str)
    key: object = sorted(map(plain, item.key_text.split("; "))) if item.options else item.key
    told = _NUMBER.findall(_SCENERY.sub("", item.stem))
    offered = sorted(plain(option.text) for option in item.options) if item.format in _LISTS else []
    parts = [item.family, item.edition, item.version, key, _reduced(item.case), told, offered]
    if item.format in ("order", "place"):
        parts.append(item.figure.description if item.figure else "")
    return json.dumps(parts, sort_keys=True, default=str)


def digest(item: Item) -> str:
    """The determinant as a short text to compare and count by: 24 hexadecimal digits."""
    return hashlib.sha256(determinant(item).encode()).hexdigest()[:24]


def _reduced(case: Mapping[str, object] | None) -> Mapping[str, object] | None:
    """A case without the day, without what was looked for and not found, and without what the tire is called."""
    if case is None:
        return None
    kept = {name: value for name, value in case.items() if name not in ("edition", "on", "findings")}
    findings, tire = case.get("findings"), case.get("tire")
    if isinstance(findings, Mapping):
        kept["findings"] = sorted((slug, seen) for slug, seen in findings.items() if seen)
    if isinstance(tire, Mapping):
        kept["tire"] = {name: value for name, value in tire.items() if name != "designation"}
    return kept
