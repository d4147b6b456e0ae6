"""Who is asked, answers, and has a question withdrawn: for tests of questions that are looked at again."""

from typing import Any

from assessments import acts
from assessments.models import Attempt, FormItem
from tests.factories import NOW, AttemptFactory, an_item
from training.models import Shop, User

RIGHT, UNSAFE, WRONG = '"2"', '"1"', '"3"'  # the options of `an_item`
WHY = "Two of the answers were right."


class Asking:
    """The apprentice of the shop is asked, and a trainer looks at it again. The blueprint asks for 80 of 100 right and
    allows one unsafe release."""

    def __init__(self, shop: Shop, apprentice: User, trainer: User) -> None:
        self.shop, self.apprentice, self.trainer = shop, apprentice, trainer

    def sat(self, *answers: str, **more: Any) -> Attempt:
        """An assessment with these answers, handed in."""
        items = [an_item(seed=f"by hand {number}") for number, _ in enumerate(answers)]
        attempt: Attempt = AttemptFactory.create(
            form__shop=self.shop, form__learner=self.apprentice, form__items=items, **more
        )
        for position, answer in enumerate(answers, 1):
            acts.record_response(attempt=attempt, position=position, answer=answer, revision=0, at=NOW)
        return acts.hand_in(attempt=attempt, at=NOW)

    def item(self, attempt: Attempt, position: int) -> FormItem:
        return FormItem.objects.get(form=attempt.form, position=position)

    def withdraw(self, attempt: Attempt, position: int, reason: str = WHY) -> Attempt:
        acts.withdraw_question(item=self.item(attempt, position), reason=reason, by=self.trainer, at=NOW)
        return Attempt.objects.get(pk=attempt.pk)

    def take_back(self, attempt: Attempt, position: int) -> Attempt:
        reason = "It was right after all."
        acts.take_back_withdrawal(item=self.item(attempt, position), reason=reason, by=self.trainer, at=NOW)
        return Attempt.objects.get(pk=attempt.pk)
