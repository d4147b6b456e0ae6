"""What every act does while it holds the writer's lock: rows read, checked and written, and nothing computed.

On SQLite one lock stands before all writers, so what one act does under it everybody else waits for. The time is held
by calls of Python functions, which a busy machine does not change.
"""

import inspect
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import timedelta
from functools import partial
from itertools import count, cycle
from pathlib import Path
from types import FrameType, ModuleType
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection, transaction
from django.utils.module_loading import import_string

import assessments.acts
import certificates.acts
import training.acts
from assessments.acts.blueprints import keep_blueprint
from assessments.models import Attempt, FormItem
from assessments.queries import terms_in_edition
from assessments.questions import Item, canonical, draw, right_answer
from certificates.acts import criterion_keys
from certificates.models import Certificate, HandsOn
from tests.factories import (
    NOW,
    AssignmentFactory,
    AttemptFactory,
    DrawFlagFactory,
    FamilyOffFactory,
    InvitationFactory,
    MembershipFactory,
    NoticeFactory,
    RepairUnitFactory,
)
from tests.factories_certificates import SCOPE, CertificateFactory, HandsOnFactory, add_event, passed_attempt
from tests.kept_checks import keep
from tests.terms import terms_of
from training.models import HouseRuleSet, RepairUnit, Role, Shop, TireCheck, User
from training.queries import edition_of
from training.rulebook import HouseRule, HouseRules

ROOT = Path(__file__).resolve().parents[1]
# what computes, and must be done before the lock is taken
COMPUTING = tuple(
    str(ROOT / place)
    for place in (
        "assessments/questions/cases",
        "assessments/questions/diagnosis",
        "assessments/questions/draws",
        "assessments/questions/families",
        "assessments/questions/items/marking",
        "assessments/questions/work",
        "certificates/documents",
        "training/course",
        "training/drawings",
        "training/pages",
        "training/rulebook",
    )
)
# On one core of a small server a thousand calls inside an act take 0.7 to 1 ms of CPU, and 5 ms is the most of all.
MOST_CALLS = {
    1_000: "put_away_notice withdraw_assignment withdraw_invitation end_unit switch_family_on settle_flag",
    2_000: "mark_lesson_read end_role record_response flag_draw type_answers withdraw_paper choose_scopes "
    "record_hands_on",
    3_000: "give_role assign switch_family_off",
    4_000: "change_shop set_house_rules accept_invitation invite close_overdue hand_in hand_in_paper start_practice "
    "suspend revoke restore",
    5_000: "add_unit open_shop keep_check give_extra_round start_assessment make_paper answer_practice "
    "issue_certificate",
}
BOUNDS = {name: most for most, names in MOST_CALLS.items() for name in names.split()}

Press = Callable[[], Any]
Told = dict[str, Any]

pytestmark = pytest.mark.django_db


@dataclass
class Held:
    """What ran while a transaction was open that the act had begun."""

    calls: int = 0
    computing: set[str] = field(default_factory=set)
    in_the_way: set[str] = field(default_factory=set)  # locks that whoever adds a row referring to theirs waits for


@pytest.fixture
def held() -> Callable[[Press], Held]:
    """`held(press)` presses, and says what ran under the lock."""

    def pressed(press: Press, look: Callable[[FrameType, str, object], None] | None) -> None:
        with transaction.atomic():
            sys.setprofile(look)
            try:
                press()
            finally:
                sys.setprofile(None)
            transaction.set_rollback(True)

    def watch(press: Press) -> Held:
        seen, outside = Held(), len(connection.atomic_blocks) + 1

        def look(frame: FrameType, event: str, _: object) -> None:
            if event != "call" or len(connection.atomic_blocks) <= outside:
                return
            code = frame.f_code
            seen.calls += "/psycopg/" not in code.co_filename  # which waits for the server, as SQLite's does not
            if code.co_filename.startswith(COMPUTING):
                seen.computing.add(f"{Path(code.co_filename).relative_to(ROOT)}: {code.co_qualname}")

        def read(execute: Any, sql: str, *given: Any) -> Any:
            if "FOR UPDATE" in sql:
                seen.in_the_way.add(sql)
            return execute(sql, *given)

        with connection.execute_wrapper(read):
            pressed(press, None)  # what a process does only once is done before
        pressed(press, look)
        return seen

    return watch


@dataclass
class Shopfloor:
    """A shop with its people, and what acts are pressed on."""

    shop: Shop
    apprentice: User
    trainer: User
    owner: User


def answers_to(attempt: Attempt) -> dict[int, str]:
    """An answer to each question drawn so far."""
    rows = FormItem.objects.filter(form=attempt.form_id).values_list("position", "snapshot")
    return {position: canonical(right_answer(Item.from_json(snapshot))) for position, snapshot in rows}


@pytest.fixture
def floor(own_shop: Shop, apprentice: User, trainer: User, owner: User) -> Shopfloor:
    return Shopfloor(own_shop, apprentice, trainer, owner)


def in_training(floor: Shopfloor) -> dict[Any, Press]:
    """Each act of training on what it needs, ready to be pressed."""
    acts, shop, owner = training.acts, floor.shop, floor.owner
    asked = InvitationFactory.create(shop=shop, invited_by=owner)
    unit: Told = {"kind": "one-piece", "length": "75 mm", "width": "65 mm", "stem_diameter": "1/4 in"}
    facts: Told = {"units": "mm", "time_zone": "America/Chicago", "certificate_months": 12}
    due = (NOW + timedelta(days=7)).date()
    rules = HouseRules((HouseRule("injury-size", ("5 mm",)),))
    assignment, notice = AssignmentFactory.create(shop=shop), NoticeFactory.create(shop=shop)
    shelved, open_one = RepairUnitFactory.create(shop=shop), InvitationFactory.create(shop=shop)
    return {
        acts.accept_invitation: partial(
            acts.accept_invitation, invitation=asked, person=None, name="Dana Reyes", password="seven-lug-nuts", at=NOW
        ),
        acts.add_unit: partial(
            acts.add_unit, shop=shop, name="medium", **unit, injury_max="6 mm", casings=["passenger"], by=owner, at=NOW
        ),
        acts.assign: partial(
            acts.assign,
            shop=shop,
            learners=[floor.apprentice],
            modules=["inspect-and-reject"],
            due_date=due,
            assigned_by=owner,
            at=NOW,
        ),
        acts.change_shop: partial(acts.change_shop, shop=shop, name="Quarry Road", **facts, public_check=True),
        acts.end_role: partial(acts.end_role, shop=shop, person=floor.trainer, role=Role.TRAINER, at=NOW),
        acts.end_unit: partial(acts.end_unit, unit=shelved, by=owner, at=NOW),
        acts.give_role: partial(acts.give_role, shop=shop, person=floor.apprentice, role=Role.TRAINER, at=NOW),
        acts.invite: partial(
            acts.invite, shop=shop, invited_by=owner, email="eli@shop.example", name="Eli", role=Role.TRAINER, at=NOW
        ),
        acts.keep_check: partial(keep, shop=shop, person=floor.apprentice),
        acts.mark_lesson_read: partial(
            acts.mark_lesson_read,
            shop=shop,
            learner=floor.apprentice,
            module="inspect-and-reject",
            lesson="off-the-wheel",
            content_version="v1",
            at=NOW,
        ),
        acts.open_shop: partial(
            acts.open_shop, name="Mill Road Tire", owner_email="mo@shop.example", owner_name="Mo", at=NOW
        ),
        acts.put_away_notice: partial(acts.put_away_notice, notice=notice, at=NOW),
        acts.set_house_rules: partial(
            acts.set_house_rules, shop=shop, rules=rules, reason="Stricter here.", by=owner, base=0, at=NOW
        ),
        acts.withdraw_assignment: partial(acts.withdraw_assignment, assignment=assignment, at=NOW),
        acts.withdraw_invitation: partial(acts.withdraw_invitation, invitation=open_one, at=NOW),
    }


def in_assessments(floor: Shopfloor) -> dict[Any, Press]:
    """Each act of assessments on the longest form there is, ready to be pressed."""
    acts, shop, terms = assessments.acts, floor.shop, terms_of(floor.shop)
    learners = [MembershipFactory.create(shop=shop).user for _ in range(10)]

    def sat(learner: User) -> Attempt:
        """An assessment with every question answered."""
        attempt = acts.start_assessment(shop=shop, learner=learner, terms=terms, at=NOW)
        for position, answer in answers_to(attempt).items():
            acts.record_response(attempt=attempt, position=position, answer=answer, revision=0, at=NOW)
        return attempt

    def paper(learner: User, *, typed: bool) -> Any:
        """A paper that is out, with every answer typed in or none."""
        made = acts.make_paper(shop=shop, learner=learner, terms=terms, made_by=floor.trainer, at=NOW)
        if typed:
            answers = answers_to(Attempt.objects.get(form=made.form))
            acts.type_answers(paper=made, answers=answers, typed_by=floor.trainer, at=NOW)
        return made

    used_up = learners[0]
    for days in (9, 6, 3):
        day = NOW - timedelta(days=days)
        AttemptFactory.create(
            not_passed=True,
            form__shop=shop,
            form__learner=used_up,
            form__blueprint=keep_blueprint(terms),
            started_at=day - timedelta(minutes=30),
            handed_in_at=day,
        )
    practice = acts.start_practice(shop=shop, learner=learners[1], skill="position", at=NOW)
    for position in range(1, 4):
        acts.answer_practice(attempt=practice, position=position, answer=answers_to(practice)[position], at=NOW)
    attempt, overdue, other = sat(learners[2]), sat(learners[3]), sat(learners[9])
    out, typed, unsat = paper(learners[4], typed=False), paper(learners[5], typed=True), paper(learners[6], typed=False)
    doubted = draw("size-verdict", seed="bench:1/1", edition=edition_of(shop))
    off, flag = FamilyOffFactory.create(shop=shop, family="drying"), DrawFlagFactory.create(shop=shop)
    why: Told = {"reason": "We send these out.", "by": floor.trainer, "at": NOW}
    return {
        acts.answer_practice: partial(
            acts.answer_practice, attempt=practice, position=4, answer=answers_to(practice)[4], at=NOW
        ),
        acts.choose_scopes: partial(
            acts.choose_scopes,
            shop=shop,
            scopes=[one.name for one in terms_in_edition(shop.edition)],
            by=floor.owner,
            at=NOW,
        ),
        acts.close_overdue: partial(
            acts.close_overdue, at=NOW + timedelta(days=1), shop=shop, learner=overdue.form.learner
        ),
        acts.flag_draw: partial(
            acts.flag_draw, shop=shop, item=doubted, comment="Too close.", by=floor.trainer, at=NOW
        ),
        acts.give_extra_round: partial(
            acts.give_extra_round,
            shop=shop,
            learner=used_up,
            terms=terms,
            given_by=floor.trainer,
            reason="Went through it.",
            at=NOW,
        ),
        acts.hand_in: partial(acts.hand_in, attempt=attempt, at=NOW),
        acts.hand_in_paper: partial(acts.hand_in_paper, paper=typed, at=NOW),
        acts.make_paper: partial(
            acts.make_paper, shop=shop, learner=learners[7], terms=terms, made_by=floor.trainer, at=NOW
        ),
        acts.record_response: partial(
            acts.record_response, attempt=other, position=1, answer="", revision=1, flag=True, at=NOW
        ),
        acts.settle_flag: partial(acts.settle_flag, flag=flag, by=floor.trainer, at=NOW),
        acts.start_assessment: partial(acts.start_assessment, shop=shop, learner=learners[8], terms=terms, at=NOW),
        acts.start_practice: partial(acts.start_practice, shop=shop, learner=learners[1], skill="whole-case", at=NOW),
        acts.switch_family_off: partial(acts.switch_family_off, shop=shop, family_name="size-verdict", **why),
        acts.switch_family_on: partial(
            acts.switch_family_on, shop=shop, family_name=off.family, by=floor.trainer, at=NOW
        ),
        acts.type_answers: partial(
            acts.type_answers,
            paper=out,
            answers=answers_to(Attempt.objects.get(form=out.form)),
            typed_by=floor.trainer,
            at=NOW,
        ),
        acts.withdraw_paper: partial(
            acts.withdraw_paper, paper=unsat, reason="Nobody sat it.", by=floor.trainer, at=NOW
        ),
    }


def in_certificates(floor: Shopfloor) -> dict[Any, Press]:
    """Each act of certificates on what it needs, ready to be pressed."""
    acts, shop, edition = certificates.acts, floor.shop, edition_of(floor.shop)
    passed_attempt(shop, floor.apprentice)
    HandsOnFactory.create(shop=shop, learner=floor.apprentice)
    marks = {key: acts.MET for key, _, _ in criterion_keys(edition, SCOPE.casings)}
    standing, suspended, wrong = (CertificateFactory.create(shop=shop) for _ in range(3))
    add_event(suspended, "suspended")
    why: Told = {"by": floor.owner, "reason": "A torn patch came back.", "at": NOW}
    return {
        acts.issue_certificate: partial(
            acts.issue_certificate, shop=shop, holder=floor.apprentice, issuer=floor.owner, scope=SCOPE, at=NOW
        ),
        acts.record_hands_on: partial(
            acts.record_hands_on,
            shop=shop,
            learner=floor.apprentice,
            trainer=floor.trainer,
            scope=SCOPE,
            edition=edition,
            marks=marks,
            remarks="",
            press=uuid4(),
            at=NOW,
        ),
        acts.restore: partial(acts.restore, certificate=suspended, **why),
        acts.revoke: partial(acts.revoke, certificate=wrong, **why),
        acts.suspend: partial(acts.suspend, certificate=standing, **why),
    }


APPS = {training.acts: in_training, assessments.acts: in_assessments, certificates.acts: in_certificates}


def is_act(exported: object) -> bool:
    """An act takes its arguments by keyword alone; what only reads or names a thing does not."""
    if not inspect.isfunction(exported):
        return False
    return all(one.kind is one.KEYWORD_ONLY for one in inspect.signature(exported).parameters.values())


@pytest.mark.parametrize(("module", "ready"), APPS.items(), ids=("training", "assessments", "certificates"))
def test_every_act_reads_checks_and_writes_under_the_lock_and_computes_nothing(
    module: ModuleType, ready: Callable[[Shopfloor], dict[Any, Press]], floor: Shopfloor, held: Callable[[Press], Held]
) -> None:
    presses = ready(floor)

    assert presses.keys() == {one for one in vars(module).values() if is_act(one)}
    seen = {act.__name__: held(press) for act, press in presses.items()}
    assert {name: sorted(one.computing) for name, one in seen.items() if one.computing} == {}
    assert {name: one.in_the_way for name, one in seen.items() if one.in_the_way} == {}
    assert {name: one.calls for name, one in seen.items() if not 0 < one.calls <= BOUNDS[name]} == {}


# -- what comes in between, while nothing is locked yet ----------------------------------------------------------------


def meanwhile(monkeypatch: pytest.MonkeyPatch, place: str, do: Press, *, times: int = 1) -> None:
    """Let something happen just before what stands at `place` is computed, so many times."""
    compute = import_string(place)
    left = iter(range(times))

    def computed(*given: Any, **named: Any) -> Any:
        if next(left, None) is not None:
            do()
        return compute(*given, **named)

    monkeypatch.setattr(place, computed)


def test_two_presses_that_draw_at_once_start_one_assessment(floor: Shopfloor, monkeypatch: pytest.MonkeyPatch) -> None:
    press = partial(
        assessments.acts.start_assessment,
        shop=floor.shop,
        learner=floor.apprentice,
        terms=terms_of(floor.shop),
        at=NOW,
    )
    meanwhile(monkeypatch, "assessments.acts.assessment.draw_form", press)

    assert press() == Attempt.objects.get()


@pytest.mark.parametrize(
    ("act", "model"),
    [
        (training.acts.keep_check, TireCheck),
        (training.acts.set_house_rules, HouseRuleSet),
        (training.acts.add_unit, RepairUnit),
        (certificates.acts.record_hands_on, HandsOn),
        (certificates.acts.issue_certificate, Certificate),
    ],
)
def test_a_press_that_is_stored_while_its_twin_is_checked_is_the_only_one(
    act: Any, model: Any, floor: Shopfloor, monkeypatch: pytest.MonkeyPatch
) -> None:
    press: Any = (in_training(floor) | in_certificates(floor))[act]
    if act is training.acts.keep_check:
        press = partial(press, press=uuid4())
    twins, check, before = iter([press]), model.clean_fields, model.objects.count()

    def checked(row: Any, exclude: Any = None) -> None:
        if (twin := next(twins, None)) is not None:
            twin()
        check(row, exclude)

    monkeypatch.setattr(model, "clean_fields", checked)

    press()

    assert model.objects.count() == before + 1


def test_rules_set_while_a_form_is_drawn_count_for_it(floor: Shopfloor, monkeypatch: pytest.MonkeyPatch) -> None:
    stricter = in_training(floor)[training.acts.set_house_rules]
    meanwhile(monkeypatch, "assessments.acts.practice.draw_practice", stricter)

    attempt = assessments.acts.start_practice(shop=floor.shop, learner=floor.apprentice, skill="position", at=NOW)

    floor.shop.refresh_from_db()
    assert "+h" in attempt.form.edition_version
    assert attempt.form.edition_version == edition_of(floor.shop).version


def test_an_answer_saved_while_the_others_are_marked_is_marked_too(
    floor: Shopfloor, monkeypatch: pytest.MonkeyPatch
) -> None:
    attempt = AttemptFactory.create(form__shop=floor.shop, form__learner=floor.apprentice)
    save = partial(assessments.acts.record_response, attempt=attempt, position=1, answer='"2"', revision=0, at=NOW)
    meanwhile(monkeypatch, "assessments.acts.assessment.mark", save)

    done = assessments.acts.hand_in(attempt=attempt, at=NOW)

    assert (done.right_count, attempt.responses.get().is_right) == (1, True)


def test_whoever_never_comes_to_rest_is_refused_and_nothing_is_stored(
    floor: Shopfloor, monkeypatch: pytest.MonkeyPatch
) -> None:
    attempt = AttemptFactory.create(form__shop=floor.shop, form__learner=floor.apprentice)
    answers, revisions = cycle(('"1"', '"2"')), count()

    def save() -> None:
        assessments.acts.record_response(
            attempt=attempt, position=1, answer=next(answers), revision=next(revisions), at=NOW
        )

    meanwhile(monkeypatch, "assessments.acts.assessment.ready", save, times=100)

    with pytest.raises(assessments.acts.NotNow, match="Answers were still coming in; nothing was handed in"):
        assessments.acts.hand_in(attempt=attempt, at=NOW)
    attempt.refresh_from_db()
    assert attempt.handed_in_at is None
