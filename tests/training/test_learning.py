"""What learners are asked, what they have read, what they are told."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.http import HttpResponse

from tests.factories import (
    NOW,
    AssignmentFactory,
    MembershipFactory,
    NoticeFactory,
    ProgressFactory,
    ShopFactory,
    UserFactory,
)
from tests.pages import Visit, cost_of, queries_of, text_of
from tests.present import present
from training import acts, course, queries
from training.models import Assignment, Notice, Progress, Shop, User
from training.rulebook import load_edition

TODAY = date(2026, 11, 25)
NEXT_WEEK = date(2026, 12, 2)
INSPECT, MEASURE, STEEL = "inspect-and-reject", "measure-and-choose", "steel-bodies"


def assign(
    shop: Shop,
    learners: Sequence[User],
    trainer: User,
    *,
    modules: Sequence[str] = (INSPECT,),
    due: date = NEXT_WEEK,
    at: datetime = NOW,
) -> tuple[acts.Assigned, ...]:
    return acts.assign(shop=shop, learners=learners, modules=modules, due_date=due, assigned_by=trainer, at=at)


def version(shop: Shop, module: str, lesson: str) -> str:
    edition = load_edition(shop.edition)
    return course.render(course.lesson(module, lesson), edition=edition, prefer=shop.units).content_version


def assigned_to(shop: Shop, learner: User, day: date) -> list[queries.ModuleProgress]:
    return [one for one in queries.course_of(shop, learner, day) if one.assignment]


def next_lesson(shop: Shop, learner: User) -> queries.NextLesson | None:
    return queries.next_lesson_in(queries.course_of(shop, learner, TODAY))


def read(shop: Shop, learner: User, module: str, *lessons: str) -> None:
    for lesson in lessons:
        acts.mark_lesson_read(
            shop=shop,
            learner=learner,
            module=module,
            lesson=lesson,
            content_version=version(shop, module, lesson),
            at=NOW,
        )


class TestAssigning:
    def test_asks_each_learner_for_each_module_and_tells_them(self, own_shop, apprentice, trainer) -> None:
        other = MembershipFactory.create(shop=own_shop).user

        done = assign(own_shop, [apprentice, other], trainer, modules=(INSPECT, MEASURE))

        assert [one.change for one in done] == ["new"] * 4
        assert Assignment.objects.filter(shop=own_shop, due_date=NEXT_WEEK).count() == 4
        texts = list(queries.notices_of(own_shop, apprentice).values_list("text", flat=True))
        assert len(texts) == 2
        assert all("The trainer asks you to finish" in text and "Dec 2, 2026" in text for text in texts)

    def test_the_same_once_more_changes_nothing_and_tells_nobody(self, own_shop, apprentice, trainer) -> None:
        assign(own_shop, [apprentice], trainer)

        (again,) = assign(own_shop, [apprentice], trainer)

        assert again.change == "same"
        assert Assignment.objects.count() == 1
        assert Notice.objects.count() == 1

    def test_another_day_moves_what_stands_and_says_so(self, own_shop, apprentice, trainer) -> None:
        assign(own_shop, [apprentice], trainer)

        (moved,) = assign(own_shop, [apprentice], trainer, due=date(2026, 12, 20))

        assert moved.change == "moved"
        assert Assignment.objects.get().due_date == date(2026, 12, 20)
        assert "finish it by Dec 20, 2026" in queries.notices_of(own_shop, apprentice)[0].text

    def test_a_withdrawn_module_can_be_asked_again(self, own_shop, apprentice, trainer) -> None:
        (first,) = assign(own_shop, [apprentice], trainer)
        acts.withdraw_assignment(assignment=first.assignment, at=NOW)

        (again,) = assign(own_shop, [apprentice], trainer)

        assert again.change == "new"
        assert Assignment.objects.count() == 2

    # 05:30 UTC on Nov 26 is still 22:30 on Nov 25 in Denver (UTC-7 in winter)
    @pytest.mark.parametrize(("due", "is_fine"), [(date(2026, 11, 24), False), (date(2026, 11, 25), True)])
    def test_today_is_the_day_in_the_shop(self, own_shop, apprentice, trainer, due, is_fine) -> None:
        late_evening = NOW.replace(day=26, hour=5, minute=30)

        if is_fine:
            assert assign(own_shop, [apprentice], trainer, due=due, at=late_evening)
        else:
            with pytest.raises(acts.AssignmentRefused, match=r"Nov 24, 2026 has gone by; choose today, Nov 25, 2026"):
                assign(own_shop, [apprentice], trainer, due=due, at=late_evening)
            assert not Assignment.objects.exists()

    def test_withdrawing_twice_keeps_the_first_moment(self, own_shop) -> None:
        asked = AssignmentFactory.create(shop=own_shop)

        acts.withdraw_assignment(assignment=asked, at=NOW)
        again = acts.withdraw_assignment(assignment=asked, at=NOW + timedelta(days=1))

        assert again.withdrawn_at == NOW

    def test_the_database_keeps_one_open_assignment_a_module(self, own_shop, apprentice) -> None:
        AssignmentFactory.create(shop=own_shop, learner=apprentice)

        with pytest.raises(IntegrityError), transaction.atomic():
            AssignmentFactory.create(shop=own_shop, learner=apprentice)


class TestTheAssignPage:
    def post(self, visit: Visit, shop: Shop, **fields: Any) -> HttpResponse:
        return visit(f"/shop/{shop.slug}/assign/", as_role="trainer", post=fields)

    def test_assigns_and_says_so(self, own_shop, apprentice, visit, client_as) -> None:
        fields = {"learners": [str(apprentice.reference)], "modules": [INSPECT], "due_date": "2999-01-31"}
        browser = client_as("trainer")

        answer = browser.post(f"/shop/{own_shop.slug}/assign/", fields, follow=True)

        assert Assignment.objects.get().due_date == date(2999, 1, 31)
        assert f"Assigned. {apprentice.name}: " in answer.content.decode()

    @pytest.mark.parametrize(
        ("fields", "words"),
        [
            ({"learners": []}, "Who: nobody is chosen"),
            ({"modules": []}, "What: nothing is chosen"),
            ({"modules": ["no-such-module"]}, "no-such-module&quot; is not a module of the course"),
            ({"due_date": "soon"}, "Finish by: this is not a day"),
            ({"due_date": "2020-01-01"}, "Finish by: 2020-01-01 has gone by"),
            ({"due_date": ""}, "Finish by: no day is given"),
        ],
    )
    def test_bad_input_is_named_and_nothing_is_assigned(self, own_shop, apprentice, visit, fields, words) -> None:
        good = {"learners": [str(apprentice.reference)], "modules": [INSPECT], "due_date": "2999-01-31"}

        answer = self.post(visit, own_shop, **(good | fields))

        assert words in answer.content.decode()
        assert not Assignment.objects.exists()

    def test_a_learner_of_another_shop_cannot_be_chosen(self, own_shop, person, visit) -> None:
        stranger = person("apprentice_of_other_shop")

        answer = self.post(
            visit, own_shop, learners=[str(stranger.reference)], modules=[INSPECT], due_date="2999-01-31"
        )

        assert "is not a learner of this shop" in answer.content.decode()
        assert not Assignment.objects.exists()

    def test_an_assignment_of_another_shop_is_not_found(self, own_shop, other_shop, visit) -> None:
        theirs = AssignmentFactory.create(shop=other_shop)

        answer = visit(f"/shop/{own_shop.slug}/assignments/{theirs.reference}/withdraw/", as_role="trainer", post={})

        assert answer.status_code == 404
        theirs.refresh_from_db()
        assert theirs.withdrawn_at is None

    def test_costs_the_same_for_few_and_for_many(self, own_shop, apprentice, client_as) -> None:
        browser, address = client_as("trainer"), f"/shop/{own_shop.slug}/assign/"
        AssignmentFactory.create(shop=own_shop, learner=apprentice)
        few = cost_of(browser, address)
        for _ in range(12):
            AssignmentFactory.create(shop=own_shop, learner=MembershipFactory.create(shop=own_shop).user)

        assert cost_of(browser, address) == few

    def test_withdraws(self, own_shop, apprentice, visit) -> None:
        mine = AssignmentFactory.create(shop=own_shop, learner=apprentice)

        visit(f"/shop/{own_shop.slug}/assignments/{mine.reference}/withdraw/", as_role="trainer", post={})

        mine.refresh_from_db()
        assert mine.withdrawn_at is not None


class TestReading:
    def test_twice_keeps_the_first_moment(self, own_shop, apprentice) -> None:
        first = acts.mark_lesson_read(
            shop=own_shop, learner=apprentice, module=INSPECT, lesson="off-the-wheel", content_version="v1", at=NOW
        )
        again = acts.mark_lesson_read(
            shop=own_shop,
            learner=apprentice,
            module=INSPECT,
            lesson="off-the-wheel",
            content_version="v1",
            at=NOW + timedelta(days=1),
        )

        assert first == again
        assert again.read_at == NOW

    def test_a_module_is_done_when_all_its_lessons_are_read(self, own_shop, apprentice) -> None:
        AssignmentFactory.create(shop=own_shop, learner=apprentice, module=MEASURE)
        lessons = [lesson.slug for lesson in course.module(MEASURE).lessons]

        read(own_shop, apprentice, MEASURE, *lessons[:-1])
        (almost,) = assigned_to(own_shop, apprentice, TODAY)
        read(own_shop, apprentice, MEASURE, lessons[-1])
        (whole,) = assigned_to(own_shop, apprentice, TODAY)

        assert (almost.read, almost.total, almost.is_done) == (len(lessons) - 1, len(lessons), False)
        assert (whole.read, whole.is_done) == (len(lessons), True)

    def test_a_lesson_read_in_another_version_is_to_be_read_again(self, own_shop, apprentice) -> None:
        ProgressFactory.create(shop=own_shop, learner=apprentice, content_version="an older text")

        lesson = queries.course_of(own_shop, apprentice, TODAY)[0].lessons[0]

        assert (lesson.read_at, lesson.is_outdated) == (None, True)

    @pytest.mark.parametrize(("day", "is_late"), [(NEXT_WEEK, False), (NEXT_WEEK + timedelta(days=1), True)])
    def test_late_begins_the_day_after(self, own_shop, apprentice, day, is_late) -> None:
        AssignmentFactory.create(shop=own_shop, learner=apprentice, due_date=NEXT_WEEK)

        assert assigned_to(own_shop, apprentice, day)[0].is_late is is_late

    def test_done_is_never_late(self, own_shop, apprentice) -> None:
        AssignmentFactory.create(shop=own_shop, learner=apprentice, due_date=NEXT_WEEK)
        read(own_shop, apprentice, INSPECT, *[lesson.slug for lesson in course.module(INSPECT).lessons])

        assert not assigned_to(own_shop, apprentice, date(2027, 1, 1))[0].is_late

    def test_next_comes_what_is_due_first_then_the_course_in_order(self, own_shop, apprentice) -> None:
        untouched = present(next_lesson(own_shop, apprentice))
        AssignmentFactory.create(shop=own_shop, learner=apprentice, module=MEASURE, due_date=NEXT_WEEK)
        asked = present(next_lesson(own_shop, apprentice))
        read(own_shop, apprentice, MEASURE, *[lesson.slug for lesson in course.module(MEASURE).lessons])
        after = present(next_lesson(own_shop, apprentice))

        assert (untouched.module.slug, untouched.due_date) == (INSPECT, None)
        assert (asked.module.slug, asked.due_date) == (MEASURE, NEXT_WEEK)
        assert after.module.slug == INSPECT

    def test_nothing_is_next_once_all_is_read(self, own_shop, apprentice) -> None:
        for module in course.modules():
            read(own_shop, apprentice, module.slug, *[lesson.slug for lesson in module.lessons])

        assert next_lesson(own_shop, apprentice) is None

    def test_a_module_about_some_tires_only_is_next_when_it_is_asked_and_not_before(self, own_shop, apprentice) -> None:
        for module in course.modules():
            if not module.casings:
                read(own_shop, apprentice, module.slug, *[lesson.slug for lesson in module.lessons])
        unasked = next_lesson(own_shop, apprentice)
        AssignmentFactory.create(shop=own_shop, learner=apprentice, module=STEEL, due_date=NEXT_WEEK)

        asked = present(next_lesson(own_shop, apprentice))

        assert unasked is None
        assert (asked.module.slug, asked.due_date) == (STEEL, NEXT_WEEK)

    def test_what_was_read_in_another_shop_does_not_count(self, own_shop, other_shop, apprentice) -> None:
        read(other_shop, apprentice, INSPECT, "off-the-wheel")

        assert queries.course_of(own_shop, apprentice, TODAY)[0].read == 0

    def test_changing_the_unit_printed_first_asks_nobody_to_read_again(self, own_shop, apprentice) -> None:
        read(own_shop, apprentice, MEASURE, "measure-the-injury")
        own_shop.units = "mm"
        own_shop.save()

        assert queries.course_of(own_shop, apprentice, TODAY)[1].lessons[0].read_at == NOW


class TestTheShopsProgress:
    def test_names_learners_late_modules_and_lessons_read(self, own_shop, apprentice, trainer) -> None:
        AssignmentFactory.create(shop=own_shop, learner=apprentice, due_date=date(2026, 11, 24))
        read(own_shop, apprentice, INSPECT, "off-the-wheel")

        (row,) = queries.progress_of_shop(own_shop, TODAY)

        assert row.person == apprentice
        assert row.read == 1
        assert row.total == sum(len(module.lessons) for module in course.modules() if not module.casings)
        assert [module.module.slug for module in row.late] == [INSPECT]

    def test_counts_a_module_about_some_tires_only_for_whom_it_was_asked(self, own_shop, apprentice) -> None:
        (before,) = queries.progress_of_shop(own_shop, TODAY)
        read(own_shop, apprentice, STEEL, "run-soft-and-the-cage")
        (unasked,) = queries.progress_of_shop(own_shop, TODAY)
        AssignmentFactory.create(shop=own_shop, learner=apprentice, module=STEEL, due_date=NEXT_WEEK)

        (asked,) = queries.progress_of_shop(own_shop, TODAY)

        assert (unasked.read, unasked.total) == (0, before.total)
        assert (asked.read, asked.total) == (1, before.total + len(course.module(STEEL).lessons))

    def test_leaves_out_who_left_and_who_is_elsewhere(self, own_shop, apprentice, person) -> None:
        MembershipFactory.create(shop=own_shop, ended=True)
        person("apprentice_of_other_shop")

        assert [row.person for row in queries.progress_of_shop(own_shop, TODAY)] == [apprentice]

    def test_costs_the_same_for_few_and_for_many(self, own_shop, apprentice) -> None:
        AssignmentFactory.create(shop=own_shop, learner=apprentice)
        few = queries_of(lambda: queries.progress_of_shop(own_shop, TODAY))
        for _ in range(12):
            learner = MembershipFactory.create(shop=own_shop).user
            AssignmentFactory.create(shop=own_shop, learner=learner)
            ProgressFactory.create(shop=own_shop, learner=learner)

        assert queries_of(lambda: queries.progress_of_shop(own_shop, TODAY)) == few
        assert len(queries.progress_of_shop(own_shop, TODAY)) == 13


class TestNotices:
    def test_the_newest_first_and_only_those_not_put_away(self, own_shop, apprentice) -> None:
        NoticeFactory.create(shop=own_shop, person=apprentice, text="older", written_at=NOW - timedelta(days=1))
        NoticeFactory.create(shop=own_shop, person=apprentice, text="newer")
        NoticeFactory.create(shop=own_shop, person=apprentice, text="gone", put_away_at=NOW)
        NoticeFactory.create(shop=own_shop, person=UserFactory.create(), text="another's")
        NoticeFactory.create(shop=ShopFactory.create(), person=apprentice, text="elsewhere")

        assert [notice.text for notice in queries.notices_of(own_shop, apprentice)] == ["newer", "older"]

    def test_one_puts_away_only_ones_own(self, own_shop, apprentice, visit) -> None:
        mine = NoticeFactory.create(shop=own_shop, person=apprentice)
        theirs = NoticeFactory.create(shop=own_shop, person=UserFactory.create())

        first = visit(f"/shop/{own_shop.slug}/notices/{mine.reference}/put-away/", post={})
        again = visit(f"/shop/{own_shop.slug}/notices/{mine.reference}/put-away/", post={})
        refused = visit(f"/shop/{own_shop.slug}/notices/{theirs.reference}/put-away/", post={})

        assert (first.status_code, again.status_code, refused.status_code) == (302, 302, 404)
        mine.refresh_from_db()
        theirs.refresh_from_db()
        assert mine.put_away_at is not None
        assert theirs.put_away_at is None


class TestTheCoursePages:
    def test_the_course_leads_to_the_first_lesson_and_names_them_all(self, own_shop, visit) -> None:
        page = visit(f"/shop/{own_shop.slug}/course/").content.decode()

        assert "Read next" in page
        for module in course.modules():
            for lesson in module.lessons:
                assert f"/shop/{own_shop.slug}/course/{module.slug}/{lesson.slug}/" in page

    def test_the_course_says_which_tires_a_module_is_about(self, own_shop, visit) -> None:
        told = "For light truck tires with a steel body, and truck and bus tires, which your shop does not certify for."

        listed = visit(f"/shop/{own_shop.slug}/course/").content.decode()
        alone = visit(f"/shop/{own_shop.slug}/course/{STEEL}/").content.decode()
        another = visit(f"/shop/{own_shop.slug}/course/{MEASURE}/").content.decode()

        assert listed.count(told) == alone.count(told) == 1
        assert "For motorcycle tires, which your shop does not certify for." in listed
        assert "For " not in another.partition("<h1>")[2].partition("</p>")[0]

    def test_the_course_does_not_say_all_is_read_while_a_module_waits(self, own_shop, apprentice, visit) -> None:
        for module in course.modules():
            if not module.casings:
                read(own_shop, apprentice, module.slug, *[lesson.slug for lesson in module.lessons])
        some = visit(f"/shop/{own_shop.slug}/course/").content.decode()
        for module in course.modules():
            read(own_shop, apprentice, module.slug, *[lesson.slug for lesson in module.lessons])

        everything = visit(f"/shop/{own_shop.slug}/course/").content.decode()

        assert "You have read what your shop works on" in some
        assert "You have read the whole course" in everything

    @pytest.mark.parametrize("module", course.modules(), ids=lambda module: module.slug)
    def test_every_lesson_opens_with_one_heading_of_the_page(self, own_shop, client_as, module) -> None:
        browser = client_as("apprentice")

        for lesson in module.lessons:
            page = browser.get(f"/shop/{own_shop.slug}/course/{module.slug}/{lesson.slug}/")
            assert page.status_code == 200
            assert page.content.decode().count("<h1") == 1

    def test_a_lesson_prints_its_limits_with_the_source(self, own_shop, visit) -> None:
        page = text_of(visit(f"/shop/{own_shop.slug}/course/{MEASURE}/measure-the-injury/"))

        # US association, puncture repair procedures, passenger and light truck (wall chart)
        assert "1/4 in (6 mm)" in page
        assert "wall chart" in page

    def test_marking_as_read_goes_on_to_the_next_lesson_and_counts_once(self, own_shop, apprentice, visit) -> None:
        url = f"/shop/{own_shop.slug}/course/{INSPECT}/off-the-wheel/read/"

        answer = visit(url, post={})
        visit(url, post={})

        assert answer.url == f"/shop/{own_shop.slug}/course/{INSPECT}/reject-on-sight/"
        assert Progress.objects.get().learner == apprentice

    def test_after_the_last_lesson_the_module_says_what_comes_now(self, own_shop, apprentice, client_as) -> None:
        last = course.module(INSPECT).lessons[-1]
        read(own_shop, apprentice, INSPECT, *[lesson.slug for lesson in course.module(INSPECT).lessons])

        url = f"/shop/{own_shop.slug}/course/{INSPECT}/{last.slug}/read/"
        answer = client_as("apprentice").post(url, follow=True)

        assert "You have read all of it" in answer.content.decode()

    def test_a_changed_lesson_says_read_again(self, own_shop, apprentice, visit) -> None:
        ProgressFactory.create(shop=own_shop, learner=apprentice, content_version="an older text")

        page = visit(f"/shop/{own_shop.slug}/course/{INSPECT}/off-the-wheel/").content.decode()

        assert "Read again: the text or its limits changed since you read it." in page

    @pytest.mark.parametrize("path", ["no-such-module/", f"{INSPECT}/no-such-lesson/", f"{MEASURE}/off-the-wheel/"])
    def test_what_the_course_has_not_is_not_found(self, own_shop, visit, path) -> None:
        assert visit(f"/shop/{own_shop.slug}/course/{path}").status_code == 404

    def test_a_visitor_is_sent_to_log_in(self, own_shop, visit) -> None:
        answer = visit(f"/shop/{own_shop.slug}/course/", as_role="anonymous")

        assert answer.url.startswith("/accounts/login/")
