"""A worn place stays worn: no tread reading that is lower, and none that is added, makes a decision milder."""

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tests.rulebook.test_properties import many
from training.rulebook import CASINGS, PURPOSES, decide, severity
from training.rulebook.case_words import WORDS

# Their texts say in how many grooves and at how many places a tire is measured (Utah R714-160-8(1)(g)(ii)(A), Virginia
# 19VAC30-70-130 item 5, North Carolina GS 20-122.1(a), COMAR 11.14.05.05 A(1)(a)(i)).
COUNTING = ("US-UT", "US-VA", "US-NC", "US-MD")
OTHERS = (None, "US-CA", "US-IL", "US-NJ", "US-SC", "US-TX")
EDITIONS = st.sampled_from(["north-america", "north-america", "united-kingdom"])
PLACES = tuple(f"{angle} deg" for angle in (0, 60, 120, 180, 240, 300, 360, 420))
depths = st.integers(0, 8)
about_the_limit = st.sampled_from([0, 1, 1, 1, 2, 6])


@st.composite
def placed(draw: st.DrawFn, edition: str, states: tuple[str | None, ...]) -> dict[str, Any]:
    """A tire and where it runs, its tread not yet measured."""
    position = {
        "vehicle": draw(st.none() | st.sampled_from(list(WORDS["position.vehicle"]))),
        "axle": draw(st.none() | st.sampled_from(list(WORDS["position.axle"]))),
        "gross_mass": draw(st.none() | st.sampled_from(["3500 kg", "3501 kg", "10000 lb", "10001 lb"])),
    }
    state = draw(st.sampled_from(states)) if edition == "north-america" else None
    return {
        "edition": edition,
        "on": "2026-11-25",
        "purpose": draw(st.sampled_from(PURPOSES)),
        "tire": {"casing": draw(st.sampled_from(CASINGS))},
        "position": position,
        **({"jurisdiction": state} if state else {}),
    }


def reading(groove: int | None, station: str | None, depth: int) -> dict[str, Any]:
    """One reading in 32nds of an inch."""
    named = {"groove": groove, "station": station, "depth": f"{depth}/32 in"}
    return {name: value for name, value in named.items() if value is not None}


anywhere = st.builds(reading, st.none() | st.integers(1, 4), st.none() | st.sampled_from(PLACES), depths)
# Low in a groove or two: what one more reading might save.
worn = st.builds(reading, st.integers(1, 2), st.sampled_from(PLACES[:2]), st.sampled_from([0, 1, 1, 1, 6]))
some = st.lists(anywhere, min_size=1, max_size=9) | st.lists(worn, min_size=1, max_size=4)


def graver(case: dict[str, Any], readings: list[dict[str, Any]]) -> tuple[int, int]:
    decision = decide({**case, "tread_depths": readings})
    return severity(decision.verdict), severity(decision.if_nothing_else)


@many
@given(st.data(), EDITIONS, some)
def test_a_lower_reading_is_never_judged_milder(st_data: st.DataObject, edition: str, readings: list[Any]) -> None:
    case = st_data.draw(placed(edition, (*OTHERS, *COUNTING)))
    which = st_data.draw(st.integers(0, len(readings) - 1))
    depth = int(readings[which]["depth"].partition("/")[0])
    worn = {**readings[which], "depth": f"{st_data.draw(st.integers(0, depth))}/32 in"}

    before, after = graver(case, readings), graver(case, [*readings[:which], worn, *readings[which + 1 :]])

    assert after >= before
    assert after[1] >= before[1]


@many
@given(st.data(), EDITIONS, some, anywhere | st.builds(reading, st.integers(1, 2), st.sampled_from(PLACES[:3]), depths))
def test_one_more_reading_never_saves_a_worn_place(
    st_data: st.DataObject, edition: str, readings: list[Any], more: dict[str, Any]
) -> None:
    """Wherever no state is named whose text says how many places are measured."""
    case = st_data.draw(placed(edition, OTHERS))

    before, after = graver(case, readings), graver(case, [*readings, more])

    assert after[0] >= before[0]
    assert after[1] >= before[1]


@many
@given(st.data(), st.integers(2, 4), st.integers(3, 6), depths)
def test_what_was_measured_as_the_state_asks_is_saved_by_no_further_reading(
    st_data: st.DataObject, grooves: int, places: int, depth: int
) -> None:
    """Two adjacent grooves or more, at three places or more: measured beyond that, a worn tire stays worn."""
    case = st_data.draw(placed("north-america", COUNTING))
    measured = [
        reading(groove, PLACES[place], st_data.draw(about_the_limit))
        for groove in range(1, grooves + 1)
        for place in range(places)
    ]
    more = reading(st_data.draw(st.integers(1, grooves + 1)), st_data.draw(st.sampled_from(PLACES)), depth)

    before, after = graver(case, measured), graver(case, [*measured, more])

    assert after[0] >= before[0]
    assert after[1] >= before[1]
