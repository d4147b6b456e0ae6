"""What a kept check says beside case and decision, in the words of its day, and the page that it makes again."""

from collections.abc import Mapping, Sequence
from typing import Any

from training.pages.verdict import Result, Told, layout
from training.rulebook import Decision, Edition
from training.trade.records import RECORDS


def words_to_keep(result: Result, *, edition: Edition, entered: Sequence[tuple[str, str]]) -> dict[str, Any]:
    """The words and drawings of a decision as JSON data, so that no later rulebook can change what an entry says."""
    told: dict[str, Any] = RECORDS.unstructure(result, unstructure_as=Told)
    return {"edition": edition.title, "entered": [list(pair) for pair in entered], **told}


def kept_result(decision: Mapping[str, Any], printed: Mapping[str, Any]) -> Result:
    """The result that was kept."""
    return layout(Decision.from_json(decision), RECORDS.structure(printed, Told))
