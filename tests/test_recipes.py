"""The README's recipes, done as they stand there in a copy of the tree, and every test that walks over all."""

import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
_BLOCK = re.compile(r"<!-- (put|append|into|line|run)(?: (\S+))? -->\n```\w+\n(.*?)```", re.DOTALL)
_LEFT_OUT = shutil.ignore_patterns(".*", "__pycache__")
_WALKS = ("-m", "walk", "-n", "0", "-p", "no:cacheprovider", "tests", "--ignore=tests/browser")


@dataclass(frozen=True)
class Step:
    """One thing to do: `put` a file, `append` to one, add lines `into` its last list, change a `line`, or `run` it."""

    how: str
    path: str
    text: str

    def do(self, tree: Path) -> None:
        """Do it in this tree."""
        file = tree / self.path
        match self.how:
            case "put":
                assert not file.exists()
                assert file.parent.is_dir()
                file.write_text(self.text, encoding="utf-8")
            case "append":
                file.write_text(f"{file.read_text(encoding='utf-8')}\n\n{self.text}", encoding="utf-8")
            case "into":
                before, close, after = re.split(r"^([\]}])$(?![\s\S]*^[\]}]$)", file.read_text("utf-8"), flags=re.M)
                file.write_text(f"{before}{self.text}{close}{after}", encoding="utf-8")
            case "line":
                name = self.text.partition("=")[0]
                old = next(line for line in file.read_text("utf-8").splitlines() if line.startswith(name))
                file.write_text(file.read_text("utf-8").replace(f"{old}\n", self.text), encoding="utf-8")
            case "run":
                subprocess.run(["sh", "-ec", self.text], cwd=tree, check=True)


def recipes() -> dict[str, list[Step]]:
    """The steps of each recipe by its heading."""
    _, _, text = README.partition("\n## Add to it\n")
    parts = re.split(r"(?m)^### ", text)[1:]
    return {part.partition("\n")[0]: [Step(*found) for found in _BLOCK.findall(part)] for part in parts}


RECIPES = recipes()
# all in one tree, for they know nothing of each other, and a walk takes minutes
TOGETHER = ("A clause", "A misconception", "A family of questions", "A lesson", "A country", "A page")


def test_there_is_a_recipe_for_each_kind_of_thing_one_adds() -> None:
    assert sorted(RECIPES) == sorted(TOGETHER)
    assert all(RECIPES.values())


def test_every_walk_passes_on_a_tree_with_the_recipes(tmp_path: Path) -> None:
    tree = shutil.copytree(ROOT, tmp_path / "tree", ignore=_LEFT_OUT)
    for name in TOGETHER:
        for step in RECIPES[name]:
            step.do(tree)

    # fewer proofs than usual: what is walked over counts here, not how often
    ran = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", *_WALKS],
        cwd=tree,
        env={**os.environ, "SOUND_CASING_EXAMPLES": "0.1", "PYTEST_ADDOPTS": ""},
        capture_output=True,
        text=True,
        check=False,
    )

    assert ran.returncode == 0, ran.stdout[-4000:]
    assert re.search(r"\d{3,} passed", ran.stdout)
