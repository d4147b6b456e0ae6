"""Claims by themselves: what is equal, what lets a tire go, what is kept, without any family."""

import json

import pytest

from assessments.questions import Item, draw
from assessments.questions.items.claims import (
    All,
    Before,
    Clearance,
    Decided,
    Is,
    Measure,
    Permitted,
    Spot,
    States,
    Turning,
    essence,
    from_json,
    is_about,
    laid_over,
    lets_go,
    to_json,
)

REPAIR, OUT = Decided(("repair",)), Decided(("reject",), because=("size",))
QUARTER = States("injury-size", "at_most", ("1/4 in",))


@pytest.mark.parametrize(
    "said",
    [
        Decided(("repair",), methods=("two-piece",), alone="A", case={"injuries": [{"kind": "puncture"}]}),
        Decided(("reject",), units=(("45 mm", "40 mm"),)),
        All((OUT, QUARTER)),
        Is(Clearance("repair-overlap", "A+B"), "-5 mm", "0.5 mm"),
        Permitted("clip-on-chuck", "hand-held"),
        Before("demount", "deflate"),
        Spot(Turning("injuries.0.lateral", "most", ("repair",), times=2), "across", -1, (20.0, 30.0)),
        Spot(Measure("exit_lateral_mm", "A"), "across", 1, depth_mm=11.0),
    ],
)
def test_what_is_said_is_kept_as_plain_json(said) -> None:
    assert from_json(json.loads(json.dumps(to_json(said)))) == said


def test_an_unknown_kind_is_refused() -> None:
    with pytest.raises(KeyError):
        from_json({"says": "guessed"})


# 1 in = 25.4 mm exactly: international yard and pound agreement, 1959.
def test_a_quantity_is_the_same_in_another_unit() -> None:
    assert essence(QUARTER) == essence(States("injury-size", "at_most", ("6.35 mm",)))
    assert essence(QUARTER) != essence(States("injury-size", "at_most", ("6 mm",)))
    assert essence(QUARTER) != essence(States("injury-size", "below", ("1/4 in",)))
    assert essence(All((OUT, QUARTER))) != essence(All((REPAIR, QUARTER)))


@pytest.mark.parametrize(
    ("claim", "key", "unsafe"),
    [
        (REPAIR, OUT, True),
        (OUT, REPAIR, False),
        (REPAIR, Decided(("inspect",)), True),
        (Decided(("advise",)), Decided(("accept",)), False),  # both run
        (REPAIR, None, True),  # one of a list, and wrong
        (Decided(("repair", "reject")), OUT, False),  # does not say which
        (States("injury-size", "at_most", ("3/8 in",)), QUARTER, True),
        (States("injury-size", "at_most", ("1/8 in",)), QUARTER, False),
        (States("tread-depth", "at_least", ("1 mm",)), States("tread-depth", "at_least", ("2 mm",)), True),
        (All((REPAIR, States("injury-size", "at_most", ("3/8 in",)))), All((REPAIR, QUARTER)), False),
        (All((Decided(("repair",), alone="A"), Decided(("reject",), alone="B"))),
         All((Decided(("reject",), alone="A"), Decided(("repair",), alone="B"))), True),
    ],
)  # fmt: skip
def test_what_lets_a_tire_go_that_the_key_stops_is_unsafe(claim, key, unsafe) -> None:
    assert lets_go(claim, key) == unsafe


def test_a_patch_changes_fields_of_objects_and_lists_as_a_whole() -> None:
    case = {"tire": {"casing": "truck", "designation": "11R22.5"}, "injuries": [{"id": "A"}, {"id": "B"}]}

    patched = laid_over(case, {"tire": {"casing": "passenger"}, "injuries": [{"id": "C"}]})

    assert patched == {"tire": {"casing": "passenger", "designation": "11R22.5"}, "injuries": [{"id": "C"}]}
    assert case["tire"] == {"casing": "truck", "designation": "11R22.5"}


def test_a_quantity_speaks_of_its_subject_rightly_read_or_wrongly() -> None:
    assert is_about("injury.diameter", "size")
    assert is_about("injury.before_removal", "size")  # the size, misread
    assert is_about("finding.bulge", "rubber")
    assert not is_about("injury.angle", "size")


@pytest.mark.parametrize("name", ["place-on-drawing", "two-injuries", "nearest-unit", "unit-spacing", "repairs-found"])
def test_an_item_with_claims_is_given_back_by_its_json(name, edition) -> None:
    item = draw(name, seed="kept", edition=edition)

    assert Item.from_json(json.loads(json.dumps(item.to_json()))) == item
