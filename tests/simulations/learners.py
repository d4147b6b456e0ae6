"""Simulated people: who holds a misconception answers what it computes, and slips; who guesses, guesses."""

from random import Random
from typing import cast

from assessments.questions import Item
from assessments.questions.items.marking import Answer
from assessments.questions.items.shapes import Blame, Region
from tests.present import present

SLIPS = 0.05


def intended(item: Item, held: set[str], rng: Random) -> Answer:
    """What someone who holds these misconceptions means to answer: the key where none of them touches the question."""
    if item.format == "several":
        key = cast("tuple[str, ...]", item.key)
        chosen = [
            option.id
            for option in item.options
            if (option.id in key and not held.intersection(item.omissions.get(option.id, ())))
            or any(held.issuperset(way) for way in item.routes_to(option.id))
        ]
        return chosen or None
    reached = {
        answer: max((len(way) for way in item.routes_to(answer) if held.issuperset(way)), default=0)
        for answer in item.distractors
    }
    most = max(reached.values(), default=0)
    wrong = [answer for answer, size in reached.items() if size == most and size]
    if not wrong:
        return the_key(item)
    if item.format == "fault":
        nothing = item.options[-1].id
        lines = [answer for answer in wrong if answer != nothing]
        if (
            nothing not in wrong
            and nothing not in cast("Blame", item.key).steps
            and rng.random() < 1 / (len(lines) + 1)
        ):
            return the_key(item)  # to this person two lines are wrong, and the one is the one
        wrong = lines or wrong
    answer = rng.choice(wrong)
    if item.format == "one":
        return answer
    if item.format == "number":
        value, _, unit = answer.rpartition(" ")
        return {"value": value, "unit": unit}
    if item.format == "order":
        then, first = answer.split(" before ")
        order = [step for step in cast("tuple[str, ...]", item.key) if step != then]
        order.insert(order.index(first), then)
        return order
    if item.format == "place":
        return at(Region.from_text(answer))
    line, _, reason = answer.partition(", ")
    return {"step": line, "reason": reason}


def the_key(item: Item) -> Answer:
    """The right answer in its stored shape."""
    match item.key:
        case Region():
            return at(item.key)
        case Blame():
            return {"step": item.key.steps[0], "reason": item.key.reason}
        case str():
            if item.format == "one":
                return item.key
            value, _, unit = item.key.rpartition(" ")
            return {"value": value, "unit": unit}
    return list(item.key)


def at(region: Region) -> Answer:
    across, up = region.middle
    return {"x": f"{max(across, 0):g}", "y": f"{max(up, 0):g}"}


def guessed(item: Item, rng: Random) -> Answer:
    """What someone answers who knows nothing and chooses at random."""
    ids = [option.id for option in item.options]
    match item.format:
        case "one":
            return rng.choice(ids)
        case "several":
            return [one for one in ids if rng.random() < 0.5] or [rng.choice(ids)]
        case "order":
            return rng.sample(ids, len(ids))
        case "place":
            frame = present(item.frame)
            return {"x": f"{rng.uniform(0, frame.width):.1f}", "y": f"{rng.uniform(0, frame.height):.1f}"}
        case "fault":
            step = rng.choice(ids)
            reason = "" if step == ids[-1] else rng.choice([reason.id for reason in item.reasons])
            return {"step": step, "reason": reason}
    unit = rng.choice(item.units)
    value, _, own = str(item.key).rpartition(" ")
    return {"value": f"{max(0.0, rng.uniform(0.2, 2.5)) * plain_number(value):.2f}", "unit": own or unit}


def plain_number(text: str) -> float:
    from assessments.questions.items.numbers import parse_number

    return float(parse_number(text)) or 1.0


def slipped(item: Item, meant: Answer, rng: Random) -> Answer:
    """Some other answer than the one meant: the hand slips on one option, or anywhere."""
    if item.format == "several":
        flipped = rng.choice(item.options).id
        chosen = set(meant or ()) ^ {flipped}
        return [option.id for option in item.options if option.id in chosen] or None
    for _ in range(20):
        other = guessed(item, rng)
        if other != meant:
            return other
    return meant


def answered(item: Item, held: set[str], rng: Random, slips: float = SLIPS) -> Answer:
    """An answer of someone who holds these misconceptions, with slips."""
    meant = intended(item, held, rng)
    return slipped(item, meant, rng) if rng.random() < slips else meant
