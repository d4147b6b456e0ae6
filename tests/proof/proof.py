"""Proves a family of questions over many draws: one right answer, honest options, true drawings, no hints."""

from __future__ import annotations

import json
import re
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random
from typing import Any

from assessments.questions.cases.two_notes import MAY_BE_DONE, SAID
from assessments.questions.draws.registry import family
from assessments.questions.draws.sampling import draw
from assessments.questions.items.claims import DIMENSIONS, All, Decided, Not, parts, to_json
from assessments.questions.items.digest import digest
from assessments.questions.items.item import Item, Option
from assessments.questions.items.marking import mark
from assessments.questions.items.numbers import parse_measure
from assessments.questions.items.shapes import Region
from assessments.questions.items.wordings import plain
from tests.proof.bench import Bench
from tests.proof.chance import estimated_kinds, evenness
from tests.proof.eyes import is_placed, misshown
from tests.proof.holding import claimed, is_proposal, lets_go
from tests.proof.readback import HOLE_GAUGES, is_known, misdrawn
from tests.proof.tags import wrongly_tagged
from training.rulebook import Edition, parse_case, parse_quantity

# A fair family fails one of its two tests of chance once in five thousand proofs.
LEAST_CHANCE = 1e-4
MANY = 10_000
_EQUAL_MM = Fraction(1, 10)  # two lengths nearer than this are one length said twice
_QUANTITY = re.compile(
    r"(?:(\d+) )?(\d+)/(\d+) (in|mm)\b"
    r"|(\d+(?:,\d{3})*(?:\.\d+)?) (in|mm|deg|rpm|psi|kPa|bar|min|mi|km/h|km|mph|lb|kg|ft-lb|N·m|years|times)\b"
)
_CONVERTED = re.compile(r" \(<[a-z]+>\)")  # beside a figure the same in another unit says nothing more
_JUDGED = {
    str(text): verdicts for words in (SAID, MAY_BE_DONE) for verdicts, text in words.items()
}  # of two notes of a stem
_LARGE = re.compile(r"\d{1,3}(?:,\d{3})+")
# what is driven in an hour, and units as they are printed
_AS_STATED = {"km/h": "km", "mph": "mi", "ft-lb": "lbf.ft", "N·m": "N.m"}


@dataclass(frozen=True, slots=True)
class Trouble:
    """Something that does not hold, and the seed of the draw that shows it; no seed where all draws together do."""

    what: str
    seed: str = ""


@dataclass(slots=True)
class Proof:
    """What a number of draws of one family showed.

    `kinds_seen` counts different questions by what determines their key; `kinds` is how many there are, estimated.
    `place_chance` and `length_chance` are the chances that an even distribution looks as uneven as seen; None where
    the format offers nothing to choose from.
    """

    family: str
    formats: tuple[str, ...]
    draws: int = 0
    troubles: list[Trouble] = field(default_factory=list)
    rechecked: int = 0
    measured: int = 0
    figures: int = 0
    place_chance: float | None = None
    length_chance: float | None = None
    places: tuple[int, ...] = ()
    lengths: tuple[int, ...] = ()
    kinds_seen: int = 0
    kinds: float = 0
    cpu_us: float = 0

    @property
    def holds(self) -> bool:
        """Did every check hold?"""
        return not self.troubles

    @property
    def kinds_words(self) -> str:
        """How many different questions there are, in words."""
        if self.kinds >= MANY:
            return f"over {MANY:,}"
        exact = self.kinds <= self.kinds_seen * 1.02
        return f"{self.kinds_seen:,}, all there are" if exact else f"about {self.kinds:,.0f}, all there are"


def prove(name: str, *, draws: int, seed: str, edition: Edition, prefer: tuple[str, ...] = ("in", "mm")) -> Proof:
    """Draw a family many times and check every draw and all of them together. Raises UnknownFamily."""
    seeds = enumerate(f"{seed}/{number}" for number in range(draws))
    return prove_items(
        name, (draw(name, seed=one, edition=edition, prefer=prefer[n % len(prefer)]) for n, one in seeds), edition
    )


def prove_items(name: str, items: Iterable[Item], edition: Edition) -> Proof:
    """Check items of a family, each and all of them together."""
    found = Proof(name, family(name).formats)
    tally = _Tally()
    start = time.process_time()
    for item in items:
        found.draws += 1
        tally.spent += time.process_time() - start
        found.troubles += (Trouble(what, item.seed) for what in _check(item, edition, found))
        tally.add(item)
        start = time.process_time()
    tally.close(found)
    return found


class _Tally:
    """What is counted over all draws of a family."""

    def __init__(self) -> None:
        self.spent = 0.0
        self.kinds: Counter[str] = Counter()
        self.places: dict[int, Counter[str]] = {}
        self.lengths: dict[int, Counter[int]] = {}
        self.several: dict[int, Counter[str]] = {}
        self.said: dict[tuple[bool, str], set[str]] = {}

    def add(self, item: Item) -> None:
        self.kinds[digest(item)] += 1
        count = len(item.options)
        for option in item.options:
            if plain(option.text) in _JUDGED:
                self._add_notes(item, option)
            elif option.claim is not None:
                words = _CONVERTED.sub("", _LARGE.sub("<number>", claims(plain(item.line_of(option)))[0]))
                claim = to_json(option.claim)
                self.said.setdefault((True, words), set()).add(shape_of(claim))
                if item.format == "one":
                    asked = (item.case or {}).get("purpose")
                    self.said.setdefault((False, f"{asked}: {shape_of(claim, worded=True)}"), set()).add(words)
        if item.format == "one" and isinstance(item.key, str):
            self.places.setdefault(count, Counter())[item.key] += 1
            self.lengths.setdefault(count, Counter())[length_rank(item)] += 1
        elif item.format == "several" and isinstance(item.key, tuple):
            self.several.setdefault(count, Counter()).update(item.key)

    def _add_notes(self, item: Item, option: Option) -> None:
        """What each of two notes of the stem claims, which an option takes for right or for wrong."""
        verdicts = _JUDGED[plain(option.text)]
        assert isinstance(option.claim, All)
        for letter, is_right, claim in zip("AB", verdicts, option.claim.of, strict=True):
            (line,) = (line for line in item.stem.split("\n") if line.startswith(f"{letter}: "))
            words = _LARGE.sub("<number>", claims(plain(line[len("A: ") :]))[0])
            own = claim if is_right else claim.of if isinstance(claim, Not) else Not(claim)
            self.said.setdefault((True, words), set()).add(shape_of(to_json(own)))

    def close(self, found: Proof) -> None:
        found.cpu_us = self.spent / found.draws * 1e6
        found.kinds_seen, found.kinds = len(self.kinds), estimated_kinds(list(self.kinds.values()))
        for count, keys in sorted((self.places | self.several).items()):
            found.places = tuple(keys[str(place)] for place in range(1, count + 1))
            found.place_chance = min(evenness(found.places), found.place_chance or 1.0)
        for count, ranks in sorted(self.lengths.items()):
            found.lengths = tuple(ranks[rank] for rank in range(count))
            found.length_chance = min(evenness(found.lengths), found.length_chance or 1.0)
        for (is_words, one), others in self.said.items():
            if len(others) > 1:
                what = f"{one!r} claims" if is_words else f"{one} is said as"
                found.troubles.append(Trouble(f"{what} {' and '.join(sorted(others))}"))
        for what, chance, counts in (
            ("place of the key", found.place_chance, found.places),
            ("length of the key", found.length_chance, found.lengths),
        ):
            if chance is not None and chance < LEAST_CHANCE:
                found.troubles.append(Trouble(f"{what}: {counts} is not even (chance {chance:.1e})"))


def length_rank(item: Item) -> int:
    """How many options are shorter than the key of an item `one`; of those as long, a share drawn by the seed."""
    own = len(item.option(str(item.key)).text)
    lengths = [len(option.text) for option in item.options if option.id != item.key]
    shorter, equal = sum(length < own for length in lengths), lengths.count(own)
    return shorter + Random(f"rank {item.family} {item.seed}").randint(0, equal)


# -- one draw ----------------------------------------------------------------------------------------------------------


def _check(item: Item, edition: Edition, found: Proof) -> Iterator[str]:
    """What does not hold of one draw."""
    yield from _marked_alone(item)
    yield from _put_back(item, edition, found)
    yield from _unsafe(item, edition)
    yield from (f"{one.words}: {one.kind} on an answer" for one in wrongly_tagged(item, edition))
    yield from _alike(item)
    if item.figure is not None:
        found.figures += 1
        if is_placed(item.figure):
            found.measured += 1
            yield from (f"picture: {line}" for line in misshown(item.figure, item.case))
        elif is_known(item.figure.description):
            found.measured += 1
            case = None if item.case is None else parse_case(item.case)
            yield from (
                f"drawing: {line}"
                for line in misdrawn(item.figure.svg, item.figure.description, case, _gauge_reading(item))
            )
    if json.loads(json.dumps(Item.from_json(item.to_json()).to_json())) != json.loads(json.dumps(item.to_json())):
        yield "the stored item is not the drawn one"


def _gauge_reading(item: Item) -> str | None:
    """The length a drawn gauge is meant to show: the number that is asked for, or what it measures of the case, the
    size of the first hole or the first depth."""
    if item.format == "number":
        return item.key if isinstance(item.key, str) else None
    over_hole = item.figure is not None and item.figure.description.startswith(HOLE_GAUGES)
    measured = (item.case or {}).get("injuries" if over_hole else "tread_depths")
    if not isinstance(measured, list) or not measured:
        return None
    first = measured[0]
    return str(first["diameter" if over_hole else "depth"] if isinstance(first, dict) else first)


def _marked_alone(item: Item) -> Iterator[str]:
    """Marking takes the key, and nothing else that is offered."""
    if item.format == "one":
        right = [option.id for option in item.options if mark(item, option.id).right]
        if right != [item.key]:
            yield f"marked right: {right}, key {item.key}"
    elif item.format == "several" and isinstance(item.key, tuple):
        for option in item.options:
            if mark(item, sorted(set(item.key) ^ {option.id})).right:
                yield f"marked right with option {option.id} chosen otherwise"
        if not mark(item, list(item.key)).right:
            yield "the key is not marked right"
    elif item.format == "number":
        for text, is_right in ((str(item.key), True), *((wrong, False) for wrong in item.distractors)):
            value, _, unit = text.rpartition(" ")
            if mark(item, {"value": value, "unit": unit}).right != is_right:
                yield f"{text}: marked {'wrong' if is_right else 'right'}"
    elif item.format == "order" and isinstance(item.key, tuple):
        if not mark(item, list(item.key)).right:
            yield "the key is not marked right"
        if mark(item, list(reversed(item.key))).right:
            yield "the order turned around is marked right"


def _put_back(item: Item, edition: Edition, found: Proof) -> Iterator[str]:
    """The rulebook, asked again about each option, gives the key and only the key."""
    try:
        said = claimed(Bench(item, edition))
    except (ValueError, KeyError, StopIteration) as problem:
        yield f"cannot be put back to the rulebook: {problem!r}"
        return
    found.rechecked += 1
    if said.complaints is not None:
        yield from said.complaints
    elif said.place is not None:
        yield from _away(item, said.place)
    elif said.number is not None:
        kind, key = parse_measure(str(item.key))
        within = float(parse_measure(item.tolerance)[1]) / 2 if item.tolerance else 0.0
        if abs(float(key) - said.number) > within + 1e-3:
            yield f"the rulebook says {said.number:g} ({kind}), the key is {item.key}"
    elif set(said.right) != ({item.key} if isinstance(item.key, str) else set(_ids(item))):
        right = "; ".join(option.text for option in item.options if option.id in said.right)
        yield f"the rulebook says {right!r}, the key is {item.key_text!r}"
    unstated = [clause for clause in said.between if not _states(item, edition, clause)]
    if unstated:
        yield f"the sources disagree on {', '.join(unstated)}, and the limit is not stated"


def _unsafe(item: Item, edition: Edition) -> Iterator[str]:
    """A wrong option is unsafe where what it claims lets a tire go that the rulebook stops, and only there. How bad a
    proposal is that is no repair, no verdict says."""
    bench = Bench(item, edition)
    for option in item.options:
        if option.claim is None or option.id in item.key_ids or is_proposal(option.claim):
            continue
        is_decided, is_unsafe = any(isinstance(one, Decided) for one in parts(option.claim)), option.id in item.unsafe
        if is_decided and lets_go(option.claim, bench) != is_unsafe:
            yield f"{option.text!r} is {'' if is_unsafe else 'not '}marked as unsafe"


def _away(item: Item, place: tuple[float | None, float | None]) -> Iterator[str]:
    """The place that the rulebook gives lies in the region that is right, and in none that is wrong."""
    middle = item.key.middle if isinstance(item.key, Region) else (0.0, 0.0)
    across, up = (given if own is None else own for own, given in zip(place, middle, strict=True))
    answer = {"x": f"{across:.2f}", "y": f"{up:.2f}"}
    if not mark(item, answer).right:
        yield f"the rulebook says {across:.1f} mm across and {up:.1f} mm up, the key is {item.key_text}"


def _ids(item: Item) -> tuple[str, ...]:
    return item.key if isinstance(item.key, tuple) else ()


def _states(item: Item, edition: Edition, clause: str) -> bool:
    known = edition.clauses.get(clause)
    return known is not None and known.limit_text() in item.stem


def _alike(item: Item) -> Iterator[str]:
    """Two options, or the key and a wrong number, that say the same in two units."""
    said = [(item.line_of(option), *claims(item.line_of(option))) for option in item.options]
    for place, (text, words, values) in enumerate(said):
        for other, other_words, other_values in said[:place]:
            if words == other_words and all(map(_equal, values, other_values)):
                yield f"{text!r} and {other!r} say the same"
    if item.format == "number":
        _, key = parse_measure(str(item.key))
        margin = parse_measure(item.tolerance)[1] if item.tolerance else Fraction(0)
        for wrong in item.distractors:
            if abs(parse_measure(wrong)[1] - key) <= margin:
                yield f"{wrong} is within {item.tolerance} of the key {item.key}"


def _as_typed(text: str) -> str:
    for shown, typed in (("°", " deg"), ("N·m", "N.m"), ("ft-lb", "lbf.ft")):
        text = text.replace(shown, typed)
    return text


def claims(text: str) -> tuple[str, tuple[tuple[str, Fraction], ...]]:
    """The words of an option with its quantities taken out, and what these measure in the base unit."""
    values: list[tuple[str, Fraction]] = []

    def taken(found: re.Match[str]) -> str:
        unit = found[4] or found[6]
        number = found[0].removesuffix(f" {unit}").replace(",", "")
        unit = _AS_STATED.get(unit, unit)
        values.append((DIMENSIONS[unit], parse_quantity(f"{number} {unit}", DIMENSIONS[unit]).value))
        return f"<{DIMENSIONS[unit]}>"

    return _QUANTITY.sub(taken, _as_typed(text)), tuple(values)


_MATTER = (
    *("clause", "by", "subject", "path", "marking", "dual", "since", "after", "method"),
    *("quantities", "within", "case", "said", "units", "shelf"),
)


def shape_of(claim: Mapping[str, Any], *, worded: bool = False) -> str:
    """What a claim says but for its quantities, and for what it says them of; `worded`: with values that are words."""
    measured = (*_MATTER, "value") if "within" in claim or claim["says"] != "is" else _MATTER
    kept = {
        name: [shape_of(one, worded=worded) for one in value]
        if name == "of" and isinstance(value, list)
        else shape_of(value, worded=worded)
        if isinstance(value, dict)
        else value
        for name, value in claim.items()
        if name not in measured
    }
    if worded and claims(value := claim.get("value", ""))[0] == value and not value.endswith("%"):
        kept["value"] = value
    if proposed := claim.get("case", {}).get("proposed"):
        kept["proposed"] = proposed
    return json.dumps(kept, sort_keys=True)


def _equal(one: tuple[str, Fraction], other: tuple[str, Fraction]) -> bool:
    return one[0] == other[0] and abs(one[1] - other[1]) < (_EQUAL_MM if one[0] == "length" else Fraction(1, 1000))


def table(proofs: list[Proof]) -> Iterator[str]:
    """The proofs as lines of a table, failures below it."""
    yield f"{'family':30} {'draws':>6} {'back':>6} {'drawn true':>11} {'place':>8} {'length':>8} {'us':>6}  questions"
    for one in proofs:
        drawn = f"{one.measured}/{one.figures}" if one.figures else "none"
        chances = (
            "-" if chance is None else f"{chance:.4f}" if chance >= LEAST_CHANCE else f"{chance:.1e}"
            for chance in (one.place_chance, one.length_chance)
        )
        place, length = chances
        yield (
            f"{one.family:30} {one.draws:6,} {one.rechecked:6,} {drawn:>11} {place:>8} {length:>8} {one.cpu_us:6.0f}  "
            f"{one.kinds_words}{'' if one.holds else '  FAILS'}"
        )
    for one in proofs:
        groups: dict[str, list[str]] = {}
        for trouble in one.troubles:
            groups.setdefault(trouble.what, []).append(trouble.seed)
        for what, seeds in list(groups.items())[:20]:
            yield f"{one.family}: {what}" + (f" [{len(seeds)} x, seed {seeds[0]}]" if seeds[0] else "")
