"""What makes two draws the same question: not the wording, but what determines the key."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping

from assessments.questions.items.claims import essence
from assessments.questions.items.item import Item

# Where all that is offered is judged; a place offers nothing.
_LISTS = ("several", "order", "fault")


def determinant(item: Item) -> str:
    """All that determines the key of an item, as one text: the case, what is asked, what the right answer claims, and
    where several options are judged, what each of them claims."""
    claimed = {option.id: repr(essence(option.claim)) for option in item.options if option.claim is not None}
    right = sorted(claimed[one] for one in item.key_ids) if claimed else item.key
    asked = None if item.asks is None else repr(essence(item.asks))
    judged = sorted(claimed.values()) if item.format in _LISTS else []
    said = [item.family, item.edition, item.version, right, _reduced(item.case), asked, judged]
    return json.dumps(said, sort_keys=True, default=str)


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
