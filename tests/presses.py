"""Every act of the site on what it needs, ready to be pressed."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import timedelta
from functools import partial
from typing import Any
from uuid import uuid4

import assessments.acts
import certificates.acts
import training.acts
from assessments.acts.blueprints import keep_blueprint
from assessments.models import Attempt, FormItem
from assessments.queries import terms_in_edition
from assessments.questions import Item, canonical, draw, right_answer
from tests.evaluations import evaluate
from tests.factories import (
    NOW,
    AssignmentFactory,
    AttemptFactory,
    DrawFlagFactory,
    FamilyOffFactory,
    InvitationFactory,
    MembershipFactory,
    NoticeFactory,
    PhotographFactory,
    RepairUnitFactory,
)
from tests.factories_certificates import SCOPE, CertificateFactory, HandsOnFactory, add_event, passed_attempt
from tests.kept_checks import keep
from tests.terms import terms_of
from training.models import Role, Shop, User
from training.pictures import Taken
from training.queries import edition_of
from training.rulebook import HouseRule, HouseRules

Press = Callable[[], Any]
Told = dict[str, Any]


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


def in_training(floor: Shopfloor) -> dict[Any, Press]:
    """Each act of training on what it needs, ready to be pressed."""
    acts, shop, owner = training.acts, floor.shop, floor.owner
    asked = InvitationFactory.create(shop=shop, invited_by=owner)
    unit: Told = {"kind": "one-piece", "length": "75 mm", "width": "65 mm", "stem_diameter": "1/4 in"}
    facts: Told = {"units": "mm", "time_zone": "America/Chicago", "certificate_months": 12}
    due = (NOW + timedelta(days=7)).date()
    rules = HouseRules((HouseRule("injury-size", ("5 mm",)),))
    assignment, notice = AssignmentFactory.create(shop=shop), NoticeFactory.create(shop=shop)
    draft, kept = PhotographFactory.create(shop=shop, draft=True), PhotographFactory.create(shop=shop)
    dropped = PhotographFactory.create(shop=shop, draft=True, added_at=NOW - 2 * acts.DRAFT_LASTS)
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
        acts.bring_photograph: partial(
            acts.bring_photograph,
            shop=shop,
            by=floor.trainer,
            taken=Taken(b"the pixels", "e" * 64, "f" * 64),
            condition="bulge",
            look_alike=False,
            casing="passenger",
            at=NOW,
        ),
        acts.clear_photograph_drafts: partial(acts.clear_photograph_drafts, at=NOW),
        acts.confirm_photograph: partial(acts.confirm_photograph, photograph=kept, by=floor.trainer, at=NOW),
        acts.discard_photograph: partial(acts.discard_photograph, photograph=dropped),
        acts.keep_photograph: partial(acts.keep_photograph, photograph=draft, at=NOW),
        acts.take_back_photograph: partial(
            acts.take_back_photograph, photograph=kept, by=floor.trainer, reason="A shadow.", at=NOW
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
    learners = [MembershipFactory.create(shop=shop).user for _ in range(12)]

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
    done, anew = sat(learners[10]), sat(learners[11])
    asked = {}
    for name, one in (("done", done), ("anew", anew)):
        acts.hand_in(attempt=one, at=NOW)
        asked[name] = FormItem.objects.get(form=one.form, position=1)
    off, flag = FamilyOffFactory.create(shop=shop, family="drying"), DrawFlagFactory.create(shop=shop)
    why: Told = {"reason": "We send these out.", "by": floor.trainer, "at": NOW}
    acts.withdraw_question(item=asked["anew"], **why)
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
        acts.flag_question: partial(
            acts.flag_question, item=asked["done"], comment="Two are right.", by=floor.apprentice, at=NOW
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
        acts.keep_late_answer: partial(
            acts.keep_late_answer,
            attempt=overdue,
            position=1,
            answer='"of no option"',
            at=NOW + timedelta(days=1),
        ),
        acts.make_paper: partial(
            acts.make_paper, shop=shop, learner=learners[7], terms=terms, made_by=floor.trainer, at=NOW
        ),
        acts.note_shown: partial(acts.note_shown, attempt=other, position=1, at=NOW),
        acts.read_taught: partial(acts.read_taught, attempt=practice, at=NOW),
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
        acts.take_back_withdrawal: partial(acts.take_back_withdrawal, item=asked["anew"], **why),
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
        acts.withdraw_question: partial(acts.withdraw_question, item=asked["done"], **why),
    }


def in_certificates(floor: Shopfloor) -> dict[Any, Press]:
    """Each act of certificates on what it needs, ready to be pressed."""
    acts, shop = certificates.acts, floor.shop
    passed_attempt(shop, floor.apprentice)
    HandsOnFactory.create(shop=shop, learner=floor.apprentice)
    standing, suspended, wrong = (CertificateFactory.create(shop=shop) for _ in range(3))
    add_event(suspended, "suspended")
    why: Told = {"by": floor.owner, "reason": "A torn patch came back.", "at": NOW}
    return {
        acts.issue_certificate: partial(
            acts.issue_certificate, shop=shop, holder=floor.apprentice, issuer=floor.owner, scope=SCOPE, at=NOW
        ),
        acts.record_hands_on: partial(
            evaluate, shop, floor.apprentice, floor.trainer, edition=edition_of(shop), press=uuid4()
        ),  # one form, however often it is sent
        acts.restore: partial(acts.restore, certificate=suspended, **why),
        acts.revoke: partial(acts.revoke, certificate=wrong, **why),
        acts.suspend: partial(acts.suspend, certificate=standing, **why),
    }
