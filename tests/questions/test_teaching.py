"""When practice stops to teach and when it moves on, told by hand; what it teaches from, for every misconception."""

import pytest

from assessments.questions import Told, asks_about, contrast, draw, draw_again, misconceptions, passages, teaching
from tests.factories import an_item
from training import course
from training.rulebook import Edition, HouseRule, HouseRules, edition_names, lay_over, load_edition, named_clauses

LEAN, SIZE = "lean-ignored", "size-does-not-matter"


def told(*answers: str) -> list[Told]:
    """Each answer "+", right, or the misconceptions that explain it, all of questions about LEAN and SIZE."""
    return [
        Told(place, answer == "+", () if answer in "+-" else tuple(answer.split()), frozenset({LEAN, SIZE}))
        for place, answer in enumerate(answers, 1)
    ]


class TestWhen:
    @pytest.mark.parametrize(
        ("answers", "taught"),
        [
            ([], ""),
            ([LEAN], ""),
            ([LEAN, LEAN], LEAN),
            ([LEAN, "+", "+", LEAN], LEAN),
            ([LEAN, SIZE], ""),
            ([LEAN, f"{SIZE} {LEAN}"], LEAN),
            ([SIZE, f"{LEAN} {SIZE}", f"{LEAN} {SIZE}"], SIZE),
            ([LEAN, LEAN, "+"], ""),  # it was to be shown before that
            (["-", "-", "-"], ""),
        ],
    )
    def test_two_answers_that_one_misconception_explains(self, answers, taught) -> None:
        assert teaching(told(*answers), {}).teach == taught

    def test_it_is_taught_again_only_after_two_more(self) -> None:
        assert teaching(told(LEAN, LEAN, LEAN), {2: LEAN}).teach == ""
        assert teaching(told(LEAN, LEAN, LEAN, LEAN), {2: LEAN}).teach == LEAN

    @pytest.mark.parametrize(
        ("after", "left"),
        [([], 2), (["+"], 1), (["+", LEAN], 2), (["+", "-"], 2), (["+", "-", "+"], 1), (["+", "+"], 0)],
    )
    def test_two_right_answers_in_a_row_to_questions_about_it_are_mastery(self, after, left) -> None:
        found = teaching(told(LEAN, LEAN, *after), {2: LEAN})

        assert (found.asked_again, found.left) == (LEAN if left else "", left)

    def test_a_right_answer_to_another_question_says_nothing_of_it(self) -> None:
        other = [Told(place, True, (), frozenset({SIZE})) for place in (3, 4)]

        assert teaching([*told(LEAN, LEAN), *other], {2: LEAN}).left == 2


class TestAgain:
    def test_a_question_asks_about_those_who_have_an_answer_of_their_own(self) -> None:
        item = an_item(omissions={"2": ("stricter-size",)})

        assert asks_about(item) == {"size-does-not-matter", "two-piece-only-when-steep", "stricter-size"}

    def test_the_next_question_asks_about_the_same(self, edition) -> None:
        for seed in ("a", "b", "c"):
            [item] = draw_again(SIZE, ["size-verdict"], seed=seed, edition=edition)
            assert SIZE in asks_about(item)
            assert item.family == "size-verdict"

    def test_takes_turns_between_the_families_that_met_it(self, edition) -> None:
        names = ["holes-by-size", "size-verdict"]
        drawn = {draw_again(SIZE, names, seed=str(seed), edition=edition)[0].family for seed in range(12)}
        drawn |= {draw_again(SIZE, names[::-1], seed=str(seed), edition=edition)[0].family for seed in range(12)}

        assert drawn == set(names)

    def test_there_is_none_where_no_family_asks_about_it(self, edition) -> None:
        assert draw_again(LEAN, ["date-code"], seed="a", edition=edition) == []
        assert draw_again(SIZE, ["size-verdict"], seed="a", edition=edition, casings=("motorcycle",)) == []
        assert draw_again(SIZE, [], seed="a", edition=edition) == []


@pytest.mark.parametrize("name", edition_names())
@pytest.mark.parametrize("misconception", misconceptions())
def test_each_misconception_has_its_section_of_the_course(misconception, name) -> None:
    """One without is added to diagnosis/passages.toml, under the lesson and the heading that clear it up."""
    tie = passages()[misconception]
    found = course.passage(course.lesson_by_key(tie.lesson), tie.heading, edition=load_edition(name))

    assert found is not None, f"{tie.lesson} prints no section {tie.heading!r} under {name}"
    assert found.title == tie.heading
    assert f"<h2>{tie.heading}" in found.html.replace("&quot;", '"')


def test_no_section_is_kept_for_a_misconception_that_is_gone() -> None:
    assert passages().keys() == misconceptions().keys()


def test_a_section_s_place_is_that_of_the_lesson_s_page(edition) -> None:
    lesson = course.lesson_by_key("measure-and-choose/where-it-may-be")
    found = course.passage(lesson, "The whole hole", edition=edition)
    assert found is not None

    parts = {part.title: part.anchor for part in course.render(lesson, edition=edition).parts}
    assert found.anchor == parts["The whole hole"]
    assert course.passage(lesson, "No such heading", edition=edition) is None


class TestContrast:
    """Limits as the wall chart of the U.S. Tire Manufacturers Association states them: 1/4 in (6 mm), 25 degrees from
    memory of the trade."""

    def sides(self, edition: Edition, clause: str, prefer: str = "in") -> list[tuple[str, str]]:
        found = contrast([clause], edition=edition, prefer=prefer)
        assert found is not None
        return [(side.found, side.verdict) for side in found.sides]

    def test_stands_on_either_side_of_the_limit(self, edition) -> None:
        assert self.sides(edition, "injury-size") == [("1/4 in", "repair"), ("9/32 in", "reject")]
        assert self.sides(edition, "injury-size", "mm") == [("6 mm", "repair"), ("6.1 mm", "reject")]
        assert self.sides(edition, "proposed-one-piece-angle") == [("25°", "repair"), ("26°", "reject")]

    def test_of_the_work_tells_no_verdict_on_a_tire(self, edition) -> None:
        assert self.sides(edition, "cutter-speed") == [("1,200 rpm", ""), ("1,201 rpm", "")]

    def test_is_decided_by_the_shop_s_own_rules(self, edition) -> None:
        # a shop that allows 5 mm refuses both 1/4 in and 6 mm
        stricter = lay_over(edition, HouseRules((HouseRule("injury-size", ("5 mm",)),)))

        assert self.sides(stricter, "injury-size", "mm") == [("5 mm", "repair"), ("6.1 mm", "reject")]

    def test_takes_the_first_clause_that_has_one(self, edition) -> None:
        found = contrast(["no-such-clause", "injury-size", "cutter-speed"], edition=edition, prefer="in")
        assert found is not None
        assert found.clause == "injury-size"
        assert contrast([], edition=edition, prefer="in") is None

    def test_is_of_the_tire_that_was_asked_about(self, edition) -> None:
        found = contrast(["injury-size"], edition=edition, prefer="in", casing="light-truck-fabric")
        assert found is not None
        assert found.casing == "light-truck-fabric"

    @pytest.mark.parametrize("name", edition_names())
    def test_of_every_misconception_that_alters_a_limit_is_told_apart_by_the_clause_alone(self, name) -> None:
        edition = load_edition(name)
        pairs = [
            contrast(named_clauses(one.alteration, edition.clauses), edition=edition, prefer=prefer)
            for one in misconceptions().values()
            for prefer in ("in", "mm")
        ]

        assert sum(pair is not None for pair in pairs) > len(pairs) / 2
        for pair in filter(None, pairs):
            assert pair.within.is_within
            assert not pair.beyond.is_within
            assert pair.within.found != pair.beyond.found
            assert bool(pair.casing) == bool(pair.within.verdict) == bool(pair.beyond.verdict)


def test_a_question_of_the_course_of_teaching_is_drawn_like_any_other(edition) -> None:
    [item] = draw_again(SIZE, ["size-verdict"], seed="a", edition=edition)

    assert draw("size-verdict", seed=item.seed, edition=edition) == item
