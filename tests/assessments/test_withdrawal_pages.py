"""Pages on which a question that was asked is looked at again, flagged, withdrawn, and what then stands elsewhere."""

import pytest

from assessments import acts
from assessments.models import Attempt, DrawFlag, Withdrawal
from assessments.queries import asked_in
from certificates import acts as certificate_acts
from tests.asking import RIGHT, UNSAFE, WHY, WRONG, Asking
from tests.factories import NOW, AttemptFactory, MembershipFactory, a_pictured_item, an_item
from tests.factories_certificates import CertificateFactory
from tests.pages import Visit, cost_of, url
from training.models import User

pytestmark = pytest.mark.django_db


class TestPages:
    def test_the_result_says_what_does_not_count_and_why(self, asking, visit: Visit) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, WRONG)
        asking.withdraw(attempt, 4)

        page = visit(url("assessments:result", asking.shop, attempt.form.reference)).text

        assert "Question 4 does not count." in page
        assert WHY in page
        assert "3 of 3" in page
        assert "It was not passed when it was handed in." in page

    def test_the_roster_puts_a_fallen_pass_to_those_who_decide(
        self, asking, visit: Visit, own_shop, apprentice
    ) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        certificate = CertificateFactory.create(shop=own_shop, holder=apprentice, attempt=attempt)
        roster = url("certificates:roster", own_shop)
        assert "To decide" not in visit(roster, as_role="trainer").text

        asking.withdraw(attempt, 1)

        page = visit(roster, as_role="trainer").text
        assert "Now 3 of 4 right, not passed." in page
        assert "A valid certificate rests on it" in page
        shown = visit(url("certificates:certificate", own_shop, certificate.number), as_role="owner").text
        assert "Without what was withdrawn since: 3 of 4 right, not passed" in shown
        assert "Nothing was revoked: decide what follows." in shown
        certificate.refresh_from_db()
        assert [event.kind for event in certificate.events.all()] == ["issued"]

        asking.take_back(attempt, 1)
        assert "To decide" not in visit(roster, as_role="trainer").text

    def test_a_decision_takes_it_off_the_roster(self, asking, visit: Visit, own_shop, apprentice, owner) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        certificate = CertificateFactory.create(shop=own_shop, holder=apprentice, attempt=attempt)
        asking.withdraw(attempt, 1)

        certificate_acts.suspend(certificate=certificate, by=owner, reason="The pass fell.", at=NOW)

        assert "To decide" not in visit(url("certificates:roster", own_shop), as_role="owner").text

    def test_a_trainer_reads_a_flagged_question_with_its_key_and_source(self, asking, visit: Visit) -> None:
        attempt = asking.sat(UNSAFE, RIGHT)
        place = (asking.shop, attempt.form.reference)
        flagged = visit(
            url("assessments:result_flag", *place), post={"position": "1", "comment": "Nine is not too large."}
        )
        assert flagged.status_code == 302

        bench = visit(url("assessments:bench", asking.shop), as_role="trainer").text
        address = url("assessments:asked_question", *place, 1)
        assert address in bench
        page = visit(address, as_role="trainer").text
        for said in ("Nine is not too large.", "US association", "Repair it with a one-piece unit", "Right"):
            assert said in page

    def test_a_practice_question_is_flagged_once_it_is_answered(self, asking, visit: Visit) -> None:
        attempt = AttemptFactory.create(practice=True, form__shop=asking.shop, form__learner=asking.apprentice)
        page = url("assessments:practice_flag", asking.shop, attempt.form.reference, 1)
        assert visit(page).status_code == 404

        acts.answer_practice(attempt=attempt, position=1, answer=WRONG, at=NOW)

        assert visit(page).status_code == 200
        assert visit(page, post={"comment": ""}).status_code == 200
        assert not DrawFlag.objects.exists()
        assert visit(page, post={"comment": "It is 5 mm."}).status_code == 302
        assert DrawFlag.objects.get(item__position=1).comment == "It is 5 mm."

    @pytest.mark.parametrize("position", ["0", "3", "x", ""])
    def test_a_number_that_no_question_has_is_refused(self, asking, visit: Visit, position) -> None:
        attempt = asking.sat(RIGHT, WRONG)

        page = visit(
            url("assessments:result_flag", asking.shop, attempt.form.reference),
            post={"position": position, "comment": "Wrong."},
        )

        assert page.status_code == 200
        assert "give a whole number from 1 to 2" in page.text

    def test_withdrawing_and_taking_back_by_page(self, asking, visit: Visit) -> None:
        attempt = asking.sat(RIGHT, WRONG)
        place = (asking.shop, attempt.form.reference, 2)
        assert (
            visit(url("assessments:asked_withdraw", *place), as_role="owner", post={"reason": WHY}).status_code == 302
        )
        page = visit(url("assessments:asked_question", *place), as_role="trainer").text
        assert "Take the withdrawal back" in page
        assert (
            visit(url("assessments:asked_take_back", *place), as_role="trainer", post={"reason": "No."}).status_code
            == 302
        )
        assert Withdrawal.objects.get().taken_back_because == "No."

    def test_a_trainer_cannot_look_at_their_own_questions_again(self, asking, visit: Visit, trainer) -> None:
        attempt = Asking(asking.shop, trainer, asking.apprentice).sat(RIGHT, WRONG)

        for name, rest in (("asked", ()), ("asked_question", (1,)), ("asked_withdraw", (1,))):
            post = {"reason": WHY} if name == "asked_withdraw" else None
            address = url(f"assessments:{name}", asking.shop, attempt.form.reference, *rest)
            assert visit(address, as_role="trainer", post=post).status_code == 404

    def test_an_open_assessment_cannot_be_looked_at(self, asking, visit: Visit) -> None:
        attempt = AttemptFactory.create(form__shop=asking.shop, form__learner=asking.apprentice)
        acts.record_response(attempt=attempt, position=1, answer=RIGHT, revision=0, at=NOW)

        assert (
            visit(url("assessments:asked", asking.shop, attempt.form.reference), as_role="trainer").status_code == 404
        )

    def test_of_a_practice_only_what_is_answered_can_be_looked_at(self, asking, visit: Visit) -> None:
        items = [a_pictured_item(), an_item()]
        attempt = AttemptFactory.create(
            practice=True, form__shop=asking.shop, form__learner=asking.apprentice, form__items=items
        )
        acts.answer_practice(attempt=attempt, position=1, answer=WRONG, at=NOW)

        assert [line.position for line in asked_in(attempt)] == [1]
        place = (asking.shop, attempt.form.reference)
        assert visit(url("assessments:asked_question", *place, 1), as_role="trainer").status_code == 200
        assert visit(url("assessments:asked_question", *place, 2), as_role="trainer").status_code == 404
        assert visit(url("assessments:asked_picture", *place, 1, 1), as_role="trainer").status_code == 200
        assert visit(url("assessments:asked_picture", *place, 2, 1), as_role="trainer").status_code == 404

    def test_takes_as_many_queries_whatever_was_asked_and_withdrawn(self, asking, client_as, own_shop) -> None:
        small, large = asking.sat(RIGHT, WRONG), asking.sat(*[RIGHT] * 9, WRONG, form__drawn_at=NOW)
        asking.withdraw(small, 1)
        for position in range(1, 6):
            asking.withdraw(large, position)
        client = client_as("trainer")

        def cost(name: str, attempt: Attempt, *rest: object) -> int:
            return cost_of(client, url(name, own_shop, attempt.form.reference, *rest))

        assert cost("assessments:asked", small) == cost("assessments:asked", large)
        assert cost("assessments:asked_question", small, 1) == cost("assessments:asked_question", large, 1)
        learner = client_as("apprentice")
        costs = [cost_of(learner, url("assessments:result", own_shop, one.form.reference)) for one in (small, large)]
        assert costs[0] == costs[1]

    def test_the_roster_takes_as_many_queries_for_one_fallen_pass_as_for_several(self, asking, client_as) -> None:
        client, roster = client_as("trainer"), url("certificates:roster", asking.shop)

        def fall(who: User) -> None:
            other = Asking(asking.shop, who, asking.trainer)
            other.withdraw(other.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG), 1)

        people = [MembershipFactory.create(shop=asking.shop).user for _ in range(4)]
        fall(people[0])
        one = cost_of(client, roster)
        for person in people[1:]:
            fall(person)
        assert cost_of(client, roster) == one
