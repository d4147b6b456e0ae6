"""A shop's own photographs: who may do what, what the database holds to, what follows, and what a backup holds."""

import sqlite3
import subprocess
from contextlib import closing
from pathlib import Path

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from tests.factories import NOW, PhotographFactory, UserFactory
from tests.photographs import brought
from training import acts
from training.management.backup import back_up
from training.models import Photograph
from training.pages.photographs import ruling
from training.queries import photographs_in
from training.rulebook import load_edition


@pytest.mark.django_db
class TestTheActs:
    def test_a_draft_is_kept_when_it_was_looked_at(self, own_shop, trainer) -> None:
        draft = brought(own_shop, trainer)
        assert not photographs_in(own_shop).exists()

        kept = acts.keep_photograph(photograph=draft, at=NOW)

        assert (kept.kept_at, kept.stands, kept.is_confirmed) == (NOW, True, False)
        assert acts.keep_photograph(photograph=draft, at=NOW).kept_at == NOW
        assert [one.pk for one in photographs_in(own_shop)] == [draft.pk]

    def test_a_new_draft_takes_the_place_of_the_one_before_and_the_same_stays(self, own_shop, trainer) -> None:
        first = brought(own_shop, trainer, 1)

        assert brought(own_shop, trainer, 1).pk == first.pk
        assert brought(own_shop, trainer, 2).pk != first.pk
        assert Photograph.objects.count() == 1

    def test_the_same_file_twice_is_said_and_nothing_is_doubled(self, own_shop, trainer, second) -> None:
        acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)

        with pytest.raises(acts.PhotographRefused, match='has it already, as "A bulge", added by The trainer'):
            brought(own_shop, second, look_alike=True)
        assert Photograph.objects.count() == 1

    def test_two_who_bring_the_same_keep_it_once(self, own_shop, trainer, second) -> None:
        one, other = brought(own_shop, trainer), brought(own_shop, second)
        acts.keep_photograph(photograph=one, at=NOW)

        with pytest.raises(acts.PhotographRefused, match="has it already"):
            acts.keep_photograph(photograph=other, at=NOW)

    def test_another_shop_may_have_the_same(self, own_shop, other_shop, trainer, person) -> None:
        acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
        stranger = person("trainer_of_other_shop")

        assert acts.keep_photograph(photograph=brought(other_shop, stranger), at=NOW).stands

    def test_a_discarded_draft_leaves_nothing_and_what_is_kept_stays(self, own_shop, trainer) -> None:
        draft = brought(own_shop, trainer)
        acts.discard_photograph(photograph=draft)
        acts.discard_photograph(photograph=draft)
        assert not Photograph.objects.exists()

        kept = acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
        acts.discard_photograph(photograph=kept)
        assert photographs_in(own_shop).count() == 1

    def test_at_night_drafts_of_more_than_a_day_go(self, own_shop, trainer, second) -> None:
        PhotographFactory.create(shop=own_shop, added_by=trainer, added_at=NOW - acts.DRAFT_LASTS, draft=True)
        PhotographFactory.create(shop=own_shop, added_at=NOW - 2 * acts.DRAFT_LASTS)
        PhotographFactory.create(shop=own_shop, added_by=second, added_at=NOW - acts.DRAFT_LASTS * 1.01, draft=True)

        assert acts.clear_photograph_drafts(at=NOW) == 1  # `manage.py nightly` presses it
        assert acts.clear_photograph_drafts(at=NOW) == 0
        assert Photograph.objects.count() == 2

    def test_a_second_trainer_confirms_it_and_not_the_first(self, own_shop, trainer, second) -> None:
        kept = PhotographFactory.create(shop=own_shop, added_by=trainer)

        with pytest.raises(acts.PhotographRefused, match="You brought this photograph yourself"):
            acts.confirm_photograph(photograph=kept, by=trainer, at=NOW)
        found = acts.confirm_photograph(photograph=kept, by=second, at=NOW)
        assert (found.confirmed_by, found.confirmed_at) == (second, NOW)
        assert acts.confirm_photograph(photograph=kept, by=UserFactory.create(), at=NOW).confirmed_by == second

    def test_it_is_taken_back_once_with_a_reason_and_confirmed_no_more(self, own_shop, trainer, second) -> None:
        kept = PhotographFactory.create(shop=own_shop, added_by=trainer)
        found = acts.take_back_photograph(photograph=kept, by=trainer, reason="A shadow.", at=NOW)
        again = acts.take_back_photograph(photograph=kept, by=second, reason="Another.", at=NOW)

        assert (found.reason, again.reason, again.taken_back_by) == ("A shadow.", "A shadow.", trainer)
        with pytest.raises(acts.PhotographRefused, match="was taken back"):
            acts.confirm_photograph(photograph=kept, by=second, at=NOW)

    def test_what_was_taken_back_can_be_brought_again_with_what_it_does_show(self, own_shop, trainer) -> None:
        first = acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
        acts.take_back_photograph(photograph=first, by=trainer, reason="A hollow.", at=NOW)

        again = acts.keep_photograph(photograph=brought(own_shop, trainer, look_alike=True), at=NOW)

        assert again.shows == "A hollow from how it was built"
        assert photographs_in(own_shop).count() == 2


@pytest.mark.django_db
class TestTheDatabase:
    @pytest.mark.parametrize(
        "change",
        [
            {"condition": "impact-damage"},
            {"look_alike": True},
            {"content": b"other"},
            {"kept_at": None},
            {"casing": "truck"},
        ],
        ids=str,
    )
    def test_what_is_kept_is_not_rewritten(self, change, own_shop) -> None:
        kept = PhotographFactory.create(shop=own_shop)

        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=kept.pk).update(**change)
        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=kept.pk).delete()

    def test_nor_who_confirmed_it_nor_why_it_was_taken_back(self, own_shop, trainer) -> None:
        confirmed = PhotographFactory.create(shop=own_shop, confirmed=True)
        back = PhotographFactory.create(shop=own_shop, taken_back=True)

        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=confirmed.pk).update(confirmed_by=trainer)
        with pytest.raises(DatabaseError, match="kept: a photograph"), transaction.atomic():
            Photograph.objects.filter(pk=back.pk).update(reason="Another.")

    @pytest.mark.parametrize(
        ("facts", "constraint"),
        [
            ({"condition": "a-new-one"}, "photograph_condition_known"),
            ({"casing": "bicycle"}, "photograph_casing_known"),
            ({"confirmed_at": NOW}, "photograph_confirmed_by_a_second"),
            ({"taken_back_at": NOW}, "photograph_taken_back_with_a_reason"),
        ],
        ids=lambda one: one if isinstance(one, str) else "",
    )
    def test_it_refuses_what_the_forms_refuse(self, facts, constraint, own_shop) -> None:
        with pytest.raises(IntegrityError, match=constraint), transaction.atomic():
            PhotographFactory.create(shop=own_shop, **facts)

    def test_nobody_confirms_their_own(self, own_shop, trainer) -> None:
        with pytest.raises(IntegrityError, match="photograph_confirmed_by_a_second"), transaction.atomic():
            PhotographFactory.create(shop=own_shop, added_by=trainer, confirmed_by=trainer, confirmed_at=NOW)

    def test_the_same_stands_once(self, own_shop) -> None:
        PhotographFactory.create(shop=own_shop, sent="a" * 64)

        with pytest.raises(IntegrityError), transaction.atomic():
            PhotographFactory.create(shop=own_shop, sent="a" * 64)
        assert PhotographFactory.create(shop=own_shop, sent="a" * 64, taken_back=True)


@pytest.mark.parametrize("edition", ["north-america", "united-kingdom"])
def test_the_rulebook_says_what_follows_from_it(edition) -> None:
    # published lists of rejecting conditions (common practice)
    told = {
        look_alike: ruling(load_edition(edition), condition="bulge", look_alike=look_alike, casing="passenger")
        for look_alike in (False, True)
    }

    assert told[False].startswith("By your rulebook, with all else in order: Reject.")
    assert told[True].startswith("By your rulebook, with all else in order: Accept.")
    of_a_repair = ruling(load_edition(edition), condition="poor-buffing", look_alike=False, casing="passenger")
    assert "asked by name alone" in of_a_repair


@pytest.mark.django_db
def test_a_backup_holds_it(own_shop, trainer, tmp_path) -> None:
    kept = acts.keep_photograph(photograph=brought(own_shop, trainer), at=NOW)
    database = dict(connection.settings_dict)
    if connection.vendor == "sqlite":  # which stands in memory here
        database |= {"ENGINE": "django.db.backends.sqlite3", "NAME": str(tmp_path / "live.sqlite3")}
        Path(database["NAME"]).write_bytes(connection.connection.serialize())

    manifest = back_up(database=database, secret_key="the secret", target=tmp_path / "copy", at=NOW)

    if connection.vendor == "sqlite":
        with closing(sqlite3.connect(tmp_path / "copy" / "sound-casing.sqlite3")) as copy:
            [content] = copy.execute("SELECT content FROM training_photograph").fetchone()
        assert content == bytes(Photograph.objects.get(pk=kept.pk).content)
    else:  # what no other connection sees yet is not in the copy, its table is
        copied = ["pg_restore", "--list", str(tmp_path / "copy" / "sound-casing.dump")]
        assert "training_photograph" in subprocess.run(copied, capture_output=True, text=True, check=True).stdout
    assert manifest["files"]
