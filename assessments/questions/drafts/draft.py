"""What a family drafts with: the random generator, the rulebook, the rulebook as misconceptions alter it, and the
assembling of an item from a key and its computed rivals."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Collection, Hashable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import reduce
from math import ceil, floor
from random import Random
from typing import Any, NamedTuple, Protocol, TypedDict, Unpack

from assessments.questions.drafts.balance import rivals_beside
from assessments.questions.drafts.family import Family
from assessments.questions.drafts.seeding import DrawRandom, Redraw, seeded
from assessments.questions.items.claims import Asked, Claim, States, Turning, essence, lets_go, states
from assessments.questions.items.explanation import clause_line, ruling_line
from assessments.questions.items.item import Item, Json, Key, Option, Picture
from assessments.questions.items.numbers import parse_measure
from assessments.questions.items.shapes import Frame
from assessments.questions.mistakes.misconceptions import misconceptions
from training.rulebook import (
    UNITS,
    Case,
    Clause,
    Decision,
    Edition,
    Model,
    OnShelf,
    Quantity,
    Ruling,
    decide,
    injury_geometry,
    measured,
    parse_case,
    parse_quantity,
    quantity,
    show,
)
from training.trade.measures import as_read

# what a length is told to, in mm: a millimeter, or a sixteenth of an inch
_STEP_MM = {"mm": Fraction(1), "in": UNITS["length"]["in"] / 16}
_PATIENCE = 120  # tries for a key of the drawn rank by length


class NoSuchLimit(LookupError):
    """The edition says nothing on what the family asks."""


@dataclass(frozen=True, slots=True)
class Choice:
    """A candidate option: its words, what it claims, and the misconceptions that compute it.

    `unsafe`: choosing it lets a tire go that the rulebook stops; by what it claims where it is None. `value` is the
    quantity it states, by which options are ranked. `together`: it takes all of `why` to compute it; else each does
    alone. `ways` says so where neither is true.
    """

    text: str
    why: tuple[str, ...] = ()
    unsafe: bool | None = None
    value: Fraction | None = None
    together: bool = False
    ways: tuple[tuple[str, ...], ...] = ()
    claim: Claim = field(kw_only=True)

    def __post_init__(self) -> None:
        # options are told apart by length as they are read, in the language they are read in
        object.__setattr__(self, "text", as_read(str(self.text)))

    @property
    def routes(self) -> tuple[tuple[str, ...], ...]:
        """The sets of misconceptions of which each computes it."""
        if self.ways or not self.why:
            return self.ways
        return (self.why,) if self.together else tuple((name,) for name in self.why)

    def lets_go(self, key: Choice | None = None) -> bool:
        """Is it unsafe to choose it where the key is another?"""
        return lets_go(self.claim, None if key is None else key.claim) if self.unsafe is None else self.unsafe


class InjuryPlace(NamedTuple):
    """Where an injury lies, in mm: everything that a fully measured case gives."""

    lateral: float
    exit_lateral: float
    half_lateral: float
    half_crown: float
    liner_circumference: float


class _Drawn(Protocol):
    """Anything with a drawing and its words."""

    @property
    def svg(self) -> str: ...
    @property
    def description(self) -> str: ...


class Setting(TypedDict, total=False):
    """What surrounds the question: the case, what is asked of it, what explains the key, the drawing, the difficulty.

    The drawing is a function, called once the question stands: most draws that fail never draw.
    """

    case: Case | None
    asks: Asked
    rulings: Iterable[Ruling]
    clauses: Iterable[str]
    explanation: Iterable[Json]
    figure: Callable[[], _Drawn]
    features: Json


class Answers(TypedDict, total=False):
    """What an item offers and what is right; the fields are those of `Item`."""

    options: tuple[Option, ...]
    key: Key
    tolerance: str | None
    units: tuple[str, ...]
    distractors: dict[str, tuple[str, ...]]
    unsafe: tuple[str, ...]
    omissions: dict[str, tuple[str, ...]]
    reasons: tuple[Option, ...]
    frame: Frame
    before: tuple[tuple[str, str], ...]
    routes: dict[str, tuple[tuple[str, ...], ...]]


class Settled(NamedTuple):
    """Which rivals stand beside a key, how many of them are shorter, and the generator's state after that."""

    rivals: tuple[int, ...]
    shorter: int
    state: tuple[Any, ...]


_altered: OrderedDict[tuple[int, str], tuple[Edition, Edition]] = OrderedDict()


def altered(edition: Edition, misconception: str) -> Edition:
    """The edition as this misconception has it; what it believes of clauses the edition does not have changes nothing.

    Kept, since altering costs more than deciding.
    """
    place = (id(edition), misconception)
    kept = _altered.get(place)
    if kept is None or kept[0] is not edition:
        kept = _altered[place] = (edition, edition.believed(misconceptions()[misconception].alteration))
        if len(_altered) > 1024:
            _altered.popitem(last=False)
    return kept[1]


class Draft:
    """One draw in progress. Families use `rng`, `edition`, `prefer`, `casings` and the methods; they read no clock.

    `casings` are those of its family that were asked for. Raises NoSuchLimit where that leaves none.
    """

    def __init__(
        self,
        family: Family,
        *,
        seed: str,
        edition: Edition,
        prefer: str,
        units: Sequence[OnShelf] | None,
        casings: Collection[str] | None = None,
    ) -> None:
        if not family.asks_about(casings):
            raise NoSuchLimit(f'family "{family.name}": it does not ask about {" or ".join(casings or ())}')
        self.casings = tuple(casing for casing in family.casings if casings is None or casing in casings)
        self.family, self.seed, self.edition, self.prefer, self.units = family, seed, edition, prefer, units
        self.rng = seeded(family.name, seed, edition.name, edition.version, prefer)
        self._length_rank, self._misses = self.rng.random(), 0
        self._start = (self.rng.getstate(), units)
        self._settled: Settled | None = None

    def build(self) -> Item:
        """The next try at an item. Raises Redraw where it comes to none."""
        self._start, self._settled = (self.rng.getstate(), self.units), None
        return self.family.build(self)

    def tell_again(self) -> Item:
        """The item of the last try in the language spoken now: only its texts are others.

        Raises Redraw where two options read alike in this language.
        """
        state, self.units = self._start
        self.rng.setstate(state)
        return self.family.build(self)

    # -- the rulebook ------------------------------------------------------------------------------------------------
    def case(self, data: Json) -> Case:
        """The case of these words and numbers."""
        return parse_case(data)

    def decide(self, case: Case, *mistakes: str) -> Decision:
        """The decision on this case, or what someone holding these misconceptions would decide.

        The stem says that what it does not name is in order.
        """
        edition = reduce(altered, mistakes, self.edition)
        return decide(case, edition=edition, units=self.units, rest_in_order=True, prefer=self.prefer)

    def measured(self, case: Case, ruling: Ruling, *mistakes: str) -> float:
        """What a ruling of those who hold these misconceptions rests on [base unit]. Redraw where it is no number."""
        edition = reduce(altered, mistakes, self.edition)
        quantity = edition.clause(ruling.clause).quantity
        found = measured(case, quantity, ruling.subject, edition=edition, units=self.units)
        if found is None:
            raise Redraw(f"{quantity} is not measured")
        return float(found)

    def clause(self, clause_id: str) -> Clause:
        """The clause of the edition in use."""
        return self.edition.clause(clause_id)

    def pick_model(self, *limited: str) -> Model:
        """A size of tire, of the casings that are asked about and for which the edition limits all these quantities.

        Raises NoSuchLimit where it limits them for none of the casings.
        """
        casings = [one for one in self.casings if all(self.edition.limit(name, one) for name in limited)]
        if not casings:
            raise NoSuchLimit(
                f'family "{self.family.name}": edition {self.edition.name} {self.edition.version} does not limit '
                f"{' and '.join(limited)} for {' or '.join(self.casings)}"
            )
        return self.model_of(*casings)

    def model_of(self, *casings: str, rng: Random | None = None) -> Model:
        """A size of tire of one of these casings, as the edition's country fits it. Raises NoSuchLimit without one."""
        known = [model for model in self.edition.sizes if model.casing in casings]
        if not known:
            raise NoSuchLimit(
                f'family "{self.family.name}": edition {self.edition.name} {self.edition.version} has no size of '
                f"{' or '.join(casings)}"
            )
        return (rng or self.rng).choice(known).measured_in(self.prefer)

    def limit(self, quantity: str, casing: str = "passenger") -> Clause:
        """The clause that limits this quantity for a casing. Raises NoSuchLimit where the edition has none."""
        clause = self.edition.limit(quantity, casing)
        if clause is None:
            raise NoSuchLimit(
                f'family "{self.family.name}": edition {self.edition.name} {self.edition.version} has no limit for '
                f"{quantity} ({casing})"
            )
        return clause

    def stated(self, clause: Clause) -> Quantity:
        """The limit of a clause as its strictest source states it first. Raises NoSuchLimit for a limit in words."""
        quantity = clause.strictest.quantity
        if quantity is None:
            raise NoSuchLimit(f'family "{self.family.name}": clause "{clause.id}" states no quantity')
        return quantity

    def limit_like(self, clause: Clause, other: Clause) -> tuple[str, States]:
        """The limit of a clause as someone else has it, in words and as a claim, in as many units as the clause itself
        states."""
        stated, believed, claim = clause.strictest, other.strictest, states(other)
        if len(stated.quantities) != 1 or len(believed.quantities) < 2:
            return self.limit_text(other), claim
        last = replace(believed, quantities=believed.quantities[-1:])
        return last.told_in(self.prefer), replace(claim, quantities=(last.quantities[0].text,))

    def stated_verdict(self, clause: Clause) -> str:
        """What follows where a clause does not hold: the verdict of its strictest statement."""
        return clause.strictest.otherwise

    def placed(self, case: Case) -> InjuryPlace:
        """Where the first injury of a case lies."""
        injury = (case.injuries or ())[0]
        found = injury_geometry(case, injury, edition=self.edition)
        values = [getattr(found, f"{name}_mm") for name in InjuryPlace._fields]
        if None in values:
            raise Redraw("a measurement is missing")
        return InjuryPlace(*values)

    def permits(self, mistake: str, clause_id: str, measured: Quantity) -> bool:
        """Would someone holding the misconception let this measurement pass the clause?"""
        clause = altered(self.edition, mistake).clauses.get(clause_id)
        return clause is None or clause.strictest.permits(measured)

    # -- in the unit that the question is told in ---------------------------------------------------------------------
    @property
    def step_mm(self) -> Fraction:
        """What places and thicknesses are measured to: 1 mm, or 1/16 in."""
        return _STEP_MM[self.prefer]

    def between(self, least_mm: Fraction | float, most_mm: Fraction | float, rng: DrawRandom | None = None) -> Fraction:
        """A length from one to the other, both included, in steps of the unit told [mm]. Redraw where there is none."""
        return (rng or self.rng).randint(
            ceil(Fraction(least_mm) / self.step_mm), floor(Fraction(most_mm) / self.step_mm)
        ) * self.step_mm

    def near(self, length_mm: Fraction | int) -> Fraction:
        """The nearest length that one reads off in the unit told [mm]."""
        return round(length_mm / self.step_mm) * self.step_mm

    def told(self, length_mm: Fraction | int) -> str:
        """A length in the unit told, never rounded: what is printed is what the rulebook computes with.

        Raises ValueError for one that cannot be read off in that unit.
        """
        text = quantity(length_mm / UNITS["length"][self.prefer], self.prefer).text
        if parse_quantity(text, "length").value != length_mm:
            raise ValueError(f'{length_mm} mm cannot be told exactly in "{self.prefer}"')
        return text

    def limit_text(self, clause: Clause) -> str:
        """The limit of a clause, with what its source states in the unit told first."""
        return clause.limit_told_in(self.prefer)

    def show(self, quantity: Quantity) -> str:
        """A quantity that a source states, the unit told first; one that is in that unit alone needs no other."""
        return show(quantity, prefer=self.prefer)

    # -- the item ----------------------------------------------------------------------------------------------------
    def one(
        self, *, stem: Sequence[str], key: Choice, wrong: Iterable[Choice], count: int = 4, **around: Unpack[Setting]
    ) -> Item:
        """An item with one right option among `count`, or among three where the rivals allow no more.

        Rivals that say the same are merged with all their misconceptions, those equal to the key fall out. Which rivals
        stay, and in which words, is drawn so that the key's rank by length, and by value if any, leans to no end.
        """
        rivals = _merged(key, wrong)
        if len(rivals) < min(count, 3) - 1:
            raise Redraw(f"{self.family.name}: too few different options")
        places = min(count - 1, len(rivals))
        if key.value is not None:
            rivals = self._balanced(key, rivals, places)
        key, *others = self._worded(key, rivals, places)
        chosen = [key, *others]
        if len({choice.text for choice in chosen}) < len(chosen):
            raise Redraw(f"{self.family.name}: two options read alike")
        self.rng.shuffle(chosen)
        ids = {choice.text: str(place) for place, choice in enumerate(chosen, 1)}
        answers: Answers = {
            "options": tuple(Option(ids[choice.text], choice.text, choice.claim) for choice in chosen),
            "key": ids[key.text],
            "distractors": {ids[choice.text]: choice.why for choice in chosen if choice is not key},
            "unsafe": tuple(ids[choice.text] for choice in chosen if choice is not key and choice.lets_go(key)),
            "routes": {
                ids[choice.text]: choice.routes
                for choice in chosen
                if choice is not key and max(map(len, choice.routes), default=0) > 1
            },
        }
        return self.assemble("one", stem, answers, around)

    def several(
        self, *, stem: Sequence[str], right: Sequence[Choice], wrong: Sequence[Choice], **around: Unpack[Setting]
    ) -> Item:
        """An item with all of `right` and `wrong` on offer; the key is every right one."""
        offered = [*right, *wrong]
        if not right or len({choice.text for choice in offered}) < len(offered):
            raise Redraw(f"{self.family.name}: no right option, or two alike")
        self.rng.shuffle(offered)
        ids = {choice.text: str(place) for place, choice in enumerate(offered, 1)}
        rights = {choice.text for choice in right}
        answers: Answers = {
            "options": tuple(Option(ids[choice.text], choice.text, choice.claim) for choice in offered),
            "key": tuple(ids[choice.text] for choice in offered if choice.text in rights),
            "distractors": {ids[choice.text]: choice.why for choice in offered if choice.text not in rights},
            "omissions": {ids[choice.text]: choice.why for choice in offered if choice.text in rights and choice.why},
            "unsafe": tuple(ids[c.text] for c in offered if c.text not in rights and c.lets_go()),
        }
        return self.assemble("several", stem, answers, around)

    def number(
        self,
        *,
        stem: Sequence[str],
        key: str,
        tolerance: str,
        units: Sequence[str],
        wrong: Iterable[tuple[str, str]],
        unsafe: Sequence[str] = (),
        **around: Unpack[Setting],
    ) -> Item:
        """An item answered with a number. `wrong` pairs a quantity with the misconception that computes it.

        A wrong quantity within the tolerance of the key is none. Where it asks at what value a decision turns, all
        beyond it is unsafe, which `unsafe` need not say.
        """
        value = parse_measure(key)[1]
        margin = parse_measure(tolerance)[1]
        distractors: dict[str, tuple[str, ...]] = {}
        for text, why in wrong:
            if abs(parse_measure(text)[1] - value) > margin:
                distractors[text] = (*distractors.get(text, ()), why)
        answers: Answers = {
            "options": (),
            "key": key,
            "tolerance": tolerance,
            "units": tuple(units),
            "distractors": distractors,
            "unsafe": (*_beyond(around.get("asks"), key, tolerance), *unsafe),
        }
        return self.assemble("number", stem, answers, around)

    def _worded(self, key: Choice, rivals: Sequence[Choice], places: int) -> list[Choice]:
        """The key and `places` rivals in words that give it the rank by length which this draw was to have.

        The rank stays the same over all tries of a draw, else those that come out easily would come out more often.
        After some tries in vain any rank will do. An item told again keeps its rivals, and its rank if it can.
        """
        if self._settled is not None:
            return self._reworded(key, [rivals[place] for place in self._settled.rivals], self._settled)
        ranks = [int(self._length_rank * (places + 1))]
        if self._misses >= _PATIENCE:
            ranks += self.rng.sample(range(places + 1), places + 1)
        for shorter in ranks:
            found = rivals_beside(self.rng, key.text, [rival.text for rival in rivals], places=places, shorter=shorter)
            if found is not None:
                text, said = found
                self._settled = Settled(tuple(place for place, _ in said), shorter, self.rng.getstate())
                return [replace(key, text=text), *(replace(rivals[place], text=words) for place, words in said)]
        self._misses += 1
        raise Redraw(f"{self.family.name}: the length of the key would stand out")

    def _reworded(self, key: Choice, rivals: Sequence[Choice], settled: Settled) -> list[Choice]:
        """The key and all of these rivals, in this order, in words that give the key the rank by length it had."""
        texts, places = [rival.text for rival in rivals], len(rivals)
        for shorter in (settled.shorter, *range(places + 1)):
            found = rivals_beside(self.rng, key.text, texts, places=places, shorter=shorter)
            if found is not None:
                break
        text, said = found or (key.text, [])
        words = dict(said)
        self.rng.setstate(settled.state)
        return [
            replace(key, text=text),
            *(replace(rival, text=words.get(place, rival.text)) for place, rival in enumerate(rivals)),
        ]

    def _balanced(self, key: Choice, rivals: list[Choice], places: int) -> list[Choice]:
        """`places` rivals, the key's rank by value among them drawn evenly from the ranks that are possible."""

        def rank(choice: Choice) -> tuple[Fraction, float]:
            return (choice.value or Fraction(0), self.rng.random())

        own = rank(key)
        below: list[Choice] = []
        above: list[Choice] = []
        for rival in rivals:
            (below if rank(rival) < own else above).append(rival)
        taken = self.rng.randint(max(0, places - len(above)), min(places, len(below)))
        return self.rng.sample(below, taken) + self.rng.sample(above, places - taken)

    def assemble(self, form: str, stem: Sequence[str], answers: Answers, around: Setting) -> Item:
        """The item from its answers and what surrounds them, all its text as the language spoken has it."""
        lines = tuple(
            {name: str(value) if isinstance(value, str) else value for name, value in line.items()}
            for line in (
                *(ruling_line(ruling, self.edition) for ruling in around.get("rulings", ())),
                *(clause_line(self.clause(name)) for name in around.get("clauses", ())),
                *around.get("explanation", ()),
            )
        )
        drawn, case = around.get("figure"), around.get("case")
        figure = None if drawn is None else drawn()
        return Item(
            family=self.family.name,
            skill=self.family.skill,
            edition=self.edition.name,
            version=self.edition.version,
            seed=self.seed,
            format=form,
            stem=as_read("\n".join(map(str, stem))),
            figure=None if figure is None else Picture(str(figure.svg), str(figure.description)),
            options=answers["options"],
            key=answers["key"],
            tolerance=answers.get("tolerance"),
            units=answers.get("units", ()),
            distractors=answers["distractors"],
            unsafe=answers["unsafe"],
            explanation=lines,
            sources=tuple(dict.fromkeys(str(line["source"]) for line in lines)),
            case=None if case is None else case.to_json(),
            lesson=self.family.lesson,
            features=dict(around.get("features", {})),
            omissions=answers.get("omissions", {}),
            reasons=answers.get("reasons", ()),
            frame=answers.get("frame"),
            before=answers.get("before", ()),
            routes=answers.get("routes", {}),
            asks=around.get("asks"),
        )


def _beyond(asks: Asked | None, key: str, tolerance: str) -> tuple[str, ...]:
    """The answers beyond the key by more than its tolerance, where it is a value at which a decision turns."""
    if not isinstance(asks, Turning):
        return ()
    unit = key.rpartition(" ")[2]
    end, margin = (parse_measure(text)[1] / parse_measure(f"1 {unit}")[1] for text in (key, tolerance))
    if asks.end == "most":
        return (f"above {quantity(end + margin, unit).text}",)
    return (f"below {quantity(end - margin, unit).text}",)


def _merged(key: Choice, wrong: Iterable[Choice]) -> list[Choice]:
    """The rivals without doubles and without the key, misconceptions of doubles joined."""
    found: dict[Hashable, Choice] = {}
    own = essence(key.claim)
    for choice in wrong:
        same = essence(choice.claim)
        if same == own:
            continue
        seen = found.get(same)
        if seen is not None:
            names, ways = dict.fromkeys(seen.why + choice.why), dict.fromkeys(seen.routes + choice.routes)
            choice = replace(seen, why=tuple(names), ways=tuple(ways))
        found[same] = choice
    return list(found.values())
