"""The draw bench: who sees it, that its draws are nobody's questions, flags, families switched off."""

import re
from datetime import timedelta

import pytest
from django.db import DatabaseError, transaction
from django.utils import timezone

from assessments import acts
from assessments.models import DrawFlag, FamilyOff, Form, FormItem
from assessments.pages.bench import stand_ins_of
from assessments.queries.blueprints import plan_of
from assessments.questions import draw, family, family_names
from assessments.questions.draws.coverage import families_of, public_seed
from tests.factories import NOW, DrawFlagFactory, FamilyOffFactory, FormFactory, an_item
from tests.homes import at_home_in
from tests.pages import Visit, cost_of, text_of, url
from tests.present import present
from tests.terms import terms_of
from training.models import Shop, User
from training.rulebook import load_edition
from training.trade.words import LIGHT

pytestmark = [pytest.mark.django_db, pytest.mark.walk]

EDITION = load_edition("north-america")


def switch_off(shop: Shop, name: str, by: User) -> FamilyOff:
    return acts.switch_family_off(shop=shop, family_name=name, reason="Not here.", by=by, at=NOW)


class TestFlags:
    def test_a_flag_keeps_what_draws_it_again_and_a_second_press_changes_nothing(self, own_shop, trainer) -> None:
        item = draw("size-verdict", seed=public_seed("7/3"), edition=EDITION)

        first = acts.flag_draw(shop=own_shop, item=item, comment="Too close.", by=trainer, at=NOW)
        again = acts.flag_draw(shop=own_shop, item=item, comment="Too close.", by=trainer, at=NOW)

        assert first == again
        assert (first.family, first.seed, first.edition_version) == ("size-verdict", "bench:7/3", EDITION.version)
        assert draw(first.family, seed=first.seed, edition=EDITION).stem == first.stem

    def test_other_words_on_the_same_draw_wait_until_the_flag_is_settled(self, own_shop, trainer) -> None:
        item = an_item(seed="bench:1/1")
        flag = acts.flag_draw(shop=own_shop, item=item, comment="Too close.", by=trainer, at=NOW)

        with pytest.raises(acts.FlagRefused, match="You flagged this draw on Nov 25, 2026; settle that flag"):
            acts.flag_draw(shop=own_shop, item=item, comment="Still too close.", by=trainer, at=NOW)

        acts.settle_flag(flag=flag, by=trainer, at=NOW)
        acts.flag_draw(shop=own_shop, item=item, comment="Still too close.", by=trainer, at=NOW)
        assert DrawFlag.objects.count() == 2

    def test_settling_twice_keeps_the_first_time(self, own_shop, trainer, owner) -> None:
        flag = DrawFlagFactory.create(shop=own_shop)

        acts.settle_flag(flag=flag, by=trainer, at=NOW)
        settled = acts.settle_flag(flag=flag, by=owner, at=NOW.replace(hour=20))

        assert (settled.resolved_by, settled.resolved_at) == (trainer, NOW)

    def test_the_database_lets_no_flag_be_reworded_or_deleted(self, own_shop) -> None:
        flag = DrawFlagFactory.create(shop=own_shop)

        for change in (
            lambda: DrawFlag.objects.filter(pk=flag.pk).update(comment="All fine."),
            lambda: DrawFlag.objects.filter(pk=flag.pk).delete(),
        ):
            with pytest.raises(DatabaseError, match="never rewritten or deleted"), transaction.atomic():
                change()


class TestOff:
    def test_practice_leaves_the_family_out(self, own_shop, apprentice, trainer) -> None:
        off = {"size-verdict", "limit-for-casing"}
        for name in off:
            switch_off(own_shop, name, trainer)

        attempt = acts.start_practice(shop=own_shop, learner=apprentice, skill="size-limits", at=NOW)

        asked = set(FormItem.objects.filter(form=attempt.form).values_list("family", flat=True))
        assert asked
        assert not asked & off

    def test_another_family_of_the_skill_stands_in_and_the_forms_blueprint_says_so(
        self, own_shop, apprentice, trainer
    ) -> None:
        switch_off(own_shop, "torque-recheck", trainer)

        attempt = acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

        asked = list(FormItem.objects.filter(form=attempt.form).values_list("family", flat=True))
        assert "torque-recheck" not in asked
        assert len(asked) == terms_of(own_shop).count
        blueprint = present(attempt.form.blueprint)
        assert blueprint.shop == own_shop
        assert blueprint.scope == terms_of(own_shop).name
        [(stand_in, instead_of)] = stand_ins_of(blueprint)
        assert instead_of == family("torque-recheck").title
        assert family(next(n for n in family_names() if family(n).title == stand_in)).skill == "return-to-service"

    def test_another_shop_asks_it_still(self, own_shop, other_shop, trainer) -> None:
        switch_off(own_shop, "torque-recheck", trainer)

        assert plan_of(other_shop, terms_of(other_shop)) == terms_of(other_shop)

    def test_the_last_family_of_a_skill_cannot_be_switched_off(self, own_shop, trainer) -> None:
        names = [name for name in family_names() if family(name).skill == "size-limits" and not family(name).series]
        for name in names[:-1]:
            switch_off(own_shop, name, trainer)

        with pytest.raises(acts.LastOfSkill, match="is the last family that asks size limits; switch another"):
            switch_off(own_shop, names[-1], trainer)

        assert not FamilyOff.objects.filter(family=names[-1]).exists()

    def test_off_twice_is_off_once_and_on_again_ends_it_for_good(self, own_shop, trainer, owner) -> None:
        first = switch_off(own_shop, "two-injuries", trainer)

        assert switch_off(own_shop, "two-injuries", owner) == first

        acts.switch_family_on(shop=own_shop, family_name="two-injuries", by=owner, at=NOW)
        acts.switch_family_on(shop=own_shop, family_name="two-injuries", by=owner, at=NOW.replace(hour=20))
        first.refresh_from_db()
        assert (first.ended_by, first.ended_at) == (owner, NOW)
        assert plan_of(own_shop, terms_of(own_shop)) == terms_of(own_shop)

    def test_the_database_lets_no_reason_be_rewritten(self, own_shop) -> None:
        off = FamilyOffFactory.create(shop=own_shop)

        with pytest.raises(DatabaseError, match="never rewritten or deleted"), transaction.atomic():
            FamilyOff.objects.filter(pk=off.pk).update(reason="No reason.")


class TestPages:
    def test_the_bench_lists_every_family_and_counts_what_is_asked(self, visit, own_shop) -> None:
        page = text_of(visit(url("assessments:bench", own_shop), as_role="trainer"))

        for name in family_names():
            assert family(name).title in page.replace("&amp;", "&")
        asked = families_of(load_edition(own_shop.edition), LIGHT)
        formats = [family(name).formats for name in asked if family(name).skill == "size-limits"]
        one, several = formats.count(("one",)), formats.count(("several",))
        counted = f"choose one {one}, choose several {several}"
        assert one + several == len(formats)
        assert f"Size limits {counted} {counted}" in page

    def test_a_family_shows_twelve_draws_with_key_rulings_and_the_same_again_at_the_same_address(
        self, visit, own_shop
    ) -> None:
        address = url("assessments:bench_family", own_shop, "limit-for-casing")

        page = text_of(visit(address, as_role="trainer"))

        assert re.findall(r"Draw (\d+)", page) == [str(number) for number in range(1, 13)]
        # Source: US association puncture repair procedures, passenger and light truck (wall chart)
        assert page.count("at most 1/4 in (6 mm)") >= 12
        assert "wall chart" in page
        assert "The truck limit for every tire" in page
        assert text_of(visit(f"{address}?seed=1", as_role="trainer")) == page
        assert text_of(visit(f"{address}?seed=2", as_role="trainer")) != page

    @pytest.mark.parametrize("name", at_home_in("north-america"))
    def test_every_family_and_format_can_be_looked_at(self, visit, own_shop, name) -> None:
        page = visit(url("assessments:bench_family", own_shop, name), as_role="trainer")

        assert page.status_code == 200
        assert text_of(page).count("Why") >= 12

    def test_a_seed_that_is_none_is_refused_with_words(self, visit, own_shop, client_as) -> None:
        client = client_as("trainer")
        answer = client.get(url("assessments:bench_family", own_shop, "size-verdict"), {"seed": "../1"}, follow=True)

        assert 'Seed: "../1" is not accepted; give up to 20 letters, digits or hyphens.' in text_of(answer)

    @pytest.mark.parametrize("seed", ["bench:1/1", "1", "1/1/1/1", "a b/1", ""])
    def test_no_address_draws_outside_the_namespace_of_the_bench(self, visit, own_shop, seed) -> None:
        answer = visit(f"{url('assessments:bench_draw', own_shop, 'size-verdict')}?seed={seed}", as_role="trainer")

        assert answer.status_code == 404

    def test_flagging_from_the_page_needs_words_and_shows_beside_the_draw(self, visit, own_shop, trainer) -> None:
        address = f"{url('assessments:bench_draw', own_shop, 'size-verdict')}?seed=1/3"

        refused = visit(address, as_role="trainer", post={"comment": " "})
        visit(address, as_role="trainer", post={"comment": "The limit is hard to read."})

        assert "What is wrong with it?: nothing was given; say it in a sentence" in text_of(refused)
        assert DrawFlag.objects.get().seed == "bench:1/3"
        dozen = text_of(visit(url("assessments:bench_family", own_shop, "size-verdict"), as_role="trainer"))
        assert f"Flagged by {trainer.name}: The limit is hard to read." in dozen
        assert "The limit is hard to read." in text_of(visit(url("assessments:bench", own_shop), as_role="owner"))

    def test_flags_of_another_shop_are_not_seen_and_not_settled(self, visit, own_shop, other_shop) -> None:
        flag = DrawFlagFactory.create(shop=other_shop)

        assert flag.comment not in text_of(visit(url("assessments:bench", own_shop), as_role="trainer"))
        settled = visit(url("assessments:bench_settle", own_shop, flag.reference), as_role="trainer", post={})
        assert settled.status_code == 404

    def test_switching_off_needs_a_reason_and_the_bench_names_the_stand_in(self, visit, own_shop) -> None:
        address = url("assessments:bench_off", own_shop, "torque-recheck")

        refused = visit(address, as_role="trainer", post={"reason": ""})
        visit(address, as_role="trainer", post={"reason": "Our customers torque."})

        assert "Why is it switched off?: nothing was given; say it in a sentence" in text_of(refused)
        page = text_of(visit(url("assessments:bench", own_shop), as_role="trainer"))
        assert f"for {family('torque-recheck').title}" in page
        assert "off since" in page

    def test_the_pages_cost_the_same_with_few_flags_and_with_many(self, own_shop, trainer, client_as) -> None:
        client = client_as("trainer")
        addresses = [url("assessments:bench", own_shop), url("assessments:bench_family", own_shop, "size-verdict")]

        DrawFlagFactory.create(shop=own_shop, seed="bench:1/1")
        few = [cost_of(client, address) for address in addresses]
        for number in range(2, 12):
            DrawFlagFactory.create(shop=own_shop, seed=f"bench:1/{number}")
        FamilyOffFactory.create(shop=own_shop, family="two-injuries")

        assert [cost_of(client, address) for address in addresses] == few
        assert max(few) <= 9


class TestExposure:
    FAMILY = "size-verdict"

    def asked(self, shop: Shop, *digests: str, days_ago: int = 1, family: str = "size-verdict") -> Form:
        """A form with a question of the family for each digest, drawn so many days before today."""
        items = [an_item(family=family) for _ in digests]
        form = FormFactory.create(shop=shop, items=items, drawn_at=timezone.now() - timedelta(days=days_ago))
        for row, digest in zip(form.items.order_by("position"), digests, strict=True):
            FormItem.objects.filter(pk=row.pk).update(digest=digest)
        return form

    def page(self, visit: Visit, shop: Shop) -> str:
        return text_of(visit(url("assessments:bench_family", shop, self.FAMILY), as_role="trainer"))

    def test_a_family_that_nobody_was_asked_says_so(self, visit, own_shop, other_shop) -> None:
        self.asked(other_shop, "a")
        self.asked(own_shop, "b", family="two-injuries")

        assert "Asked in this shop No question of this family yet, in practice" in self.page(visit, own_shop)

    def test_it_counts_what_was_asked_and_how_much_of_it_was_different(self, visit, own_shop) -> None:
        self.asked(own_shop, "a", "b", "a")
        self.asked(own_shop, "b", "c", days_ago=89)
        self.asked(own_shop, "c", "d", "e", days_ago=91)

        page = self.page(visit, own_shop)

        assert "In the last 90 days 5 questions, 3 of them different; in all 8, 5 of them different." in page

    def test_one_question_is_one_question_and_all_different_ones_are_all(self, visit, own_shop) -> None:
        self.asked(own_shop, "a")
        assert "In the last 90 days 1 question; in all 1." in self.page(visit, own_shop)

        self.asked(own_shop, "b", days_ago=200)
        assert "In the last 90 days 1 question; in all 2, all different." in self.page(visit, own_shop)

    def test_what_was_asked_long_ago_is_not_lately(self, visit, own_shop) -> None:
        self.asked(own_shop, "a", "b", days_ago=200)

        assert "None in the last 90 days; in all 2, all different." in self.page(visit, own_shop)

    def test_the_page_costs_the_same_with_few_questions_asked_and_with_many(self, own_shop, client_as) -> None:
        client, address = client_as("trainer"), url("assessments:bench_family", own_shop, self.FAMILY)
        none = cost_of(client, address)
        for number in range(12):
            self.asked(own_shop, f"{number}", f"{number % 3}")

        assert cost_of(client, address) == none
