"""The README's commands and worked examples, run as they stand there."""

import re
import shutil
import sys
import tomllib
from importlib.util import module_from_spec, spec_from_loader
from pathlib import Path

import pytest

from assessments.questions import draw
from assessments.questions.drafts import family as drafts_family
from assessments.questions.draws import registry
from assessments.questions.mistakes.misconceptions import parse_misconceptions
from training import course
from training.course.loader import parse_lesson
from training.rulebook import decide, load_edition
from training.rulebook.edition import read_edition

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


def test_the_clause_of_the_readme_decides_on_both_sides_of_its_limit(tmp_path: Path) -> None:
    folder = shutil.copytree(ROOT / "training/rulebook/editions", tmp_path / "editions") / "north-america"
    (folder / "own.toml").write_text(block_after("example: clause"), encoding="utf-8")
    edition = read_edition(folder)

    def verdict(angle: str) -> bool:
        injury = {"kind": "puncture", "diameter": "4 mm", "lateral": "0 mm", "angle": angle, "azimuth": "90 deg"}
        case = {"purpose": "repair", "on": "2026-11-25", "tire": {"casing": "passenger"}, "injuries": [injury]}
        decision = decide(case, edition=edition)
        return next(ruling.holds for ruling in decision.rulings if ruling.clause == "steep-channel")

    assert verdict("60 deg")
    assert not verdict("61 deg")
    assert "steep-channel" not in load_edition("north-america").clauses


def lengths_in(text: str) -> list[str]:
    """What the text measures, whatever words stand around it."""
    return re.findall(r"\d[\d/ ]*(?:in|mm)\b", text)


def at_least_words(text: str) -> list[str]:
    """Words that would turn the largest hole into the smallest."""
    return re.findall(r"\bat least\b|\bless than\b|(?<!no )\bmore than\b|\bfrom\b", text.lower())


def test_the_family_of_the_readme_draws_questions(monkeypatch: pytest.MonkeyPatch) -> None:
    source = block_after("example: family")
    name = "assessments.questions.families.readme_example"
    spec = spec_from_loader(name, loader=None)
    assert spec is not None
    module = module_from_spec(spec)
    registry.family_names()
    monkeypatch.setattr(drafts_family, "REGISTERED", dict(drafts_family.REGISTERED))
    monkeypatch.setattr(registry, "_discovered", lambda: drafts_family.REGISTERED)
    monkeypatch.setitem(sys.modules, name, module)

    exec(compile(source, name, "exec"), module.__dict__)

    assert len(source.splitlines()) <= 80
    for seed in map(str, range(50)):
        item = draw("largest-hole", seed=seed, edition=load_edition("north-america"))
        right = next(option.text for option in item.options if option.id == item.key)
        # Source: US association puncture repair procedures, passenger and light truck (wall chart)
        assert lengths_in(right) == ["1/4 in", "6 mm"]
        assert not at_least_words(right)
        assert all(item.distractors[option.id] for option in item.options if option.id != item.key)


def test_the_misconception_of_the_readme_alters_the_rulebook() -> None:
    folder = ROOT / "assessments/questions/mistakes"
    known = (folder / "size.toml").read_text(encoding="utf-8")
    belief = parse_misconceptions(known + block_after("example: misconception"), "size.toml")["a-quarter-over"]

    believed = load_edition("north-america").believed(belief.alteration)

    assert believed.clause("injury-size").limit_text() == "at most 5/16 in (7.5 mm)"
    assert belief.lesson in {f"{module.slug}/{lesson.slug}" for module in course.modules() for lesson in module.lessons}


def test_the_lesson_of_the_readme_prints_its_limit_from_the_rulebook() -> None:
    lesson = parse_lesson(block_after("example: lesson"), module="measure-and-choose", slug="one-last-look")

    page = course.render(lesson, edition=load_edition("north-america"), prefer="in")

    assert page.html.count("1/4 in (6 mm)") >= 2
    assert page.clauses == ("injury-size",)
