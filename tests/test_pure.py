"""What computes needs no Django, and the examples in its docstrings run."""

import doctest
import importlib
import pkgutil
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

PACKAGES = (
    "training.trade",
    "training.rulebook",
    "training.drawings",
    "training.pictures",
    "training.course",
    "assessments.questions",
    "certificates.documents",
)


def modules_of(package: str) -> list[str]:
    path = importlib.import_module(package).__path__
    return [package, *(module.name for module in pkgutil.walk_packages(path, prefix=f"{package}."))]


@pytest.mark.parametrize("package", PACKAGES)
def test_every_module_loads_without_django(package: str) -> None:
    code = (
        f"import importlib, sys; [importlib.import_module(name) for name in {modules_of(package)!r}]; "
        "sys.exit('django' in sys.modules)"
    )

    assert subprocess.run([sys.executable, "-c", code], cwd=Path(__file__).parents[1], check=False).returncode == 0


@pytest.mark.parametrize("package", PACKAGES)
def test_examples_in_docstrings_hold(package: str) -> None:
    results = [doctest.testmod(importlib.import_module(name)) for name in modules_of(package)]

    assert sum(result.failed for result in results) == 0


def test_some_examples_are_there_to_run() -> None:
    results = [doctest.testmod(importlib.import_module(name)) for name in modules_of("training.rulebook")]

    assert sum(result.attempted for result in results) >= 15
