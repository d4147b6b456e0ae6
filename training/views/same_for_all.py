"""Parts of pages that read the same to everyone who works by one rulebook, in one language and unit: made once.

Nothing of a person, a shop or an instant may stand in them; what they depend on is what they are asked with, and the
language spoken.
"""

from django.template.loader import render_to_string

from training.forms.house import HouseRulesForm, UnitForm
from training.pages.rulebook import rulebook_page
from training.rulebook import (
    Edition,
    HouseRule,
    HouseRules,
    adjustable_clauses,
    edition_versions,
    write_house_rules,
)
from training.trade.speech import once_a_language

_EDITIONS, _SETS = 16, 64  # kept at most, of rulebooks as they stand and of sets of house rules


@once_a_language(_EDITIONS)
def whole_rulebook(edition: Edition) -> str:
    """Every clause by subject, the crown, what nobody has read, the sources."""
    context = {"edition": edition, "versions": edition_versions(edition.name), "book": rulebook_page(edition)}
    return render_to_string("training/_rulebook.html", context)


@once_a_language(_SETS)
def house_fields(edition: Edition, standing: HouseRules, prefer: str) -> str:
    """The fields of house rules before anything is typed."""
    form = HouseRulesForm(edition=edition, standing=standing, prefer=prefer)
    return render_to_string("training/_house_fields.html", {"form": form})


@once_a_language(_SETS)
def house_file(edition: Edition, standing: HouseRules) -> str:
    """What a file of house rules looks like, and the limits that can stand in one."""
    clauses = [(one.id, one.of_edition.bound, one.of_edition.text) for one in adjustable_clauses(edition)]
    context = {"standing": standing, "example": _example(edition, standing), "clauses": clauses}
    return render_to_string("training/_house_file.html", context)


@once_a_language(_EDITIONS)
def unit_fields(prefer: str) -> str:
    """The fields of a repair unit before anything is typed."""
    return render_to_string("training/_unit_fields.html", {"form": UnitForm(prefer=prefer)})


def _example(edition: Edition, standing: HouseRules) -> str:
    """The rules that stand as a file, or how one would look: with the rulebook's own limit, which changes nothing."""
    if len(standing):
        return write_house_rules(standing, edition)
    first = next(clause for clause in adjustable_clauses(edition) if clause.of_edition.quantities)
    own = HouseRule(first.id, tuple(limit.text for limit in first.of_edition.quantities))
    return write_house_rules(HouseRules((own,)), edition)
