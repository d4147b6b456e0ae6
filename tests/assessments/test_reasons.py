"""What an explanation prints of a rule: why it refuses only where it refuses, and never "found: found"."""

import pytest
from django.template.loader import render_to_string

from assessments.pages.explained import Reason

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
