"""One case put to many rulebooks: what is worked out once for all of them changes no decision."""

from typing import Any

import pytest

from assessments.questions.drafts.rules import altered
from assessments.questions.mistakes.misconceptions import misconceptions
from tests.rulebook.cases import SHELF, VAN, a_case, an_examined_case
from training.rulebook import Case, Decision, Edition, OneCase, decide, edition_names, load_edition, parse_case
from training.trade.speech import in_language

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

INJURIES = [
    {"id": "A", "kind": "puncture", "diameter": "5 mm", "lateral": "20 mm", "angle": "20 deg", "azimuth": "0 deg",
     "station": "0 mm"},
    {"id": "B", "kind": "puncture", "diameter": "7 mm", "lateral": "-58 mm", "angle": "40 deg", "station": "90 mm"},
]  # fmt: skip
CASES = {
    "sound": an_examined_case(),
    "nothing known": a_case(),
    "two holes": {**an_examined_case(), "injuries": INJURIES},
    "in doubt": an_examined_case(findings={"bulge": "doubt", "bead-damage": True}),
    "repaired before": an_examined_case(
        earlier_repairs=[{"id": "R1", "kind": "one-piece", "sound": True, "lateral": "5 mm", "station": "40 mm"}]
    ),
    "contradicting": an_examined_case(tire={"designation": "205/55R16 91V", "outer_groove": "95 mm"}),
    "proposed": an_examined_case(injury={"diameter": "9 mm"}, proposed="string"),
    "truck": an_examined_case("truck", injury={"diameter": "9 mm", "lateral": "70 mm"}),
    "van": an_examined_case("light-truck-steel", position=VAN, pressure={"found": "20 psi", "recommended": "80 psi"}),
    "motorcycle": an_examined_case("motorcycle", injury={"diameter": "5 mm", "angle": "20 deg"}),
    "for use": {**an_examined_case(), "purpose": "service", "tread_depths": [{"groove": 1, "depth": "2/32 in"}]},
}


def rulebooks(edition: Edition) -> list[Edition]:
    """The edition, as each misconception has it, and as two at once have it."""
    names = list(misconceptions())
    by_one = [altered(edition, name) for name in names]
    by_two = [altered(altered(edition, one), other) for one, other in zip(names[::7], names[3::7], strict=False)]
    return [edition, *by_one, *by_two, edition]


def decided(case: Case, edition: Edition, one_case: OneCase | None, **how: Any) -> Decision:
    return decide(case, edition=edition, rest_in_order=True, one_case=one_case, **how)


@pytest.mark.parametrize("edition", edition_names())
@pytest.mark.parametrize("told", CASES)
def test_each_rulebook_decides_as_it_does_alone(told: str, edition: str) -> None:
    books, case, one_case = rulebooks(load_edition(edition)), parse_case(CASES[told]), OneCase()

    together = [decided(case, book, one_case, units=SHELF) for book in books]

    assert together == [decided(case, book, None, units=SHELF) for book in books]


def test_another_case_shelf_unit_or_language_is_worked_out_anew() -> None:
    one_case, edition = OneCase(), load_edition("north-america")
    first, second = (parse_case(CASES[name]) for name in ("two holes", "repaired before"))

    for case in (first, second, first):
        for language in ("en-US", "en-GB", "en-US"):
            for prefer in ("in", "mm"):
                for units in (SHELF, (), SHELF[:2]):
                    with in_language(language):
                        how = {"units": units, "prefer": prefer}
                        assert decided(case, edition, one_case, **how) == decided(case, edition, None, **how)


def test_what_is_left_to_look_at_is_told_as_alone() -> None:
    edition, case, one_case = load_edition("north-america"), parse_case(CASES["nothing known"]), OneCase()

    for book in rulebooks(edition):
        assert decide(case, edition=book, one_case=one_case) == decide(case, edition=book)
