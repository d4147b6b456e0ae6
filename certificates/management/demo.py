"""Fills an empty database with the demo's invented shop, through the same acts that people use."""

import random
import tomllib
from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any
from uuid import uuid5

from allauth.account.models import EmailAddress
from django.db import transaction

from assessments import acts as theory
from assessments.models import Attempt, FormItem
from assessments.queries import terms_of
from assessments.questions import Answer, Item, canonical, right_answer
from certificates import acts
from certificates.queries import scope_of
from training import acts as people
from training import course
from training.models import Membership, Shop, User
from training.queries import edition_of

Scenario = Mapping[str, Any]


def scenario(path: Path) -> Scenario:
    """Read the demo's people, what they have done so far, and what lies on their shelf."""
    told = tomllib.loads(path.read_text("utf-8"))
    return told | tomllib.loads(path.with_name("shelf.toml").read_text("utf-8"))


@transaction.atomic
def fill(*, told: Scenario, at: datetime) -> Shop:
    """Make the shop and its people as of `at`; days in the scenario count from there."""
    shop = Shop(**told["shop"])
    shop.full_clean()
    shop.save()
    found: dict[str, User] = {}
    for person in told["person"]:
        user = User.objects.create_user(person["email"], told["login"]["password"], name=person["name"])
        EmailAddress.objects.create(user=user, email=user.email, verified=True, primary=True)
        for role in person["roles"]:
            Membership.objects.create(user=user, shop=shop, role=role, since_at=at - timedelta(days=90))
            found.setdefault(role, user)
    shop = theory.choose_scopes(shop=shop, scopes=told["scopes"], by=found["owner"], at=at - timedelta(days=80))
    shelf = {"length": "", "width": "", "stem_diameter": ""}
    for unit in told["unit"]:
        people.add_unit(shop=shop, by=found["owner"], at=at - timedelta(days=80), **{**shelf, **unit})
    for person in told["person"]:
        _history(shop, User.objects.get(email=person["email"]), person, found["trainer"], found["owner"], at)
    return shop


def _history(shop: Shop, user: User, person: Scenario, trainer: User, owner: User, at: datetime) -> None:
    for assigned in person.get("assigned", ()):
        due = (at + timedelta(days=assigned["days"])).date()
        asked_at = at - timedelta(days=20)
        people.assign(
            shop=shop, learners=[user], modules=[assigned["module"]], due_date=due, assigned_by=trainer, at=asked_at
        )
    edition = edition_of(shop)
    for module in course.modules():
        if module.slug in person.get("read", ()):
            for lesson in module.lessons:
                version = course.render(lesson, edition=edition, prefer=shop.units).content_version
                people.mark_lesson_read(
                    shop=shop,
                    learner=user,
                    module=module.slug,
                    lesson=lesson.slug,
                    content_version=version,
                    at=at - timedelta(days=12),
                )
    for practice in person.get("practice", ()):
        when = at + timedelta(days=practice["days"])
        attempt = theory.start_practice(shop=shop, learner=user, skill=practice["skill"], at=when)
        position = 1
        while item := FormItem.objects.filter(form=attempt.form_id, position=position).first():  # each is drawn by then
            answer = _answer(item, is_wrong=position <= practice["wrong"])
            theory.answer_practice(attempt=attempt, position=position, answer=answer, at=when)
            position += 1
    for sitting in person.get("assessment", ()):
        when = at + timedelta(days=sitting["days"])
        terms = terms_of(shop, sitting["scope"])
        if terms is None:
            raise ValueError(f"assessment: {sitting['scope']!r} is no scope of the shop; take it out of the scenario")
        attempt = theory.start_assessment(shop=shop, learner=user, terms=terms, at=when)
        for item in _items(attempt):
            answer = _answer(item, is_wrong=item.skill in sitting["wrong_skills"])
            theory.record_response(attempt=attempt, position=item.position, answer=answer, revision=0, at=when)
        theory.hand_in(attempt=attempt, at=when + timedelta(minutes=41))
    for seen in person.get("hands_on", ()):
        scope = scope_of(shop, seen["scope"])
        marks = {key: acts.MET for key, _, _ in acts.criterion_keys(edition, scope.casings)}
        acts.record_hands_on(
            shop=shop,
            learner=user,
            trainer=trainer,
            scope=scope,
            edition=edition,
            marks=marks,
            remarks="",
            press=uuid5(user.reference, f"hands-on {scope.slug}"),
            at=at + timedelta(days=seen["days"]),
        )
    for issued in person.get("certificate", ()):
        acts.issue_certificate(
            shop=shop,
            holder=user,
            issuer=owner,
            scope=scope_of(shop, issued["scope"]),
            at=at + timedelta(days=issued["days"], hours=1),
        )


def _items(attempt: Attempt) -> list[FormItem]:
    return list(FormItem.objects.filter(form=attempt.form_id).order_by("position"))


def _answer(item: FormItem, *, is_wrong: bool) -> str:
    """The right answer of an item, or a wrong one."""
    asked = Item.from_json(item.snapshot)
    return canonical(_wrong(asked, item.pk) if is_wrong else right_answer(asked))


def _wrong(item: Item, pick: int) -> Answer:
    ids = [option.id for option in item.options]
    match item.format:
        case "number":
            return {"value": "999", "unit": item.units[0]}
        case "place":
            return {"x": "0", "y": "0"}
        case "order":
            return ids  # they start out in the wrong order
    right = right_answer(item)
    if isinstance(right, dict):
        line = next(one for one in ids if one != right["step"])
        return {"step": line, "reason": "" if line == ids[-1] else item.reasons[0].id}
    if isinstance(right, list):
        return [one for one in ids if one not in right] or ids[:1]
    return random.Random(pick).choice([one for one in ids if one != right])  # noqa: S311
