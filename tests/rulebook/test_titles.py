"""Every clause has a title that tells it from those it is printed with, and no page or text reads an id instead."""

import re
from itertools import combinations

import pytest

from tests.identifiers import identifiers_in, visible
from tests.published.test_logs import ROWS, job_of
from tests.rulebook.cases import SHELF, decide_with_units
from tests.rulebook.test_clauses import CLAUSES, casing_of, example_case
from training import course
from training.course import modules
from training.pages.rulebook import rulebook_page
from training.rulebook import (
    Clause,
    Edition,
    adjustable_clauses,
    audit,
    audit_text,
    decision_text,
    edition_names,
    load_edition,
    parse_case,
    parse_job,
)
from training.trade.quantity_words import CONDITION_WORDS

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

NAMES = ("Utah", "Virginia")  # states whose law says otherwise
STUDS = ("M20", "M22")  # the names of threads
each_edition = pytest.mark.parametrize("edition", [load_edition(name) for name in edition_names()], ids=edition_names())
each_clause = pytest.mark.parametrize(
    ("edition", "clause"), CLAUSES, ids=[f"{edition.name}-{one.id}" for edition, one in CLAUSES]
)


def meet(one: Clause, other: Clause) -> bool:
    """May both be printed for one tire?"""
    return all(
        not set(mine).isdisjoint(theirs)
        for mine, theirs in ((one.casings, other.casings), (one.purposes, other.purposes))
    )


@each_edition
def test_no_two_limits_that_are_printed_together_have_one_title(edition: Edition) -> None:
    pairs = combinations(edition.clauses.values(), 2)

    assert [(one.id, other.id) for one, other in pairs if one.title == other.title and meet(one, other)] == []


# a form for house rules has a field for each of them, whatever the tire
@each_edition
def test_no_two_limits_that_a_shop_may_tighten_have_one_title(edition: Edition) -> None:
    titles = [clause.title for clause in adjustable_clauses(edition)]

    assert sorted(titles) == sorted(set(titles))


@each_clause
def test_a_title_is_a_short_name_without_its_limit(edition: Edition, clause: Clause) -> None:
    first, *rest = clause.title.split()

    assert 3 <= len(clause.title) <= 40
    assert first[0].isupper()
    assert not [word for word in rest if word != word.lower() and word.strip(",") not in (*NAMES, *STUDS)]
    assert not re.search(r"\d", re.sub("|".join(STUDS), "", clause.title))
    assert not clause.title.endswith((".", ":", ","))


@each_clause
def test_what_a_clause_asks_before_it_applies_has_words(edition: Edition, clause: Clause) -> None:
    assert {one.quantity for one in clause.when} <= CONDITION_WORDS.keys()


@each_clause
def test_a_decision_in_words_holds_no_identifier(edition: Edition, clause: Clause) -> None:
    for example in () if clause.is_for_job() else (*clause.passes, *clause.fails):
        casing, purpose = casing_of(example, clause.casings[0]), clause.purposes[0]
        case = {**example_case(clause, example, casing, purpose), "edition": edition.name}
        text = decision_text(decide_with_units(case, edition=edition), parse_case(case), edition=edition, units=SHELF)

        assert identifiers_in(text) == set()


@pytest.mark.parametrize("row", [row for _, row in ROWS], ids=[text for text, _ in ROWS])
def test_an_audit_in_words_holds_no_identifier(row: dict[str, object]) -> None:
    job = parse_job(job_of(row))

    assert identifiers_in(audit_text(audit(job, units=SHELF), job)) == set()


@each_edition
def test_a_lesson_holds_no_identifier(edition: Edition) -> None:
    for lesson in (lesson for module in modules() for lesson in module.lessons):
        html = course.render(lesson, edition=edition, prefer=edition.units).html

        assert identifiers_in(visible(html)) == set(), lesson.slug


@each_edition
def test_the_page_of_the_rulebook_labels_its_rules_by_their_titles(edition: Edition) -> None:
    rules = [rule for group in rulebook_page(edition).groups for rule in group.rules]

    assert sorted(rule.title for rule in rules) == sorted(clause.title for clause in edition.clauses.values())
    for rule in rules:
        said = " ".join(one.limit for one in rule.said)
        assert identifiers_in(f"{rule.title} {rule.because} {rule.measures} {rule.whose} {said}") == set(), rule.id
