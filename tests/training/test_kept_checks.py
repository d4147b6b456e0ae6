"""Kept checks: written once, found again, corrected by new entries, printed for the customer; nobody else's."""

import json
import re
from datetime import date, timedelta
from html import unescape
from urllib.parse import urlencode
from uuid import UUID, uuid4

import pytest
from django.db import DatabaseError, IntegrityError, transaction
from django.utils import timezone

from tests.factories import NOW, MembershipFactory
from tests.kept_checks import LARGE_HOLE, SMALL_HOLE, keep
from tests.pages import cost_of, text_of
from tests.present import present
from training import acts
from training.forms.tire_fields import finding_names
from training.models import TireCheck
from training.pages.job_card import JobLine
from training.queries import Wanted, found_checks
from training.rulebook import decide, load_edition

PRESS = "00000000-0000-4000-8000-000000000007"


@pytest.fixture
def press_keep(own_shop, client_as):
    """Press "Keep this check" for what was found, as the apprentice."""
    browser = client_as("apprentice")

    def go(found: dict[str, str] = SMALL_HOLE, *, asked: str = "", **typed: str):
        url = f"/shop/{own_shop.slug}/checks/keep/?{urlencode(found | {'on': '2026-11-25'})}{asked}"
        return browser.post(url, {"press": PRESS, "tin": "", "ticket": "ticket 4711", "note": ""} | typed, follow=True)

    return go


class TestKeeping:
    def test_keeps_the_case_and_the_decision_of_the_rulebook_with_its_version(self, own_shop, apprentice) -> None:
        entry = keep(shop=own_shop, person=apprentice, found=LARGE_HOLE)

        stored = TireCheck.objects.get(pk=entry.pk)
        edition = load_edition("north-america")
        assert stored.verdict == "reject"
        assert stored.decision == json.loads(
            json.dumps(decide(stored.case, edition=edition, prefer=own_shop.units).to_json())
        )
        assert (stored.edition, stored.edition_version) == (edition.name, edition.version)
        assert (stored.looked_by, stored.looked_on, stored.kept_at) == (apprentice, date(2026, 11, 25), NOW)
        assert stored.case["injuries"][0]["diameter"] == "9 mm"

    def test_one_press_keeps_one_entry_however_often_it_arrives(self, own_shop, apprentice) -> None:
        first = keep(shop=own_shop, person=apprentice, press=UUID(PRESS))

        assert keep(shop=own_shop, person=apprentice, press=UUID(PRESS), ticket="another") == first
        assert TireCheck.objects.count() == 1

    def test_somebody_outside_the_shop_keeps_nothing(self, own_shop, person) -> None:
        with pytest.raises(acts.CheckRefused, match="does not belong to"):
            keep(shop=own_shop, person=person("owner_of_other_shop"))

    def test_somebody_who_has_left_keeps_nothing(self, own_shop) -> None:
        left = MembershipFactory.create(shop=own_shop, ended=True).user

        with pytest.raises(acts.CheckRefused, match="does not belong to"):
            keep(shop=own_shop, person=left)

    def test_the_database_refuses_to_change_or_delete_an_entry(self, own_shop, apprentice) -> None:
        entry = keep(shop=own_shop, person=apprentice)

        with pytest.raises(DatabaseError, match="kept"), transaction.atomic():
            TireCheck.objects.filter(pk=entry.pk).update(verdict="accept")
        with pytest.raises(DatabaseError, match="kept"), transaction.atomic():
            TireCheck.objects.filter(pk=entry.pk).delete()
        assert TireCheck.objects.get(pk=entry.pk).verdict == entry.verdict

    @pytest.mark.parametrize(
        ("fields", "constraint"),
        [
            ({"ticket": "", "tin": ""}, "tire_check_can_be_found_again"),
            ({"verdict": "fine"}, "tire_check_verdict_known"),
            ({"verdict": "accept", "taken_along": True}, "tire_check_taken_along_against_advice"),
        ],
    )
    def test_the_database_refuses_what_the_form_refuses(self, own_shop, apprentice, fields, constraint) -> None:
        entry = keep(shop=own_shop, person=apprentice)
        entry.pk, entry.press, entry.reference = None, uuid4(), uuid4()
        for name, value in fields.items():
            setattr(entry, name, value)

        with pytest.raises(IntegrityError, match=constraint), transaction.atomic():
            entry.save(force_insert=True)

    def test_the_database_refuses_a_correction_without_its_reason(self, own_shop, apprentice) -> None:
        entry = keep(shop=own_shop, person=apprentice)
        again = TireCheck.objects.get(pk=entry.pk)
        again.pk, again.press, again.reference, again.corrects = None, uuid4(), uuid4(), entry

        with pytest.raises(IntegrityError, match="tire_check_correction_says_why"), transaction.atomic():
            again.save(force_insert=True)

    def test_an_entry_says_the_same_when_the_rulebook_has_changed(
        self, own_shop, apprentice, visit, monkeypatch
    ) -> None:
        entry = keep(shop=own_shop, person=apprentice)
        before = text_of(visit(f"/shop/{own_shop.slug}/checks/{entry.reference}/"))

        monkeypatch.setattr("training.pages.job_card._job_line", lambda *_: JobLine("other", "words", ()))
        monkeypatch.setattr("training.pages.verdict.tell", lambda *_: "other words")

        assert "Let the air out" in before
        assert text_of(visit(f"/shop/{own_shop.slug}/checks/{entry.reference}/")) == before


class TestCorrecting:
    def test_a_correction_is_a_new_entry_and_the_old_one_stays(self, own_shop, apprentice, trainer) -> None:
        old = keep(shop=own_shop, person=apprentice)

        new = keep(shop=own_shop, person=trainer, found=LARGE_HOLE, corrects=old, note="Measured too early.")

        old.refresh_from_db()
        assert (old.verdict, new.verdict) == ("repair", "reject")
        assert old.replacement == new

    def test_an_entry_is_corrected_once_and_then_the_newer_one(self, own_shop, apprentice) -> None:
        old = keep(shop=own_shop, person=apprentice)
        new = keep(shop=own_shop, person=apprentice, corrects=old, note="Wrong ticket.")

        with pytest.raises(acts.CheckRefused, match="already been corrected"):
            keep(shop=own_shop, person=apprentice, corrects=old, note="Wrong again.")
        assert keep(shop=own_shop, person=apprentice, corrects=new, note="Wrong again.").corrects == new

    def test_a_correction_says_what_was_wrong(self, own_shop, apprentice) -> None:
        old = keep(shop=own_shop, person=apprentice)

        with pytest.raises(acts.CheckRefused, match="Note: it is empty"):
            keep(shop=own_shop, person=apprentice, corrects=old)

    def test_an_entry_of_another_shop_is_not_corrected(self, own_shop, other_shop, apprentice, person) -> None:
        theirs = keep(shop=other_shop, person=person("owner_of_other_shop"))

        with pytest.raises(acts.CheckRefused, match="not one of"):
            keep(shop=own_shop, person=apprentice, corrects=theirs, note="Mine now.")

    def test_the_page_begins_with_what_was_typed_and_leads_to_the_newer_entry(
        self, own_shop, apprentice, client_as
    ) -> None:
        browser = client_as("apprentice")
        old = keep(shop=own_shop, person=apprentice, ticket="unit 12")
        record = f"/shop/{own_shop.slug}/checks/{old.reference}/"
        address = unescape(present(re.search(r'href="([^"]*corrects=[^"]*)"', browser.get(record).content.decode()))[1])

        begun = browser.get(address)
        assert f'name="corrects" value="{old.reference}"' in begun.content.decode()
        assert 'value="62 mm"' in begun.content.decode()
        keep_url = f"/shop/{own_shop.slug}/checks/keep/?{urlencode(LARGE_HOLE | {'corrects': old.reference})}"
        refused = browser.post(keep_url, {"press": PRESS, "ticket": "unit 12", "note": ""})
        assert "What was wrong with the entry: it is empty" in text_of(refused)
        browser.post(keep_url, {"press": PRESS, "ticket": "unit 12", "note": "Measured too early."})

        new = TireCheck.objects.get(corrects=old)
        assert str(new.reference) in browser.get(record).content.decode()
        assert "Corrected later" in text_of(browser.get(f"/shop/{own_shop.slug}/checks/"))
        assert "Out of date" in text_of(browser.get(f"{record}statement/"))


class TestTheForm:
    def test_keeps_under_the_name_of_who_pressed(self, press_keep, apprentice) -> None:
        answer = press_keep(tin="DOT 1AB CDEFHJ 3219", note="Customer waits.")

        entry = TireCheck.objects.get()
        assert (entry.looked_by, entry.tin, entry.tin_key) == (apprentice, "DOT 1AB CDEFHJ 3219", "1ABCDEFHJ3219")
        assert entry.note in text_of(answer)

    @pytest.mark.parametrize(
        ("typed", "words"),
        [
            ({"ticket": ""}, "Vehicle or ticket: it is empty, and so is the identification number"),
            # Source: 49 CFR 574.5, week and year; there is no week 99
            ({"tin": "DOT 1AB CDEFHJ 9919"}, "Tire identification number: week"),
            ({"ticket": "x" * 81}, "Vehicle or ticket: 81 characters are too many; give at most 80."),
            ({"note": "x" * 1001}, "Note: 1001 characters are too many"),
            ({"press": "again"}, "Load the page again"),
        ],
    )
    def test_refuses_with_the_field_the_value_and_what_is_accepted(self, press_keep, typed, words) -> None:
        answer = press_keep(**typed)

        assert words in text_of(answer)
        assert not TireCheck.objects.exists()

    def test_refuses_a_number_that_ends_in_another_week_than_the_date_code(self, press_keep) -> None:
        answer = press_keep(SMALL_HOLE | {"date_code": "3218"}, tin="DOT 1AB CDEFHJ 3219")

        assert "it ends in 3219, and the date code of this check is 3218" in text_of(answer)
        assert not TireCheck.objects.exists()

    def test_a_decision_from_the_browser_counts_for_nothing(self, press_keep) -> None:
        press_keep(LARGE_HOLE, verdict="accept", decision="{}")

        assert TireCheck.objects.get().verdict == "reject"

    def test_a_tire_that_may_run_cannot_be_taken_along_against_advice(self, press_keep) -> None:
        looked = dict.fromkeys(finding_names(), "no")
        sound = {
            "casing": "passenger",
            "purpose": "service",
            "designation": "205/55R16 91V",
            "vehicle": "car",
            "axle": "rear",
            "retreaded": "no",
            "injuries": "none",
            "repairs": "none",
            "depths_1": "6/32 in",
            "recommended": "33 psi",
            "found": "33 psi",
        } | looked

        refused = press_keep(sound, taken_along="on", ticket="")
        assert "against our advice" not in text_of(refused)
        answer = press_keep(sound, taken_along="on")

        entry = TireCheck.objects.get()
        assert entry.verdict in ("accept", "advise"), text_of(answer)
        assert entry.taken_along is False

    def test_what_is_no_case_is_sent_back_to_be_corrected(self, press_keep) -> None:
        answer = press_keep(SMALL_HOLE | {"injury_A_diameter": "7"})

        assert '"7" is not a length' in text_of(answer)
        assert not TireCheck.objects.exists()


class TestTheRecords:
    @pytest.fixture
    def kept(self, own_shop, other_shop, apprentice, trainer, person):
        keep(shop=other_shop, person=person("owner_of_other_shop"), ticket="theirs")
        return {
            "small": keep(shop=own_shop, person=apprentice, ticket="Unit 12", tin="DOT 1AB CDEFHJ 3219"),
            "large": keep(shop=own_shop, person=trainer, found=LARGE_HOLE, at=NOW + timedelta(hours=1)),
            "old": keep(shop=own_shop, person=trainer, found=SMALL_HOLE | {"on": "2026-10-02"}, ticket="unit 7"),
        }

    @pytest.mark.parametrize(
        ("wanted", "names"),
        [
            (Wanted(), {"small", "large", "old"}),
            (Wanted(text="unit"), {"small", "old"}),
            (Wanted(text="4711"), {"large"}),
            (Wanted(text="cdefhj-3219"), {"small"}),
            (Wanted(text="DOT 1AB"), {"small"}),
            (Wanted(text="205/55R16"), {"small", "large", "old"}),
            (Wanted(text="100%_"), set()),
            (Wanted(verdict="reject"), {"large"}),
            (Wanted(until=date(2026, 10, 2)), {"old"}),
            (Wanted(since=date(2026, 10, 3)), {"small", "large"}),
        ],
    )
    def test_are_searched_in_the_own_shop_alone(self, own_shop, kept, wanted, names) -> None:
        assert set(found_checks(own_shop, wanted)) == {kept[name] for name in names}

    def test_list_what_one_person_looked_at(self, own_shop, kept, visit, apprentice, trainer) -> None:
        page = text_of(visit(f"/shop/{own_shop.slug}/checks/?by={apprentice.reference}"))

        assert "1 check found" in page
        assert "Unit 12" in page
        assert "ticket 4711" not in page

    def test_who_kept_none_is_told_so(self, own_shop, kept, visit, owner) -> None:
        page = text_of(visit(f"/shop/{own_shop.slug}/checks/?by={owner.reference}", as_role=owner))

        assert "No check fits this search" in page
        assert "nobody of that name" not in page

    def test_stand_newest_first(self, own_shop, kept) -> None:
        assert found_checks(own_shop, Wanted()).first() == kept["large"]

    # retread and repair materials group, recommended practice 2017: no one-piece unit over 25 degrees
    def test_name_a_refusal_as_its_own_page_does(self, own_shop, kept, visit, apprentice) -> None:
        steep = SMALL_HOLE | {"injury_A_angle": "32 deg", "proposed": "one-piece"}
        keep(shop=own_shop, person=apprentice, ticket="steep", found=steep)

        page = text_of(visit(f"/shop/{own_shop.slug}/checks/?q=steep"))

        assert "Not this way" in page
        assert "Reject steep" not in page

    def test_say_what_is_wrong_with_a_search_and_show_the_rest(self, own_shop, kept, visit) -> None:
        page = text_of(visit(f"/shop/{own_shop.slug}/checks/?since=yesterday&verdict=fine&q=unit"))

        assert "From: this is not a day" in page
        assert 'Decision: "fine" is not in the list' in page
        assert "2 checks found" in page

    def test_begin_by_saying_how_to_keep_one(self, own_shop, visit) -> None:
        assert "No check has been kept yet" in text_of(visit(f"/shop/{own_shop.slug}/checks/"))

    def test_cost_the_same_queries_with_3_entries_and_with_30(self, own_shop, kept, client_as, apprentice) -> None:
        browser = client_as("apprentice")
        url = f"/shop/{own_shop.slug}/checks/"
        few = cost_of(browser, url)
        for number in range(27):
            keep(shop=own_shop, person=apprentice, ticket=f"unit {number}")

        assert cost_of(browser, url) == few
        assert "30 checks" in text_of(browser.get(url))

    def test_come_in_pages_that_keep_the_search(self, own_shop, client_as, apprentice) -> None:
        for number in range(51):
            keep(shop=own_shop, person=apprentice, ticket=f"unit {number}")

        first = client_as("apprentice").get(f"/shop/{own_shop.slug}/checks/?q=unit")
        assert "Page 1 of 2" in text_of(first)
        assert "?q=unit&amp;page=2" in first.content.decode()

    @pytest.mark.parametrize("page", ["", "statement/"])
    def test_are_nobody_elses(self, own_shop, kept, visit, page) -> None:
        url = f"/shop/mill-street/checks/{kept['small'].reference}/{page}"

        assert visit(url, as_role="owner_of_other_shop").status_code == 404


class TestTheStatement:
    def statement(self, visit, entry) -> str:
        return text_of(visit(f"/shop/{entry.shop.slug}/checks/{entry.reference}/statement/"))

    # Source: US association puncture repair procedures (wall chart): at most 1/4 in (6 mm) after damage removal
    def test_of_a_rejected_tire_says_why_and_that_it_must_not_go_back(self, own_shop, apprentice, visit) -> None:
        entry = keep(shop=own_shop, person=apprentice, found=LARGE_HOLE, taken_along=True, tin="DOT 1AB CDEFHJ 3219")

        words = self.statement(visit, entry)

        for part in (
            "This tire must not go back on the road",
            "Injury A, size of the hole: 9 mm. Allowed: at most 1/4 in (6 mm).",
            "The customer took the tire along against our advice",
            "With its owner's consent cut through a bead or the sidewall before it goes to scrap",
            "common practice, no published source",
            "DOT 1AB CDEFHJ 3219",
            apprentice.name,
            own_shop.name,
            f"version {entry.edition_version}",
            str(entry.reference),
        ):
            assert part.lower() in words.lower(), part

    def test_of_a_repairable_tire_does_not_call_it_repaired(self, own_shop, apprentice, visit) -> None:
        words = self.statement(visit, keep(shop=own_shop, person=apprentice))

        assert "may be repaired, not that it has been" in words
        assert "must not go back" not in words

    def test_of_an_open_check_says_that_nothing_was_decided(self, own_shop, apprentice, visit) -> None:
        found = {name: value for name, value in SMALL_HOLE.items() if name != "find_run-flat-damage"}

        entry = keep(shop=own_shop, person=apprentice, found=found)

        words = self.statement(visit, entry)
        assert (entry.verdict, entry.is_open) == ("inspect", True)
        assert "Not decided" in words
        assert "Signs that it ran flat or soft" in words
        assert "Not decided" in text_of(visit(f"/shop/{own_shop.slug}/checks/"))

    def test_a_kept_check_says_what_was_said_by_one_press_for_a_group(self, own_shop, apprentice, visit) -> None:
        entry = keep(shop=own_shop, person=apprentice, found=SMALL_HOLE | {"pressed_inside": "find_liner-cracked"})

        words = text_of(visit(f"/shop/{own_shop.slug}/checks/{entry.reference}/"))

        assert "Inside, by one press looked for all; not there: Cracks in the liner" in words
        assert entry.found["pressed_inside"] == "find_liner-cracked"

    def test_shows_what_was_typed_as_text(self, own_shop, apprentice, visit) -> None:
        entry = keep(shop=own_shop, person=apprentice, ticket="<b>unit</b>", note="<script>x</script>")

        page = visit(f"/shop/{own_shop.slug}/checks/{entry.reference}/statement/").content.decode()

        assert "<script>x" not in page
        assert "<b>unit" not in page


class TestWithoutLogin:
    def test_nobody_finds_it_until_the_owner_allows_it(self, own_shop, visit) -> None:
        assert visit(f"/check/{own_shop.slug}/", as_role="anonymous").status_code == 404
        acts.change_shop(
            shop=own_shop, name=own_shop.name, units="in", time_zone="UTC", certificate_months=24, public_check=True
        )

        assert visit(f"/check/{own_shop.slug}/", as_role="anonymous").status_code == 200

    def test_decides_and_names_nobody_of_the_shop(self, own_shop, apprentice, trainer, owner, client) -> None:
        own_shop.public_check = True
        own_shop.save()
        keep(shop=own_shop, person=apprentice, ticket="unit 12")

        answer = client.get(f"/check/{own_shop.slug}/", LARGE_HOLE, follow=True)

        assert "verdict--reject" in answer.content.decode()
        for hidden in (apprentice.name, trainer.name, owner.name, "unit 12", "Keep this check", "Records"):
            assert hidden not in text_of(answer)

    def test_the_owner_opens_it_in_the_settings(self, own_shop, client_as) -> None:
        settings = {"name": own_shop.name, "units": "in", "time_zone": "UTC", "certificate_months": "24"}
        client_as("owner").post(f"/shop/{own_shop.slug}/settings/", settings | {"public_check": "on"})
        own_shop.refresh_from_db()
        assert own_shop.public_check is True

        client_as("owner").post(f"/shop/{own_shop.slug}/settings/", settings)
        own_shop.refresh_from_db()
        assert own_shop.public_check is False


def test_the_day_of_an_entry_is_the_day_of_the_check_not_of_the_keeping(own_shop, apprentice) -> None:
    entry = keep(shop=own_shop, person=apprentice, found=SMALL_HOLE | {"on": "2026-11-20"}, at=timezone.now())

    assert entry.looked_on == date(2026, 11, 20)
