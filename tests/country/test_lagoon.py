"""A third country is data alone: an invented one is laid beside the others, does all they do, and leaves nothing.

Lagoon is made up, and so is everything in its files: its limits, its sizes and its scope of car and truck tires, which
no other edition has. Where an answer is expected it stands in those files.
"""

import json
import random
import shutil
from collections.abc import Iterator
from contextlib import suppress
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.checks import run_checks
from django.core.management import call_command

from assessments import acts as theory
from assessments.models import Attempt, FormItem
from assessments.questions import (
    CannotDraw,
    Item,
    NoSuchLimit,
    UnknownBlueprint,
    blueprint,
    blueprints_in,
    canonical,
    draw,
    family_names,
    right_answer,
)
from assessments.questions.blueprints import blueprint as blueprints
from certificates import acts
from certificates.queries import scope_of
from tests.evaluations import evaluate
from tests.factories import NOW, MembershipFactory, ShopFactory
from tests.pages import Visit, text_of
from tests.present import present
from tests.rulebook.cases import an_examined_case
from tests.rulebook.jobs import a_job, a_log
from tests.terms import terms_of
from training import course
from training.models import Shop, User
from training.rulebook import (
    EDITIONS,
    CaseError,
    RulebookError,
    audit,
    compare_text,
    decide,
    edition_names,
    edition_scopes,
    editions_in,
    load_edition,
    parse_case,
    parse_job,
)

LAGOON = Path(__file__).with_name("lagoon")
SCOPE = "lagoon-car-and-truck"
SIZES = {"165/70R14 81T", "185/60R15 84H", "215/55R17 94V", "275/70R22.5 148/145M", "295/80R22.5 152/148M"}


@pytest.fixture(scope="module", autouse=True)
def lagoon(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """The files of the invented country laid beside those of the product."""
    tree = tmp_path_factory.mktemp("tree")
    editions = shutil.copytree(EDITIONS, tree / "editions")
    shutil.copytree(LAGOON / "edition", editions / "lagoon")
    plans = shutil.copytree(Path(blueprints.__file__).parent, tree / "blueprints")
    shutil.copytree(LAGOON / "blueprints", plans, dirs_exist_ok=True)
    with editions_in(editions), blueprints_in(plans):
        yield
    assert "lagoon" not in edition_names()


@pytest.fixture
def shop(db: None) -> Shop:
    return ShopFactory.create(slug="reef-road", name="Reef Road Tires", edition="lagoon", units="mm")


@pytest.fixture
def learner(shop: Shop) -> User:
    return MembershipFactory.create(shop=shop, role="apprentice").user


def case(diameter: str, casing: str = "passenger", on: str = "2026-11-25", lateral: str = "0 mm") -> dict[str, Any]:
    tire = {"tread_width": "142 mm", "crown_thickness": "11 mm"}
    injury = {"diameter": diameter, "lateral": lateral}
    return {**an_examined_case(casing, tire=tire, injury=injury), "edition": "lagoon", "on": on}


def test_it_is_data_and_says_that_it_is_invented() -> None:
    files = [path for path in LAGOON.rglob("*") if path.is_file()]

    assert {path.suffix for path in files} == {".toml"}
    assert all(path.read_text().startswith("# INVENTED") for path in files)
    assert not [found for found in run_checks(tags=["training", "assessments"]) if "lagoon" in str(found.msg)]


@pytest.mark.parametrize(
    ("asked", "verdict"),
    [
        (case("5 mm"), "repair"),
        (case("5.1 mm"), "reject"),
        (case("4.1 mm", on="2026-09-30"), "reject"),  # until October a car's hole was at most 4 mm
        (case("8 mm", "truck"), "repair"),
        (case("8.1 mm", "truck"), "refer"),
        (case("4 mm", lateral="47 mm"), "repair"),  # 142 mm / 2 - 22 mm = 49 mm, less half the hole
        (case("4 mm", lateral="47.1 mm"), "reject"),
        (case("4 mm", "motorcycle"), "refer"),  # no rule of this country covers it
    ],
)
def test_it_decides_by_its_own_limits(asked: dict[str, object], verdict: str, tmp_path: Path) -> None:
    (tmp_path / "case.json").write_text(json.dumps(asked))
    out = StringIO()

    call_command("decide", str(tmp_path / "case.json"), stdout=out)

    assert (json.loads(out.getvalue())["edition"], json.loads(out.getvalue())["verdict"]) == ("lagoon", verdict)


# The trade rechecks after 50 to 100 mi, this country after 30 to 60 km.
@pytest.mark.parametrize(("recheck", "faults"), [("50 km", []), ("100 km", ["torque-recheck"])])
def test_it_audits_by_what_differs_here_of_what_the_trade_does(recheck: str, faults: list[str]) -> None:
    job = {**a_job(a_log(install={"recheck": recheck})), "edition": "lagoon", "case": case("5 mm")}

    assert [fault.clause for fault in audit(parse_job(job)).faults] == faults


def test_its_versions_differ_by_the_value_that_is_dated() -> None:
    before, after = load_edition("lagoon", version="2026.1"), load_edition("lagoon")

    assert "at most 4 mm; otherwise reject" in compare_text(before, after)
    assert list(before.clauses) == list(after.clauses)
    assert "recalled" not in after.clauses  # the trade has it, this country leaves it out
    assert after.clause("torque-recheck").kind == "law"


def test_most_families_draw_in_it_about_its_own_sizes() -> None:
    drawn: list[Item] = []
    for name in family_names():
        with suppress(NoSuchLimit, CannotDraw):  # it sets no limit on what the family asks, or has too few
            drawn.append(draw(name, seed="1", edition=load_edition("lagoon"), casings=("passenger", "truck")))
    named = {parse_case(item.case).tire.designation for item in drawn if item.case}

    assert len(drawn) > 50
    assert {item.edition for item in drawn} == {"lagoon"}
    assert len(named & SIZES) == len(SIZES)


def test_the_command_draws_in_it() -> None:
    out = StringIO()

    call_command("draw", "size-verdict", count="5", seed="1", edition="lagoon", stdout=out)

    items = [json.loads(line) for line in out.getvalue().splitlines()]
    assert len(items) == 5
    assert all(any(size in item["stem"] for size in SIZES) for item in items)


@pytest.mark.parametrize(
    ("lesson", "printed"),
    [
        ("measure-and-choose/measure-the-injury", "At most 5 mm"),
        ("measure-and-choose/where-it-may-be", "The whole hole inside the crown"),
        ("inspect-and-reject/tread-and-wear", "At least 3 mm"),
    ],
)
def test_a_lesson_prints_its_limits(lesson: str, printed: str, visit: Visit, shop: Shop, learner: User) -> None:
    page = visit(f"/shop/{shop.slug}/course/{lesson}/", as_role=learner)

    assert printed in text_of(page)
    assert "1/4 in" not in text_of(page)


def test_every_lesson_fits_it() -> None:
    course.check(load_edition("lagoon"))


@pytest.mark.parametrize("page", ["rulebook", "house-rules", "scopes", "people", "roster", "check", "audit"])
def test_the_pages_of_its_shop_open(page: str, visit: Visit, shop: Shop) -> None:
    owner = MembershipFactory.create(shop=shop, role="owner").user

    answer = visit(f"/shop/{shop.slug}/{page}/", as_role=owner)

    assert answer.status_code == 200
    assert "north america" not in text_of(answer).lower()


def test_practice_asks_by_it(visit: Visit, shop: Shop, learner: User) -> None:
    started = visit(f"/shop/{shop.slug}/practice/start/", as_role=learner, post={"skill": "size-limits"})

    assert visit(started["Location"], as_role=learner).status_code == 200
    assert {item.snapshot["edition"] for item in FormItem.objects.all()} == {"lagoon"}


def test_an_assessment_and_a_certificate_are_of_its_scope(visit: Visit, shop: Shop, learner: User) -> None:
    people = [MembershipFactory.create(shop=shop, role=role).user for role in ("trainer", "owner")]
    scope = scope_of(shop)

    attempt = theory.start_assessment(shop=shop, learner=learner, terms=terms_of(shop), at=NOW)
    for item in FormItem.objects.filter(form=attempt.form):
        right = canonical(right_answer(Item.from_json(item.snapshot)))
        theory.record_response(attempt=attempt, position=item.position, answer=right, revision=0, at=NOW)
    theory.hand_in(attempt=attempt, at=NOW)
    evaluate(shop, learner, people[0], scope=scope)
    made = acts.issue_certificate(
        shop=shop, holder=learner, issuer=people[1], scope=scope, at=NOW, rng=random.Random("lagoon")
    )

    asked = [item.snapshot for item in FormItem.objects.filter(form=attempt.form)]
    assert Attempt.objects.get().outcome == "passed"
    assert len(asked) == 40
    assert {item["edition"] for item in asked} == {"lagoon"}
    assert (scope.slug, made.casings) == (SCOPE, ["passenger", "truck"])
    verified = text_of(visit(visit(f"/c/{made.number}/")["Location"]))
    assert "Rulebook Lagoon, version 2026.2" in verified
    assert "Puncture repair, car and truck tires, Lagoon" in verified


def test_without_its_files_nothing_of_it_is_left() -> None:
    with editions_in(EDITIONS), blueprints_in(Path(blueprints.__file__).parent):
        assert list(edition_names()) == ["north-america", "united-kingdom"]
        assert edition_scopes("lagoon") == ()
        with pytest.raises(RulebookError, match='"lagoon" is not an edition; choose north-america, united-kingdom'):
            load_edition("lagoon")
        with pytest.raises(CaseError, match='"lagoon" is not accepted'):
            parse_case(case("5 mm"))
        with pytest.raises(UnknownBlueprint):
            blueprint(SCOPE)
        assert decide({**case("5 mm"), "edition": "united-kingdom"}).edition == "united-kingdom"
    assert present(blueprint(SCOPE)).edition == "lagoon"
