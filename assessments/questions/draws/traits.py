"""What makes a drawn question hard, counted in the same six ways for every family. Nothing of it leaves the server."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from functools import lru_cache
from importlib import resources
from itertools import combinations
from typing import Any

from assessments.questions.cases.casebook import READ_TO_MM
from assessments.questions.diagnosis.deciding import deciding_clauses
from assessments.questions.drafts.telling import STEP_MM
from assessments.questions.items.claims import SUBJECTS, laid_over, parts
from assessments.questions.items.item import Item
from training.rulebook import MEASURES, UNITS, Case, CaseError, Clause, Edition, OnShelf, measured, parse_case
from training.trade.measures import as_read

# places are measured with a tape; the rest of the lengths with a gauge
_PLACES = (*SUBJECTS["place"], *SUBJECTS["room"], *SUBJECTS["repair-place"])
# what a pressure gauge and a protractor are read to: common practice, no published source
_GAUGE = {"in": UNITS["pressure"]["psi"], "mm": Fraction(10)}
_ANGLE_DEG = Fraction(1)
_WEEKS = 52  # the code on the sidewall tells the week
_MEASURE = re.compile(r"[0-9][0-9 ./]*[A-Za-z%°][A-Za-z.%]*")
_UNITS = {
    unit: (dimension, system)
    for dimension, system, units in (
        ("length", "customary", "in"),
        ("length", "metric", "mm cm m"),
        ("pressure", "customary", "psi"),
        ("pressure", "metric", "kPa bar"),
        ("mass", "customary", "lb"),
        ("mass", "metric", "kg t"),
        ("torque", "customary", "ft-lb"),
        ("torque", "metric", "N·m"),
        ("distance", "customary", "mi"),
        ("distance", "metric", "km"),
        ("temperature", "customary", "°F"),
        ("temperature", "metric", "°C"),
    )
    for unit in units.split()
}
_TOLD = re.compile(rf"[0-9] ?({'|'.join(sorted(map(re.escape, _UNITS), key=len, reverse=True))})(?![\w/])")
_IN_BRACKETS = re.compile(r"\([^()]*\)")  # the same measure in the other unit: nobody has to convert it


@dataclass(frozen=True, slots=True)
class Traits:
    """The six features of a question, None where one has no meaning in it.

    `limit_steps`: how far the measure nearest to its limit is from it, in steps of the instrument it is read with.
    `computing`: sums from what is told to what is compared or answered. `cues`: rules that have to be held together.
    `conversions`: changes of unit that somebody has to make. `irrelevant`: measures told that no deciding rule reads.
    `words`: words to read, those of the answers too.
    """

    limit_steps: float | None = None
    computing: int | None = None
    cues: int | None = None
    conversions: int | None = None
    irrelevant: int | None = None
    words: int | None = None

    def to_json(self) -> dict[str, Any]:
        """Plain values by name."""
        return asdict(self)


def casing_of(item: Item) -> str:
    """The casing a question is about, "" where it tells none."""
    tire = (item.case or {}).get("tire")
    return str(tire.get("casing", "")) if isinstance(tire, Mapping) else ""


def traits_of(item: Item, *, edition: Edition, prefer: str, units: Sequence[OnShelf] | None = None) -> Traits:
    """The features of a question under the edition it was drawn from, for a shop that measures in "in" or "mm"."""
    deciding = deciding_clauses(item)
    clauses = [clause for one in deciding if (clause := edition.clauses.get(one)) is not None]
    return Traits(
        limit_steps=_limit_steps(item, clauses, edition, prefer, units),
        computing=_computing(item, clauses),
        cues=len(deciding) or None,
        conversions=_conversions(item),
        irrelevant=_irrelevant(item, clauses),
        words=len(" ".join((item.stem, *(one.text for one in (*item.options, *item.reasons)))).split()),
    )


@lru_cache(maxsize=1)
def _table() -> Mapping[str, Any]:
    return tomllib.loads(resources.files(__package__).joinpath("computing.toml").read_text("utf-8"))


def _computing(item: Item, clauses: Sequence[Clause]) -> int | None:
    own: int | None = _table()["family"].get(item.family)
    if own is not None:
        return own
    known = _table()["quantity"]
    return max((known[one.quantity]["steps"] for one in clauses if one.quantity in known), default=None)


def _conversions(item: Item) -> int | None:
    """Systems of units beyond the first, of each kind of measure that is told."""
    told = _units_told(item)
    return len(told) - len({dimension for dimension, _ in told}) if told else None


def _units_told(item: Item) -> set[tuple[str, str]]:
    """The kinds of measure that a question tells, each with the system it is told in."""
    key = item.key if item.format == "number" else ""
    texts = (item.stem, *(one.text for one in (*item.options, *item.reasons)), as_read(str(key)))
    return {_UNITS[unit] for text in texts for unit in _TOLD.findall(_IN_BRACKETS.sub("", text))}


def _unit_read(item: Item, prefer: str) -> str:
    """In which unit its lengths are read, "in" or "mm": the one they are told in, else the shop's."""
    systems = {system for dimension, system in _units_told(item) if dimension == "length"}
    return prefer if len(systems) != 1 else "in" if systems == {"customary"} else "mm"


def _irrelevant(item: Item, clauses: Sequence[Clause]) -> int | None:
    known = _table()["quantity"]
    reads = {field for one in clauses if one.quantity in known for field in known[one.quantity]["reads"]}
    told = [field for field, value in _leaves(item.case) if _is_told(value, item.stem)]
    return sum(field not in reads for field in told) if reads and told else None


def _is_told(value: object, stem: str) -> bool:
    if not isinstance(value, str) or not _MEASURE.fullmatch(value):
        return False
    return re.search(rf"(?<![\w./]){re.escape(as_read(value))}(?!\w)", stem) is not None


def _leaves(told: object, name: str = "") -> Iterator[tuple[str, object]]:
    """The values of a case, each with the name of its field."""
    if isinstance(told, Mapping):
        for field, value in told.items():
            yield from _leaves(value, field)
    elif isinstance(told, list | tuple):
        for value in told:
            yield from _leaves(value, name)
    else:
        yield name, told


def _limit_steps(
    item: Item, clauses: Sequence[Clause], edition: Edition, prefer: str, units: Sequence[OnShelf] | None
) -> float | None:
    measuring = [one for one in clauses if one.strictest.quantities and one.quantity in MEASURES]
    if not measuring or item.case is None:
        return None
    prefer = _unit_read(item, prefer)
    found = [
        distance
        for case in _cases(item)
        for clause in measuring
        for distance in _distances(case, clause, edition, prefer, units)
    ]
    return round(min(found), 2) if found else None


def _cases(item: Item) -> Iterator[Case]:
    """The tires that a question judges: those of its lines where they have their own, else the one it tells of."""
    claims = [part for option in item.options if option.claim is not None for part in parts(option.claim)]
    patches = [patch for claim in claims if (patch := getattr(claim, "case", None))]
    for patch in patches or [None]:
        try:
            yield parse_case({**laid_over(item.case, patch), "edition": item.edition})
        except CaseError:
            continue


def _distances(
    case: Case, clause: Clause, edition: Edition, prefer: str, units: Sequence[OnShelf] | None
) -> Iterator[float]:
    step = _step(clause.quantity, case, prefer)
    limits = (*clause.strictest.quantities, *clause.strictest.upper)
    own = [one for one in limits if one.system in ("", "customary" if prefer == "in" else "metric")] or limits
    for subject in _subjects(case, clause.quantity) if step else ():
        value = measured(case, clause.quantity, subject, edition=edition, units=units)
        if value is not None and step:
            yield min(abs(float(value) - limit.number) for limit in own) / float(step)


def _subjects(case: Case, quantity: str) -> Iterator[str]:
    about = MEASURES[quantity].about
    injuries, repairs = ([one.id for one in some or ()] for some in (case.injuries, case.earlier_repairs))
    if about in ("tire", "proposal"):
        yield ""
    elif about in ("injury", "repair"):
        yield from injuries if about == "injury" else repairs
    elif about == "pair":
        yield from (f"{one}+{two}" for one, two in combinations((*injuries, *repairs), 2))


def _step(quantity: str, case: Case, prefer: str) -> Fraction | None:
    """What the quantity is read to, in its base unit; None where no instrument shows it."""
    dimension = MEASURES[quantity].dimension
    if dimension == "length":
        return STEP_MM[prefer] if quantity in _PLACES else READ_TO_MM[prefer]
    if dimension == "angle":
        return _ANGLE_DEG
    if quantity == "pressure.ratio" and case.pressure is not None and case.pressure.recommended is not None:
        return 100 * _GAUGE[prefer] / case.pressure.recommended.value
    return Fraction(1, _WEEKS) if dimension == "years" else None
