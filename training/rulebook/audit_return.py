"""May a repaired tire run where its log puts it back? Law follows vehicle and axle, and no repair changes it."""

from collections.abc import Sequence
from dataclasses import replace

from training.rulebook.audit_fault import Fault, by_ruling
from training.rulebook.audit_job import LoggedStep
from training.rulebook.case import Case, Pressure
from training.rulebook.case_words import severity
from training.rulebook.edition import Edition
from training.rulebook.engine import decide
from training.rulebook.walking import NOT_COVERED

_PUT_BACK = "install"
_NOT_ON_THE_ROAD = "refer"
_MENDED = ("audible-leak",)  # what was found before the repair, and is gone with it


def not_to_go_back(steps: Sequence[LoggedStep], case: Case, edition: Edition) -> list[Fault]:
    """One fault at the step that puts the wheel on for each ruling that keeps a whole tire off that place.

    Only what the case says of vehicle, axle and tire counts; nothing is asked for.
    """
    at = next((step for step in reversed(steps) if step.name == _PUT_BACK), None)
    if at is None:
        return []
    findings = {slug: found for slug, found in case.findings.items() if slug not in _MENDED}
    whole = replace(case, purpose="service", injuries=(), findings=findings, pressure=Pressure(), roadside=None,
                    proposed=None)  # fmt: skip
    decision = decide(whole, edition=edition, rest_in_order=True)
    return [
        by_ruling(at.number, at.name, "limit", ruling)
        for ruling in decision.rulings
        if not ruling.holds
        and ruling.clause != NOT_COVERED
        and severity(ruling.consequence) >= severity(_NOT_ON_THE_ROAD)
    ]
