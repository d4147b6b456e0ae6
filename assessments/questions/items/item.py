"""What a question is: the item with its key, the open item without it, and their JSON."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from cattrs.gen import make_dict_unstructure_fn, override

from assessments.questions.items import claims
from assessments.questions.items.claims import Asked, Claim
from assessments.questions.items.figures import OpenPicture, Picture
from assessments.questions.items.rulers import region_in_words, ruler_unit
from assessments.questions.items.shapes import Blame, Frame, Region
from training.trade.lists import one_of
from training.trade.measures import as_read
from training.trade.records import RECORDS
from training.trade.speech import saying

FORMATS = ("one", "several", "number", "order", "place", "fault")

# Cases in several parts: one tire followed through several questions.
SERIES: Mapping[str, str] = {"whole-case": saying("One tire from inspection to return")}

Json = Mapping[str, object]
Key = str | tuple[str, ...] | Region | Blame


@dataclass(frozen=True, slots=True)
class Option:
    """One offered answer. The id is its place in the drawn order and says nothing else; `claim` is what it asserts,
    which no open question holds."""

    id: str
    text: str
    claim: Claim | None = None


@dataclass(frozen=True, slots=True)
class OpenItem:
    """A question as it may leave the server: nothing in it depends on which answer is right.

    `reasons` are the second choice of `fault`, whose last option says that nothing is wrong; `frame` the rulers of a
    drawing to mark a place on, which are in inches where `units` names them and else in millimeters.
    """

    format: str
    stem: str
    figure: OpenPicture | None
    options: tuple[Option, ...]
    units: tuple[str, ...]
    reasons: tuple[Option, ...] = ()
    frame: Frame | None = None

    @property
    def question(self) -> str:
        """The last paragraph of the stem: what is asked."""
        return self.stem.rsplit("\n", 1)[-1]

    @property
    def situation(self) -> tuple[str, ...]:
        """The paragraphs before the question, in order; may be empty."""
        return tuple(self.stem.split("\n")[:-1])

    def to_json(self) -> dict[str, Any]:
        """Plain JSON values: all that may be stored where pages of open questions read."""
        return dict(RECORDS.unstructure(self))

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> OpenItem:
        """The open item that `to_json` wrote. Raises KeyError for a missing field."""
        return RECORDS.structure(data, cls)


@dataclass(frozen=True, slots=True)
class Item:
    """One drawn question with everything needed to mark and explain it years later.

    `key` is an option id (`one`), the ids in drawn order (`several`), a quantity as text (`number`), the ids in a right
    order (`order`), a region on the rulers of the drawing (`place`), or the lines one may name with the one reason
    (`fault`). `before` holds the pairs that every right order keeps: an order that keeps them all is right too.
    `distractors` maps an option id to the misconceptions that compute it; or a wrong quantity (`number`), a wrong
    region (`place`), "3 before 1" (`order`), "line, reason" (`fault`).
    `routes` says of an answer that takes several misconceptions held together, which; the others take one each.
    `omissions` maps a right option of `several` to the misconceptions that leave it out.
    `unsafe` lists what `distractors` would name, or for `number` "above <quantity>" and "below <quantity>".
    `asks` is what a `number` or a `place` answers. `template` is a digest of the sentence that asks, its places empty.
    """

    family: str
    skill: str
    edition: str
    version: str
    seed: str
    format: str
    stem: str
    figure: Picture | None
    options: tuple[Option, ...]
    key: Key
    tolerance: str | None
    units: tuple[str, ...]
    distractors: Mapping[str, tuple[str, ...]]
    unsafe: tuple[str, ...]
    explanation: tuple[Json, ...]
    sources: tuple[str, ...]
    case: Json | None
    lesson: str
    features: Json = field(default_factory=dict)
    omissions: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    reasons: tuple[Option, ...] = ()
    frame: Frame | None = None
    before: tuple[tuple[str, str], ...] = ()
    routes: Mapping[str, tuple[tuple[str, ...], ...]] = field(default_factory=dict)
    asks: Asked | None = None
    template: str = ""

    def routes_to(self, answer: str) -> tuple[tuple[str, ...], ...]:
        """The sets of misconceptions of which each leads to this wrong answer; most are sets of one."""
        return self.routes.get(answer) or tuple((name,) for name in self.distractors.get(answer, ()))

    def open(self) -> OpenItem:
        """The question without its key, built field by field so that nothing new can slip through."""
        options, reasons = (tuple(Option(one.id, one.text) for one in some) for some in (self.options, self.reasons))
        figure = None if self.figure is None else self.figure.open()
        return OpenItem(self.format, self.stem, figure, options, self.units, reasons, self.frame)

    @property
    def key_ids(self) -> tuple[str, ...]:
        """The ids of the right options of `one`, `several` and `order`; none of the other formats."""
        if isinstance(self.key, tuple):
            return self.key
        return (self.key,) if isinstance(self.key, str) and self.format == "one" else ()

    def option(self, option_id: str) -> Option:
        """The option with this id. KeyError if the question offers none."""
        for option in self.options:
            if option.id == option_id:
                return option
        raise KeyError(option_id)

    def line_of(self, option: Option) -> str:
        """What an option stands for: where it is a letter, what the stem says behind it; else its own text."""
        letter = f"{option.text}: "
        named = (line.removeprefix(letter) for line in self.stem.split("\n") if line.startswith(letter))
        return next(named, option.text) if len(option.text) == 1 else option.text

    @property
    def key_text(self) -> str:
        """The right answer in words, for explanations: "1/4 in (6 mm)"; several are joined by "; "."""
        match self.key:
            case Region():
                return region_in_words(self.key, ruler_unit(self.units))
            case Blame():
                lines = one_of(self.line_of(self.option(step)) for step in self.key.steps)
                reason = next((one.text for one in self.reasons if one.id == self.key.reason), "")
                return f"{lines}; {reason}" if reason else lines
            case str():
                return as_read(self.key) if self.format == "number" else self.option(self.key).text
        return "; ".join(self.option(i).text for i in self.key)

    @property
    def content(self) -> tuple[object, ...]:
        """What makes two draws the same question: family, stem, picture and the set of options."""
        offered = tuple(sorted(o.text for o in (*self.options, *self.reasons)))
        return (self.family, self.stem, self.figure, offered, self.units)

    def to_json(self) -> dict[str, Any]:
        """Plain JSON values, in a fixed order of keys."""
        return dict(RECORDS.unstructure(self))

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Item:
        """The item that `to_json` wrote. Raises KeyError for a missing field, ValueError for an unknown format."""
        if data["format"] not in FORMATS:
            raise ValueError(f"format: {data['format']!r} is not accepted; choose {', '.join(FORMATS)}")
        return RECORDS.structure(data, cls)


@dataclass(frozen=True, slots=True)
class Mark:
    """How an answer was marked. `unsafe`: it would release a tire that the rulebook takes out of service."""

    right: bool
    unsafe: bool
    misconceptions: tuple[str, ...]


def _read_key(key: Any, _: object) -> Key:
    if isinstance(key, str):
        return key
    if isinstance(key, list):
        return tuple(key)
    return RECORDS.structure(key, Region) if "across" in key else RECORDS.structure(key, Blame)


RECORDS.register_structure_hook(Key, _read_key)
RECORDS.register_structure_hook(Claim | None, lambda data, _: None if data is None else claims.from_json(data))
RECORDS.register_structure_hook(Asked | None, lambda data, _: None if data is None else claims.from_json(data))
RECORDS.register_unstructure_hook(Claim | None, lambda claim: None if claim is None else claims.to_json(claim))
RECORDS.register_unstructure_hook(Asked | None, lambda asks: None if asks is None else claims.to_json(asks))
# an option without a claim has no such field, so that no open question says that there are any
RECORDS.register_unstructure_hook(
    Option, make_dict_unstructure_fn(Option, RECORDS, claim=override(omit_if_default=True))
)
