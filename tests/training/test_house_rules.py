"""House rules of a shop: pages, acts, what follows them at once, and what keeps what it had."""

import json
from datetime import timedelta
from typing import Any
from urllib.parse import urlencode

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import DatabaseError, connection, transaction
from django.test import Client

from assessments.acts import start_assessment, start_practice
from assessments.models import FormItem
from tests.factories import NOW
from tests.kept_checks import SMALL_HOLE
from tests.pages import cost_of, fields_of, text_of
from tests.present import present
from tests.rulebook.cases import decide_as_told
from tests.terms import terms_of
from training import acts
from training.forms.house import HouseRulesForm
from training.models import HouseRuleSet, Shop, User
from training.queries.shop_rulebook import edition_of, house_rules_of_version
from training.rulebook import HouseRule, HouseRuleError, HouseRules, load_edition

pytestmark = pytest.mark.django_db

# The published limit is 1/4 in (6 mm): US association, puncture repair procedures, passenger and light truck (wall
# chart). A shop that stops at 5 mm is stricter, one that goes to 7 mm is looser.
STRICTER, LOOSER = "5 mm", "7 mm"
SIZE = HouseRules((HouseRule("injury-size", (STRICTER,)),))
HOLE = {
    "tire": {"casing": "passenger"},
    "injuries": [{"diameter": "5.5 mm"}],
}  # under the chart's limit, over the shop's

SIZE_FILE = '[[rule]]\nclause = "injury-size"\n'


def put(shop: Shop, owner: User, rules: HouseRules = SIZE, *, base: int = 0, at=NOW, reason: str = "") -> HouseRuleSet:
    made = present(acts.set_house_rules(shop=shop, rules=rules, reason=reason, by=owner, base=base, at=at))
    shop.refresh_from_db()
    return made


def entered(client: Client, url: str, **changes) -> dict[str, Any]:
    """All fields of the page as a browser would send them back, without the units beside the numbers."""
    held = fields_of(client.get(url).content.decode())
    return {name: values for name, values in held.items() if not name.endswith("_u")} | changes


class TestTheHints:
    # Source: US association puncture repair procedures (wall chart), 1/4 in (6 mm) after damage removal
    @pytest.mark.parametrize(
        ("prefer", "limit"), [("in", "Rulebook: at most 1/4 in (6 mm)"), ("mm", "Rulebook: at most 6 mm (1/4 in)")]
    )
    def test_the_rulebook_is_told_in_the_unit_of_the_shop(self, prefer, limit) -> None:
        form = HouseRulesForm(edition=load_edition("north-america"), standing=HouseRules(), prefer=prefer)

        assert limit in form["injury-size"].help_text
        assert " deg" not in " ".join(str(field.help_text) for field in form)


class TestSettingThem:
    def test_the_shop_decides_by_them_from_then_on(self, own_shop, owner) -> None:
        before = decide_as_told(HOLE, edition=edition_of(own_shop))

        put(own_shop, owner)

        assert before.verdict == "repair"
        after = decide_as_told(HOLE, edition=edition_of(own_shop))
        assert after.verdict == "reject"
        assert [(one.clause, one.limit, one.source) for one in after.deciding] == [
            ("injury-size", "at most 5 mm", "house rule of the shop")
        ]

    def test_another_shop_goes_on_by_the_rulebook(self, own_shop, other_shop, owner) -> None:
        put(own_shop, owner)

        assert decide_as_told(HOLE, edition=edition_of(other_shop)).verdict == "repair"

    def test_a_looser_one_is_refused_naming_both_values_and_nothing_is_stored(self, own_shop, owner) -> None:
        with pytest.raises(HouseRuleError, match=r"injury-size: 7 mm is looser than at most 1/4 in \(6 mm\)"):
            put(own_shop, owner, HouseRules((HouseRule("injury-size", (LOOSER,)),)))

        own_shop.refresh_from_db()
        assert own_shop.house_rules == []
        assert not HouseRuleSet.objects.exists()

    def test_the_same_again_changes_nothing(self, own_shop, owner) -> None:
        first, again = put(own_shop, owner), put(own_shop, owner, base=1, at=NOW + timedelta(days=3))

        assert again == first
        assert HouseRuleSet.objects.count() == 1

    def test_each_set_stays_and_the_last_counts(self, own_shop, owner) -> None:
        put(own_shop, owner)
        put(own_shop, owner, HouseRules((HouseRule("injury-size", ("4 mm",)),)), base=1)
        put(own_shop, owner, HouseRules(), base=2, reason="The comebacks stopped.")

        sets = HouseRuleSet.objects.filter(shop=own_shop).order_by("number")
        assert [(kept.number, [one["limits"] for one in kept.rules]) for kept in sets] == [
            (1, [["5 mm"]]),
            (2, [["4 mm"]]),
            (3, []),
        ]
        assert own_shop.house_rules == list(sets)[-1].rules == []
        assert edition_of(own_shop).version == load_edition("north-america").version

    def test_a_rule_that_stays_keeps_the_day_it_began(self, own_shop, owner) -> None:
        put(own_shop, owner)
        more = HouseRules((*SIZE, HouseRule("tread-depth", ("4/32 in",))))

        put(own_shop, owner, more, base=1, at=NOW + timedelta(days=30))

        # NOW is the morning of Nov 25, 2026 in Denver
        assert {one["clause"]: one["since"] for one in own_shop.house_rules} == {
            "injury-size": "2026-11-25",
            "tread-depth": "2026-12-25",
        }

    def test_a_page_opened_before_somebody_elses_change_is_refused(self, own_shop, owner) -> None:
        put(own_shop, owner)

        with pytest.raises(acts.RulesChanged, match="The owner set house rules on Nov 25, 2026"):
            put(own_shop, owner, HouseRules(), base=0)

        own_shop.refresh_from_db()
        assert len(own_shop.house_rules) == 1

    @pytest.mark.parametrize("change", ["UPDATE {} SET rules = '[]'", "DELETE FROM {}"])
    def test_the_database_lets_nobody_change_a_set(self, own_shop, owner, change) -> None:
        put(own_shop, owner)

        with pytest.raises(DatabaseError, match="kept"), transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(change.format("training_houseruleset"))


class TestWhatFollows:
    def test_a_lesson_prints_the_shops_limit_and_the_rulebooks_beside_it(self, own_shop, owner, visit) -> None:
        url = f"/shop/{own_shop.slug}/course/measure-and-choose/measure-the-injury/"
        assert "at most 5 mm" not in text_of(visit(url))

        put(own_shop, owner)

        page = text_of(visit(url))
        assert "at most 5 mm" in page
        assert "1/4 in (6 mm)" in page
        assert "House rule of the shop" in page

    def test_only_lessons_that_print_a_changed_limit_have_to_be_read_again(
        self, own_shop, owner, apprentice, visit
    ) -> None:
        for module, lesson in (
            ("measure-and-choose", "measure-the-injury"),
            ("prepare-install-return", "cement-and-dry"),
        ):
            visit(f"/shop/{own_shop.slug}/course/{module}/{lesson}/read/", post={"x": "1"})

        put(own_shop, owner)

        sized = visit(f"/shop/{own_shop.slug}/course/measure-and-choose/measure-the-injury/").content.decode()
        cemented = visit(f"/shop/{own_shop.slug}/course/prepare-install-return/cement-and-dry/").content.decode()
        assert "Read again" in sized
        assert "Read again" not in cemented

    def test_check_a_tire_decides_by_it_and_says_whose_rule_it_is(self, own_shop, owner, visit) -> None:
        hole = SMALL_HOLE | {"injury_A_diameter": "5.5 mm", "on": "2026-11-25"}
        url = f"/shop/{own_shop.slug}/check/?{urlencode(hole)}"
        before = visit(url).content.decode()

        put(own_shop, owner)

        after = visit(url).content.decode()
        assert '<h1 class="visually-hidden">Check a tire: Repair</h1>' in before
        assert '<h1 class="visually-hidden">Check a tire: Reject</h1>' in after
        assert "House rule of the shop" in after
        assert "stricter limits" in after

    def test_questions_are_drawn_by_it_and_an_open_form_keeps_its_own(self, own_shop, owner, apprentice) -> None:
        before = start_practice(shop=own_shop, learner=apprentice, skill="size-limits", at=NOW)
        kept = [row.snapshot for row in FormItem.objects.filter(form=before.form).order_by("position")]

        put(own_shop, owner)
        other = start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

        assert before.form.edition_version == "2026.1"
        assert other.form.edition_version == edition_of(own_shop).version != "2026.1"
        assert [row.snapshot for row in FormItem.objects.filter(form=before.form).order_by("position")] == kept
        drawn = json.dumps([row.snapshot for row in FormItem.objects.filter(form=other.form)])
        assert "at most 5 mm" in drawn

    def test_the_version_on_a_form_is_explained_after_the_rules_have_gone(self, own_shop, owner) -> None:
        put(own_shop, owner)
        version = edition_of(own_shop).version
        put(own_shop, owner, HouseRules(), base=1)

        assert house_rules_of_version(own_shop, "north-america", version) == (
            "Size of the hole: at most 5 mm (rulebook: at most 1/4 in (6 mm))",
        )
        assert house_rules_of_version(own_shop, "north-america", "2026.1") == ()

    def test_no_page_asks_the_database_more_for_them(self, own_shop, owner, client_as) -> None:
        browser = client_as("apprentice")
        url = f"/shop/{own_shop.slug}/course/measure-and-choose/measure-the-injury/"
        without = cost_of(browser, url)
        put(own_shop, owner)

        assert cost_of(browser, url) == without


class TestThePages:
    def url(self, shop: Shop, rest: str = "") -> str:
        return f"/shop/{shop.slug}/house-rules/{rest}"

    def test_empty_it_says_how_to_begin(self, own_shop, visit) -> None:
        page = visit(self.url(own_shop), as_role="owner").content.decode()

        assert "None: the limits are those of the rulebook (North America, version 2026.1)" in page
        assert "Nothing yet. Each set of house rules stays here" in page

    def test_from_field_to_confirmation_to_in_force(self, own_shop, client_as) -> None:
        browser = client_as("owner")
        url = self.url(own_shop)

        shown = browser.post(url, entered(browser, url, **{"injury-size": STRICTER}))
        page = shown.content.decode()
        assert "at most 1/4 in (6 mm), as the rulebook" in page
        assert "at most 5 mm" in page
        # the chart gives an earlier repair the same limit, and the page says that it stays
        assert "Size of the hole repaired is at most 1/4 in (6 mm) in the rulebook too, and stays so." in page
        own_shop.refresh_from_db()
        assert own_shop.house_rules == []

        sent = {name: shown.context["form"][name].value() for name in ("rules", "base")} | {"reason": "Two comebacks."}
        done = browser.post(self.url(own_shop, "set/"), sent, follow=True)

        assert "1 house rule in force" in done.content.decode()
        assert "Two comebacks." in done.content.decode()
        own_shop.refresh_from_db()
        assert [one["limits"] for one in own_shop.house_rules] == [["5 mm"]]

    @pytest.mark.parametrize(
        ("clause", "value", "words"),
        [
            ("injury-size", "7 mm", "Size of the hole: 7 mm is looser than at most 1/4 in (6 mm); give at most 6 mm."),
            (
                "injury-size",
                "5/16 in",
                "Size of the hole: 5/16 in is looser than at most 1/4 in (6 mm); give at most 1/4 in.",
            ),
            ("injury-size", "5", "Size of the hole: &quot;5&quot; is not a length; give a number and a unit"),
            ("injury-size", "5 deg", "Size of the hole: &quot;5 deg&quot; is not a length"),
            ("tread-depth", "1/32 in", "Tread depth: 1/32 in is looser than at least 2/32 in; give at least 2/32 in."),
            (
                "channel-cementing",
                "2 to 4 times",
                "Fluid worked into the channel: 2 times to 4 times is looser than 3 to 5 times",
            ),
            ("channel-cementing", "4 times", "Fluid worked into the channel: &quot;4 times&quot; is not a range"),
            ("cutter-passes", "3.5 passes", "Passes each way: 3.5 passes cannot be counted; give a whole number."),
            ("channel-cementing", "3.5 to 5 times", "Fluid worked into the channel: 3.5 times cannot be counted"),
            ("buff-texture", [], "Buffing texture: nothing is ticked; tick at least one."),
        ],
    )
    def test_what_is_not_accepted_is_named_beside_its_field(self, own_shop, client_as, clause, value, words) -> None:
        browser = client_as("owner")
        url = self.url(own_shop)

        page = browser.post(url, entered(browser, url, **{clause: value})).content.decode()

        assert page.count(words) == 2  # in the summary and beside the field
        assert "<title>Error:" in page

    def test_the_rulebooks_own_limits_change_nothing(self, own_shop, client_as) -> None:
        browser = client_as("owner")
        url = self.url(own_shop)

        page = browser.post(url, entered(browser, url, **{"injury-size": "1/4 in (6 mm)"})).content.decode()

        assert "Nothing would change" in page

    def test_a_file_is_read_and_confirmed(self, own_shop, owner, client_as) -> None:
        text = '[[rule]]\nclause = "tread-depth"\nat_least = "4/32 in"\nnote = "Snow season."\n'
        file = SimpleUploadedFile("house.toml", text.encode())

        page = client_as("owner").post(self.url(own_shop, "file/"), {"file": file}).content.decode()

        assert "at least 4/32 in" in page
        assert "Snow season." in page

    @pytest.mark.parametrize(
        ("text", "words"),
        [
            ("", "both are empty; choose a file, or paste its text."),
            ("[[rule]", "is not TOML"),
            ('[[rule]]\nclause = "no-such"\n', "no-such: north-america 2026.1 has no such clause; choose "),
            ('[[rule]]\nclause = "stem-height"\n', "stem-height: about 1/8 in has no stricter side"),
            (SIZE_FILE + 'at_least = "1 mm"', "this clause says at most 1/4 in (6 mm), so give at_most"),
            (SIZE_FILE + "at_most = 5", "at_most: 5 is not accepted; give a text with its unit"),
            (SIZE_FILE + 'at_most = "7 mm"', "injury-size: 7 mm is looser than at most 1/4 in (6 mm)"),
            ((SIZE_FILE + 'at_most = "5 mm"\n') * 2, "is named twice"),
            (SIZE_FILE + 'at_most = "5 mm"\nsize = 1', "size: is not a field"),
        ],
    )
    def test_a_bad_file_is_refused_by_clause(self, own_shop, visit, text, words) -> None:
        page = visit(self.url(own_shop, "file/"), as_role="owner", post={"text": text}).content.decode()

        assert words in page.replace("&quot;", '"')
        own_shop.refresh_from_db()
        assert own_shop.house_rules == []

    def test_what_the_page_gives_out_as_a_file_it_reads_again(self, own_shop, owner, visit) -> None:
        put(own_shop, owner, HouseRules((HouseRule("injury-size", ("3/16 in", "5 mm"), None, 'Two "comebacks".'),)))
        text = visit(self.url(own_shop, "1/"), as_role="owner").context["text"]

        page = visit(self.url(own_shop, "file/"), as_role="owner", post={"text": text}).content.decode()

        assert "Nothing would change" in page

    def test_a_set_is_taken_back_by_setting_the_one_before_again(self, own_shop, owner, client_as) -> None:
        put(own_shop, owner)
        put(own_shop, owner, HouseRules((HouseRule("injury-size", ("4 mm",)),)), base=1)
        browser = client_as("owner")

        shown = browser.get(self.url(own_shop, "1/"))
        browser.post(self.url(own_shop, "set/"), {n: shown.context["form"][n].value() for n in ("rules", "base")})

        own_shop.refresh_from_db()
        assert [one["limits"] for one in own_shop.house_rules] == [["5 mm"]]
        assert HouseRuleSet.objects.filter(shop=own_shop).count() == 3

    def test_all_are_taken_back(self, own_shop, owner, client_as) -> None:
        put(own_shop, owner)
        browser = client_as("owner")

        shown = browser.get(self.url(own_shop, "0/"))
        assert "taken back" in shown.content.decode()
        browser.post(self.url(own_shop, "set/"), {n: shown.context["form"][n].value() for n in ("rules", "base")})

        own_shop.refresh_from_db()
        assert own_shop.house_rules == []

    def test_another_shops_set_does_not_exist_here(self, own_shop, other_shop, person, visit) -> None:
        put(other_shop, person("owner_of_other_shop"))

        assert visit(self.url(own_shop, "1/"), as_role="owner").status_code == 404

    def test_a_stale_page_sets_nothing_and_says_who_was_first(self, own_shop, owner, client_as) -> None:
        browser = client_as("owner")
        put(own_shop, owner)

        done = browser.post(self.url(own_shop, "set/"), {"rules": "", "base": "0"}, follow=True)

        assert "The owner set house rules on" in done.content.decode()
        own_shop.refresh_from_db()
        assert len(own_shop.house_rules) == 1

    def test_costs_the_same_with_one_set_as_with_five(self, own_shop, owner, client_as) -> None:
        browser = client_as("owner")
        put(own_shop, owner)
        one = cost_of(browser, self.url(own_shop))
        for number, size in enumerate(("4 mm", "3 mm", "4.5 mm", "5.5 mm"), 1):
            put(own_shop, owner, HouseRules((HouseRule("injury-size", (size,)),)), base=number)

        assert cost_of(browser, self.url(own_shop)) == one
