"""JSON data from bytes, strictly: no key twice, no NaN, one sentence for whatever is wrong."""

import json
from typing import NoReturn


class NotJson(ValueError):
    """The text is not JSON data as the schemas want it; the message is one line."""


def read_json(text: bytes, what: str) -> object:
    """JSON data from bytes. Raises NotJson, its message opening with `what` was to be read."""

    def no_constant(name: str) -> NoReturn:
        raise NotJson(f"{what}: {name} is not accepted; give quantities as text with their unit")

    def no_key_twice(pairs: list[tuple[str, object]]) -> dict[str, object]:
        # A second "findings" or "sound" would silently win and could hide what the first one says.
        data = dict(pairs)
        if len(data) != len(pairs):
            names = [name for name, _ in pairs]
            twice = next(name for name in names if names.count(name) > 1)
            raise NotJson(f"{what}: {json.dumps(twice)} is given twice in one object; give it once")
        return data

    try:
        return json.loads(text.decode("utf-8-sig"), parse_constant=no_constant, object_pairs_hook=no_key_twice)
    except NotJson:
        raise
    except UnicodeDecodeError as problem:
        raise NotJson(f"{what}: byte {problem.start} is not UTF-8 text; give JSON in UTF-8") from None
    except json.JSONDecodeError as problem:
        raise NotJson(f"{what}: is not JSON: {problem.msg} at line {problem.lineno}, column {problem.colno}") from None
    except (RecursionError, ValueError):
        raise NotJson(f"{what}: is not JSON of a reasonable size; give one object with at most a few levels") from None
