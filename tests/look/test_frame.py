"""The frame of every page, the pages for when something went wrong, and the small parts."""

import json

import pytest
from django import forms
from django.contrib.auth.models import AnonymousUser
from django.core import mail
from django.template.loader import render_to_string

from tests.look.reading import Page

SAFETY = "Local codes, the tire maker and the material maker prevail"
VERDICTS = ("accept", "advise", "repair", "inspect", "refer", "reject")


class Someone:
    is_authenticated = True


@pytest.mark.parametrize("name", ["400", "403", "403_csrf", "404", "429", "500"])
def test_a_page_about_a_problem_needs_no_context_and_says_what_to_do(name) -> None:
    page = Page(render_to_string(f"{name}.html"))

    assert len(page.all("h1")) == 1
    assert page.one("h1").text in page.one("main").text
    assert page.one("title").text != "· Sound Casing"
    assert SAFETY in page.one("footer").text
    assert page.one("main").text.count(".") >= 2
    assert [a for a in page.all("a") if page.one("main") in a.parents]


def test_the_frame_marks_the_current_page_names_the_person_and_lets_them_out() -> None:
    nav = [{"label": "Bay", "url": "/bay/", "current": True}, {"label": "Course", "url": "/course/", "current": False}]
    page = Page(
        render_to_string(
            "base.html", {"nav_items": nav, "user": Someone(), "person_name": "Rim <Ray>", "shop_name": "Quarry"}
        )
    )

    assert [a.text for a in page.all("a", aria_current="page")] == ["Bay"]
    assert page.one("nav").attrs["aria-label"] == "Main"
    assert "Rim <Ray> · Quarry" in page.one("header").text
    assert page.one("form", action="/accounts/logout/").attrs["method"] == "post"
    assert page.all("a")[0].attrs["href"] == "#main"
    assert page.by_id("main").tag == "main"


def test_the_frame_shows_a_stranger_no_way_out_of_an_account() -> None:
    page = Page(render_to_string("base.html", {"user": AnonymousUser()}))

    assert not page.all("form")
    assert not page.all("nav")


def test_the_title_of_a_failed_form_begins_with_error() -> None:
    class OneField(forms.Form):
        name = forms.CharField()

    failed = Page(render_to_string("base.html", {"form": OneField({})}))
    fresh = Page(render_to_string("base.html", {"form": OneField()}))

    assert failed.one("title").text.startswith("Error: ")
    assert not fresh.one("title").text.startswith("Error")


@pytest.mark.parametrize(
    ("level", "kind", "word"),
    [("success", "done", "Done:"), ("warning", "warning", "Take care:"), ("error", "problem", "Problem:")],
)
def test_a_message_says_its_kind_in_words_and_is_escaped(level, kind, word) -> None:
    class Told:
        level_tag = level

        def __str__(self):
            return "Suspended <b>certificate</b>."

    page = Page(render_to_string("_messages.html", {"messages": [Told()]}))

    assert f"notice--{kind}" in page.all("div")[1].attrs["class"]
    assert page.one("p").text == f"{word} Suspended <b>certificate</b>."


@pytest.mark.parametrize("verdict", VERDICTS)
def test_a_verdict_is_a_word_first_and_its_stroke_is_its_own(verdict) -> None:
    page = Page(render_to_string("training/_verdict.html", {"verdict": verdict}))

    assert page.one("p").text.startswith(verdict.capitalize())
    strokes = {
        one: tuple(p.attrs["d"] for p in Page(render_to_string("training/_verdict.html", {"verdict": one})).all("path"))
        for one in VERDICTS
    }
    assert all(strokes.values())
    assert len(set(strokes.values())) == len(VERDICTS)


def test_only_the_verdicts_that_let_a_tire_run_say_run_it() -> None:
    words = {v: Page(render_to_string("training/_verdict.html", {"verdict": v})).one("p").text for v in VERDICTS}

    assert {verdict for verdict, text in words.items() if "Run it" in text} == {"accept", "advise"}
    assert words["reject"] == "Reject Out of service. Do not repair it, do not run it."


def test_a_skill_ruler_puts_span_and_tick_where_the_numbers_say() -> None:
    page = Page(render_to_string("training/_ruler.html", {"lo": 20, "hi": 62.5, "at": 40}))

    span, tick = page.all("line")
    assert (span.attrs["x1"], span.attrs["x2"]) == ("20", "62.5")
    assert (tick.attrs["x1"], tick.attrs["x2"]) == ("40", "40")
    assert page.one("svg").attrs["aria-hidden"] == "true"


def test_a_ruler_without_answers_shows_the_scale_alone() -> None:
    page = Page(render_to_string("training/_ruler.html", {"lo": None, "hi": None, "at": None}))

    assert not page.all("line")
    assert page.all("path")


def test_a_ruler_at_zero_still_has_its_tick() -> None:
    page = Page(render_to_string("training/_ruler.html", {"lo": 0, "hi": 0, "at": 0}))

    assert len(page.all("line")) == 2


def test_a_tread_row_names_each_block_in_full() -> None:
    blocks = [
        {"number": 1, "url": "/q/1/", "is_answered": True, "is_flagged": True, "is_current": False},
        {"number": 2, "url": "/q/2/", "is_answered": False, "is_flagged": False, "is_current": True},
    ]
    page = Page(render_to_string("training/_tread_row.html", {"blocks": blocks}))

    assert [a.text for a in page.all("a")] == ["Question 1, answered, flagged", "Question 2, open"]
    assert [a.attrs.get("aria-current") for a in page.all("a")] == [None, "step"]


@pytest.mark.django_db
def test_the_log_in_page_asks_for_address_and_password_and_offers_a_new_one(client) -> None:
    page = Page(client.get("/accounts/login/").content.decode())

    assert [label.text for label in page.all("label")][:2] == ["Email", "Password"]
    assert page.one("a", href="/accounts/password/forgotten/").text == "I do not remember my password"
    assert page.one("input", name="password").attrs["autocomplete"] == "current-password"


@pytest.mark.django_db
def test_a_failed_log_in_says_so_in_title_summary_and_field(client) -> None:
    answer = client.post("/accounts/login/", {"login": "", "password": ""})

    page = Page(answer.content.decode())
    assert page.one("title").text.startswith("Error: ")
    assert page.one("h2").text == "You are not logged in"
    links = [a.attrs["href"] for a in page.all("a") if page.by_id("problem") in a.parents]
    assert links == ["#id_login", "#id_password"]


@pytest.mark.django_db
def test_a_forgotten_password_is_replaced_through_the_mailed_link(client, django_user_model) -> None:
    django_user_model.objects.create_user(email="rim@example.com", password="old-and-long-enough", name="Rim Ray")

    client.post("/accounts/password/forgotten/", {"email": "rim@example.com"})
    (letter,) = mail.outbox
    link = next(word for word in letter.body.split() if "/accounts/password/new/" in word)
    shown = client.get(link, follow=True)
    client.post(shown.redirect_chain[-1][0], {"password1": "new-tread-depth-9", "password2": "new-tread-depth-9"})

    assert letter.subject == "Choose a new password"
    assert "&" not in letter.body
    assert Page(shown.content.decode()).one("h1").text == "Choose a new password"
    assert client.login(email="rim@example.com", password="new-tread-depth-9")


@pytest.mark.django_db
def test_a_mailed_link_that_was_cut_short_says_what_to_do(client) -> None:
    page = Page(client.get("/accounts/password/new/1-set-cut/").content.decode())

    assert page.one("h1").text == "This link no longer works"
    assert page.one("a", href="/accounts/password/forgotten/").text == "Ask for a new link"


def test_the_script_comes_from_us_and_writes_no_style_and_runs_no_text() -> None:
    page = Page(render_to_string("_htmx.html"))

    config = json.loads(page.one("meta", name="htmx-config").attrs["content"])
    assert (config["includeIndicatorStyles"], config["allowEval"]) == (False, False)
    assert [one.attrs["src"][:8] for one in page.all("script")] == ["/static/"] * 2
