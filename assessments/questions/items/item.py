"""What a question is: the item with its key, the open item without it, and their JSON."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from assessments.questions.items import claims
from assessments.questions.items.claims import Asked, Claim
from assessments.questions.items.shapes import Blame, Frame, Region

FORMATS = ("one", "several", "number", "order", "place", "fault")

# Cases in several parts: one tire followed through several questions.
SERIES: Mapping[str, str] = {"whole-case": "One tire from inspection to return"}

Json = Mapping[str, object]
Key = str | tuple[str, ...] | Region | Blame


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as it is shown: the SVG text, and the same measurements in words."""

    svg: str
    description: str


@dataclass(frozen=True, slots=True)
class Option:
    """One offered answer. The id is its place in the drawn order and says nothing else; `claim` is what it asserts,
    which no open question holds."""

    id: str
    text: str
    claim: Claim | None = None

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        claim = {} if self.claim is None else {"claim": claims.to_json(self.claim)}
        return {"id": self.id, "text": self.text, **claim}

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> Option:
        """The option that `to_json` wrote. Raises KeyError for a missing field."""
        claim = data.get("claim")
        return cls(data["id"], data["text"], None if claim is None else claims.from_json(claim))


@dataclass(frozen=True, slots=True)
class OpenItem:
    """A question as it may leave the server: nothing in it depends on which answer is right.

    `reasons` are the second choice of `fault`, whose last option says that nothing is wrong; `frame` the rulers of a
    drawing to mark a place on.
    """

    format: str
    stem: str
    figure: Picture | None
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

    def to_json(self) -> dict[str, object]:
        """Plain JSON values: all that may be stored where pages of open questions read."""
        return {
            "format": self.format,
            "stem": self.stem,
            "figure": None if self.figure is None else {"svg": self.figure.svg, "description": self.figure.description},
            "options": [{"id": option.id, "text": option.text} for option in self.options],
            "units": list(self.units),
            "reasons": [{"id": option.id, "text": option.text} for option in self.reasons],
            "frame": None if self.frame is None else self.frame.to_json(),
        }

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> OpenItem:
        """The open item that `to_json` wrote. Raises KeyError for a missing field."""
        figure = data["figure"]
        return cls(
            format=str(data["format"]),
            stem=str(data["stem"]),
            figure=None if figure is None else Picture(**figure),
            options=tuple(Option(**option) for option in data["options"]),
            units=tuple(data["units"]),
            reasons=tuple(Option(**option) for option in data.get("reasons", ())),
            frame=Frame(**data["frame"]) if data.get("frame") else None,
        )


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
    `asks` is what a `number` or a `place` answers.
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

    def routes_to(self, answer: str) -> tuple[tuple[str, ...], ...]:
        """The sets of misconceptions of which each leads to this wrong answer; most are sets of one."""
        return self.routes.get(answer) or tuple((name,) for name in self.distractors.get(answer, ()))

    def open(self) -> OpenItem:
        """The question without its key, built field by field so that nothing new can slip through."""
        options, reasons = (tuple(Option(one.id, one.text) for one in some) for some in (self.options, self.reasons))
        return OpenItem(self.format, self.stem, self.figure, options, self.units, reasons, self.frame)

    @property
    def is_claimed(self) -> bool:
        """Is what it asks, or what each of its options asserts, there as data?"""
        return self.asks is not None or (bool(self.options) and all(one.claim is not None for one in self.options))

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

    @property
    def key_text(self) -> str:
        """The right answer in words, for explanations: "1/4 in (6 mm)"; several are joined by "; "."""
        match self.key:
            case Region():
                return self.key.text
            case Blame():
                lines = " or ".join(self.option(step).text for step in self.key.steps)
                reason = next((one.text for one in self.reasons if one.id == self.key.reason), "")
                return f"{lines}; {reason}" if reason else lines
            case str():
                return self.key if self.format == "number" else self.option(self.key).text
        return "; ".join(self.option(i).text for i in self.key)

    @property
    def content(self) -> tuple[object, ...]:
        """What makes two draws the same question: family, stem, picture and the set of options."""
        offered = tuple(sorted(o.text for o in (*self.options, *self.reasons)))
        return (self.family, self.stem, self.figure, offered, self.units)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values, in a fixed order of keys."""
        return {
            "family": self.family,
            "skill": self.skill,
            "edition": self.edition,
            "version": self.version,
            "seed": self.seed,
            "format": self.format,
            "stem": self.stem,
            "figure": None if self.figure is None else {"svg": self.figure.svg, "description": self.figure.description},
            "options": [option.to_json() for option in self.options],
            "key": _key_to_json(self.key),
            "tolerance": self.tolerance,
            "units": list(self.units),
            "distractors": {answer: list(names) for answer, names in self.distractors.items()},
            "unsafe": list(self.unsafe),
            "explanation": [dict(line) for line in self.explanation],
            "sources": list(self.sources),
            "case": self.case,
            "lesson": self.lesson,
            "features": dict(self.features),
            "omissions": {option: list(names) for option, names in self.omissions.items()},
            "reasons": [option.to_json() for option in self.reasons],
            "frame": None if self.frame is None else self.frame.to_json(),
            "before": [list(pair) for pair in self.before],
            "routes": {answer: [list(names) for names in ways] for answer, ways in self.routes.items()},
            "asks": None if self.asks is None else claims.to_json(self.asks),
        }

    @classmethod
    def from_json(cls, data: Mapping[str, object]) -> Item:
        """The item that `to_json` wrote. Raises KeyError for a missing field, ValueError for an unknown format."""
        if data["format"] not in FORMATS:
            raise ValueError(f"format: {data['format']!r} is not accepted; choose {', '.join(FORMATS)}")
        figure, tolerance, case, frame = data["figure"], data["tolerance"], data["case"], data.get("frame")
        asks = data.get("asks")
        return cls(
            family=str(data["family"]),
            skill=str(data["skill"]),
            edition=str(data["edition"]),
            version=str(data["version"]),
            seed=str(data["seed"]),
            format=str(data["format"]),
            stem=str(data["stem"]),
            figure=Picture(**figure) if isinstance(figure, dict) else None,
            options=tuple(map(Option.from_json, _list(data["options"]))),
            key=_key_from_json(data["key"]),
            tolerance=None if tolerance is None else str(tolerance),
            units=tuple(_list(data["units"])),
            distractors={answer: tuple(names) for answer, names in _dict(data["distractors"]).items()},
            unsafe=tuple(_list(data["unsafe"])),
            explanation=tuple(_list(data["explanation"])),
            sources=tuple(_list(data["sources"])),
            case=None if case is None else _dict(case),
            lesson=str(data["lesson"]),
            features=_dict(data["features"]),
            omissions={option: tuple(names) for option, names in _dict(data.get("omissions", {})).items()},
            reasons=tuple(map(Option.from_json, _list(data.get("reasons", [])))),
            frame=Frame(**frame) if isinstance(frame, dict) else None,
            before=tuple((first, then) for first, then in _list(data.get("before", []))),
            routes={answer: tuple(map(tuple, ways)) for answer, ways in _dict(data.get("routes", {})).items()},
            asks=None if asks is None else claims.from_json(_dict(asks)),
        )


@dataclass(frozen=True, slots=True)
class Mark:
    """How an answer was marked. `unsafe`: it would release a tire that the rulebook takes out of service."""

    right: bool
    unsafe: bool
    misconceptions: tuple[str, ...]


def _key_to_json(key: Key) -> object:
    if isinstance(key, Region | Blame):
        return key.to_json()
    return key if isinstance(key, str) else list(key)


def _key_from_json(key: object) -> Key:
    if isinstance(key, str):
        return key
    if not isinstance(key, dict):
        return tuple(_list(key))
    if "across" in key:
        return Region(*key["across"], *key["up"])
    return Blame(tuple(key["step"]), key["reason"])


# A snapshot of the wrong shape is a damaged store: it stops here rather than in a page.
def _list(value: object) -> list[Any]:
    if not isinstance(value, list):
        raise ValueError(f"{value!r} is not a list")
    return value


def _dict(value: object) -> dict[str, Any]:
    if not isinstance(value, dict):
        raise ValueError(f"{value!r} is not an object")
    return value
