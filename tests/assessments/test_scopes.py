"""A shop's scopes: chosen by the owner, and each with a theory of its own; one assessment is open at a time."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from datetime import timedelta
from typing import Any

import pytest
from django.db import DatabaseError, transaction
from django.utils import timezone

from assessments import acts
from assessments.models import Attempt, FamilyOff
from assessments.queries import State, blueprints, theories_of, theory_of, theory_of_shop
from assessments.queries.blueprints import plans_of, terms_in
from assessments.questions import family
from tests.factories import (
    NOW,
    AttemptFactory,
    BlueprintFactory,
    ExtraRoundFactory,
    FamilyOffFactory,
    MembershipFactory,
    PaperFactory,
)
from tests.pages import queries_of
from tests.present import present
from tests.terms import terms_of
from training.models import Shop, ShopScope, User
from training.queries.scopes import casings_of

pytestmark = pytest.mark.django_db
LIGHT, STEEL = "north-america-light", "north-america-steel"
DAY = timedelta(days=1)


@pytest.fixture
def both(own_shop, owner):
    return acts.choose_scopes(shop=own_shop, scopes=[LIGHT, STEEL], by=owner, at=NOW - 60 * DAY)


@pytest.fixture
def tried(own_shop: Shop, apprentice: User) -> Callable[..., Attempt]:
    def make(
        scope: str, trait: str = "passed", *, ago: timedelta = 3 * DAY, learner: User = apprentice, **facts: Any
    ) -> Attempt:
        at = NOW - ago
        given: dict[str, Any] = (
            {"started_at": at, "handed_in_at": at + timedelta(minutes=30)} if trait else {"started_at": at}
        )
        given |= {trait: True} if trait else {}
        blueprint = BlueprintFactory.create(scope=scope)
        return AttemptFactory.create(
            form__shop=own_shop, form__learner=learner, form__blueprint=blueprint, **given | facts
        )

    return make


def names(shop: Shop) -> list[str]:
    return [terms.name for terms in terms_in(shop)]


class TestChoosing:
    def test_a_shop_that_chose_nothing_works_in_the_first_scope_of_its_rulebook(self, own_shop) -> None:
        assert names(own_shop) == [LIGHT]
        assert not ShopScope.objects.exists()

    def test_who_chose_and_when_is_kept(self, both, owner) -> None:
        assert names(both) == [LIGHT, STEEL]
        assert set(casings_of(both)) == {"passenger", "light-truck-fabric", "light-truck-steel", "truck"}
        assert {(row.scope, row.by, row.since_at, row.ended_at) for row in ShopScope.objects.all()} == {
            (scope, owner, NOW - 60 * DAY, None) for scope in (LIGHT, STEEL)
        }

    @pytest.mark.parametrize("again", [[LIGHT, STEEL], [STEEL, LIGHT, STEEL]])
    def test_the_same_again_changes_nothing(self, both, owner, again) -> None:
        acts.choose_scopes(shop=both, scopes=again, by=owner, at=NOW)

        assert set(ShopScope.objects.values_list("since_at", "ended_at")) == {(NOW - 60 * DAY, None)}

    def test_choosing_what_stands_without_a_choice_writes_nothing(self, own_shop, owner) -> None:
        acts.choose_scopes(shop=own_shop, scopes=[LIGHT], by=owner, at=NOW)

        assert not ShopScope.objects.exists()

    def test_one_turned_off_and_on_again_leaves_both_times(self, both, owner, person) -> None:
        acts.choose_scopes(shop=both, scopes=[LIGHT], by=owner, at=NOW)
        shop = acts.choose_scopes(shop=both, scopes=[LIGHT, STEEL], by=person("trainer"), at=NOW + DAY)

        assert names(shop) == [LIGHT, STEEL]
        rows = ShopScope.objects.filter(scope=STEEL).order_by("since_at")
        assert [(row.ended_at, row.ended_by) for row in rows] == [(NOW, owner), (None, None)]

    def test_one_may_change_to_the_other(self, both, owner) -> None:
        acts.choose_scopes(shop=both, scopes=[LIGHT], by=owner, at=NOW)
        shop = acts.choose_scopes(shop=both, scopes=[STEEL], by=owner, at=NOW)

        assert names(shop) == [STEEL]
        assert terms_of(shop).name == STEEL
        assert blueprints.terms_of(shop, LIGHT) is None

    @pytest.mark.parametrize(
        ("scopes", "words"),
        [([], "nothing is chosen; at least one stays on"), ([LIGHT, "elsewhere"], f'"elsewhere" is not .*{STEEL}')],
    )
    def test_none_or_an_unknown_one_is_refused_and_nothing_changes(self, both, owner, scopes, words) -> None:
        with pytest.raises(acts.ScopesRefused, match=words):
            acts.choose_scopes(shop=both, scopes=scopes, by=owner, at=NOW)
        assert names(Shop.objects.get(pk=both.pk)) == [LIGHT, STEEL]

    def test_a_scope_we_no_longer_have_leaves_the_first(self, own_shop) -> None:
        own_shop.scopes = ["older"]

        assert names(own_shop) == [LIGHT]


class TestTheDatabase:
    def refused(self, words: str) -> AbstractContextManager[object]:
        return pytest.raises(DatabaseError, match=words)

    def test_holds_a_scope_on_once(self, both, owner) -> None:
        with self.refused("shop_scope_on_once|shop_id, training_shopscope.scope"), transaction.atomic():
            ShopScope.objects.create(shop=both, scope=LIGHT, since_at=NOW, by=owner)

    def test_keeps_the_last_one_on(self, both, owner) -> None:
        acts.choose_scopes(shop=both, scopes=[LIGHT], by=owner, at=NOW)

        with self.refused("the last one stays on"), transaction.atomic():
            ShopScope.objects.filter(ended_at=None).update(ended_at=NOW, ended_by=owner)

    def test_deletes_none(self, both) -> None:
        with self.refused("never deleted"), transaction.atomic():
            ShopScope.objects.all().delete()

    def test_opens_none_again_that_was_turned_off(self, both, owner) -> None:
        acts.choose_scopes(shop=both, scopes=[LIGHT], by=owner, at=NOW)

        with self.refused("turned off once"), transaction.atomic():
            ShopScope.objects.filter(scope=STEEL).update(ended_at=None, ended_by=None)

    @pytest.mark.parametrize("facts", [{"ended_at": NOW}, {"ended_at": NOW - DAY, "is_by": True}, {"scope": ""}])
    def test_refuses_one_ended_by_nobody_ended_before_it_began_or_without_a_name(self, own_shop, owner, facts) -> None:
        given = {"scope": LIGHT} | facts
        ended_by = owner if given.pop("is_by", False) else None
        with self.refused("shop_scope"), transaction.atomic():
            ShopScope.objects.create(shop=own_shop, since_at=NOW, by=owner, ended_by=ended_by, **given)


class TestTheory:
    def states(self, shop: Shop, learner: User) -> dict[str, State]:
        return {scope: theory.state(NOW) for scope, theory in theories_of(shop, learner).items()}

    def test_a_pass_counts_for_its_own_scope(self, both, apprentice, tried) -> None:
        tried(LIGHT)

        assert self.states(both, apprentice) == {LIGHT: State.PASSED, STEEL: State.READY}

    def test_waiting_and_attempts_count_for_their_own_scope(self, both, apprentice, tried) -> None:
        for ago in (5 * DAY, 3 * DAY, timedelta(hours=2)):
            tried(STEEL, "not_passed", ago=ago)
        tried(LIGHT, "not_passed", ago=timedelta(hours=2))

        assert self.states(both, apprentice) == {LIGHT: State.WAIT, STEEL: State.USED_UP}
        assert theory_of(both, apprentice, terms_of(both, LIGHT)).left == 2

    def test_a_new_round_opens_its_own_scope(self, both, apprentice, tried) -> None:
        for scope in (LIGHT, STEEL):
            for days in (5, 4, 3):
                tried(scope, "not_passed", ago=days * DAY)
        ExtraRoundFactory.create(shop=both, learner=apprentice, blueprint=BlueprintFactory.create(scope=STEEL))

        assert self.states(both, apprentice) == {LIGHT: State.USED_UP, STEEL: State.READY}

    def test_a_round_given_by_the_act_is_of_its_scope(self, both, apprentice, trainer, tried) -> None:
        tried(STEEL)
        given = [
            acts.give_extra_round(
                shop=both, learner=apprentice, terms=terms_of(both, scope), given_by=trainer, reason="Renewal.", at=NOW
            )
            for scope in (LIGHT, STEEL)
        ]

        assert given[0] is None
        assert present(given[1]).blueprint.scope == STEEL

    def test_one_open_keeps_the_others_waiting(self, both, apprentice, tried) -> None:
        tried(LIGHT, "", ago=timedelta(minutes=5))

        assert self.states(both, apprentice) == {LIGHT: State.OPEN, STEEL: State.BUSY}
        with pytest.raises(
            acts.NotNow, match=r"is open on the screen\. Only one may be open at a time: hand that one in first"
        ):
            acts.start_assessment(shop=both, learner=apprentice, terms=terms_of(both, STEEL), at=NOW)

    def test_a_paper_out_for_one_keeps_the_others_waiting(self, both, apprentice, trainer) -> None:
        PaperFactory.create(form__shop=both, form__learner=apprentice, form__blueprint__scope=STEEL, form__drawn_at=NOW)

        assert self.states(both, apprentice) == {LIGHT: State.BUSY, STEEL: State.PAPER}
        for start in (
            lambda terms: acts.start_assessment(shop=both, learner=apprentice, terms=terms, at=NOW),
            lambda terms: acts.make_paper(shop=both, learner=apprentice, terms=terms, made_by=trainer, at=NOW),
        ):
            with pytest.raises(acts.NotNow, match="is open on paper"):
                start(terms_of(both, LIGHT))

    def test_one_whose_clock_ran_out_is_handed_in_by_starting_another(self, both, apprentice, tried) -> None:
        older = tried(LIGHT, "", ago=timedelta(minutes=90))

        started = acts.start_assessment(shop=both, learner=apprentice, terms=terms_of(both, STEEL), at=NOW)

        older.refresh_from_db()
        assert older.outcome == "not-passed"
        assert present(started.form.blueprint).scope == STEEL

    def test_the_form_is_drawn_for_its_scope_and_goes_on_when_started_again(self, both, apprentice) -> None:
        steel = terms_of(both, STEEL)
        first = acts.start_assessment(shop=both, learner=apprentice, terms=steel, at=NOW)

        assert acts.start_assessment(shop=both, learner=apprentice, terms=steel, at=NOW) == first
        assert (present(first.form.blueprint).scope, first.form.size) == (STEEL, steel.count)

    def test_an_open_one_of_a_scope_turned_off_can_be_finished(self, both, owner, apprentice, tried) -> None:
        attempt = tried(STEEL, "", ago=timedelta(minutes=5))
        shop = acts.choose_scopes(shop=both, scopes=[LIGHT], by=owner, at=NOW)

        assert self.states(shop, apprentice) == {LIGHT: State.BUSY}
        assert theories_of(shop, apprentice)[LIGHT].elsewhere == attempt
        acts.hand_in(attempt=attempt, at=NOW)
        assert self.states(shop, apprentice) == {LIGHT: State.READY}

    def test_the_whole_shop_reads_the_same_as_each_one(self, both, apprentice, trainer, tried) -> None:
        tried(LIGHT)
        tried(STEEL, "not_passed", learner=trainer)

        everyone = theory_of_shop(both)

        for learner in (apprentice, trainer):
            assert everyone[learner.pk] == theories_of(both, learner)

    def test_two_scopes_cost_as_many_queries_as_one(self, own_shop, apprentice, owner, tried) -> None:
        reads = (lambda: theories_of(own_shop, apprentice), lambda: theory_of_shop(own_shop))
        one = [queries_of(read) for read in reads]
        own_shop.scopes = [LIGHT, STEEL]
        for scope in (LIGHT, STEEL):
            tried(scope, learner=MembershipFactory.create(shop=own_shop).user)

        assert [queries_of(read) for read in reads] == one == [2, 2]


class TestPages:
    def test_the_address_of_all_lists_them_with_their_state(self, both, apprentice, tried, visit) -> None:
        tried(STEEL, "not_passed")

        page = visit(f"/shop/{both.slug}/assessment/").content.decode()

        assert "Passenger and fabric-body light truck tires" in page
        assert "Steel-body light truck and truck tires" in page
        assert "One assessment is open at a time" in page

    def test_with_one_scope_it_leads_straight_there(self, own_shop, visit) -> None:
        assert visit(f"/shop/{own_shop.slug}/assessment/").url == f"/shop/{own_shop.slug}/assessment/{LIGHT}/"

    @pytest.mark.parametrize("address", ["assessment/{}/", "practice/?scope={}"])
    def test_a_scope_turned_off_is_hidden(self, own_shop, visit, address) -> None:
        answer = visit(f"/shop/{own_shop.slug}/{address.format(STEEL)}")

        assert answer.status_code == 404 or "Steel-body" not in answer.content.decode()

    def test_the_other_scope_says_which_one_is_open(self, both, apprentice, visit) -> None:
        attempt = AttemptFactory.create(
            form__shop=both, form__learner=apprentice, form__blueprint__scope=LIGHT, started_at=timezone.now()
        )

        page = visit(f"/shop/{both.slug}/assessment/{STEEL}/").content.decode()

        assert "Another assessment is open" in page
        assert f"/assessment/{attempt.form.reference}/review/" in page
        assert "Start</button>" not in page

    def test_the_result_of_a_scope_turned_off_stays_readable(self, both, owner, apprentice, tried, visit) -> None:
        attempt = tried(STEEL, "not_passed")
        acts.choose_scopes(shop=both, scopes=[LIGHT], by=owner, at=NOW)

        page = visit(f"/shop/{both.slug}/assessment/{attempt.form.reference}/result/").content.decode()

        assert "Your shop no longer works in this scope." in page
        assert Attempt.objects.get().outcome == "not-passed"


class TestFamiliesSwitchedOff:
    def test_each_scope_has_stand_ins_of_its_own_tires(self, both) -> None:
        cells = terms_of(both, STEEL).cells
        FamilyOffFactory.create(shop=both, family=cells[0].family)

        plans = {plan.name: plan for plan in plans_of(both)}

        for plan in plans.values():
            assert sum(cell.count for cell in plan.cells) == terms_of(both, plan.name).count
        new = {cell.family for cell in plans[STEEL].cells} - {cell.family for cell in cells}
        assert all(family(name).asks_about(terms_of(both, STEEL).casings) for name in new)

    def test_the_last_of_a_skill_in_one_scope_stays_on_though_another_scope_has_more(
        self, both, trainer, monkeypatch
    ) -> None:
        # of two families that ask about sizes, one asks about light tires alone
        only = {LIGHT: ("size-verdict", "holes-by-size"), STEEL: ("size-verdict",)}
        by_casings = {terms.casings: only[terms.name] for terms in terms_in(both)}
        monkeypatch.setattr("assessments.acts.bench.families_of", lambda edition, casings: by_casings[casings])

        def switch_off(name: str) -> FamilyOff:
            return acts.switch_family_off(shop=both, family_name=name, reason="Not here.", by=trainer, at=NOW)

        with pytest.raises(acts.LastOfSkill, match="asks size limits of steel-body light truck and truck tires"):
            switch_off("size-verdict")
        assert switch_off("holes-by-size").family == "holes-by-size"
