"""A hole that a reader moves: where it lies, how it leans, how thick the crown is, and where the rulebook turns.

The TOML of a `::movable` box:

    title = "Move the hole"
    [case]                                # a case as `manage.py decide` takes it, without what stands below
    [mm]                                  # in a shop that measures in millimeters; [in] the same in inches
    outer_groove = "71 mm"
    place = ["40 mm", "72 mm", "57 mm"]   # hole from the centerline: the least, the most, and where it stands at first
    lean = ["0 deg", "60 deg", "40 deg"]  # outward, from the perpendicular
    thickness = ["8 mm", "20 mm", "14 mm"]
    hole = ["3 mm", "8 mm", "5 mm"]       # after damage removal

Within the least and the most a greater value only ever brings the hole nearer to where it is rejected.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from training.course.lessons import Block, CourseError, Place
from training.drawings import CrownLine, end_of_crown
from training.rulebook import (
    Case,
    CaseError,
    Decision,
    Edition,
    Injury,
    InjuryGeometry,
    Quantity,
    decide,
    in_unit,
    injury_geometry,
    parse_case,
    parse_quantity,
    quantity,
    typed_quantity,
    unit_label,
)
from training.trade.reading import printable
from training.trade.speech import say, saying

NAMES = ("place", "lean", "thickness", "hole")
SLIDERS = NAMES[:3]  # the hole's size is a number alone
WAS = "was"  # in an address: the values that were shown before
LONGEST = 48  # characters of one value

_DIMENSION = {"place": "length", "lean": "angle", "thickness": "length", "hole": "length"}
_LABELS: Mapping[str, str] = {
    "place": saying("Hole, from the center"), "lean": saying("Lean, outward"),
    "thickness": saying("Crown thickness"), "hole": saying("Hole, across"),
}  # fmt: skip
# how many parts of a unit are told, and how many of them a slider moves at once
_PARTS, _AT_ONCE = {"mm": 10, "in": 32, "deg": 10}, {"mm": 5, "in": 1, "deg": 10}
_LETS_GO = ("accept", "advise", "repair")
_ANGLE = "injury.angle"
_OUTWARD = "0 deg"

Values = Mapping[str, Quantity]


@dataclass(frozen=True, slots=True)
class Field:
    """One value that is moved, counted in the parts that are told of its unit: tenths, or thirty-seconds of an inch."""

    name: str
    unit: str
    least: int
    most: int
    start: int

    @property
    def label(self) -> str:
        """Its name, in the language spoken."""
        return str(_LABELS[self.name])

    @property
    def parts(self) -> int:
        """How many parts a unit has."""
        return _PARTS[self.unit]

    @property
    def step(self) -> int:
        """How many parts a slider moves at once."""
        return _AT_ONCE[self.unit]

    def at(self, count: int) -> Quantity:
        """The value of so many parts."""
        return quantity(Fraction(count, self.parts), self.unit)

    def share(self, value: Quantity) -> float:
        """How far along from the least to the most a value lies, 0 to 1."""
        parts = in_unit(value, self.unit) * self.parts
        return float((parts - self.least) / (self.most - self.least))

    def read(self, text: str) -> Quantity:
        """What was typed; a bare number takes the unit shown. Raises ValueError with a sentence that refuses it."""
        found = typed_quantity(text, self.unit, _DIMENSION[self.name])
        accepted = {"least": self.at(self.least).printed, "most": self.at(self.most).printed}
        if found.unit != self.unit:
            raise ValueError(say('"{typed}" is not in {unit}; give {least} to {most}', typed=printable(text),
                                 unit=unit_label(self.unit), **accepted))  # fmt: skip
        if not self.least <= in_unit(found, self.unit) * self.parts <= self.most:
            raise ValueError(say('"{typed}" is out of reach here; give {least} to {most}', typed=printable(text),
                                 **accepted))  # fmt: skip
        return found


@dataclass(frozen=True, eq=False)
class Movable:
    """One such example, read for an edition and a unit, "in" or "mm"."""

    title: str
    case: Case
    fields: tuple[Field, ...]
    edition: Edition
    prefer: str

    @property
    def start(self) -> dict[str, Quantity]:
        """The values it has before anybody moves it."""
        return {field.name: field.at(field.start) for field in self.fields}

    @cached_property
    def at_start(self) -> Moved:
        """It with these."""
        return self.moved(self.start)

    def field(self, name: str) -> Field:
        """One of its fields."""
        return next(one for one in self.fields if one.name == name)

    def read(self, asked: Mapping[str, str]) -> tuple[dict[str, Quantity], dict[str, str]]:
        """The values of an address, and for each that is refused the sentence that says so.

        One that is not given stands where it stood at first. While any is refused all stay as they were shown before.
        """
        values, refused = self.start, {}
        for field in self.fields:
            text = " ".join(asked.get(field.name, "").split())
            if not text:
                continue
            try:
                values[field.name] = field.read(text[: LONGEST + 1])
            except ValueError as error:
                refused[field.name] = say("{field}: {problem}.", field=field.label, problem=error)
        return (self._was(asked) if refused else values), refused

    def _was(self, asked: Mapping[str, str]) -> dict[str, Quantity]:
        given = asked.get(WAS, "").split(";")
        try:
            return {field.name: field.read(text) for field, text in zip(self.fields, given, strict=True)}
        except ValueError:
            return self.start

    def moved(self, values: Values) -> Moved:
        """What the rulebook says of it with these values."""
        return Moved(self, dict(values), self.case_of(values))

    def case_of(self, values: Values) -> Case:
        """The tire with these values."""
        tire = replace(self.case.tire, crown_thickness=values["thickness"])
        hole = Injury(
            "A",
            diameter=values["hole"],
            angle=values["lean"],
            azimuth=parse_quantity(_OUTWARD, "angle"),
            lateral=values["place"],
            station=parse_quantity(_OUTWARD, "angle"),
        )
        return replace(self.case, tire=tire, injuries=(hole,))

    def one_piece_ends(self) -> Quantity | None:
        """The steepest lean at which a one-piece unit is allowed, by the rulebook; None where none says so."""
        clause = self.edition.limit(_ANGLE, self.case.tire.casing)
        return None if clause is None or not clause.strictest.quantities else clause.strictest.quantity


@dataclass(frozen=True)
class Moved:
    """It with values of a reader: what the rulebook decides, and where each value turns that with the others fixed."""

    movable: Movable
    values: Mapping[str, Quantity]
    case: Case

    @cached_property
    def decision(self) -> Decision:
        """What the rulebook decides; what is not told of the tire is in order."""
        return decide(self.case, edition=self.movable.edition, rest_in_order=True, prefer=self.movable.prefer)

    @property
    def holds(self) -> bool:
        """Does the tire go on to a repair?"""
        return self.decision.verdict in _LETS_GO

    @cached_property
    def placed(self) -> InjuryGeometry:
        """Where the hole lies on the tread and at the liner."""
        (hole,) = self.case.injuries or ()
        return injury_geometry(self.case, hole, edition=self.movable.edition)

    @cached_property
    def line(self) -> CrownLine | None:
        """Where the rulebook ends the repairable crown; None where it draws no such line."""
        return end_of_crown(self.case, self.movable.edition)

    @cached_property
    def inside_mm(self) -> tuple[float, float] | None:
        """How far the whole hole lies inside that line at the tread and at the liner [mm], below 0 past it."""
        line, placed = self.line, self.placed
        entry, end, half = placed.lateral_mm, placed.exit_lateral_mm, placed.half_lateral_mm
        if line is None or entry is None or end is None or half is None:
            return None
        return round(line.at_mm - half - abs(entry), 6), round(line.at_mm - half - abs(end), 6)

    def turn(self, name: str) -> int | None:
        """The greatest value of a slider that still holds beside the other values, in parts; None where none does.

        A part more does not hold, but at the end of the slider.
        """
        if name not in self._found:
            self._found[name] = self._turn(self.movable.field(name))
        return self._found[name]

    @cached_property
    def _found(self) -> dict[str, int | None]:
        return {}

    def at_turn(self, name: str) -> Moved | None:
        """It with one value at its turn, down to where a slider stops; None where no value holds."""
        field, last = self.movable.field(name), self.turn(name)
        if last is None:
            return None
        return self.movable.moved({**self.values, name: field.at(max(last // field.step * field.step, field.least))})

    def _turn(self, field: Field) -> int | None:
        def holds(count: int) -> bool:
            return self.movable.moved({**self.values, field.name: field.at(count)}).holds

        return last_that_holds(holds, field.least, field.most)


def last_that_holds(holds: Callable[[int], bool], least: int, most: int) -> int | None:
    """The greatest count that holds, where each that is greater than one that does not hold does not either.

    None where not even the least holds. It asks about as often as `most - least` has binary digits.

    >>> last_that_holds(lambda count: count <= 7, 0, 100)
    7
    """
    if not holds(least):
        return None
    if holds(most):
        return most
    low, high = least, most
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def read_movable(block: Block, edition: Edition, prefer: str) -> Movable:
    """The example in a box. Raises CourseError saying which field is wrong."""
    try:
        data = tomllib.loads(block.body)
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"movable: it cannot be read: {error}") from error
    place = Place("movable")
    place.keys(data, ("title", "case", "mm", "in"))
    title, case, own = place.text(data, "title"), data.get("case"), data.get(prefer)
    if not isinstance(case, dict):
        place.refuse("case", "is missing; give a [case] table")
    if not isinstance(own, dict):
        place.refuse(prefer, f"is missing; give a [{prefer}] table")
    inner = Place(f"movable, [{prefer}]")
    inner.keys(own, ("outer_groove", *NAMES))
    tire = {**case.get("tire", {}), "outer_groove": inner.text(own, "outer_groove")}
    try:
        parsed = parse_case({**case, "tire": tire, "edition": edition.name})
    except CaseError as error:
        raise CourseError(f"movable: {'; '.join(error.problems)}") from error
    return Movable(title, parsed, tuple(_fields(inner, own)), edition, prefer)


def _fields(place: Place, own: Mapping[str, object]) -> Iterator[Field]:
    for name in NAMES:
        texts = place.words(own, name, None)
        try:
            values = [parse_quantity(text, _DIMENSION[name]) for text in texts]
        except ValueError as error:
            place.refuse(name, str(error))
        unit = values[0].unit
        if len(values) != 3 or unit not in _PARTS or {one.unit for one in values} != {unit}:
            place.refuse(name, "give the least, the most and the first value, all three in one unit of mm, in or deg")
        counts = [in_unit(one, unit) * _PARTS[unit] for one in values]
        least, most, start = (int(count) for count in counts)
        if counts != [least, most, start] or not least <= start <= most or least == most:
            place.refuse(name, "give the least, the most and one between them, in whole tenths, or in 32nds of an inch")
        yield Field(name, unit, least, most, start)
