"""What one who knows nothing of tires reads off an answer sheet: words, numbers, lengths, places, what options share.

Nothing here knows what a word means. A row stands for one option, or one line of a log.
"""

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import pairwise

from assessments.questions.items.item import OpenItem

NUMBER = re.compile(r"\d+(?:,\d{3})*(?:\.\d+)?(?:/\d+)?(?: \d+/\d+)?")
WORD = re.compile(r"[^\W\d_]+|#")
UNIT = re.compile(r"\s*([^\W\d_]+|%|°)?")
PARTS = re.compile(r"[:;,.] ")
MOST_NUMBERS = 6

Row = dict[str, float]


def numbers(text: str) -> list[float]:
    """The numbers in a text in its order; "2 7/8" is one."""
    return [number for number, _ in measures(text)]


def measures(text: str) -> list[tuple[float, str]]:
    """The numbers in a text, each with the word or sign behind it."""
    found = []
    for match in NUMBER.finditer(text):
        value = 0.0
        for part in match[0].replace(",", "").split(" "):
            above, _, below = part.partition("/")
            value += float(above) / (float(below or 1) or 1.0)
        unit = UNIT.match(text, match.end())
        found.append((value, (unit and unit[1]) or ""))
    return found


def masked(text: str) -> str:
    """A text with every number as "#"."""
    return NUMBER.sub("#", text)


def words(text: str) -> list[str]:
    return [word.lower() for word in WORD.findall(masked(text))]


def segments(text: str) -> list[str]:
    return [part.strip(". ").lower() for part in PARTS.split(text) if part.strip(". ")]


def ranked(own: float, others: Sequence[float]) -> float:
    """The share of the others that are smaller, those alike by half; a half where there are none."""
    if not others:
        return 0.5
    return sum(1.0 if other < own else 0.5 if other == own else 0.0 for other in others) / len(others)


def alike(one: set[str], other: set[str]) -> float:
    return len(one & other) / max(1, len(one | other))


def rows(texts: Sequence[str]) -> list[Row]:
    """What is seen of each text among those it stands with."""
    said = [words(text) for text in texts]
    parts = [segments(text) for text in texts]
    values = [numbers(text) for text in texts]
    sets = [set(one) for one in said]
    bags = [set(part) for part in parts]
    word_counts = Counter(word for one in sets for word in one)
    part_counts = Counter(part for one in bags for part in one)
    number_counts = Counter(number for one in values for number in set(one))
    found = []
    for place, text in enumerate(texts):
        others = [other for other in range(len(texts)) if other != place]
        near = [alike(sets[place], sets[other]) for other in others] or [0.0]
        row: Row = {
            "place": place,
            "options": len(texts),
            "length": len(text),
            "length rank": ranked(len(text), [len(texts[other]) for other in others]),
            "words rank": ranked(len(said[place]), [len(said[other]) for other in others]),
            "numbers": len(values[place]),
            "alike, mean": sum(near) / len(near),
            "alike, most": max(near),
            "words shared": sum(word_counts[word] for word in sets[place]) / max(1, len(sets[place])),
            "parts shared": sum(part_counts[part] for part in bags[place]) / max(1, len(bags[place])),
            "numbers shared": max((number_counts[number] for number in values[place]), default=0),
            f"text {text.lower()}": 1,
            f"frame {masked(text).lower()}": 1,
        }
        row["most alike"] = row["alike, mean"] >= max(
            sum(alike(sets[a], sets[b]) for b in range(len(texts)) if b != a) / max(1, len(texts) - 1)
            for a in range(len(texts))
        )
        for word in sets[place]:
            row[f"word {word}"] = 1
            row[f"how often {word}"] = word_counts[word] / len(texts)
        for first, then in pairwise(said[place]):
            row[f"pair {first} {then}"] = 1
        for part in bags[place]:
            row[f"part {part}"] = 1
        for other in others:
            for word in sets[other] - sets[place]:
                row[f"beside {word}"] = 1
        row.update(of_numbers(values, place, opening=" ".join(said[place][:3])))
        found.append(row)
    return found


def of_numbers(values: Sequence[Sequence[float]], place: int, *, opening: str) -> Row:
    """The numbers of a text, and how they lie among those at the same place in the other texts."""
    row: Row = {}
    for nth, value in enumerate(values[place][:MOST_NUMBERS]):
        others = [one[nth] for other, one in enumerate(values) if other != place and len(one) > nth]
        row[f"number {nth}"] = value
        row[f"number {nth} rank"] = ranked(value, others)
        row[f"number {nth} same"] = sum(other == value for other in others)
        if others:
            row[f"number {nth} from mean"] = value - sum(others) / len(others)
            row[f"number {nth} to nearest"] = min(abs(other - value) for other in others)
        row[f"opening {opening} {nth}"] = value
        row[f"value {opening} {nth} {value:.4g}"] = 1
    return row


def grams(text: str) -> Iterable[str]:
    """The runs of three to five characters in a text."""
    padded = f" {text.lower()} "
    return (padded[at : at + size] for size in (3, 4, 5) for at in range(len(padded) - size + 1))


def told(item: OpenItem) -> str:
    """All that a question says besides its options: the stem, and the picture in words."""
    return item.stem if item.figure is None else f"{item.stem}\n{item.figure.description}"


def stem_row(text: str) -> Row:
    """What is seen of a stem: its words and pairs of words, its numbers in their order and by unit, and by pairs."""
    said = words(text)
    row: Row = {f"stem {word}": 1 for word in said}
    row.update({f"stem pair {first} {then}": 1 for first, then in pairwise(said)})
    row.update({f"stem part {masked(part)}": 1 for part in segments(text)})
    seen: Counter[str] = Counter()
    found = measures(text)
    for nth, (value, unit) in enumerate(found[:12]):
        row[f"stem number {nth}"] = value
        row[f"stem {unit} {seen[unit]}"] = value
        seen[unit] += 1
    row["stem numbers"] = len(found)
    for unit, _ in seen.most_common(3):
        same = [value for value, of in found if of == unit][:6]
        for a in range(len(same)):
            for b in range(a + 1, len(same)):
                row[f"stem {unit} {a} less {b}"] = same[a] - same[b]
                row[f"stem {unit} {a} and {b}"] = same[a] + same[b]
                row[f"stem {unit} {a} over {b}"] = same[a] / (same[b] or 1.0)
    return row


def crossed(row: Row, stem: str, option: str) -> Row:
    """What is seen of an option in view of the stem: the words of both together, its numbers less those of the stem."""
    found: Row = {}
    stem_words = set(words(stem))
    stem_numbers = [value for value, _ in measures(stem)][:12]
    frame = masked(option).lower()
    for word in stem_words:
        found[f"with {word} | {frame}"] = 1
        for own in set(words(option)):
            found[f"both {word} {own}"] = 1
    for nth, value in enumerate(numbers(option)[:3]):
        for at, other in enumerate(stem_numbers):
            found[f"number {nth} less stem {at}"] = value - other
        found[f"number {nth} in stem"] = sum(abs(value - other) < 1e-6 for other in stem_numbers)
        pairs = [
            (abs(value - made), how, a, b)
            for a, one in enumerate(stem_numbers[:8])
            for b, two in enumerate(stem_numbers[:8])
            if a != b
            for how, made in (("less", one - two), ("and", one + two))
        ]
        if pairs:
            found[f"number {nth} off"] = min(pairs)[0]
            for off, how, a, b in pairs:
                if off < 1e-6:
                    found[f"number {nth} is {a} {how} {b}"] = 1
    found["words of stem"] = len(set(words(option)) & stem_words) / max(1, len(set(words(option))))
    return found
