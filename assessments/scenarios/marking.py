"""Reading an answer as it was given and marking it against the key of its item."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from fractions import Fraction

from .measures import NotANumber, parse_measure, parse_number
from .model import Item, Mark, OpenItem

Answer = str | list[str] | dict[str, str] | None


class AnswerError(ValueError):
    """An answer that the question cannot take; the message names the field, the value and what is accepted."""


def _either(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def check_answer(item: OpenItem, raw: object) -> Answer:
    """The answer in its stored shape; None when nothing was answered.

    `one` takes an option id, `several` a list of ids, `number` {"value": "5.5", "unit": "mm"}; a number's unit may be
    left out where only one is accepted. Raises AnswerError.
    """
    if raw is None or raw == "" or raw == []:
        return None
    if item.format == "number":
        return _check_number(item, raw)
    if item.format == "one":
        return _check_id(item, raw)
    given = [raw] if isinstance(raw, str) else raw
    if not isinstance(given, list | tuple):
        raise AnswerError(f"Answer: {raw!r} is not accepted; give a list of the options you choose")
    chosen = {_check_id(item, one) for one in given}
    return [option.id for option in item.options if option.id in chosen]


def _check_id(item: OpenItem, raw: object) -> str:
    ids = [option.id for option in item.options]
    if not isinstance(raw, str) or raw not in ids:
        shown = raw[:40] if isinstance(raw, str) else raw
        raise AnswerError(f'Answer: "{shown}" is not one of the options; choose {_either(ids)}')
    return raw


def _check_number(item: OpenItem, raw: object) -> dict[str, str] | None:
    if not isinstance(raw, Mapping) or not set(raw) <= {"value", "unit"}:
        raise AnswerError(f"Answer: {raw!r} is not accepted; give a value and a unit ({_either(item.units)})")
    value, unit = raw.get("value"), raw.get("unit") or (item.units[0] if len(item.units) == 1 else "")
    if value is None or (isinstance(value, str) and not value.strip()):
        return None
    if not isinstance(value, str):
        raise AnswerError(f"Value: {value!r} is not accepted; give the number as text, for example 5.5 or 7/32")
    if not isinstance(unit, str) or unit not in item.units:
        shown = f'"{unit}"' if unit else "an empty unit"
        raise AnswerError(f"Unit: {shown} is not accepted; choose {_either(item.units)}")
    try:
        parse_number(value)
    except NotANumber as problem:
        raise AnswerError(f"Value: {problem}") from None
    return {"value": " ".join(value.split()), "unit": unit}


def canonical(answer: Answer) -> str:
    """The answer as the text that is stored: JSON with fixed order and spacing; "" for no answer."""
    return "" if answer is None else json.dumps(answer, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def from_canonical(text: str) -> Answer:
    """What `canonical` wrote."""
    answer: Answer = json.loads(text) if text else None
    return answer


def mark(item: Item, answer: Answer) -> Mark:
    """Mark one answer, in the shape `check_answer` returns. No answer is not right, and releases nothing."""
    if answer is None:
        return Mark(False, False, ())
    if item.format == "number":
        return _mark_number(item, answer)
    if isinstance(answer, dict):
        raise AnswerError(f"Answer: {answer!r} is not accepted; this question takes options")
    chosen = {answer} if isinstance(answer, str) else set(answer)
    key = {item.key} if isinstance(item.key, str) else set(item.key)
    right = chosen == key
    names: dict[str, None] = {}
    for option in item.options:
        believed = item.distractors if option.id in chosen else item.omissions
        if option.id in chosen ^ key:
            names.update(dict.fromkeys(believed.get(option.id, ())))
    return Mark(right, not right and not chosen.isdisjoint(item.unsafe), () if right else tuple(names))


def _mark_number(item: Item, answer: Answer) -> Mark:
    if not isinstance(answer, Mapping) or not isinstance(item.key, str):
        raise AnswerError(f"Answer: {answer!r} is not accepted; this question takes a value and a unit")
    kind, given = parse_measure(f"{answer['value']} {answer['unit']}")
    key_kind, key = parse_measure(item.key)
    allowed = parse_measure(item.tolerance)[1] if item.tolerance else 0
    if kind == key_kind and abs(given - key) <= allowed:
        return Mark(True, False, ())
    names: dict[str, None] = {}
    for wrong, misconceptions in item.distractors.items():
        if abs(given - parse_measure(wrong)[1]) <= allowed:
            names.update(dict.fromkeys(misconceptions))
    return Mark(False, any(_released_by(rule, given) for rule in item.unsafe), tuple(names))


def _released_by(rule: str, given: Fraction) -> bool:
    side, _, limit = rule.partition(" ")
    value = parse_measure(limit)[1]
    return given > value if side == "above" else given < value
