"""The version of a family: which code and which data its questions were drawn with.

Nobody keeps it by hand. It is a digest of the family's own file, of every module of the questions that this file comes
to by its imports, of the data files beside those modules that bear their names, and of the misconceptions they name. A
changed comment makes a new version too: rather two versions that ask alike than one that asks in two ways. What the
rulebook says has a version of its own, which each form is stored with.
"""

from __future__ import annotations

import ast
import hashlib
import re
from functools import cache
from pathlib import Path

from assessments.questions.draws.registry import family
from assessments.questions.mistakes.misconceptions import misconceptions

_ROOT = Path(__file__).parents[1]
_PACKAGE = "assessments.questions"
_DIGITS = 12
_QUOTED = re.compile(r'"([a-z0-9]+(?:-[a-z0-9]+)+)"')


@cache
def family_version(name: str) -> str:
    """Twelve digits that change with the code or the data the family draws with. Raises UnknownFamily."""
    found = hashlib.sha256()
    texts = [path.read_bytes() for path in _files(family(name).build.__module__)]
    quoted = {id for text in texts for id in _QUOTED.findall(text.decode())}
    believed = [one for id, one in sorted(misconceptions().items()) if id in quoted]
    for text in (*texts, *(repr((one.id, one.alteration, one.beyond)).encode() for one in believed)):
        found.update(hashlib.sha256(text).digest())
    return found.hexdigest()[:_DIGITS]


def _files(module: str) -> list[Path]:
    """The files of a module and of what it comes to, with the data that bears their names; sorted."""
    seen: set[Path] = set()
    waiting = [path for path in [_path(module)] if path]
    while waiting:
        path = waiting.pop()
        if path in seen:
            continue
        seen.add(path)
        waiting += [other for name in _imports(path) if (other := _path(name)) is not None]
    return sorted({*seen, *(data for path in seen if (data := path.with_suffix(".toml")).exists())})


@cache
def _imports(path: Path) -> tuple[str, ...]:
    nodes = ast.walk(ast.parse(path.read_text("utf-8")))
    return tuple(node.module for node in nodes if isinstance(node, ast.ImportFrom) and node.module)


def _path(module: str) -> Path | None:
    """The file of a module of the questions; None for any other."""
    if not module.startswith(f"{_PACKAGE}."):
        return None
    path = _ROOT.joinpath(*module.removeprefix(f"{_PACKAGE}.").split(".")).with_suffix(".py")
    return path if path.exists() else None
