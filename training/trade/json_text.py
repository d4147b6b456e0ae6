"""JSON data from bytes, strictly: no key twice, no NaN, one sentence for whatever is wrong."""

import json
from typing import NoReturn

from training.trade.speech import say


class NotJson(ValueError):
    """The text is not JSON data as the schemas want it; the message is one line."""


def read_json(text: bytes, what: str) -> object:
    """JSON data from bytes. Raises NotJson, its message opening with `what` was to be read."""

    def no_constant(name: str) -> NoReturn:
        raise NotJson(
            say("{what}: {name} is not accepted; give quantities as text with their unit", what=what, name=name)
        )

    def no_key_twice(pairs: list[tuple[str, object]]) -> dict[str, object]:
        # A second "findings" or "sound" would silently win and could hide what the first one says.
        data = dict(pairs)
        if len(data) != len(pairs):
            names = [name for name, _ in pairs]
            twice = next(name for name in names if names.count(name) > 1)
            raise NotJson(
                say("{what}: {field} is given twice in one object; give it once", what=what, field=json.dumps(twice))
            )
        return data

    try:
        return json.loads(text.decode("utf-8-sig"), parse_constant=no_constant, object_pairs_hook=no_key_twice)
    except NotJson:
        raise
    except UnicodeDecodeError as problem:
        raise NotJson(
            say("{what}: byte {place} is not UTF-8 text; give JSON in UTF-8", what=what, place=problem.start)
        ) from None
    except json.JSONDecodeError as problem:
        raise NotJson(
            say(
                "{what}: is not JSON: {problem} at line {line}, column {column}",
                what=what,
                problem=problem.msg,
                line=problem.lineno,
                column=problem.colno,
            )
        ) from None
    except (RecursionError, ValueError):
        raise NotJson(
            say("{what}: is not JSON of a reasonable size; give one object with at most a few levels", what=what)
        ) from None
