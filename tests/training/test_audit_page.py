"""Audit a repair: sheet and pasted job come to the same audit, and every bad value is named beside its field."""

import json
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from tests.kept_checks import LARGE_HOLE, SMALL_HOLE, keep
from tests.pages import text_of
from tests.present import present
from tests.rulebook.jobs import a_job, a_log
from training.forms.job import PasteForm, SheetForm
from training.pages.audit import audited
from training.rulebook import audit, load_edition
from training.rulebook.audit_words import STEP_PARAMETERS, word_for
from training.rulebook.measures import MEASURES

ON = "2026-11-25"
EDITION = load_edition("north-america")


def sheet_of(filled: dict[str, str], *, case=None, method: str = "two-piece") -> SheetForm:
    return SheetForm(filled, edition=EDITION, method=method, casing="passenger", case=case, on=ON)


def sound_job() -> dict[str, Any]:
    return a_job(a_log("two-piece"))


def typed(job: dict[str, Any]) -> dict[str, str]:
    """A two-piece job as somebody would fill it in on the sheet: the number of each step and its parameters."""
    filled = {}
    order = list(EDITION.orders["two-piece"])
    for number, line in enumerate(job["steps"], 1):
        place = order.index(line["step"]) + 1
        filled[f"s{place}"] = str(number)
        for key, quantity in STEP_PARAMETERS.get(line["step"], {}).items():
            if key in line:
                said = str(line[key])
                filled[f"s{place}_{key}"] = said if MEASURES[quantity].dimension else str(word_for(quantity, said))
    return filled


class TestTheSheet:
    def test_asks_for_every_step_and_parameter_of_the_method(self) -> None:
        form = sheet_of({})

        lines = list(form.lines())

        assert [line.step.id for line in lines] == list(EDITION.orders["two-piece"])
        shown = {field.name for line in lines for field in (line.done, line.place, *line.fields)} | {
            f.name for f in form.about()
        }
        assert shown == set(form.fields)

    def test_a_sound_job_filled_in_is_sound(self) -> None:
        job = sound_job()
        form = sheet_of(typed(job), case=job["case"])

        assert form.is_valid(), form.errors
        assert audit(form.job).sound

    def test_a_step_that_was_not_done_was_left_out(self) -> None:
        job = sound_job()
        place = EDITION.orders["two-piece"].index("leak-test") + 1
        filled = {name: value for name, value in typed(job).items() if not name.startswith(f"s{place}")}
        filled[f"d{place}"] = "no"

        form = sheet_of(filled, case=job["case"])

        assert form.is_valid(), form.errors
        assert [(fault.fault, fault.name) for fault in audit(form.job).faults] == [("missing", "leak-test")]

    def test_nothing_counts_that_nobody_touched(self) -> None:
        form = sheet_of({})

        assert form.is_valid(), form.errors
        assert form.data_of_job["steps"] == []
        assert form.untouched == tuple(EDITION.orders["two-piece"])
        assert all(form[name].initial is None for name in form.fields)

    def test_steps_that_are_done_stand_in_their_usual_order(self) -> None:
        form = sheet_of({"d8": "yes", "d1": "yes", "d2": "no"})

        assert form.is_valid(), form.errors
        assert [line["step"] for line in form.data_of_job["steps"]] == ["deflate", "remove-damage"]
        assert "demount" not in form.untouched

    def test_how_it_was_done_says_that_it_was_done(self) -> None:
        form = sheet_of({"s8_speed": "900 rpm"})

        assert form.is_valid(), form.errors
        assert form.data_of_job["steps"] == [{"step": "remove-damage", "speed": "900 rpm"}]

    def test_a_sheet_that_is_silent_on_one_step_is_never_sound(self) -> None:
        job = sound_job()
        filled = typed(job)
        place = EDITION.orders["two-piece"].index("leak-test") + 1
        silent = {name: value for name, value in filled.items() if not name.startswith(f"s{place}")}

        form, said = sheet_of(silent, case=job["case"]), sheet_of(silent | {f"d{place}": "no"}, case=job["case"])

        assert form.is_valid(), form.errors
        assert said.is_valid(), said.errors
        answer = audited(form.job, units=None, untouched=form.untouched)
        assert answer.is_sound is None
        assert answer.faults == ()
        assert answer.to_write_down == (("Not said whether it was done", ("Test for leaks",)),)
        assert audited(said.job, units=None, untouched=said.untouched, not_done=said.not_done).is_sound is False

    def test_while_steps_are_untouched_only_what_is_said_not_to_be_done_is_missing(self) -> None:
        place = EDITION.orders["two-piece"].index("leak-test") + 1
        form = sheet_of({f"d{place}": "no"})

        assert form.is_valid(), form.errors
        answer = audited(form.job, units=None, untouched=form.untouched, not_done=form.not_done)
        assert [fault.where for fault in answer.faults] == ["Test for leaks"]
        assert answer.method == ""

    def test_the_numbers_give_the_order(self) -> None:
        job = sound_job()
        filled = typed(job)
        buff, brush = (EDITION.orders["two-piece"].index(name) + 1 for name in ("buff", "brush"))
        filled[f"s{buff}"], filled[f"s{brush}"] = filled[f"s{brush}"], filled[f"s{buff}"]

        form = sheet_of(filled, case=job["case"])

        assert form.is_valid(), form.errors
        assert "order" in {fault.fault for fault in audit(form.job).faults}

    @pytest.mark.parametrize(
        ("filled", "field", "words"),
        [
            ({"s8": "8", "s8_speed": "fast"}, "s8_speed", '"fast" is not a turning speed'),
            ({"s7": "7", "s7_times": "often"}, "s7_times", '"often" is not a count'),
            ({"s8": "8", "s8_direction": "sideways"}, "s8_direction", '"sideways" is not accepted'),
            ({"s1": "first"}, "s1", "is not a whole number"),
            ({"s1": "0"}, "s1", "give a number from 1"),
            ({"s1": "4", "s2": "4"}, "s2", "number 4 is given twice"),
            ({"s1": "1", "lateral": "20"}, "lateral", '"20" is not a length'),
            ({"d8": "no", "s8_speed": "900 rpm"}, "d8", "take one of the two back"),
            ({"s1": "1", "outer_groove": "wide"}, "outer_groove", '"wide" is not a length'),
        ],
    )
    def test_a_bad_value_is_named_beside_its_field(self, filled, field, words) -> None:
        form = sheet_of(filled)

        assert not form.is_valid()
        assert any(words in error for error in form.errors[field]), form.errors


class TestAPastedJob:
    def paste(self, text: str, **files) -> PasteForm:
        return PasteForm({"text": text}, files, edition=EDITION, on=ON)

    def test_is_read_with_today_where_it_names_no_day(self) -> None:
        form = self.paste('{"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "deflate"}]}')

        assert form.is_valid(), form.errors
        assert present(form.job.case.on).isoformat() == ON

    def test_may_come_as_a_file(self) -> None:
        file = SimpleUploadedFile("job.json", json.dumps(sound_job()).encode())

        form = self.paste("", file=file)

        assert form.is_valid(), form.errors
        assert audit(form.job).sound

    @pytest.mark.parametrize(
        ("text", "words"),
        [
            ("", "A job as JSON: it is empty; paste a job, or choose a file."),
            ("{", "A job as JSON: job: is not JSON"),
            ("[]", "is not a job"),
            ('{"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "wash"}]}', '"wash" is not a step'),
            ('{"case": {"tire": {}}, "steps": []}', "case.tire.casing: missing"),
            ('{"edition": "united-kingdom", "case": {}, "steps": []}', "is not the rulebook of this shop"),
        ],
    )
    def test_that_is_none_says_what_is_wrong(self, text, words) -> None:
        form = self.paste(text)

        assert not form.is_valid()
        assert any(words in error for error in form.errors["text"]), form.errors

    def test_too_large_a_file_is_refused(self) -> None:
        form = self.paste("", file=SimpleUploadedFile("job.json", b" " * 200_001))

        assert not form.is_valid()
        assert "200001 bytes are too many" in form.errors["file"][0]


class TestThePage:
    @pytest.fixture
    def url(self, own_shop) -> str:
        return f"/shop/{own_shop.slug}/audit/"

    def test_offers_every_method_of_the_rulebook(self, url, visit) -> None:
        page = visit(url).content.decode()

        assert all(f'value="{method}"' in page for method in EDITION.orders)

    # Source: trade press, carbide cutter in a low-speed drill at most 1,200 rpm
    def test_lists_the_fault_with_found_limit_reason_and_source(self, url, visit) -> None:
        job = a_job(a_log("two-piece", remove_damage={"speed": "1500 rpm"}))

        words = text_of(visit(url, post={"how": "paste", "text": json.dumps(job)}))

        assert "Not sound: 1 fault" in words
        assert "Found 1,500 rpm Accepted at most 1,200 rpm" in words
        assert "does not go back on the road" in words

    def test_says_that_a_sound_job_is_sound(self, url, visit) -> None:
        words = text_of(visit(url, post={"how": "paste", "text": json.dumps(sound_job())}))

        assert "Everything that matters is written down, and all of it keeps to the rulebook." in words
        assert "does not go back on the road" not in words
        assert "Still to be written down" not in words

    def test_says_of_bare_steps_that_nothing_is_decided_and_what_is_still_to_be_written_down(self, url, visit) -> None:
        job = a_job([{"step": step["step"]} for step in a_log("two-piece")])

        answer = visit(url, post={"how": "paste", "text": json.dumps(job)})

        words, html = text_of(answer), answer.content.decode()
        assert "Not decided" in words
        assert "Still to be written down" in words
        assert "Cut the damage out Tool that cuts the damage Speed of the drill with the carbide cutter" in words
        assert "Everything that matters" not in words
        assert "<svg" not in html.split('id="outcome"')[1].split("</section>")[0]  # neither a tick nor a cross

    def test_says_what_is_not_known_of_the_tire_before_the_work(self, url, visit) -> None:
        job = a_job(a_log("two-piece"))
        job["case"]["findings"] = {}

        words = text_of(visit(url, post={"how": "paste", "text": json.dumps(job)}))

        assert "Not decided" in words
        assert "The tire" in words
        assert "Inside: signs that it ran flat or soft" in words
        assert "Check the tire first, keep the check, and audit the repair from its record." in words

    # Source: US association puncture repair procedures (wall chart): at most 1/4 in (6 mm) after damage removal
    def test_takes_the_tire_from_a_kept_check(self, own_shop, apprentice, url, visit) -> None:
        entry = keep(shop=own_shop, person=apprentice, found=LARGE_HOLE)

        answer = visit(f"{url}?check={entry.reference}&method=two-piece", post={"s1": "1"})

        assert "Not to be repaired here".lower() in text_of(answer).lower()
        assert "9 mm" in text_of(answer)

    def test_knows_no_check_of_another_shop(self, other_shop, person, url, visit) -> None:
        entry = keep(shop=other_shop, person=person("owner_of_other_shop"), found=SMALL_HOLE)

        assert visit(f"{url}?check={entry.reference}").status_code == 404
        assert visit(f"{url}?check=none").status_code == 404

    def test_shows_what_was_written_as_text(self, url, visit) -> None:
        job = {"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "deflate", "note": "<script>x</script>"}]}

        page = visit(url, post={"how": "paste", "text": json.dumps(job)}).content.decode()

        assert "<script>x" not in page
