"""Words are chosen once: no rule, lesson, page or question says one of the words that lost."""

import ast
import re
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from tests.identifiers import visible
from tests.strings import strings

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

ROOT = Path(__file__).parents[2]
WORDS: list[dict[str, Any]] = tomllib.loads((ROOT / "training/trade/glossary.toml").read_text("utf-8"))["word"]
SOURCES = "sources.toml"  # what others called their texts


def sentences(code: str) -> Iterator[str]:
    """Every text of a module that a person may read: what has a blank in it, and is no docstring."""
    tree = ast.parse(code)
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    described = {ast.get_docstring(node, clean=False) for node in ast.walk(tree) if isinstance(node, documented)}
    for node in ast.walk(tree):
        text = node.value if isinstance(node, ast.Constant) else None
        if isinstance(text, str) and " " in text and text not in described:
            yield text


@cache
def texts() -> dict[str, str]:
    """What people read, by the file it stands in."""
    found: dict[str, str] = {}
    for folder in ("training", "assessments", "certificates"):
        for path in sorted((ROOT / folder).rglob("*")):
            name = path.relative_to(ROOT).as_posix()
            if path.suffix == ".toml" and path.name not in (SOURCES, "glossary.toml"):
                found[name] = "\n".join(strings(tomllib.loads(path.read_text("utf-8"))))
            elif path.suffix == ".md":
                found[name] = path.read_text("utf-8")
            elif path.suffix == ".html":
                found[name] = visible(path.read_text("utf-8"))
            elif path.suffix == ".py":
                found[name] = "\n".join(sentences(path.read_text("utf-8")))
    return found


@pytest.mark.parametrize("word", WORDS, ids=[word["use"] for word in WORDS])
def test_nobody_says_a_word_that_lost(word: dict[str, Any]) -> None:
    lost = re.compile(rf"(?<![\w-])(?:{'|'.join(map(re.escape, word['not']))})(?![\w-])", re.IGNORECASE)

    said = {name: found for name, text in texts().items() if (found := lost.findall(text))}

    assert said == {}, f'say "{word["use"]}"'


@pytest.mark.parametrize("word", WORDS, ids=[word["use"] for word in WORDS])
def test_a_word_that_was_chosen_is_said_and_explained(word: dict[str, Any]) -> None:
    lessons = " ".join(text for name, text in texts().items() if name.endswith((".md", ".toml")))

    assert re.search(rf"(?<![\w-]){re.escape(word['use'])}", lessons, re.IGNORECASE)
    assert set(word) == {"use", "means", "not"}
    assert word["means"]


def test_no_word_is_chosen_and_lost() -> None:
    chosen = [word["use"].lower() for word in WORDS]
    lost = [other.lower() for word in WORDS for other in word["not"]]

    assert len(set(chosen + lost)) == len(chosen + lost)


def test_the_texts_that_are_read_are_all_kinds() -> None:
    assert {Path(name).suffix for name, text in texts().items() if text} == {".toml", ".md", ".html", ".py"}
