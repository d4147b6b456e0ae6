"""Someone who knows the trade and judges lists line by line, seeing only the open question.

Every number is typed here from its source, never read from the rulebook. A solver returns the set of right options.
"""

from assessments.questions.items.item import OpenItem


def repairs_found(item: OpenItem) -> set[str]:
    """Common practice: a stem with a patch, or a one-piece unit, may stay where it is in the crown and sound."""
    return {
        option.text
        for option in item.options
        if option.text.startswith(("A stem under a patch in the crown", "A one-piece unit in the crown"))
        and not option.text.endswith(("one edge lifting", "cracked across"))
    }


LISTS = {"repairs-found": repairs_found}
