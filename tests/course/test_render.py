"""A rendered lesson prints the rulebook's limits with their sources, safely, and fails on a name nobody knows."""

import re
from dataclasses import replace
from html import unescape
from html.parser import HTMLParser

import pytest

from tests.course.lessons import HEAD, LESSONS, NAMES, html_of, lesson_of, worked
from tests.pages import text_of
from tests.present import present
from training import course
from training.course.lessons import CourseError, parse_lesson
from training.course.render import check_lesson, content_versions, render
from training.rulebook import Edition, HouseRule, HouseRules, lay_over, load_edition
from training.trade.speech import LANGUAGES, in_language

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

VOID = {"br", "hr", "img", "input", "meta", "link", "col"}


@pytest.fixture(scope="module")
def edition():
    return load_edition("north-america")


class Outline(HTMLParser):
    """Collects tags, ids and heading levels, and notices what is not closed."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str | None] = []
        self.headings: list[int] = []
        self.tags: list[str] = []
        self.links: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        given = dict(attrs)
        if "id" in given:
            self.ids.append(given["id"])
        if "href" in given:
            self.links.append(given["href"] or "")
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open
        assert self.open.pop() == tag


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
@pytest.mark.parametrize("prefer", ["in", "mm"])
def test_a_lesson_renders_as_sound_html(lesson, prefer, edition) -> None:
    page = Outline(render(lesson, edition=edition, prefer=prefer).html)

    assert page.open == []
    assert len(page.ids) == len(set(page.ids))
    assert page.headings[0] == 2
    assert all(after <= before + 1 for before, after in zip(page.headings, page.headings[1:], strict=False))
    assert min(page.headings) == 2
    assert "script" not in page.tags
    assert {link for link in page.links if link.startswith("#")} <= {f"#{name}" for name in page.ids}


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_every_limit_a_lesson_prints_stands_there_with_its_source(lesson, edition) -> None:
    rendered = render(lesson, edition=edition)
    text = text_of(rendered.html)

    for name in rendered.clauses:
        clause = edition.clause(name)
        assert clause.source.rstrip(".").lower() in text.lower()
        assert clause.because in text


def test_the_course_fits_the_edition(edition) -> None:
    course.check(edition)


def words_of(module: str, lesson: str, edition: Edition) -> str:
    return text_of(render(course.lesson(module, lesson), edition=edition).html)


# The words of published texts, typed from them and not from the rulebook.
@pytest.mark.parametrize(
    ("module", "lesson", "printed"),
    [
        # US association, puncture repair procedures, passenger and light truck (wall chart): 1/4 in (6 mm).
        ("measure-and-choose", "measure-the-injury", "at most 1/4 in (6 mm)"),
        # Retread and repair materials group, recommended practice 2017: over 25 deg a two-piece repair.
        ("measure-and-choose", "angle-and-method", "25 deg"),
        # 49 CFR 570.9(a) and state codes after it: tread of at least 2/32 in.
        ("inspect-and-reject", "tread-and-wear", "2/32 in"),
        # California and South Carolina used-tire law: 2/32 or less is unsafe.
        ("inspect-and-reject", "tread-and-wear", "more than 2/32 in"),
        # Trade press: carbide cutter at no more than 1,200 rpm.
        ("prepare-install-return", "clean-and-cut", "at most 1,200 rpm"),
        # Guidance: buffing at no more than 5,000 rpm.
        ("prepare-install-return", "outline-and-buff", "at most 5,000 rpm"),
        # Common practice, no published source: 1/2 in beyond the unit.
        ("prepare-install-return", "outline-and-buff", "1/2 in"),
        # Common practice: vulcanizing fluid dries 3 to 5 minutes.
        ("prepare-install-return", "cement-and-dry", "3 to 5 min"),
        # Common practice, no published source: the stem stands about 1/8 in above the liner.
        ("prepare-install-return", "cement-and-dry", "1/8 in"),
        # 8 CCR 3325(e): beads seated at no more than 40 psi.
        ("prepare-install-return", "return-to-service", "at most 40 psi"),
        # Guidance, trade press: recheck the torque after 50 to 100 miles.
        ("prepare-install-return", "return-to-service", "50 to 100 mi"),
    ],
)
def test_a_lesson_prints_the_published_limit(module, lesson, printed, edition) -> None:
    assert printed.lower() in words_of(module, lesson, edition).lower()


# US association wall chart and published lists of rejecting conditions (common practice): see what ends an evaluation.
@pytest.mark.parametrize(
    "finding",
    ["run flat", "liner", "plies or belts", "cord", "bead", "ozone", "impact", "bulge"],
)
def test_the_lesson_on_rejecting_lists_the_finding_in_its_table(finding, edition) -> None:
    html = render(course.lesson("inspect-and-reject", "reject-on-sight"), edition=edition).html
    table = present(re.search(r"(?s)<caption>Findings that take a tire out of service</caption>.*?</table>", html))[0]

    assert finding in text_of(table).lower()


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("::limit injury-sise\n", r"some-module/some-lesson\.md, line 7: .*injury-sise"),
        ("Holes of {limit:injury-sise}.\n", r"some-lesson\.md, line 7: .*injury-sise"),
        ("::stop\n- over {limit:injury-sise}\n::end\n", r"some-lesson\.md, line 7: .*injury-sise"),
        ("::figure no-such-figure\n", r"line 7: figure 'no-such-figure' is not known; choose .*where-it-may-be"),
        ("::findings ozone-craking\n", r"line 7: finding 'ozone-craking' is not known; choose .*ozone-cracking"),
        ("::steps three-piece\n", r"line 7: method 'three-piece' is not known; choose one-piece, two-piece"),
        ("::steps two-piece: clean-lines\n", r"line 7: step 'clean-lines' is not known; choose .*clean-liner"),
        ("::worked\ntitle = \n::end\n", r"line 7: worked example cannot be read"),
        ('::worked\ntitle = "A"\nfigure = "photo"\n::end\n', r'figure: "photo" is not accepted; choose cross-section,'),
    ],
)
def test_a_name_the_rulebook_does_not_know_fails_the_check(text, message, edition) -> None:
    with pytest.raises(CourseError, match=message):
        check_lesson(lesson_of(text), edition=edition)


# US association wall chart: after damage removal at most 1/4 in (6 mm), else out of service.
@pytest.mark.parametrize(("diameter", "verdict"), [("1/4 in", "repair"), ("9/32 in", "reject")])
def test_a_worked_example_says_what_the_rulebook_decides(diameter, verdict, edition) -> None:
    text = worked(diameter, verdict)

    check_lesson(lesson_of(text), edition=edition)
    assert f"verdict--{verdict}" in html_of(text, edition)


def test_a_worked_example_that_is_accepted_says_so_and_speaks_of_no_repair(edition) -> None:
    # 49 CFR 393.75(c): behind the front axle 2/32 in; the same reading in front would be out of service.
    lesson = course.lesson("steel-bodies", "duals-and-axles")

    told = text_of(render(lesson, edition=edition).html)

    assert "Accept Run it" in told
    assert "Not this repair" not in told


def test_a_worked_example_whose_text_counts_on_another_verdict_fails_the_check(edition) -> None:
    text = worked("9/32 in", "repair")

    with pytest.raises(
        CourseError, match="'A nail in the middle': the rulebook says reject, the text counts on repair"
    ):
        check_lesson(lesson_of(text), edition=edition)


def test_a_worked_example_that_is_no_case_names_the_field(edition) -> None:
    text = worked("7,5", "repair")

    with pytest.raises(CourseError, match=r'injuries\[0\]\.diameter: "7,5"'):
        check_lesson(lesson_of(text), edition=edition)


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>\n",
        'An <img src=x onerror="alert(1)"> inline.\n',
        "::caution <script>alert(1)</script>\nWords.\n::end\n",
        "::stop\n- <script>alert(1)</script>\n::end\n",
        "[a link](javascript:alert(1))\n",
        "![an image](https://example.org/x.png)\n",
    ],
)
def test_nothing_that_looks_like_html_reaches_the_page(text, edition) -> None:
    page = Outline(html_of(text, edition))

    assert not {"script", "img"} & set(page.tags)
    assert not [link for link in page.links if link.startswith("javascript")]


def test_the_version_changes_with_the_text_and_with_a_printed_limit_and_not_otherwise(edition) -> None:
    text = "::limit injury-size\n"
    version = render(lesson_of(text), edition=edition).content_version
    stricter = edition.altered(limits={"injury-size": ["3/16 in", "5 mm"]})
    elsewhere = edition.altered(limits={"cutter-speed": ["1000 rpm"]})

    assert render(lesson_of(text), edition=edition).content_version == version
    assert render(lesson_of(text), edition=edition, prefer="mm").content_version == version
    assert render(lesson_of(text + "More.\n"), edition=edition).content_version != version
    assert render(lesson_of(text), edition=stricter).content_version != version
    assert render(lesson_of(text), edition=elsewhere).content_version == version


def test_the_version_changes_with_the_edition_version(edition, monkeypatch) -> None:
    import dataclasses

    text = "Words alone.\n"
    later = dataclasses.replace(edition, version="2099.1")

    assert (
        render(lesson_of(text), edition=later).content_version
        != render(lesson_of(text), edition=edition).content_version
    )


def test_a_stricter_rule_of_the_shop_is_what_the_lesson_prints(edition) -> None:
    stricter = edition.altered(limits={"injury-size": ["3/16 in", "5 mm"]})

    html = html_of("::limit injury-size\n", stricter)

    assert "At most 3/16 in (5 mm)" in text_of(html)
    assert "1/4 in" not in text_of(re.sub(r'(?s)<p class="limit-because">.*?</p>', "", html))


def test_a_limit_named_in_a_sentence_links_to_its_source_on_the_page(edition) -> None:
    html = html_of("Holes {limit:injury-size} across.\n", edition)

    page = Outline(html)

    assert page.links == ["#limit-injury-size"]
    assert "limit-injury-size" in page.ids
    assert edition.clause("injury-size").source.rstrip(".") in text_of(html)


# C&U Regulations 1986 reg 27: 1.6 mm, cars; a reader in North America is told whose figure it is.
def test_a_limit_of_another_rulebook_is_printed_with_its_name(edition) -> None:
    html = html_of("In Britain {limit:united-kingdom/tread-depth}.\n", edition)

    page = Outline(html)

    assert "at least 1.6 mm (United Kingdom)" in text_of(html)
    assert page.links == ["#limit-united-kingdom-tread-depth"]
    assert "limit-united-kingdom-tread-depth" in page.ids
    assert "Not a rule of" not in text_of(html)


def test_the_name_of_the_rulebook_at_hand_before_a_limit_changes_nothing() -> None:
    text = "::limit united-kingdom/tread-depth\n\nAt {limit:united-kingdom/tread-depth}.\n"
    html = html_of(text, load_edition("united-kingdom"))

    assert "At least 1.6 mm" in text_of(html)
    assert "(United Kingdom)" not in text_of(html)
    assert Outline(html).links == ["#source-tread-depth", "#limit-tread-depth"]


# 49 CFR 393.75(b): 4/32 in on front wheels of trucks; the Construction and Use Regulations know no such figure.
@pytest.mark.parametrize("text", ["::limit tread-depth-steer-axle\n", "It is {limit:tread-depth-steer-axle}.\n"])
def test_a_limit_that_this_rulebook_lacks_is_printed_as_the_other_states_it_and_says_so(text) -> None:
    told = text_of(html_of(text, load_edition("united-kingdom")))

    assert "at least 4/32 in" in told.lower()
    assert "North America" in told.partition("at least")[2] + told.partition("At least")[0]
    assert "Not a rule of United Kingdom: read that rulebook, and ask, before you go on." in told


# BS AU 159 as summarised: area T is a share of the section width, and the grooves have no part in it.
def test_a_drawing_of_the_groove_gives_way_to_the_rule_of_a_country_that_measures_otherwise(edition) -> None:
    there = text_of(html_of("::figure where-it-may-be\n", load_edition("united-kingdom")))

    assert "United Kingdom measures it otherwise: a share of the nominal section width: 60% up to 155 mm" in there
    assert "There is a drawing here" not in text_of(html_of("::figure where-it-may-be\n", edition))


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("united-kingdom/no-such-clause", "no-such-clause"),
        ("no-such-edition/tread-depth", '"no-such-edition" is not an edition; choose'),
        ("tread-depht", "tread-depht"),
    ],
)
@pytest.mark.parametrize("under", ["north-america", "united-kingdom"])
def test_a_limit_that_no_rulebook_has_fails_the_check_under_each(name, message, under) -> None:
    with pytest.raises(CourseError, match=message):
        check_lesson(lesson_of(f"It is {{limit:{name}}}.\n"), edition=load_edition(under))


def test_the_version_changes_with_a_limit_of_another_rulebook(edition, monkeypatch) -> None:
    from training.course import blocks

    lesson = lesson_of("It is {limit:united-kingdom/tread-depth}.\n")
    before = render(lesson, edition=edition).content_version
    stricter = load_edition("united-kingdom").altered(limits={"tread-depth": ["2 mm"]})
    monkeypatch.setattr(blocks, "load_edition", lambda name: stricter)
    again = replace(lesson, minutes=lesson.minutes + 1)  # which is not part of the version, and was not rendered yet

    assert render(again, edition=edition).content_version != before


# Trade press: cable is reamed at 500 to 700 rpm, a fabric body cut at no more than 1,200 rpm.
@pytest.mark.parametrize(
    ("casings", "printed", "left_out"),
    [
        ((), "At most 1,200 rpm", "500 to 700 rpm"),
        (("passenger",), "At most 1,200 rpm", "500 to 700 rpm"),
        (("light-truck-steel", "truck"), "500 to 700 rpm", "1,200 rpm"),
    ],
)
def test_a_job_card_shows_the_limits_of_the_casings_the_lesson_is_about(casings, printed, left_out, edition) -> None:
    lesson = parse_lesson(
        HEAD + "::steps two-piece: remove-damage\n", module="some-module", slug="some-lesson", casings=casings
    )

    told = text_of(render(lesson, edition=edition).html).lower()

    assert printed.lower() in told
    assert left_out not in told


def test_a_worked_example_may_come_out_otherwise_in_an_edition_that_says_so() -> None:
    # BS AU 159g as summarised by a trade association: minor repair at most 6 mm; 1/4 in is 6.35 mm.
    text = worked("1/4 in", "repair").replace('outer_groove = "56 mm"', 'designation = "205/55R16"')
    title = present(re.search('title = "(.*)"', text))[1]
    elsewhere = load_edition("united-kingdom")

    check_lesson(lesson_of(text), edition=replace(elsewhere, worked={title: "reject"}))
    with pytest.raises(CourseError, match="the rulebook says reject, the text counts on repair"):
        check_lesson(lesson_of(text), edition=elsewhere)


def test_the_same_lesson_is_rendered_once_an_edition(edition) -> None:
    lesson = LESSONS[0]

    assert render(lesson, edition=edition) is render(lesson, edition=edition)
    assert render(lesson, edition=edition) is not render(lesson, edition=edition, prefer="mm")


def test_the_versions_of_all_lessons_are_those_of_each_under_each_rulebook_and_in_each_language(edition) -> None:
    stricter = lay_over(edition, HouseRules((HouseRule("injury-size", ("3/16 in",)),)))
    books = ((edition, "in"), (stricter, "in"), (load_edition("united-kingdom"), "mm"), (edition, "mm"))

    told = []
    for tag in (*LANGUAGES, *LANGUAGES):
        with in_language(tag):
            for book, prefer in books:
                each = [render(lesson, edition=book, prefer=prefer).content_version for lesson in LESSONS]
                assert list(content_versions(book, prefer).values()) == each
                told.append(each)

    assert told[: len(books)] * (len(told) // len(books)) == told
    assert told[0] != told[1]
    assert told[0] != told[2]


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_a_page_is_the_lesson_with_its_numbers_kept_beside_their_units(lesson, edition) -> None:
    rendered = render(lesson, edition=edition)

    assert rendered.page.replace("\N{NO-BREAK SPACE}", " ") == rendered.html.replace("\N{NO-BREAK SPACE}", " ")
    assert not re.search(r"\d (mm|in|psi|kPa|lb|kg)\b(?! the)", rendered.page)
    links = re.findall(r'<a href="#([^"]+)" data-title="([^"]*)"><span>([^<]*)</span></a>', rendered.contents)
    assert [(at, unescape(title)) for at, title, _ in links] == [(part.anchor, part.title) for part in rendered.parts]
    assert [title for _, title, _ in links] == [told for _, _, told in links]


def test_no_british_drawing_measures_to_a_groove() -> None:
    # BS AU 159g as summarized: the width of area T follows from the size, the grooves have no say
    edition, named = load_edition("united-kingdom"), 0
    for module in course.modules():
        for lesson in module.lessons:
            for svg in re.findall(r"<svg.*?</svg>", render(lesson, edition=edition, prefer="mm").html, re.DOTALL):
                texts = re.findall(r"<text[^>]*>([^<]*)</text>", svg)
                assert not [text for text in texts if "to the outer groove" in text], lesson.slug
                assert "center" not in texts or "outer groove" not in texts, lesson.slug
                named += any("edge of area T" in text for text in texts)
    assert named
