"""What an edition takes from a version of another: clauses and steps that the trade does everywhere."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from training.rulebook.clauses import Clause, Statement, Step
from training.rulebook.header import HEADER, Take
from training.rulebook.loader import Place, RulebookError, read_clauses, read_toml

PROCEDURE = "procedure.toml"
WORK = "audit.toml"
SIZES = "sizes.toml"
WHOLE = (HEADER, PROCEDURE, SIZES, WORK)


def taken(take: Take, folder: Path) -> Iterator[Clause]:
    """The clauses an edition takes from another: whole files less some, and single clauses."""
    place = Place(HEADER, "take")
    for name in take.files:
        if name == HEADER or not (folder / name).is_file():
            place.refuse("files", f'"{name}" is not a file of {take.edition} {take.version} that can be taken')
    known = {
        clause.id: replace(clause, file=f"{take.edition}/{path.name}")
        for path in sorted(folder.glob("*.toml"))
        if path.name not in WHOLE
        for clause in read_clauses(read_toml(path), path.name)
    }
    for listing, names in (("clauses", take.clauses), ("without", take.without)):
        for id in names:
            if id not in known:
                place.refuse(listing, f'"{id}" is not a clause of {take.edition} {take.version}')
    for id, clause in known.items():
        is_listed = clause.file.partition("/")[2] in take.files or id in take.clauses
        if is_listed and id not in take.without:
            yield replace(clause, statements=tuple(map(_elsewhere, clause.statements)))


def _elsewhere(statement: Statement) -> Statement:
    """A statement as another country takes it: what is law there is practice here."""
    if statement.kind != "law":
        return statement
    source = f"common practice; law elsewhere: {statement.source}"
    return replace(statement, kind="common-practice", source=source, jurisdictions=())


def folder_of(name: str, version: str, editions: Path) -> Path:
    """Where a version of an edition stands: the newest in the edition's own folder, earlier ones in folders inside."""
    folder = editions / name
    kept = sorted(path for path in folder.iterdir() if path.is_dir()) if folder.is_dir() else []
    for path in [folder, *kept]:
        if (path / HEADER).is_file() and read_toml(path / HEADER).get("version") == version:
            return path
    raise RulebookError(f'{HEADER}: take, version: there is no "{name}" of version "{version}"')


def respelled(clause: Clause, spelling: Mapping[str, str]) -> Clause:
    """The clause with its reasons in the country's own spelling; limits, sources and words of a case stay."""
    because, condition = (_respelled(text, spelling) for text in (clause.because, clause.condition))
    return replace(clause, because=because, condition=condition)


def respelled_step(step: Step, spelling: Mapping[str, str]) -> Step:
    """The step with title, instruction and criteria in the country's own spelling."""
    title, instruction = (_respelled(text, spelling) for text in (step.title, step.instruction))
    criteria = tuple(replace(one, text=_respelled(one.text, spelling)) for one in step.criteria)
    return replace(step, title=title, instruction=instruction, criteria=criteria)


def _respelled(text: str, spelling: Mapping[str, str]) -> str:
    """
    >>> _respelled("Tires are centered; the tire's center is not.", {"tire": "tyre", "tires": "tyres"})
    "Tyres are centered; the tyre's center is not."
    """

    def own(found: re.Match[str]) -> str:
        word = found[0]
        other = spelling.get(word.lower(), word)
        return other[0].upper() + other[1:] if word[0].isupper() else other

    return re.sub(r"[A-Za-z]+", own, text) if spelling else text
