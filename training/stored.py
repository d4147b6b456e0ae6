"""What is stored as JSON stands in an envelope with the number of its schema, so that it is read as it was meant.

{"schema": 1, "content": ...}
"""

from collections.abc import Callable, Mapping
from typing import Any

from training.trade.speech import say

Upgrade = Callable[[Any], Any]


class UnknownSchema(ValueError):
    """A stored document is of no schema that this version reads; the words name document and number."""


def enveloped(content: Any, *, schema: int) -> dict[str, Any]:
    """The content as it is stored."""
    return {"schema": schema, "content": content}


def opened(stored: Any, *, name: str, schema: int, older: Mapping[int, Upgrade]) -> Any:
    """The content of a stored document in today's schema; `older` says of each earlier number how to bring it there.

    `name` is the document's in the message. Raises UnknownSchema for any other number, and for what is no envelope.
    """
    known: dict[int, Upgrade | None] = {**older, schema: None}
    is_envelope = isinstance(stored, Mapping) and stored.keys() == {"schema", "content"}
    # JSON's true and 1.0 are numbers of no schema, and a list can be looked up nowhere
    if not is_envelope or type(stored["schema"]) is not int or stored["schema"] not in known:
        told = say("schema {stored!r}", stored=stored["schema"]) if is_envelope else say("no schema")
        numbers = ", ".join(map(str, sorted(known)))
        raise UnknownSchema(
            say(
                "{name}: a stored document of {told} cannot be read; this version reads {numbers}",
                name=name,
                told=told,
                numbers=numbers,
            )
        )
    upgrade = known[stored["schema"]]
    return upgrade(stored["content"]) if upgrade else stored["content"]
