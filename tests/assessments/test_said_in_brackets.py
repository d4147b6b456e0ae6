"""What forms, refusals and pages of assessments say passes the seam for language; what is stored names no language."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from unittest import mock

import pytest
from django.contrib.messages import get_messages

from assessments import acts
from assessments.acts.blueprints import keep_blueprint
from assessments.forms.answers import AnswerForm, AssessmentForm, PracticeForm
from assessments.forms.bench import FlagForm, SwitchOffForm
from assessments.forms.rounds import ExtraRoundForm, StartForm
from assessments.models import Attempt, Outcome, Purpose
from assessments.pages.bench import coverage_table, family_rows
from assessments.pages.explained import reasons_of
from assessments.pages.lined_up import lined_up
from assessments.pages.shown import show_answer
from assessments.pages.worked import worked
from assessments.queries import SkillResult
from assessments.questions import (
    FORMATS,
    Blame,
    Option,
    Region,
    blueprint,
    draw,
    families_of,
    family,
    family_names,
    lines_of,
    right_answer,
)
from assessments.questions.items.shapes import Frame
from assessments.views.bench import family_title
from tests.factories import NOW, AttemptFactory, PaperFactory, an_item
from tests.pages import url
from tests.present import present
from tests.speaking import BRACKETED, CLOSE, OPEN, bracketed, outside
from tests.terms import terms_of
from training.models import Shop, User
from training.rulebook import load_edition

RIGHT, WRONG = '"2"', '"3"'  # the options of `an_item`


@contextmanager
def refused(*kinds: type[Exception]) -> Iterator[None]:
    """Inside, in brackets, something is refused in a sentence that passed the seam as a whole."""
    with pytest.raises(kinds) as refusal, bracketed():
        yield
    told = str(refusal.value)
    assert told.startswith(OPEN)
    assert told.endswith(CLOSE)
    assert not outside(told), told


class TestForms:
    @pytest.mark.parametrize("form", [StartForm, FlagForm, SwitchOffForm, ExtraRoundForm])
    def test_labels_hints_and_refusals_pass(self, form) -> None:
        with bracketed():
            empty = form({})
            told = [str(text) for field in empty.fields.values() for text in (field.label, field.help_text)]
            told += [str(text) for problems in empty.errors.values() for text in problems]

            assert len(told) > 2
            for text in told:
                assert not outside(text), text

    @pytest.mark.parametrize("form", FORMATS)
    def test_how_an_answer_is_given_passes(self, form) -> None:
        item = an_item(format=form, units=("mm", "in") if form == "number" else (), frame=Frame(0, 0, 60, 60)).open()
        with bracketed():
            field = AnswerForm(item=item, prefer="in").fields["answer"]

            assert not outside(str(field.help_text))
            assert not outside(str(field.widget.attrs.get("aria-label", "")))
            assert form in ("one", "number") or field.help_text

    @pytest.mark.parametrize("unit", ["times", "years"])
    def test_a_number_says_what_its_field_is_and_what_it_counts(self, unit) -> None:
        with bracketed():
            widget = (
                AnswerForm(item=an_item(format="number", units=(unit,)).open(), prefer="in").fields["answer"].widget
            )
            shown = widget.render("answer", None)

            assert f'aria-label="{OPEN}Number{CLOSE}"' in shown
            assert f">{OPEN}{unit}{CLOSE}<" in shown

    def test_nothing_given_and_a_page_too_old_are_refused_in_the_language_spoken(self) -> None:
        item = an_item().open()
        with bracketed():
            practice, assessment = PracticeForm({}, item=item, prefer="in"), AssessmentForm({}, item=item, prefer="in")
            told = [*practice.errors["answer"], *assessment.errors["revision"]]

            assert len(told) == 2
            for text in told:
                assert not outside(str(text)), text

    def test_a_number_that_cannot_be_read_is_refused_in_the_language_spoken(self) -> None:
        data = {"answer_0": "five", "answer_1": "mm"}
        with bracketed():
            form = PracticeForm(data, item=an_item(format="number").open(), prefer="in")

            assert form.errors["answer"]
            assert not [text for text in form.errors["answer"] if outside(str(text))]


class TestTables:
    def test_purposes_and_outcomes_pass(self) -> None:
        with bracketed():
            for label in (*Purpose.labels, *Outcome.labels):
                assert not outside(str(label))

    @pytest.mark.parametrize(("right", "asked"), [(0, 0), (1, 2), (40, 40), (9, 10), (15, 20), (0, 20)])
    def test_how_one_stands_in_a_skill_passes(self, right, asked) -> None:
        with bracketed():
            assert SkillResult("safety", "Safety", right, asked).words().startswith(OPEN)

    def test_the_tables_of_the_bench_pass(self) -> None:
        edition = load_edition("north-america")
        with bracketed():
            told = [str(text) for text in coverage_table(edition, off=()).casings]
            for row in family_rows(edition, off={}, flags=()):
                told += map(str, (row.family.title, row.skill, *row.formats, *row.casings))
            told.append(str(family_title("size-verdict")))

            assert len(told) > 100
            for text in told:
                assert not outside(text), text


class TestExplanations:
    @pytest.mark.parametrize(
        "item",
        [
            an_item(format="number"),
            an_item(format="place", options=(), key=Region(59, 65, 4, 12), distractors={}, frame=Frame(0, 0, 60, 60)),
        ],
        ids=lambda item: item.format,
    )
    def test_an_answer_beside_what_is_right_passes(self, item) -> None:
        with bracketed():
            shown = show_answer(item, right_answer(item))

            assert not outside(shown.answer_text)
            assert not outside(shown.key_text)
            assert shown.key_text

    def test_a_fault_names_its_lines_by_their_own_words(self) -> None:
        item = an_item(
            format="fault",
            options=tuple(Option(str(place), text) for place, text in enumerate(("Buff", "Measure", "None"), 1)),
            reasons=(Option("1", "Too hot"),),
            key=Blame(("1", "2"), "1"),
        )
        with bracketed():
            assert item.key_text == f"{OPEN}Buff or Measure{CLOSE}; Too hot"

    def test_the_rules_of_a_drawn_question_pass_with_their_sources(self) -> None:
        edition = load_edition("north-america")
        with bracketed():
            told = 0
            for name in families_of(edition):
                item = draw(name, seed="brackets", edition=edition)
                for reason in reasons_of(item):
                    assert not outside(reason.because), (name, reason.because)
                    assert not outside(reason.title), (name, reason.title)
                    told += 1
        assert told > 60

    def test_the_way_to_where_a_channel_came_out_passes(self) -> None:
        edition = load_edition("united-kingdom")
        with bracketed():
            item = draw("lean-and-exit", seed="exit", edition=edition, prefer="mm")
            found = present(worked(item, edition, prefer="mm", chosen=()))
            assert [row for row in found.rows if outside(row.label) or outside(row.formula)] == []
            assert not outside(found.figure.description)

    def test_holes_lined_up_at_a_ruler_pass(self) -> None:
        edition = load_edition("united-kingdom")
        with bracketed():
            item = draw("holes-by-place", seed="lined up", edition=edition, prefer="mm")
            lines = lines_of(item, edition, prefer="mm")
            found = present(lined_up(item, edition, lines, prefer="mm", chosen=[one.id for one in item.options]))
            for line in found.lines:
                assert not any(map(outside, (line.text, line.said, line.reason, line.verdict_word))), line
            assert not outside(found.outcome)


@pytest.mark.django_db
class TestRefusals:
    def test_of_practice(self, own_shop, apprentice) -> None:
        def start(skill: str = "", scope: str = "") -> Attempt:
            return acts.start_practice(shop=own_shop, learner=apprentice, skill=skill, scope=scope, at=NOW)

        with refused(acts.UnknownSkill):
            start(scope="boats")
        with refused(acts.UnknownSkill):
            start(skill="juggling")
        attempt = AttemptFactory.create(practice=True, form__shop=own_shop, form__learner=apprentice)
        acts.answer_practice(attempt=attempt, position=1, answer=RIGHT, at=NOW)
        with refused(acts.AlreadyAnswered):
            acts.answer_practice(attempt=attempt, position=1, answer=WRONG, at=NOW)

    @pytest.mark.parametrize("days", [(0,), (9, 6, 3)], ids=["waiting", "used up"])
    def test_of_an_assessment_after_those_that_were_not_passed(self, own_shop, apprentice, days) -> None:
        for one in days:
            self.tried(own_shop, apprentice, days=one, not_passed=True)

        with refused(acts.NotNow):
            acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

    def test_of_an_assessment_after_a_pass(self, own_shop, apprentice) -> None:
        self.tried(own_shop, apprentice, days=3, passed=True)

        with refused(acts.NotNow):
            acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

    @pytest.mark.parametrize("purpose", [Purpose.ASSESSMENT, Purpose.PAPER])
    def test_of_an_assessment_beside_one_of_another_scope(self, own_shop, apprentice, purpose) -> None:
        other = keep_blueprint(blueprint("north-america-steel"))
        AttemptFactory.create(
            form__shop=own_shop, form__learner=apprentice, form__blueprint=other, form__purpose=purpose
        )

        with refused(acts.NotNow):
            acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

    def test_of_an_answer(self, own_shop, apprentice) -> None:
        attempt = AttemptFactory.create(form__shop=own_shop, form__learner=apprentice)

        def save(answer: str, *, after_minutes: int = 0) -> None:
            at = NOW + timedelta(minutes=after_minutes)
            acts.record_response(attempt=attempt, position=1, answer=answer, revision=0, at=at)

        save(RIGHT)
        with refused(acts.StaleAnswer):
            save(WRONG)
        with refused(acts.AttemptClosed):
            save(WRONG, after_minutes=600)
        acts.hand_in(attempt=attempt, at=NOW)
        with refused(acts.AttemptClosed):
            save(WRONG)

    def test_of_a_paper(self, own_shop, apprentice, trainer) -> None:
        terms = terms_of(own_shop)
        paper = PaperFactory.create(
            form__shop=own_shop,
            form__learner=apprentice,
            form__blueprint=keep_blueprint(terms),
            form__drawn_at=NOW - timedelta(days=1),
            made_by=trainer,
        )

        with refused(acts.NotNow):
            acts.make_paper(shop=own_shop, learner=trainer, terms=terms, made_by=trainer, at=NOW)
        with refused(acts.NotNow):
            acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms, at=NOW)
        with refused(acts.NotNow):
            acts.hand_in_paper(paper=paper, at=NOW)
        acts.type_answers(paper=paper, answers={1: RIGHT}, typed_by=trainer, at=NOW)
        with refused(acts.AttemptClosed):
            acts.withdraw_paper(paper=paper, by=trainer, reason="Printed twice.", at=NOW)
        acts.hand_in_paper(paper=paper, at=NOW)
        with refused(acts.AttemptClosed):
            acts.type_answers(paper=paper, answers={1: WRONG}, typed_by=trainer, at=NOW)

    def test_of_a_paper_beside_an_assessment_on_the_screen(self, own_shop, apprentice, trainer) -> None:
        terms = terms_of(own_shop)
        acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms, at=NOW)

        with refused(acts.NotNow):
            acts.make_paper(shop=own_shop, learner=apprentice, terms=terms, made_by=trainer, at=NOW)

    def test_of_a_round_and_of_scopes(self, own_shop, trainer, owner) -> None:
        with refused(acts.NotNow):
            acts.give_extra_round(
                shop=own_shop, learner=trainer, terms=terms_of(own_shop), given_by=trainer, reason="Again.", at=NOW
            )
        for scopes in ([], ["boats"]):
            with refused(acts.ScopesRefused):
                acts.choose_scopes(shop=own_shop, scopes=scopes, by=owner, at=NOW)

    def test_of_the_bench(self, own_shop, trainer) -> None:
        item = an_item(seed="bench:1/1")
        acts.flag_draw(shop=own_shop, item=item, comment="Too close.", by=trainer, at=NOW)
        with refused(acts.FlagRefused):
            acts.flag_draw(shop=own_shop, item=item, comment="Still too close.", by=trainer, at=NOW)
        names = [name for name in family_names() if family(name).skill == "size-limits" and not family(name).series]
        for name in names[:-1]:
            acts.switch_family_off(shop=own_shop, family_name=name, reason="Not here.", by=trainer, at=NOW)
        with refused(acts.LastOfSkill):
            acts.switch_family_off(shop=own_shop, family_name=names[-1], reason="Not here.", by=trainer, at=NOW)

    @staticmethod
    def tried(shop: Shop, learner: User, *, days: int, **trait: bool) -> None:
        at = NOW - timedelta(days=days)
        AttemptFactory.create(
            form__shop=shop,
            form__learner=learner,
            form__blueprint=keep_blueprint(terms_of(shop)),
            started_at=at - timedelta(minutes=30),
            **trait | {"handed_in_at": at},
        )


@pytest.mark.django_db
class TestPages:
    def test_what_the_bench_says_after_a_press_passes(self, own_shop, trainer, client_as) -> None:
        client = client_as("trainer")
        presses = [
            ("bench_off", {"reason": "Not here."}),
            ("bench_on", {}),
        ]
        with bracketed(), mock.patch("training.access.edition_language", return_value=BRACKETED):
            for page, data in presses:
                response = client.post(url(f"assessments:{page}", own_shop, "torque-recheck"), data)
                told = [str(message) for message in get_messages(response.wsgi_request)]

                assert told
                assert not [text for text in told if outside(text)], told


@pytest.mark.django_db
class TestStored:
    def test_a_blueprint_is_the_same_version_in_every_language_and_says_so_in_that_of_its_rulebook(self) -> None:
        terms = blueprint("north-america-light")
        with bracketed():
            version, row = terms.version, keep_blueprint(terms)

        assert version == terms.version
        row.refresh_from_db()
        assert keep_blueprint(terms) == row
        assert (row.title, row.standing) == (terms.title, terms.note)
        assert type(row.title) is str

    def test_a_form_holds_its_questions_in_the_language_it_was_drawn_in(self, own_shop, apprentice) -> None:
        with bracketed():
            attempt = acts.start_practice(shop=own_shop, learner=apprentice, skill="safety", at=NOW)
        kept = present(attempt.form.items.first())

        assert kept.open["stem"].startswith(OPEN)
        assert kept.snapshot["stem"] == kept.open["stem"]
        assert OPEN not in kept.digest
        acts.answer_practice(attempt=attempt, position=1, answer="", at=NOW)
        following = present(attempt.form.items.last())
        assert OPEN not in following.open["stem"]
