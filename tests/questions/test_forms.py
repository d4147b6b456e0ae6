"""Forms from a blueprint, practice on a skill, and the files behind them."""

import json
import shutil
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from assessments.questions import (
    FORMATS,
    Blueprint,
    UnknownBlueprint,
    UnknownFamily,
    blueprint,
    blueprint_names,
    blueprints_in,
    draw,
    draw_form,
    draw_practice,
    draw_series,
    families_of,
    family,
    family_names,
    parts_of,
)
from assessments.questions.blueprints import blueprint as blueprints
from assessments.questions.blueprints.blueprint import BlueprintError, parse_blueprint
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.sampling import CannotDraw
from assessments.questions.mistakes.misconceptions import MisconceptionError, misconceptions, parse_misconceptions
from assessments.questions.work.facts import facts
from tests.questions.many import forms_of
from training.rulebook import load_edition
from training.trade.words import SKILLS

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

PLAN = blueprint("north-america-light")


@pytest.fixture(params=blueprint_names())
def plan(request: pytest.FixtureRequest) -> Blueprint:
    """Each built-in blueprint in turn."""
    return blueprint(request.param)


@pytest.mark.parametrize("name", ["north-america-light", "north-america-steel", "united-kingdom-light"])
def test_a_built_in_form_is_sixty_questions_over_all_ten_skills(name) -> None:
    plan = blueprint(name)
    # 81 % of 60 are 48.6: 49 have to be right
    assert (plan.count, plan.minutes, plan.pass_percent, plan.needed) == (60, 90, 81, 49)
    assert (plan.unsafe_allowed, plan.alike_allowed, plan.attempts) == (2, 1, 3)
    # half of the questions on safety
    assert (plan.safety_percent, plan.rule.needed_of_safety(6)) == (50, 3)
    assert plan.wait_hours > 0
    assert "by simulation" in plan.note
    assert set(plan.skills()) == set(SKILLS)
    assert min(plan.skills().values()) >= 3
    assert max(cell.count for cell in plan.cells) <= 4


def test_a_form_follows_its_blueprint_and_asks_nothing_twice(plan) -> None:
    for form in forms_of(plan.name):
        assert Counter(item.family for item in form) == {cell.family: cell.count for cell in plan.cells}
        assert len({item.content for item in form}) == len(form)
        assert {item.format for item in form} == set(FORMATS)


def test_a_form_comes_again_from_its_secret_and_from_nothing_else(edition) -> None:
    def content(secret: bytes, form_id: str) -> list[dict[str, object]]:
        return [item.to_json() for item in draw_form(PLAN, secret=secret, form_id=form_id, edition=edition)]

    assert content(b"kept", "7") == content(b"kept", "7")
    assert content(b"kept", "7") != content(b"guessed", "7")
    assert content(b"kept", "7") != content(b"kept", "8")


def test_the_skills_of_a_form_are_mixed(plan) -> None:
    form = forms_of(plan.name)[0]

    changes = sum(one.skill != other.skill for one, other in pairwise(form))
    assert changes > 25


def test_the_parts_of_a_case_stand_together_in_their_order_and_share_one_tire() -> None:
    parts = parts_of("whole-case")
    assert len(parts) == 6
    for form in forms_of(PLAN.name)[:12]:
        places = [place for place, item in enumerate(form) if item.family in parts]

        assert places == list(range(places[0], places[0] + len(parts)))
        asked = form[places[0] : places[0] + len(parts)]
        assert tuple(item.family for item in asked) == parts
        assert len({json.dumps(item.case) for item in asked}) == 1
        assert len({item.stem.split(": ")[1].split("\n")[0] for item in asked}) == 1
        assert {item.format for item in asked} == set(FORMATS)


def test_a_case_can_be_drawn_alone_and_comes_again_from_its_seed(edition) -> None:
    case = draw_series("whole-case", seed="1", edition=edition)

    assert [item.family for item in case] == list(parts_of("whole-case"))
    assert case == draw_series("whole-case", seed="1", edition=edition)
    assert case[0].case != draw_series("whole-case", seed="2", edition=edition)[0].case
    # A part drawn again from its own seed is still of the same tire.
    assert [draw(item.family, seed=item.seed, edition=edition) for item in case] == case
    with pytest.raises(CannotDraw, match='series: "nope" is not known; choose whole-case'):
        draw_series("nope", seed="1", edition=edition)


def test_practice_on_a_skill_asks_no_part_of_a_case(edition) -> None:
    for skill in SKILLS:
        items = draw_practice(skill, seed="alone", count=20, edition=edition)
        assert not [item for item in items if family(item.family).series]


@pytest.mark.parametrize("skill", SKILLS)
def test_every_skill_can_be_practiced_on_different_questions(skill, edition) -> None:
    items = draw_practice(skill, seed="today", count=12, edition=edition)

    assert {item.skill for item in items} == {skill}
    assert len({item.content for item in items}) == 12
    assert items == draw_practice(skill, seed="today", count=12, edition=edition)
    assert items != draw_practice(skill, seed="tomorrow", count=12, edition=edition)


def test_named_families_take_turns_in_practice(edition) -> None:
    items = draw_practice(["doubt", "drying"], seed="1", count=4, edition=edition, prefer="mm")

    assert Counter(item.family for item in items) == {"doubt": 2, "drying": 2}


def test_families_over_all_skills_and_formats_stand() -> None:
    assert len(family_names()) >= 24
    assert {family(name).skill for name in family_names()} == set(SKILLS)
    assert {form for name in family_names() for form in family(name).formats} == set(FORMATS)


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda edition: family("nope"), UnknownFamily, 'family: "nope" is not known; choose after-the-cutter, '),
        (
            lambda edition: blueprint("nope"),
            UnknownBlueprint,
            f'blueprint: "nope" is not known; choose {", ".join(blueprint_names())}',
        ),
        (
            lambda edition: draw("doubt", seed="1", edition=edition, prefer="cm"),
            CannotDraw,
            'prefer: "cm" is not accepted; choose in or mm',
        ),
        (
            lambda edition: draw_practice("cooking", seed="1", count=1, edition=edition),
            CannotDraw,
            'skill: "cooking" is not accepted; choose rejecting-conditions, ',
        ),
        (lambda edition: draw_practice("safety", seed="1", count=0, edition=edition), CannotDraw, "0 items of"),
        (
            lambda edition: draw("torque-recheck", seed="1", edition=edition.altered(without=["torque-recheck"])),
            NoSuchLimit,
            'family "torque-recheck": edition north-america 2026.1 has no limit for job.torque_recheck (passenger)',
        ),
        (
            lambda edition: item_family("x", title="X", skill="cooking", formats=("one",), lesson="a/b"),
            ValueError,
            'family "x", skill: "cooking" is not accepted; choose rejecting-conditions, ',
        ),
        (
            lambda edition: item_family("x", title="X", skill="safety", formats=("essay",), lesson="a/b"),
            ValueError,
            "is not accepted; choose one, several, number, order, place, fault",
        ),
    ],
)
def test_a_refusal_names_the_value_and_what_is_accepted(call, error, words, edition) -> None:
    with pytest.raises(error) as refusal:
        call(edition)

    assert words in str(refusal.value)


ENTRY = """scope = "north-america-light"
minutes = 10
pass_percent = 80
safety_percent = 0
unsafe_allowed = 0
alike_allowed = 0
attempts = 2
wait_hours = 1
note = "For a test."
cell = [{ family = "doubt", count = 3 }]
"""


def test_a_pass_percentage_is_rounded_up() -> None:
    # 80 % of 3 questions are 2.4: three have to be right.
    assert parse_blueprint(ENTRY, "small.toml").needed == 3


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("minutes = 10", "minutes = 0", "minutes: 0 is not accepted; give a whole number from 1 to 600"),
        ("minutes = 10", 'minutes = "ten"', 'minutes: "ten" is not accepted'),
        ("minutes = 10\n", "", "minutes: is missing"),
        ("pass_percent = 80", "pass_percent = 101", "pass_percent: 101 is not accepted"),
        ("attempts = 2", "attempts = true", "attempts: True is not accepted"),
        ('"north-america-light"', '"bicycles"', f'scope: "bicycles" is not accepted; choose {blueprint_names()[0]}, '),
        ("minutes = 10", "minutes 10", "is not TOML"),
        ("doubt", "nope", 'cell, family: "nope" is not accepted; choose after-the-cutter, '),
        ("count = 3", "count = 0", "count: 0 is not accepted"),
        (
            "note =",
            "color = 1\nnote =",
            "color: is not a field; the fields here are alike_allowed, attempts, ",
        ),
        ('cell = [{ family = "doubt", count = 3 }]', "cell = []", "cell: give each family once, and at least one"),
    ],
)
def test_a_wrong_blueprint_is_refused_with_field_and_value(old, new, words) -> None:
    with pytest.raises(BlueprintError) as refusal:
        parse_blueprint(ENTRY.replace(old, new), "small.toml")

    assert str(refusal.value).startswith("small.toml: ")
    assert words in str(refusal.value)


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"title = '\xe9'", "is not TOML: 'utf-8' codec can't decode"),
        (b"deep = " + b"[" * 100_000, "is not TOML: maximum recursion depth"),
        (b"minutes = 60", "scope: is missing"),
    ],
)
def test_a_wrong_blueprint_is_named_and_the_others_go_on(content: bytes, words: str, tmp_path: Path) -> None:
    plans = shutil.copytree(Path(blueprints.__file__).parent, tmp_path / "plans")
    (plans / "united-kingdom-light.toml").write_bytes(content)
    known = blueprint_names()

    with blueprints_in(plans):
        (problem,) = blueprints.broken_blueprints()
        assert blueprint_names() == tuple(one for one in known if one != "united-kingdom-light")
    assert problem.startswith(f"united-kingdom-light.toml: {words}")


BELIEF = """[[misconception]]
id = "small"
title = "Small"
statement = "Small is fine."
refutation = "It is not."
lesson = "a/b"
beyond = "it is about size"
"""


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ('title = "Small"\n', "", "title: nothing is not accepted; give a text"),
        ('beyond = "it is about size"', "", "give either alteration or beyond"),
        (
            "beyond =",
            "alteration = { drops = [] }\nbeyond =",
            'alteration: "drops" is not accepted; choose without, limits',
        ),
        ("lesson =", "color = 1\nlesson =", "color: is not a field; the fields here are alteration, beyond, id, "),
        (BELIEF, BELIEF + BELIEF, "stands twice"),
    ],
)
def test_a_wrong_misconception_is_refused_with_field_and_value(old, new, words) -> None:
    with pytest.raises(MisconceptionError) as refusal:
        parse_misconceptions(BELIEF.replace(old, new), "small.toml")

    assert 'small.toml: misconception "small"' in str(refusal.value)
    assert words in str(refusal.value)


def test_every_statement_of_the_bench_names_a_step_or_limit_that_the_edition_has(edition) -> None:
    steps = {step.id for step in edition.procedure}
    for fact in facts():
        assert fact.wrong in misconceptions()
        if fact.step or fact.clause:
            assert fact.step in {*steps, ""}
            assert fact.clause in {*edition.clauses, ""}
        else:
            casing = fact.casings[0] if fact.casings else "passenger"
            assert fact.because or edition.limit(fact.quantity, casing) is not None


def test_every_lesson_to_read_again_is_in_the_course() -> None:
    from training import course

    lessons = {f"{module.slug}/{lesson.slug}" for module in course.modules() for lesson in module.lessons}
    named = {family(name).lesson for name in family_names()} | {wrong.lesson for wrong in misconceptions().values()}
    assert named <= lessons


def test_a_built_in_form_asks_only_what_its_rulebook_has_of_its_tires(plan) -> None:
    able = families_of(load_edition(plan.edition), plan.casings)

    assert {cell.family for cell in plan.cells} <= set(able)
