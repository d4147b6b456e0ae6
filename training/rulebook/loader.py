"""Reading an edition's TOML files; every mistake is refused with file, clause, field, value and what is accepted."""

import tomllib
from collections.abc import Mapping, Sequence
from pathlib import Path

from training.rulebook.citations import PRACTICE, Library
from training.rulebook.clauses import (
    BOUNDS,
    KINDS,
    QUANTITY_BOUNDS,
    WORD_BOUNDS,
    Clause,
    Condition,
    Criterion,
    Share,
    Statement,
    Step,
)  # fmt: skip
from training.rulebook.measures import MEASURES, Measure
from training.rulebook.quantities import Quantity, parse_quantity
from training.trade import reading
from training.trade.lists import one_of
from training.trade.reading import shown
from training.trade.speech import saying
from training.trade.words import CASINGS, METHODS, PURPOSES, VERDICTS

_UNKNOWN = ("unexamined", "applies", "skip")
_STATEMENT = frozenset({"otherwise", "kind", "cites", "jurisdictions", "stated", "share", *BOUNDS})
_CLAUSE = _STATEMENT | frozenset(
    [
        "id",
        "title",
        "quantity",
        "casings",
        "purposes",
        "because",
        "checked_on",
        "in_force_from",
        "when",
        "if_unknown",
        "condition",
        "usually",
        "statement",
        "passes",
        "fails",
    ]
)
_STEP = frozenset({"id", "title", "instruction", "clauses", "tools", "criterion"})
_CRITERION = frozenset({"id", "text", "critical", "kind", "cites", "casings"})
_FAULT = "fault"
_TITLE_MOST = 40  # characters: it stands beside its limit in a column of a card
_ID_MARKS = frozenset("._")
_NO_LIBRARY = Library()


class RulebookError(Exception):
    """An edition file is wrong: the message names the file, the clause, the field, the value and what is accepted."""


class Place(reading.Place):
    """Where in the files of an edition a value stands."""

    error = RulebookError


def read_toml(path: Path, file: str = "") -> dict[str, object]:
    """A TOML file's data; RulebookError names the file, or what it is called here, when it is not TOML."""
    try:
        return tomllib.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError) as failure:  # of values too long or too deep too
        raise RulebookError(f"{file or path.name}: is not TOML: {failure}") from failure


def tables_in(
    data: Mapping[str, object], name: str, file: str, *, beside: Sequence[str] = ()
) -> list[Mapping[str, object]]:
    """The tables of this name in a file; nothing else may stand in it but what is named by `beside`."""
    place = Place(file)
    place.keys(data, {name, *beside})
    return place.tables(data, name)


def read_clause(table: Mapping[str, object], file: str, number: int, library: Library = _NO_LIBRARY) -> Clause:
    """The clause of one table, the `number`th of its file, citing from a library. Raises RulebookError."""
    name = table.get("id")
    if not isinstance(name, str) or not name:
        Place(file, f"clause number {number}").refuse("id", f"{shown(name)} is not accepted; give a short name")
    place = Place(file, f'clause "{name}"')
    place.keys(table, _CLAUSE)
    right = tuple(name for name, one in MEASURES.items() if not one.misreads)
    measure = MEASURES[place.word(table, "quantity", right)]
    return Clause(
        id=name,
        title=_title(table, place),
        quantity=measure.name,
        casings=place.words(table, "casings", CASINGS),
        purposes=place.words(table, "purposes", PURPOSES, default=PURPOSES),
        statements=_statements(table, measure, place, library),
        because=saying(place.text(table, "because")),
        checked_on=place.day(table, "checked_on"),
        when=_conditions(table, measure, place),
        if_unknown=place.word(table, "if_unknown", _UNKNOWN, default="unexamined"),
        condition=saying(place.text(table, "condition", default="")),
        usually=saying(place.text(table, "usually", default="")),
        in_force_from=place.day(table, "in_force_from") if "in_force_from" in table else None,
        passes=_examples(table, "passes", measure, place),
        fails=_examples(table, "fails", measure, place),
        file=file,
    )


def _title(table: Mapping[str, object], place: Place) -> str:
    title = table.get("title")
    if not isinstance(title, str) or not title.strip() or title[0].islower() or not _ID_MARKS.isdisjoint(title):
        place.refuse("title", f'{shown(title)} is not accepted; give a name for people, such as "Size of the hole"')
    if len(title) > _TITLE_MOST or not title.isprintable() or title != title.strip():
        place.refuse("title", f"{shown(title)} is not accepted; give one line of at most {_TITLE_MOST} characters")
    return saying(title)


def _statements(table: Mapping[str, object], measure: Measure, place: Place, library: Library) -> tuple[Statement, ...]:
    tables = table.get("statement")
    if tables is None:
        return (_statement(table, {}, measure, place, library),)
    if not isinstance(tables, list) or not tables:
        place.refuse("statement", "is not accepted; give [[clause.statement]] tables")
    stated = [bound for bound in BOUNDS if bound in table]
    if stated:
        place.refuse(stated[0], "is not accepted beside statements; give the limit in each [[clause.statement]]")
    for entry in tables:
        place.keys(entry, _STATEMENT)
    return tuple(_statement(entry, table, measure, place, library) for entry in tables)


def _statement(
    table: Mapping[str, object], above: Mapping[str, object], measure: Measure, place: Place, library: Library
) -> Statement:
    merged = {**{field: above[field] for field in ("otherwise", "kind", "cites") if field in above}, **table}
    stated = [bound for bound in BOUNDS if bound in table]
    accepted = QUANTITY_BOUNDS if measure.dimension else WORD_BOUNDS
    if len(stated) != 1:
        place.refuse("limit", f"{shown(stated)} is not accepted; give exactly one of {one_of(accepted)}")
    bound = stated[0]
    if bound not in accepted:
        place.refuse(bound, f"is not accepted for {measure.name}; give one of {one_of(accepted)}")
    quantities: tuple[Quantity, ...] = ()
    upper: tuple[Quantity, ...] = ()
    words: tuple[str, ...] = ()
    if bound in WORD_BOUNDS:
        words = place.words(table, bound, measure.words or None)
    elif bound == "between":
        ends = table[bound]
        if not isinstance(ends, list) or len(ends) != 2:
            place.refuse(
                bound, f'{shown(ends)} is not accepted; give the lower and the upper limit, such as ["3 min", "5 min"]'
            )
        low, high = (entry if isinstance(entry, list) else [entry] for entry in ends)
        quantities, upper = (
            tuple(quantity_of(place, bound, text, measure.dimension) for text in end) for end in (low, high)
        )
        if len(quantities) != len(upper) or any(a.value > b.value for a, b in zip(quantities, upper, strict=True)):
            place.refuse(bound, f"{shown(ends)} is not accepted; give as many lower as upper limits, the lower first")
    else:
        texts = table[bound]
        if not isinstance(texts, list) or not texts:
            place.refuse(
                bound, f'{shown(texts)} is not accepted; give a list of limits as printed, such as ["1/4 in", "6 mm"]'
            )
        quantities = tuple(quantity_of(place, bound, text, measure.dimension) for text in texts)
    about_job = measure.about == "job"
    cited = library.cited(merged, place, KINDS)
    return Statement(
        bound=bound,
        quantities=quantities,
        upper=upper,
        words=words,
        otherwise=place.word(
            merged, "otherwise", (_FAULT,) if about_job else VERDICTS, default=_FAULT if about_job else None
        ),
        kind=cited.generally.kind,
        source=cited.generally.source,
        jurisdictions=place.words(table, "jurisdictions", None, default=()),
        stated=saying(place.text(table, "stated", default="")),
        share=_share(table["share"], quantities, place) if "share" in table else None,
        cited=cited,
    )


def _share(data: object, limits: Sequence[Quantity], place: Place) -> Share:
    if not isinstance(data, Mapping) or not limits:
        place.refuse(
            "share", 'is not accepted; give {quantity = "tire.section_width", percent = "10 %", takes = "larger"}'
        )
    place.keys(data, frozenset({"quantity", "percent", "takes"}))
    same = [name for name, one in MEASURES.items() if one.about == "tire" and one.dimension == limits[0].dimension]
    return Share(
        quantity=place.word(data, "quantity", same),
        percent=quantity_of(place, "share", data.get("percent"), "percent"),
        takes=place.word(data, "takes", ("larger", "smaller")),
    )


def _conditions(table: Mapping[str, object], measure: Measure, place: Place) -> tuple[Condition, ...]:
    when = table.get("when", {})
    if not isinstance(when, Mapping):
        place.refuse("when", f"{shown(when)} is not accepted; give a table from quantity to words or to a limit")
    conditions = []
    for name, wanted in when.items():
        other = MEASURES.get(name)
        if other is None or other.about not in ("tire", measure.about):
            place.refuse("when", f"{shown(name)} is not accepted; name a quantity of the tire or of the same subject")
        if isinstance(wanted, Mapping):
            follows = _FAULT if other.about == "job" else "accept"
            limit = {field: value for field, value in wanted.items() if field != "if_unknown"}
            inner = {**limit, "otherwise": follows, "kind": PRACTICE, "cites": [PRACTICE]}
            unknown = place.word(wanted, "if_unknown", ("applies", "skip"), default="")
            conditions.append(
                Condition(name, statement=_statement(inner, {}, other, place, _NO_LIBRARY), if_unknown=unknown)
            )
        else:
            conditions.append(Condition(name, place.words({name: wanted}, name, other.words or None)))
    return tuple(conditions)


def _examples(
    table: Mapping[str, object], field: str, measure: Measure, place: Place
) -> tuple[Mapping[str, object], ...]:
    given = table.get(field)
    entries = given if isinstance(given, list) else [given]
    if measure.about == "job":
        entries = [{"value": entry} if isinstance(entry, str) else entry for entry in entries]
    if not entries or not all(isinstance(entry, Mapping) for entry in entries):
        place.refuse(field, f"{shown(given)} is not accepted; give a case that {field}, on its side of the limit")
    return tuple(entry for entry in entries if isinstance(entry, Mapping))


def read_procedure(
    data: Mapping[str, object],
    clauses: Mapping[str, Clause],
    file: str,
    *,
    without: Sequence[str] = (),
    library: Library = _NO_LIBRARY,
) -> tuple[tuple[Step, ...], dict[str, tuple[str, ...]]]:
    """All steps of the procedure, and their order for each method.

    `without`: clauses a step may name though the edition that takes the procedure has none of that id.
    """
    place = Place(file)
    place.keys(data, frozenset({"order", "step"}))
    tables, order = data.get("step", []), data.get("order", {})
    if not isinstance(tables, list) or not isinstance(order, Mapping):
        place.refuse("step", "is not accepted; give [[step]] tables and one [order] table")
    names = tuple(str(table.get("id")) for table in tables)
    if len(set(names)) != len(names):
        place.refuse("id", f"{shown(sorted(name for name in names if names.count(name) > 1)[0])} is used for two steps")
    orders: dict[str, tuple[str, ...]] = {}
    for method in order:
        if method not in METHODS:
            place.refuse("order", f"{shown(method)} is not accepted; choose {one_of(METHODS)}")
        orders[method] = place.words(order, method, names)
    return tuple(_step(table, clauses, orders, file, without, library) for table in tables), orders


def _step(
    table: Mapping[str, object],
    clauses: Mapping[str, Clause],
    orders: Mapping[str, Sequence[str]],
    file: str,
    without: Sequence[str],
    library: Library,
) -> Step:
    name = Place(file, "step").text(table, "id")
    place = Place(file, f'step "{name}"')
    place.keys(table, _STEP)
    criteria = table.get("criterion", [])
    if not isinstance(criteria, list):
        place.refuse("criterion", "is not accepted; give [[step.criterion]] tables")
    methods = tuple(method for method in METHODS if name in orders.get(method, ()))
    if not methods:
        place.refuse("id", "is in no order; name the step in [order]")
    named = place.words(table, "clauses", (*clauses, *without), default=())
    return Step(
        id=name,
        title=saying(place.text(table, "title")),
        instruction=saying(place.text(table, "instruction")),
        clauses=tuple(id for id in named if id in clauses),
        tools=tuple(map(saying, place.words(table, "tools", None, default=()))),
        criteria=tuple(_criterion(entry, place, library) for entry in criteria),
        methods=methods,
    )


def _criterion(table: Mapping[str, object], place: Place, library: Library) -> Criterion:
    place.keys(table, _CRITERION)
    cited = library.cited(table, place, KINDS)
    return Criterion(
        id=place.text(table, "id"),
        text=saying(place.text(table, "text")),
        critical=place.flag(table, "critical"),
        kind=cited.generally.kind,
        source=cited.generally.source,
        cited=cited,
        casings=place.words(table, "casings", CASINGS, default=()),
    )


def quantity_of(place: Place, field: str, text: object, dimension: str) -> Quantity:
    """A quantity of this dimension. Raises RulebookError."""
    try:
        return parse_quantity(text, dimension)
    except ValueError as refused:
        place.refuse(field, str(refused))
