"""What an explanation prints of a rule: why it refuses only where it refuses, and never "found: found"."""

import pytest
from django.template.loader import render_to_string

from assessments.pages.explained import Reason, reasons_of
from assessments.questions import draw
from tests.factories import an_item
from training.rulebook import load_edition

WHY = "A hole so large has cut too many cords."


def printed(*findings: tuple[str, str, bool]) -> str:
    reason = Reason(WHY, "at most 1/4 in (6 mm)", "wall chart", findings)
    return " ".join(render_to_string("assessments/_reasons.html", {"reasons": [reason]}).split())


@pytest.mark.parametrize(
    ("findings", "says"),
    [((), True), ((("", "9 mm", False),), True), ((("", "5 mm", True),), False),
     ((("A", "5 mm", True), ("B", "9 mm", False)), True)],
)  # fmt: skip
def test_why_a_rule_refuses_is_said_only_where_it_refuses(findings, says) -> None:
    assert (WHY in printed(*findings)) == says


def test_a_finding_is_said_by_its_name() -> None:
    page = printed(("", "cracks in the liner", False))

    assert "On this tire</dt><dd>cracks in the liner <strong>(not in order)" in page
    assert "Found" not in page


def test_several_tires_of_one_question_are_not_called_this_tire() -> None:
    page = printed(("", "7 mm", False), ("", "9 mm", False))

    assert page.count("On one of the tires</dt>") == 2
    assert "On this tire" not in page


# no published source: this is how the house speaks
@pytest.mark.parametrize(
    ("subject", "words"),
    [("tire", ""), ("proposal", "the repair proposed"), ("A", "A"), ("run-flat-damage", "run-flat damage")],
)
def test_what_a_ruling_is_about_is_said_in_words(subject: str, words: str) -> None:
    line = {"because": WHY, "limit": "none", "kind": "guidance", "source": "wall chart", "found": "x", "holds": False}
    item = an_item(explanation=({**line, "subject": subject}, {**line, "subject": "R1"}))

    (reason,) = reasons_of(item)

    assert [name for name, _, _ in reason.findings] == [words, "R1"]


def test_a_rule_is_headed_by_its_title() -> None:
    reason = Reason(WHY, "at most 1/4 in (6 mm)", "wall chart", (), title="Size of the hole")
    page = " ".join(render_to_string("assessments/_reasons.html", {"reasons": [reason]}).split())

    assert '<p class="ruling-head">Size of the hole</p> <p>A hole so large' in page


def test_an_injury_keeps_the_letter_that_stands_beside_it_in_the_drawing() -> None:
    item = draw("place-on-drawing", seed="letters", edition=load_edition("north-america"))

    assert {line["subject"] for line in item.explanation} == {"A", "B"}


def test_what_was_kept_to_and_nobody_doubts_is_told_beside() -> None:
    # no published source: an explanation says first what decides
    for number in range(6):
        item = draw("earlier-repair", seed=f"beside {number}", edition=load_edition("north-america"))
        reasons = reasons_of(item)
        beside = [reason for reason in reasons if reason.is_beside]
        assert len(beside) < len(reasons)
        assert all(holds for reason in beside for _, _, holds in reason.findings)
        refused = [reason for reason in reasons if any(not holds for _, _, holds in reason.findings)]
        assert not set(refused) & set(beside)
