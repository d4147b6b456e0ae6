"""Reading an answer as it was given and marking it against the key of its item."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from fractions import Fraction

from assessments.questions.items.item import Item, Mark, OpenItem, Option
from assessments.questions.items.numbers import NotANumber, parse_measure, parse_number
from assessments.questions.items.rulers import on_ruler, ruler_unit
from assessments.questions.items.shapes import Blame, Region, blame_text, pair_text
from training.trade.lists import one_of
from training.trade.speech import say, saying

Answer = str | list[str] | dict[str, str] | None


_ANSWER = saying("Answer")


class AnswerError(ValueError):
    """An answer that the question cannot take; the message names the field, the value and what is accepted."""


def check_answer(item: OpenItem, raw: object) -> Answer:
    """The answer in its stored shape; None when nothing was answered.

    `one` takes an option id, `several` a list of ids, `number` {"value": "5.5", "unit": "mm"}; a number's unit may be
    left out where only one is accepted. `order` takes the list of all ids in the order given, or {id: place}; `place`
    {"x": "62", "y": "8"} in mm from the zeros of the rulers, whatever these are in; `fault` {"step": "4",
    "reason": "2"}, without reason for no fault. Raises AnswerError.
    """
    if raw is None or raw == "" or raw == []:
        return None
    match item.format:
        case "number":
            return _check_number(item, raw)
        case "one":
            return _check_id(item.options, raw)
        case "order":
            return _check_order(item, raw)
        case "place":
            return _check_place(item, raw)
        case "fault":
            return _check_fault(item, raw)
    given = [raw] if isinstance(raw, str) else raw
    if not isinstance(given, list | tuple):
        raise AnswerError(say("Answer: {given!r} is not accepted; give a list of the options you choose", given=raw))
    chosen = {_check_id(item.options, one) for one in given}
    return [option.id for option in item.options if option.id in chosen]


def _check_id(options: Sequence[Option], raw: object, *, field: str = _ANSWER) -> str:
    ids = [option.id for option in options]
    if not isinstance(raw, str) or raw not in ids:
        shown = raw[:40] if isinstance(raw, str) else raw
        raise AnswerError(
            say(
                '{field}: "{given}" is not one of the options; choose {options}',
                field=field,
                given=shown,
                options=one_of(ids),
            )
        )
    return raw


def _check_order(item: OpenItem, raw: object) -> list[str] | None:
    count = len(item.options)
    if not isinstance(raw, Mapping):
        texts = [one for one in raw if isinstance(one, str)] if isinstance(raw, list | tuple) else []
        if not isinstance(raw, list | tuple) or len(set(texts)) < len(raw):
            raise AnswerError(
                say("Order: {given!r} is not accepted; give each of the {count} steps once", given=raw, count=count)
            )
        raw = {one: str(place) for place, one in enumerate(texts, 1)}
    for given in raw:
        _check_id(item.options, given, field=say("Order"))
    places: dict[str, Option] = {}
    if all(not raw.get(option.id) for option in item.options):
        return None
    for option in item.options:
        place = raw.get(option.id)
        if not place:
            raise AnswerError(
                say(
                    'Order: "{step}" has no place; give each step a place from 1 to {count}',
                    step=option.text,
                    count=count,
                )
            )
        if not isinstance(place, str) or place not in map(str, range(1, count + 1)):
            raise AnswerError(
                say('Order: place "{place}" is not accepted; choose 1 to {count}', place=place, count=count)
            )
        if place in places:
            raise AnswerError(
                say(
                    'Order: place {place} is given to "{first}" and "{second}"; give each step a place of its own',
                    place=place,
                    first=places[place].text,
                    second=option.text,
                )
            )
        places[place] = option
    return [places[str(place)].id for place in range(1, count + 1)]


def _check_place(item: OpenItem, raw: object) -> dict[str, str] | None:
    frame = item.frame
    if frame is None or not isinstance(raw, Mapping) or not set(raw) <= {"x", "y"}:
        raise AnswerError(say("Place: {given!r} is not accepted; give how far across and how far up", given=raw))
    if all(not str(raw.get(key) or "").strip() for key in ("x", "y")):
        return None
    given, unit = {}, ruler_unit(item.units)
    for key, field, ruler, longest in (
        ("x", say("Across"), say("the ruler below the drawing"), frame.width),
        ("y", say("Up"), say("the ruler beside the drawing"), frame.height),
    ):
        text = raw.get(key) or ""
        if not isinstance(text, str) or not text.strip():
            raise AnswerError(
                say("{field}: nothing was given; read it on {ruler}, or point at the drawing", field=field, ruler=ruler)
            )
        try:
            value = parse_number(text)
        except NotANumber as problem:
            raise AnswerError(say("{field}: {problem}", field=field, problem=problem)) from None
        end = on_ruler(f"{longest:g}", unit)
        if value > Fraction(str(longest)):
            raise AnswerError(
                say(
                    "{field}: {given} is beyond {ruler}; give 0 to {longest}",
                    field=field,
                    given=on_ruler(text.strip(), unit),
                    ruler=ruler,
                    longest=end,
                )
            )
        given[key] = " ".join(text.split())
    return given


def _check_fault(item: OpenItem, raw: object) -> dict[str, str] | None:
    if not isinstance(raw, Mapping) or not set(raw) <= {"step", "reason"}:
        raise AnswerError(say("Fault: {given!r} is not accepted; give a line and a reason", given=raw))
    step, reason = raw.get("step") or "", raw.get("reason") or ""
    if not step and not reason:
        return None
    if not step:
        raise AnswerError(say("Line: nothing was given; choose the line that is wrong, or that none is"))
    step = _check_id(item.options, step, field=say("Line"))
    if step == item.options[-1].id:  # nothing is wrong, so there is no reason
        return {"step": step, "reason": ""}
    if not reason:
        raise AnswerError(say("Reason: nothing was given; choose what is wrong with the line"))
    return {"step": step, "reason": _check_id(item.reasons, reason, field=say("Reason"))}


def _check_number(item: OpenItem, raw: object) -> dict[str, str] | None:
    if not isinstance(raw, Mapping) or not set(raw) <= {"value", "unit"}:
        raise AnswerError(
            say(
                "Answer: {given!r} is not accepted; give a value and a unit ({units})",
                given=raw,
                units=one_of(item.units),
            )
        )
    value, unit = raw.get("value"), raw.get("unit") or (item.units[0] if len(item.units) == 1 else "")
    if value is None or (isinstance(value, str) and not value.strip()):
        return None
    if not isinstance(value, str):
        raise AnswerError(
            say("Value: {given!r} is not accepted; give the number as text, for example 5.5 or 7/32", given=value)
        )
    if not isinstance(unit, str) or unit not in item.units:
        shown = f'"{unit}"' if unit else say("an empty unit")
        raise AnswerError(say("Unit: {given} is not accepted; choose {units}", given=shown, units=one_of(item.units)))
    try:
        parse_number(value)
    except NotANumber as problem:
        raise AnswerError(say("Value: {problem}", problem=problem)) from None
    return {"value": " ".join(value.split()), "unit": unit}


def canonical(answer: Answer) -> str:
    """The answer as the text that is stored: JSON with fixed order and spacing; "" for no answer."""
    return "" if answer is None else json.dumps(answer, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def from_canonical(text: str) -> Answer:
    """What `canonical` wrote."""
    answer: Answer = json.loads(text) if text else None
    return answer


def right_answer(item: Item) -> Answer:
    """A right answer, in the shape `check_answer` returns: what someone hands in who knows the key."""
    match item.key:
        case Blame():
            return {"step": item.key.steps[0], "reason": item.key.reason}
        case Region():
            across, up = item.key.middle
            return {"x": f"{across:g}", "y": f"{up:g}"}
        case str() if item.format == "number":
            value, _, unit = item.key.rpartition(" ")
            return {"value": value, "unit": unit}
        case str():
            return item.key
    return list(item.key)


def mark(item: Item, answer: Answer) -> Mark:
    """Mark one answer, in the shape `check_answer` returns. No answer is not right, and releases nothing."""
    if answer is None:
        return Mark(False, False, ())
    match item.format:
        case "number":
            return _mark_number(item, answer)
        case "order":
            return _mark_order(item, answer)
        case "place":
            return _mark_place(item, answer)
        case "fault":
            return _mark_fault(item, answer)
    if isinstance(answer, dict) or isinstance(item.key, Region | Blame):
        raise AnswerError(say("Answer: {given!r} is not accepted; this question takes options", given=answer))
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
        raise AnswerError(
            say("Answer: {given!r} is not accepted; this question takes a value and a unit", given=answer)
        )
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


def _mark_order(item: Item, answer: Answer) -> Mark:
    if not isinstance(answer, list):
        raise AnswerError(say("Answer: {given!r} is not accepted; this question takes steps in order", given=answer))
    places = {given: place for place, given in enumerate(answer)}
    broken = [pair_text(then, first) for first, then in item.before if places[first] > places[then]]
    names = dict.fromkeys(name for pair in broken for name in item.distractors.get(pair, ()))
    return Mark(not broken, not set(broken).isdisjoint(item.unsafe), tuple(names))


def _mark_place(item: Item, answer: Answer) -> Mark:
    if not isinstance(answer, dict) or not isinstance(item.key, Region):
        raise AnswerError(say("Answer: {given!r} is not accepted; this question takes a place", given=answer))
    across, up = (float(parse_number(answer[key])) for key in ("x", "y"))
    if item.key.holds(across, up):
        return Mark(True, False, ())
    names: dict[str, None] = {}
    for wrong, misconceptions in item.distractors.items():
        if Region.from_text(wrong).holds(across, up):
            names.update(dict.fromkeys(misconceptions))
    return Mark(False, any(Region.from_text(one).holds(across, up) for one in item.unsafe), tuple(names))


def _mark_fault(item: Item, answer: Answer) -> Mark:
    if not isinstance(answer, dict) or not isinstance(item.key, Blame):
        raise AnswerError(
            say("Answer: {given!r} is not accepted; this question takes a line and a reason", given=answer)
        )
    if answer["step"] in item.key.steps and answer["reason"] == item.key.reason:
        return Mark(True, False, ())
    given = blame_text(answer["step"], answer["reason"])
    return Mark(False, given in item.unsafe, item.distractors.get(given, ()))


def _released_by(rule: str, given: Fraction) -> bool:
    side, _, limit = rule.partition(" ")
    value = parse_measure(limit)[1]
    return given > value if side == "above" else given < value
