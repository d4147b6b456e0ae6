"""An audit in words, for a person to read."""

from training.rulebook.audit_job import Job
from training.rulebook.auditing import Audit
from training.rulebook.decision import CAUTION

_WORDS = {"not-repairable": "NOT REPAIRABLE", "method": "WRONG METHOD", "missing": "MISSING", "order": "OUT OF ORDER",
          "limit": "OFF LIMIT"}  # fmt: skip


def audit_text(answer: Audit, job: Job) -> str:
    """The audit for a person to read."""
    edition = job.edition
    lines = [f"{job.case.tire.casing}: {answer.method or 'repair'}; rulebook {edition.name} {edition.version}"]
    count = len(answer.faults)
    if answer.faults:
        lines.append(f"NOT SOUND: {count} fault{'s' if count > 1 else ''}")
    elif answer.unstated:
        lines.append("NOT DECIDED: nothing that is written down is wrong, but not enough is written down")
    else:
        lines.append("SOUND: everything that matters is written down and keeps to the rulebook")
    for fault in answer.faults:
        where = f"line {fault.step}, {fault.name}" if fault.step else fault.name
        said = (fault.found, "needed") if fault.fault == "missing" else (f"found {fault.found}", "accepted")
        lines.append(f"  - {_WORDS[fault.fault]}, {where}: {said[0]}; {said[1]}: {fault.limit}")
        lines.append(f"    {fault.because} [{fault.clause}; {fault.kind}: {fault.source}]")
    if answer.unstated:
        lines.append("Still to be written down:")
        lines += [f"  - {one.text}" for one in answer.unstated]
    if answer.faults:
        lines.append("A tire repaired like this does not go back on the road until the fault is put right.")
    elif answer.unstated:
        lines.append("Until then nobody can say that this tire may go back on the road.")
    lines.append(CAUTION)
    return "\n".join(lines)
