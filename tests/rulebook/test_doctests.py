"""The examples in the rulebook's docstrings run."""

import doctest
import importlib
import pkgutil
import subprocess
import sys

import pytest

import training.rulebook

MODULES = [
    module.name
    for module in pkgutil.walk_packages(training.rulebook.__path__, prefix="training.rulebook.")
    if module.name
]


@pytest.mark.parametrize("name", MODULES)
def test_examples_in_docstrings_hold(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name))

    assert result.failed == 0


def test_some_examples_are_there_to_run() -> None:
    assert sum(doctest.testmod(importlib.import_module(name)).attempted for name in MODULES) >= 15


def test_the_rulebook_is_pure() -> None:
    code = "import sys, training.rulebook; sys.exit('django' in sys.modules)"

    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
