"""What comes in between, while an act computes and nothing is locked yet, is seen when it comes to keep."""

from functools import partial
from itertools import count, cycle
from typing import Any
from uuid import uuid4

import pytest
from django.utils.module_loading import import_string

import assessments.acts
import certificates.acts
import training.acts
from assessments.models import Attempt
from certificates.models import Certificate, HandsOn
from tests.factories import (
    NOW,
    AttemptFactory,
)
from tests.presses import Press, Shopfloor, in_certificates, in_training
from tests.terms import terms_of
from training.models import HouseRuleSet, RepairUnit, Shop, TireCheck, User
from training.queries import edition_of

pytestmark = pytest.mark.django_db


@pytest.fixture
def floor(own_shop: Shop, apprentice: User, trainer: User, owner: User) -> Shopfloor:
    return Shopfloor(own_shop, apprentice, trainer, owner)


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

    assert (done.right_count, attempt.responses.get(position=1).is_right) == (1, True)


def test_whoever_never_comes_to_rest_is_refused_and_nothing_is_stored(
    floor: Shopfloor, monkeypatch: pytest.MonkeyPatch
) -> None:
    attempt = AttemptFactory.create(form__shop=floor.shop, form__learner=floor.apprentice)
    answers, revisions = cycle(('"1"', '"2"')), count()

    def save() -> None:
        assessments.acts.record_response(
            attempt=attempt, position=1, answer=next(answers), revision=next(revisions), at=NOW
        )

    meanwhile(monkeypatch, "assessments.acts.assessment.judge", save, times=100)

    with pytest.raises(assessments.acts.NotNow, match="Answers were still coming in; nothing was handed in"):
        assessments.acts.hand_in(attempt=attempt, at=NOW)
    attempt.refresh_from_db()
    assert attempt.handed_in_at is None
