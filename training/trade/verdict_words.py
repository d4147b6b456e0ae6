"""Verdicts in words where the question was not whether the tire may run, and what to do with one refused as it is."""

from collections.abc import Mapping

from training.trade.speech import saying
from training.trade.words import VerdictWords

# by what was asked, and the verdict
PURPOSE_VERDICT_WORDS: Mapping[tuple[str, str], VerdictWords] = {
    ("repair", "accept"): VerdictWords(
        saying("Nothing to repair"),
        saying("Whether it may run is another question: ask whether it may stay in service."),
        saying("NOTHING TO REPAIR: ask whether the tire may stay in service"),
    ),
    ("repair", "advise"): VerdictWords(
        saying("Nothing to repair"),
        saying("Tell the customer what you found, and ask whether the tire may stay in service."),
        saying("NOTHING TO REPAIR: tell the customer what you found, and ask whether the tire may stay in service"),
    ),
    ("service", "reject"): VerdictWords(
        saying("Reject"), saying("Out of service. Do not run it."), saying("REJECT: the tire is out of service")
    ),
    ("fit-used", "accept"): VerdictWords(
        saying("Accept"),
        saying("It may be sold or fitted as a used tire."),
        saying("ACCEPT: the tire may be sold or fitted"),
    ),
    ("fit-used", "advise"): VerdictWords(
        saying("Advise"),
        saying("It may be sold or fitted as a used tire. Tell the customer what you found."),
        saying("ADVISE: the tire may be sold or fitted; tell the customer"),
    ),
    ("fit-used", "reject"): VerdictWords(
        saying("Reject"),
        saying("Do not sell it and do not fit it."),
        saying("REJECT: the tire may not be sold or fitted"),
    ),
}
# what to do with a tire that is refused only as it is, by what was asked
RAN_SOFT = saying("Do not fill it and do not run it: take it off the wheel and look inside first.")
PUT_RIGHT: Mapping[str, str] = {
    "repair": saying("Put it right, then check it again."),
    "service": saying("Do not run it until the cause is found and put right; then check it again."),
    "fit-used": saying("Do not sell it and do not fit it until this is put right."),
}
