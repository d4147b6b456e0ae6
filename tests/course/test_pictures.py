"""`::picture`: a condition beside what is taken for it, with the rulebook's verdict; which pictures lessons print."""

import re

import pytest
from django.urls import reverse

from tests.course.lessons import HEAD, html_of
from tests.factories import PhotographFactory
from tests.pages import cost_of, text_of
from training.course import lesson as course_lesson
from training.course import printed_pictures, render
from training.course.lessons import CourseError, parse_lesson
from training.course.render import check_lesson
from training.pictures import CONDITIONS, Photographed
from training.rulebook import Edition, load_edition

BULGE = "::picture bulge plain 4\n**A bulge.** It stands out.\n\n**A hollow.** It goes in.\n::end\n"
OZONE = "::picture ozone-cracking slight plain grave 9\n**Cracks.**\n\n**Checking.**\n::end\n"


@pytest.fixture(scope="module")
def edition() -> Edition:
    return load_edition("north-america")


def test_the_condition_stands_beside_its_look_alike_each_with_its_caption_and_verdict(edition) -> None:
    html = html_of(BULGE, edition)

    names = re.findall(r'<img src="\.\./\.\./pictures/([a-z0-9-]+)/"', html)
    assert names == ["bulge-plain-condition-4", "bulge-plain-look-alike-4"]
    # published lists of rejecting conditions (common practice)
    assert re.search(
        r"A bulge\. It stands out\. .*bulge: reject .*A hollow\. It goes in\. .*no finding\.", text_of(html)
    )
    assert "none photographed" in html
    assert len(set(re.findall(r' alt="([^"]+)"', html))) == 2


def test_three_degrees_stand_before_what_is_taken_for_them_and_checking_is_told_to_the_customer(edition) -> None:
    html = html_of(OZONE, edition)

    assert re.findall(r"pictures/ozone-cracking-([a-z-]+)-9", html) == [
        *("slight-condition", "plain-condition", "grave-condition"),
        "plain-look-alike",
    ]
    assert re.search(r"ozone cracking: reject .*weather checking: advise", text_of(html))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (BULGE.replace("bulge", "dent", 1), "picture 'dent' is not known; choose ozone-cracking"),
        (BULGE.replace("plain", "much", 1), "degree 'much' is not known; choose slight, plain, grave"),
        (BULGE.replace(" 4", "", 1), "give a condition, its degrees and the number of a seed"),
        (BULGE.replace(" plain", "", 1), "give a condition, its degrees and the number of a seed"),
        (BULGE.replace("\n\n**A hollow.** It goes in.", ""), "1 captions; give one for each of the two"),
    ],
)
def test_what_it_does_not_know_is_refused_with_the_line(text, told, edition) -> None:
    lesson = parse_lesson(HEAD + text, module="some-module", slug="some-lesson")

    with pytest.raises(CourseError, match=rf"some-lesson\.md, line 7: .*{re.escape(told)}"):
        check_lesson(lesson, edition=edition)


def test_lessons_print_pictures_that_the_renderer_knows() -> None:
    shown = printed_pictures().values()

    assert {one.name for one in shown} <= set(CONDITIONS)
    assert len({one.name for one in shown if one.look_alike}) == len({one.name for one in shown}) >= 8


@pytest.mark.django_db
class TestItsAddress:
    def test_a_picture_of_a_lesson_is_kept_by_the_browser(self, own_shop, visit) -> None:
        name = next(iter(printed_pictures()))

        got = visit(reverse("training:lesson_picture", args=[own_shop.slug, name]))

        assert (got.status_code, got["Content-Type"]) == (200, "image/webp")
        assert got["Cache-Control"] == "private, max-age=2592000"

    def test_no_other_is_computed_for_the_asking(self, own_shop, visit) -> None:
        name = next(iter(printed_pictures()))
        other = re.sub(r"\d+$", "999", name)

        assert visit(reverse("training:lesson_picture", args=[own_shop.slug, other])).status_code == 404


@pytest.mark.django_db
class TestPhotographsOfTheShop:
    LESSON = ("inspect-and-reject", "reject-on-sight")

    def images(self, page) -> list[str]:
        figure = re.search(
            r'<figure class="[^"]*pair[^"]*">(?:(?!</figure>).)*bulge-plain.*?</figure>', page, re.DOTALL
        )
        assert figure
        return re.findall(r'<img src="([^"]+)"', figure[0])

    def test_what_two_trainers_say_stands_beside_the_computed_ones_on_its_own_side(self, own_shop, visit) -> None:
        shown = PhotographFactory.create(shop=own_shop, confirmed=True)
        other = PhotographFactory.create(shop=own_shop, confirmed=True, look_alike=True, casing="truck")
        for facts in ({}, {"confirmed": True, "taken_back": True}, {"draft": True}):
            PhotographFactory.create(shop=own_shop, **facts)
        PhotographFactory.create(confirmed=True)  # another shop's

        page = visit(reverse("training:lesson", args=[own_shop.slug, *self.LESSON])).content.decode()

        at = [reverse("training:photograph_picture", args=[own_shop.slug, one.reference]) for one in (shown, other)]
        assert self.images(page) == [
            "../../pictures/bulge-plain-condition-4/",
            at[0],
            "../../pictures/bulge-plain-look-alike-4/",
            at[1],
        ]
        assert page.count("/photographs/") == 2 + page.count(f'href="/shop/{own_shop.slug}/photographs/"')
        assert "Photograph of your shop: passenger tire" in text_of(page)
        assert "Photograph of your shop: truck tire" in text_of(page)
        assert text_of(page).count("Computed, but for the photographs of your shop.") == 1

    def test_the_newest_few_stand_there_and_cost_one_query(self, own_shop, client_as, apprentice) -> None:
        at, client = reverse("training:lesson", args=[own_shop.slug, *self.LESSON]), client_as(apprentice)
        PhotographFactory.create(shop=own_shop, confirmed=True)
        before = cost_of(client, at)
        PhotographFactory.create_batch(8, shop=own_shop, confirmed=True)

        assert cost_of(client, at) == before
        assert len(self.images(client.get(at).content.decode())) == 2 + 3

    def test_who_read_the_lesson_need_not_read_it_again(self, own_shop, edition) -> None:
        lesson = course_lesson(*self.LESSON)
        one = Photographed("bulge", False, "passenger", "/one/")

        plain, with_one = render(lesson, edition=edition), render(lesson, edition=edition, photographs=(one,))

        assert with_one.html != plain.html
        assert with_one.content_version == plain.content_version
