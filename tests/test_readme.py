"""The README's commands and worked examples, run as they stand there."""

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block_after(mark: str) -> str:
    found = re.search(rf"<!-- {re.escape(mark)} -->\n```\w+\n(.*?)```", README, flags=re.DOTALL)
    assert found, f"README.md: no block after <!-- {mark} -->"
    return found[1]


def test_each_command_is_one_line_that_makes_the_environment_and_runs_a_program_of_ours() -> None:
    extras = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["optional-dependencies"]

    for mark, program in (("demo", "manage.py demo"), ("tests", "pytest")):
        (line,) = block_after(mark).strip().splitlines()
        assert line.startswith("python3 -m venv .venv && ")
        assert program in line
        assert (ROOT / ".ci/constraints.txt").exists()
        for extra in re.findall(r"\.\[(\w+)\]", line):
            assert extra in extras
