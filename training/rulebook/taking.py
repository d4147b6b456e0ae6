"""What every country takes from the trade, `editions/trade`: its clauses and steps, as they stand in one country."""

from collections.abc import Iterator, Mapping
from pathlib import Path

from training.rulebook.audit_rules import WorkRules, read_work
from training.rulebook.bibliography import SOURCES, read_library
from training.rulebook.citations import Library
from training.rulebook.clauses import Clause, Step
from training.rulebook.dating import Span, Table, changed, holding
from training.rulebook.essentials import FACTS, Essentials, read_essentials
from training.rulebook.header import HEADER, Header
from training.rulebook.loader import Place, read_clause, read_procedure, read_toml, tables_in

TRADE = "trade"
PROCEDURE = "procedure.toml"
WORK = "audit.toml"
CRITICAL = "critical.toml"
SIZES = "sizes.toml"
WHOLE = (HEADER, PROCEDURE, SIZES, WORK, CRITICAL, FACTS, SOURCES)
Files = Mapping[str, Table]


def read_files(folder: Path, under: str = "") -> Files:
    """The data of all files of a folder by their names, which open with `under`; none where there is no such folder."""
    return {under + path.name: read_toml(path, under + path.name) for path in sorted(folder.glob("*.toml"))}


def clauses_of(own: Files, trade: Files, header: Header, span: Span, library: Library) -> Iterator[Clause]:
    """The clauses of a country: those of the trade first, as they stand here. Raises RulebookError.

    A file of the country says `[[trade]] clause = "..."` with the fields that differ here; the header what is not so
    here at all.
    """
    here = _differences(own, trade)
    for file, data in _clause_files(trade):
        tables = holding(tables_in(data, "clause", file), span.of_trade, Place(file, "clause"), starts_within=True)
        for number, table in enumerate(tables, start=1):
            id, stands_in = str(table.get("id")), file
            if id in header.without:
                continue
            if id in here:
                place, change = here[id]
                for held in holding([change], span, place):
                    table = changed(table, {field: held[field] for field in held if field != "clause"})
                    stands_in = place.file
            yield read_clause(table, stands_in, number, library)
    for file, data in _clause_files(own):
        tables = tables_in(data, "clause", file, beside=("trade",))
        tables = holding(tables, span, Place(file, "clause"), starts_within=True)
        yield from (read_clause(table, file, number, library) for number, table in enumerate(tables, start=1))


def library_of(own: Files, trade: Files, header: Header) -> Library:
    """The sources a country's rules may cite: the trade's and its own. Raises RulebookError."""
    files = {f"{TRADE}/{SOURCES}": trade.get(f"{TRADE}/{SOURCES}", {}), SOURCES: own.get(SOURCES, {})}
    return read_library(files, header.law_of)


def _clause_files(files: Files) -> Iterator[tuple[str, Table]]:
    return ((file, data) for file, data in files.items() if file.removeprefix(f"{TRADE}/") not in WHOLE)


def _ids(trade: Files) -> set[str]:
    return {str(table.get("id")) for file, data in _clause_files(trade) for table in tables_in(data, "clause", file)}


def _differences(own: Files, trade: Files) -> dict[str, tuple[Place, Table]]:
    """What a country says otherwise of clauses of the trade, by their ids."""
    found: dict[str, tuple[Place, Table]] = {}
    known = _ids(trade)
    for file, data in _clause_files(own):
        for table in tables_in(data, "trade", file, beside=("clause",)):
            id = str(table.get("clause"))
            place = Place(file, f'trade "{id}"')
            if id not in known or id in found:
                why = "it says otherwise of it twice" if id in found else "it is no clause of the trade"
                place.refuse("clause", f"is not accepted; {why}")
            found[id] = (place, table)
    return found


def procedure_of(
    own: Files, trade: Files, header: Header, span: Span, clauses: Mapping[str, Clause], library: Library
) -> tuple[tuple[Step, ...], dict[str, tuple[str, ...]]]:
    """The steps of a country and their order by method: its own file's, else the trade's."""
    file, data, span = _whole(PROCEDURE, own, trade, span)
    tables = tables_in(data, "step", file, beside=("order",))
    held = holding(tables, span, Place(file, "step"))
    ended = {str(table.get("id")) for table in tables} - {str(table.get("id")) for table in held}
    order = data.get("order", {})
    if ended and isinstance(order, Mapping):
        order = {method: [id for id in steps if str(id) not in ended] for method, steps in order.items()}
    return read_procedure({"step": held, "order": order}, clauses, file, without=header.without, library=library)


def work_of(
    own: Files, trade: Files, span: Span, orders: Mapping[str, tuple[str, ...]], library: Library
) -> WorkRules | None:
    """What the log of a repair is held to: by the country's own files, else by the trade's; None without either."""
    _, critical, _ = _whole(CRITICAL, own, trade, span)
    file, data, span = _whole(WORK, own, trade, span)
    if not data:
        return None
    data = {**critical, **data}
    dated = {
        name: holding(value, span, Place(file, name)) if isinstance(value, list) else value
        for name, value in data.items()
    }
    return read_work(dated, orders, file, library)


def essentials_of(own: Files, trade: Files) -> Essentials:
    """What must have been looked at before a tire is released here."""
    return read_essentials(trade.get(f"{TRADE}/{FACTS}", {}), own.get(FACTS, {}), FACTS)


def _whole(name: str, own: Files, trade: Files, span: Span) -> tuple[str, Table, Span]:
    if name in own:
        return name, own[name], span
    return f"{TRADE}/{name}", trade.get(f"{TRADE}/{name}", {}), span.of_trade


def check_without(header: Header, trade: Files) -> None:
    """Refuse what a header leaves out though the trade has no such clause and no step that names it."""
    known = _ids(trade)
    for table in tables_in(trade.get(f"{TRADE}/{PROCEDURE}", {}), "step", PROCEDURE, beside=("order",)):
        known.update(map(str, named) if isinstance(named := table.get("clauses", []), list) else ())
    for id in header.without:
        if id not in known:
            Place(HEADER, TRADE).refuse("without", f'"{id}" is no clause of the trade, and no step of it names one')
