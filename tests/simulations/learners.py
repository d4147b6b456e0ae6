"""Simulated people: who holds a misconception answers what it computes, and slips; who guesses, guesses.

What it computes is found by rules written apart from the questions (`tests/proof/believing.py`).
"""

from random import Random
from typing import cast

from assessments.questions import Item
from assessments.questions.items.claims import Asked, Spot
from assessments.questions.items.marking import Answer
from assessments.questions.items.numbers import parse_measure
from assessments.questions.items.shapes import Blame, Region, pair_text
from tests.present import present
from tests.proof.believing import Believer, gives
from tests.proof.holding import answer, place
from tests.proof.working import answered as answered_by
from training.rulebook import Edition, UnknownClause, load_edition

SLIPS = 0.05


def intended(item: Item, held: set[str], rng: Random, edition: Edition | None = None) -> Answer:
    """What someone who holds these misconceptions means to answer, by the rulebook as they have it and not by what the
    question says of people: a wrong answer that is right to them rather than the key, anything where nothing is."""
    if not held:
        return the_key(item)
    names = tuple(sorted(held))
    edition = edition or load_edition(item.edition)
    match item.format:
        case "one":
            right = [one.id for one in item.options if gives(item, edition, names, one.id)]
            wrong = [one for one in right if one != item.key]
            return rng.choice(wrong or right or [one.id for one in item.options])
        case "several":
            return [one.id for one in item.options if gives(item, edition, names, one.id)] or None
        case "order":
            turned = [(first, then) for first, then in item.before
                      if gives(item, edition, names, pair_text(then, first))]  # fmt: skip
            return _turned(item, *rng.choice(turned)) if turned else the_key(item)
        case "fault":
            blamed = sorted(answered_by(Believer(item, edition, names)))
            line, _, reason = rng.choice(blamed).partition(", ")
            return {"step": line, "reason": reason}
    return _measured(item, Believer(item, edition, names), rng)


def _turned(item: Item, first: str, then: str) -> Answer:
    """The right order, but for one step that is done ahead of another."""
    order = [step for step in cast("tuple[str, ...]", item.key) if step != then]
    order.insert(order.index(first), then)
    return order


def _measured(item: Item, believer: Believer, rng: Random) -> Answer:
    """The number, or the place, that a believer finds."""
    try:
        if isinstance(item.asks, Spot):
            own, middle = place(item.asks, believer), cast("Region", item.key).middle
            across, up = (there if one is None else one for one, there in zip(own, middle, strict=True))
            return {"x": f"{max(across, 0):.1f}", "y": f"{max(up, 0):.1f}"}
        asks = cast("Asked", item.asks)
        read = [one for one in believer.reads(asks) if isinstance(one, float)]
        value = rng.choice(read or [answer(asks, believer)])
    except (UnknownClause, ValueError, KeyError):
        return the_key(item)
    key, _, unit = str(item.key).rpartition(" ")
    margin = float(parse_measure(item.tolerance)[1]) if item.tolerance else 0.0
    if abs(value - float(parse_measure(f"{key} {unit}")[1])) <= margin:
        return the_key(item)
    return {"value": f"{max(value, 0) / float(parse_measure(f'1 {unit}')[1]):.4f}", "unit": unit}


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


def answered(item: Item, held: set[str], rng: Random, slips: float = SLIPS, edition: Edition | None = None) -> Answer:
    """An answer of someone who holds these misconceptions, with slips."""
    meant = intended(item, held, rng, edition)
    return slipped(item, meant, rng) if rng.random() < slips else meant
