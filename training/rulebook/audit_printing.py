"""An audit in words, for a person to read."""

from collections.abc import Iterator

from training.rulebook.audit_job import Job
from training.rulebook.audit_telling import ToldFault, step_titles, to_write_down, told_fault
from training.rulebook.auditing import Audit
from training.rulebook.decision import CAUTION
from training.rulebook.printing import listed
from training.trade.speech import say, say_many, saying
from training.trade.words import CASING_WORDS, METHOD_WORDS, capital

NOT_SOUND = saying(
    "A tire repaired like this does not go back on the road until every fault is put right. "
    "Where one cannot be put right any more, the tire is out of service."
)
NOT_REPAIRABLE = saying("It was not to be repaired here, however well it was done: it does not go back on the road.")
NOT_DECIDED = saying("Until then nobody can say that this tire may go back on the road.")


def audit_text(answer: Audit, job: Job) -> str:
    """The audit for a person to read."""
    edition = job.edition
    titles = step_titles(edition)
    lines = [*_answer(answer, job)]
    lines += listed(say("What is wrong:"), (_fault(told_fault(one, edition)) for one in answer.faults))
    unstated = to_write_down(answer.unstated, titles)
    lines += listed(say("Still to be written down:"), ((place, *map(capital, words)) for place, words in unstated))
    if answer.unstated and not answer.faults:
        lines.append(NOT_DECIDED)
    lines.append(CAUTION)
    return "\n".join(map(str, lines))


def _answer(answer: Audit, job: Job) -> Iterator[str]:
    edition, count = job.edition, len(answer.faults)
    if answer.faults:
        yield say_many("NOT SOUND: {count} fault", "NOT SOUND: {count} faults", count)
    elif answer.unstated:
        yield say("NOT DECIDED: nothing that is written down is wrong, but not enough is written down")
    else:
        yield say("SOUND: everything that matters is written down and keeps to the rulebook")
    tire = capital(CASING_WORDS[job.case.tire.casing].one)
    repaired = f"{tire}, {METHOD_WORDS[answer.method]}" if answer.method else tire
    yield say(
        "{repaired_tire}. Rulebook: {rulebook}, version {version}.",
        repaired_tire=repaired,
        rulebook=edition.title,
        version=edition.version,
    )
    if answer.faults:
        is_no_repair = any(one.fault == "not-repairable" for one in answer.faults)
        yield NOT_REPAIRABLE if is_no_repair else NOT_SOUND


def _fault(told: ToldFault) -> list[str]:
    wrong = f"{told.where}: {told.what}."
    if told.found:
        wrong = say("{fault} Found: {found}. Accepted: {accepted}.", fault=wrong, found=told.found,
                    accepted=told.accepted)  # fmt: skip
    return [wrong, f"{told.because} ({told.source})"]
