"""What makes a question hard, counted by hand for questions made here, and given for every family."""

import shutil
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from assessments.questions import (
    casing_of,
    draw,
    families_of,
    family_names,
    family_version,
    misconceptions,
    traits_of,
)
from assessments.questions.drafts.template import template_of
from assessments.questions.draws import traits as traits_module
from assessments.questions.draws import versions
from assessments.questions.items.item import Option
from tests.factories import an_item
from training.rulebook import MEASURES, Edition, load_edition
from training.trade.speech import LANGUAGES, hearing, in_language, say, saying

FAMILIES = [(name, place) for place in ("north-america", "united-kingdom") for name in families_of(load_edition(place))]


def traits(edition: Edition, prefer: str = "in", **facts: Any) -> Any:
    return traits_of(an_item(**facts), edition=edition, prefer=prefer)


def a_hole(diameter: str, **more: Any) -> dict[str, Any]:
    injury = {"id": "A", "kind": "puncture", "diameter": diameter, **more}
    return {"tire": {"casing": "passenger", "outer_groove": "60 mm", "tread_width": "160 mm"}, "injuries": [injury]}


class TestTheLimit:
    """A fabric body takes a hole of 1/4 in (6 mm) at most; a rule shows 32nds of an inch, or half millimeters."""

    @pytest.mark.parametrize(
        ("diameter", "prefer", "steps"),
        [("9/32 in", "in", 1), ("1/4 in", "in", 0), ("1/8 in", "in", 4), ("7 mm", "mm", 2), ("4.5 mm", "mm", 3)],
    )
    def test_is_so_many_marks_away(self, edition, diameter, prefer, steps) -> None:
        stem = f"A hole of {diameter}.\nWhat now?"

        assert traits(edition, prefer, stem=stem, case=a_hole(diameter)).limit_steps == steps

    def test_is_read_in_the_unit_that_the_question_tells_and_not_in_the_shop_s(self, edition) -> None:
        stem = "A hole of 7 mm.\nWhat now?"

        assert traits(edition, "in", stem=stem, case=a_hole("7 mm")).limit_steps == 2

    def test_has_no_distance_where_nothing_was_measured(self, edition) -> None:
        assert traits(edition, case={"tire": {"casing": "passenger"}}).limit_steps is None
        assert traits(edition, case=None).limit_steps is None


class TestComputing:
    def test_a_size_is_held_against_its_limit_as_it_is(self, edition) -> None:
        assert traits(edition).computing == 0

    def test_a_family_that_has_something_computed_says_how_much(self, edition) -> None:
        # the height of the section, twice, and the rim: three sums
        assert traits(edition, family="overall-diameter").computing == 3

    def test_is_kept_for_families_and_quantities_that_there_are(self) -> None:
        table = tomllib.loads(Path(traits_module.__file__).with_name("computing.toml").read_text("utf-8"))

        assert table["family"].keys() <= set(family_names())
        assert table["quantity"].keys() <= MEASURES.keys()

    def test_where_no_number_decides_there_is_nothing_to_compute(self, edition) -> None:
        line = {**an_item().explanation[0], "clause": "bulge"}

        assert traits(edition, explanation=(line,), distractors={}).computing is None


def test_the_rules_that_decide_are_counted_and_those_that_hold_beside_them_are_not(edition) -> None:
    line = an_item().explanation[0]
    beside = [{**line, "clause": name, "holds": True} for name in ("injury-angle", "tread-depth")]

    assert traits(edition, explanation=(line, *beside)).cues == 1
    assert traits(edition, explanation=(line, {**beside[0], "holds": False})).cues == 2
    assert traits(edition, explanation=()).cues is None


class TestConversions:
    @pytest.mark.parametrize(
        ("told", "changes"),
        [
            ("5 mm wide, the limit is 6 mm", 0),
            ("5 mm wide, the limit is 1/4 in", 1),
            ("at most 1/4 in (6 mm)", 0),
            ("29 psi at the tire, 230 kPa on the placard, a hole of 5 mm", 1),
            ("29 psi at the tire, 230 kPa on the placard, a hole of 5 mm, 1/4 in allowed", 2),
            ("nothing measured", None),
            ("inside the 3 inner tires", None),
        ],
    )
    def test_are_the_systems_beyond_the_first_of_each_kind_of_measure(self, edition, told, changes) -> None:
        stem = f"Told: {told}.\nWhat now?"

        assert traits(edition, stem=stem).conversions == changes


class TestIrrelevant:
    def test_is_a_measure_that_is_told_and_that_no_deciding_rule_reads(self, edition) -> None:
        case = a_hole("9 mm", lateral="20 mm")

        assert traits(edition, stem="A hole, 9 mm wide.\nWhat now?", case=case).irrelevant == 0
        assert traits(edition, stem="9 mm wide, 20 mm out, tread 160 mm.\nWhat now?", case=case).irrelevant == 2

    def test_has_no_meaning_where_no_measure_is_told(self, edition) -> None:
        assert traits(edition, stem="A hole.\nWhat now?", case=a_hole("9 mm")).irrelevant is None


def test_the_words_to_read_are_those_of_the_stem_and_of_all_answers(edition) -> None:
    options = (Option("1", "Repair it"), Option("2", "Take it out of service"))

    assert traits(edition, stem="One two three.\nFour five?", options=options).words == 5 + 2 + 5


@pytest.mark.parametrize(("name", "place"), FAMILIES)
def test_every_family_has_the_same_six_and_its_sentence(name, place) -> None:
    edition = load_edition(place)
    item = draw(name, seed="traits", edition=edition)
    found = traits_of(item, edition=edition, prefer="in")

    assert found.words is not None
    assert found.words > 0
    for number in (found.limit_steps, found.computing, found.cues, found.conversions, found.irrelevant):
        assert number is None or number >= 0
    assert len(item.template) == 12
    case: Any = item.case or {}
    assert casing_of(item) == (case["tire"]["casing"] if "tire" in case else "")
    for secret in ("template", "traits", item.template):
        assert secret not in str(item.open().to_json())


class TestTemplate:
    SENTENCE = "How wide is {what}?"

    def test_is_the_sentence_and_not_what_fills_it(self) -> None:
        with hearing() as heard:
            templates = {template_of(say(self.SENTENCE, what=what), heard) for what in ("A", "B and C", "")}
            other = template_of(say("How long is {what}?", what="A"), heard)

        assert len(templates) == 1
        assert other not in templates

    def test_is_the_same_in_every_language(self) -> None:
        found = set()
        for tag in LANGUAGES:
            with in_language(tag), hearing() as heard:
                found.add(template_of(say("Which tire may run?"), heard))
                found.add(template_of(saying("Which tire may run?"), {}))

        assert len(found) == 1

    def test_is_that_of_all_the_sentences_a_question_is_made_of(self) -> None:
        with hearing() as heard:
            first, second = say("Look at {what}.", what="A"), say(self.SENTENCE, what="A")
            both = template_of(f"{first} {second}", heard)
            again = template_of(f"{say('Look at {what}.', what='B')} {say(self.SENTENCE, what='B')}", heard)

        assert both == again
        assert both not in (template_of(first, heard), template_of(second, heard))

    def test_of_a_family_is_one_for_each_sentence_it_asks_in(self, edition) -> None:
        items = [draw("size-verdict", seed=f"said {number}", edition=edition) for number in range(12)]

        questions = {item.open().question for item in items}
        assert len(questions) == 2
        assert len({(item.template, item.open().question) for item in items}) == len({item.template for item in items})


class TestVersions:
    @pytest.fixture
    def copied(self, tmp_path, monkeypatch) -> Iterator[Path]:
        """The questions' code and data in a place where they can be changed."""
        root = tmp_path / "questions"
        shutil.copytree(versions._ROOT, root, ignore=shutil.ignore_patterns("__pycache__"))
        monkeypatch.setattr(versions, "_ROOT", root)
        versions.family_version.cache_clear()
        versions._imports.cache_clear()
        yield root
        versions.family_version.cache_clear()

    def all_of_them(self) -> dict[str, str]:
        versions.family_version.cache_clear()
        versions._imports.cache_clear()
        return {name: family_version(name) for name in family_names()}

    def changed_by(self, path: Path) -> set[str]:
        before = self.all_of_them()
        path.write_text(path.read_text() + "\n# another line\n")
        after = self.all_of_them()
        return {name for name in before if before[name] != after[name]}

    def test_differ_between_families_and_stay_while_nothing_changes(self, copied) -> None:
        once = self.all_of_them()

        assert once == self.all_of_them()
        assert len(set(once.values())) == len(once)

    def test_change_with_the_family_s_own_file_alone(self, copied) -> None:
        assert self.changed_by(copied / "families/installation/drying.py") == {"drying"}

    def test_change_with_what_several_families_share(self, copied) -> None:
        changed = self.changed_by(copied / "cases/two_holes.py")

        assert "size-verdict" in changed
        assert "drying" not in changed

    def test_change_with_the_data_beside_the_code(self, copied) -> None:
        changed = self.changed_by(copied / "work/facts.toml")

        assert "safety-statements" in changed
        assert "size-verdict" not in changed

    def test_change_with_what_a_wrong_answer_believes(self, copied, monkeypatch) -> None:
        before = self.all_of_them()
        known = dict(misconceptions())
        known["size-does-not-matter"] = replace(known["size-does-not-matter"], alteration={}, beyond="not computed")
        monkeypatch.setattr(versions, "misconceptions", lambda: known)
        after = self.all_of_them()

        assert before["size-verdict"] != after["size-verdict"]
        assert before["gauge-reading"] == after["gauge-reading"]
