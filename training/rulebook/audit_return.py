"""May a repaired tire run where its log puts it back? Law follows vehicle and axle, and no repair changes it."""

from collections.abc import Sequence
from dataclasses import replace

from training.rulebook.audit_fault import Fault, by_ruling
from training.rulebook.audit_job import LoggedStep
from training.rulebook.case import Case, Pressure
from training.rulebook.case_words import severity
from training.rulebook.decision import Ruling
from training.rulebook.edition import Edition
from training.rulebook.engine import decide

_PUT_BACK, _SET = "install", "job.pressure_set"
_NOT_ON_THE_ROAD = "refer"
_MENDED = ("audible-leak",)  # what was found before the repair, and is gone with it
_FOR_THE_LOAD = "pressure.of_load_table"  # where a service check looks again, the log has the pressure that was set


def not_to_go_back(steps: Sequence[LoggedStep], case: Case, edition: Edition) -> list[Fault]:
    """One fault at the step that puts the wheel on for each ruling that keeps a whole tire off that place.

    Only what case and log say of vehicle, axle, tire and pressure counts; nothing is asked for.
    """
    at = next((step for step in reversed(steps) if step.name == _PUT_BACK), None)
    if at is None:
        return []
    findings = {slug: found for slug, found in case.findings.items() if slug not in _MENDED}
    filled = next((step.stated[_SET].measured for step in reversed(steps) if _SET in step.stated), None)
    pressure = Pressure(found=filled, for_load=case.pressure.for_load if filled is not None else None)
    whole = replace(case, purpose="service", injuries=(), findings=findings, pressure=pressure, roadside=None,
                    proposed=None)  # fmt: skip

    def keeps_off(ruling: Ruling) -> bool:
        clause = edition.clauses.get(ruling.clause)
        return not ruling.holds and clause is not None and (
            severity(ruling.consequence) >= severity(_NOT_ON_THE_ROAD) or clause.quantity == _FOR_THE_LOAD
        )  # fmt: skip

    decision = decide(whole, edition=edition, rest_in_order=True)
    return [by_ruling(at.number, at.name, "limit", ruling) for ruling in decision.rulings if keeps_off(ruling)]
