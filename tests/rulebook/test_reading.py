"""Reading a case: every problem in one go, each naming the field, the value and what is accepted."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.examples import times
from tests.rulebook.cases import an_examined_case
from tests.rulebook.spoiling import spoiled
from training.rulebook import CaseError, decide, parse_case, vocabulary
from training.rulebook.case_words import FINDINGS

# DESIGN, "Commands and documents": the whole schema in one case.
WHOLE: dict[str, Any] = {
    "edition": "north-america",
    "jurisdiction": "US-UT",
    "on": "2026-11-25",
    "purpose": "repair",
    "tire": {
        "designation": "205/55R16 91V",
        "casing": "passenger",
        "date_code": "3219",
        "retreaded": False,
        "retreaded_on": None,
        "tread_width": "170 mm",
        "outer_groove": "62 mm",
        "crown_thickness": "13 mm",
        "build": "radial",
    },
    "position": {"vehicle": "car", "axle": "front", "gross_mass": "1800 kg", "dual": False, "wheel": "single-piece"},
    "on_wheel": False,
    "pressure": {"recommended": "230 kPa", "found": "150 kPa"},
    "tread_depths": [{"groove": 1, "station": "0 deg", "depth": "5/32 in"}],
    "injuries": [
        {
            "id": "A",
            "kind": "puncture",
            "diameter": "5 mm",
            "before_removal": "4 mm",
            "angle": "12 deg",
            "azimuth": "0 deg",
            "lateral": "20 mm",
            "station": "90 deg",
        },
    ],
    "findings": ["ozone-cracking"],
    "earlier_repairs": [
        {
            "id": "R1",
            "kind": "two-piece",
            "zone": "crown",
            "injury": "4 mm",
            "sound": True,
            "lateral": "-10 mm",
            "station": "100 deg",
            "unit": {"length": "75 mm", "width": "65 mm"},
        },
    ],
    "proposed": "two-piece",
    "dual_mate": {"diameter": "41.2 in", "own_diameter": "41.9 in"},
}


def test_the_whole_schema_is_read_and_written_back() -> None:
    case = parse_case(WHOLE)

    assert parse_case(case.to_json()) == case
    assert parse_case(json.loads(json.dumps(case.to_json()))) == case


def test_the_shortest_case_is_a_casing() -> None:
    case = parse_case({"tire": {"casing": "passenger"}})

    assert (case.edition, case.purpose, case.injuries, case.earlier_repairs) == ("north-america", "repair", None, None)


def test_an_injury_without_id_gets_a_letter() -> None:
    case = parse_case({"tire": {"casing": "truck"}, "injuries": [{}, {}], "earlier_repairs": [{}]})

    assert [injury.id for injury in case.injuries or ()] == ["A", "B"]
    assert [repair.id for repair in case.earlier_repairs or ()] == ["R1"]


def test_a_given_id_does_not_collide_with_a_letter_we_choose() -> None:
    case = parse_case({"tire": {"casing": "truck"}, "injuries": [{"id": "B"}, {}]})

    assert len({injury.id for injury in case.injuries or ()}) == 2


REFUSED: list[tuple[str, Any, str]] = [
    ("tire", None, "tire.casing: missing; give passenger, light-truck-fabric"),
    ("tire", {}, "tire.casing: missing; give passenger, light-truck-fabric"),
    ("tire", "passenger", 'tire: "passenger" is not accepted; give an object with'),
    ("tire", {"casing": "car"}, 'tire.casing: "car" is not accepted; choose passenger,'),
    ("tire", {"casing": "passenger", "width": "1 mm"}, "tire.width: is not a field; the fields here are"),
    ("tire", {"casing": "passenger", "outer_groove": "-1 mm"}, 'tire.outer_groove: "-1 mm" is not above 0'),
    ("tire", {"casing": "passenger", "designation": 205}, "tire.designation: 205 is not a size designation"),
    ("tire", {"casing": "passenger", "designation": "large"}, 'tire.designation: "large" is not a size designation'),
    ("tire", {"casing": "passenger", "date_code": "5419"}, 'tire.date_code: "5419" is not a date code; give the week'),
    # 49 CFR 574.5: weeks begin on a Sunday, and 2020 has 52 Sundays
    ("tire", {"casing": "passenger", "date_code": "5320"}, 'tire.date_code: "5320" names no week: 2020 has the weeks'),
    ("tire", {"casing": "passenger", "date_code": "0019"}, 'tire.date_code: "0019" is not a date code; give the week'),
    ("tire", {"casing": "passenger", "retreaded": "no"}, 'tire.retreaded: "no" is not accepted; give true or false'),
    ("tire", {"casing": "passenger", "retreaded_on": "2020-02-30"}, 'tire.retreaded_on: "2020-02-30" is not a day'),
    ("edition", "mars", 'edition: "mars" is not accepted; choose north-america or united-kingdom'),
    ("purpose", "sale", 'purpose: "sale" is not accepted; choose repair, service or fit-used'),
    ("purpose", True, "purpose: true is not accepted; choose repair, service or fit-used"),
    ("jurisdiction", "Utah", 'jurisdiction: "Utah" is not accepted; give a code such as "US-UT"'),
    ("on", "2026-02-30", 'on: "2026-02-30" is not a day; give year, month and day'),
    ("on", "25.11.2026", 'on: "25.11.2026" is not a day; give year, month and day'),
    ("on", 20261125, "on: 20261125 is not a day; give year, month and day"),
    ("on_wheel", "yes", 'on_wheel: "yes" is not accepted; give true or false'),
    ("on_wheel", 1, "on_wheel: 1 is not accepted; give true or false"),
    ("position", {"axle": "middle"}, 'position.axle: "middle" is not accepted; choose front, drive, rear or trailer'),
    ("pressure", {"found": "150"}, 'pressure.found: "150" is not a pressure; give a number and a unit'),
    ("pressure", {"recommended": "0 kPa"}, 'pressure.recommended: "0 kPa" is not above 0'),
    ("tread_depths", "5/32 in", 'tread_depths: "5/32 in" is not accepted; give a list of depths'),
    ("tread_depths", [5], "tread_depths[0]: 5 is not a length; give a number and a unit"),
    ("tread_depths", [None], "tread_depths[0]: null is not a depth"),
    ("tread_depths", [{"groove": 1}], "tread_depths[0].depth: missing; give a length"),
    ("tread_depths", [{"depth": "5/32 in", "groove": True}], "tread_depths[0].groove: true is not a groove"),
    ("tread_depths", [{"depth": "-1/32 in"}], 'tread_depths[0].depth: "-1/32 in" is below 0'),
    ("injuries", {"id": "A"}, 'injuries: {"id": "A"} is not accepted; give a list of objects'),
    ("injuries", ["A"], 'injuries[0]: "A" is not accepted; give an object'),
    (
        "injuries",
        [{"diameter": "7,5"}],
        'injuries[0].diameter: "7,5" is not a length; give a number and a unit, for example "7.5 mm" or "1/4 in"',
    ),
    ("injuries", [{"diameter": 6}], "injuries[0].diameter: 6 is not a length; give a number and a unit"),
    ("injuries", [{"diameter": "6"}], 'injuries[0].diameter: "6" is not a length; give a number and a unit'),
    ("injuries", [{"diameter": "-6 mm"}], 'injuries[0].diameter: "-6 mm" is not above 0'),
    ("injuries", [{"diameter": "0 mm"}], 'injuries[0].diameter: "0 mm" is not above 0'),
    (
        "injuries",
        [{"angle": "90 deg"}],
        'injuries[0].angle: "90 deg" is not accepted; give the angle from the perpendicular',
    ),
    ("injuries", [{"angle": "-1 deg"}], 'injuries[0].angle: "-1 deg" is not accepted'),
    ("injuries", [{"station": "3 kPa"}], 'injuries[0].station: "3 kPa" is not an angle or a length'),
    ("injuries", [{"id": ""}], 'injuries[0].id: "" is not an id'),
    ("injuries", [{"id": 1}], "injuries[0].id: 1 is not an id"),
    ("injuries", [{"id": "A"}, {"id": "A"}], 'injuries[1].id: "A" is used twice'),
    ("injuries", [{}] * 101, "injuries: 101 entries are not accepted; give at most 100"),
    ("injuries", [{"reaches": "steel"}], 'injuries[0].reaches: "steel" is not accepted; choose rubber or cord'),
    ("findings", ["rust"], 'findings[0]: "rust" is not a finding; choose from run-flat-damage'),
    ("findings", [["bulge"]], 'findings[0]: ["bulge"] is not a finding'),
    ("findings", {"rust": True}, 'findings: "rust" is not a finding; choose from run-flat-damage'),
    ("findings", {"bulge": "maybe"}, 'findings.bulge: "maybe" is not accepted; give true, false or "doubt"'),
    ("findings", {"bulge": 1}, 'findings.bulge: 1 is not accepted; give true, false or "doubt"'),
    ("findings", {"bulge": None}, 'findings.bulge: null is not accepted; give true, false or "doubt"'),
    ("findings", "bulge", 'findings: "bulge" is not accepted; give a list of findings'),
    ("earlier_repairs", [{"kind": "glue"}], 'earlier_repairs[0].kind: "glue" is not accepted; choose one-piece'),
    ("earlier_repairs", [{"unit": {"length": "75 mm"}}], "earlier_repairs[0].unit.width: missing; give a length"),
    ("earlier_repairs", [{"sound": "so-so"}], 'earlier_repairs[0].sound: "so-so" is not accepted'),
    ("proposed", "glue", 'proposed: "glue" is not accepted; choose one-piece'),
    ("dual_mate", {"diameter": "41 in"}, "dual_mate.own_diameter: missing; give a length"),
    ("speed", "V", "speed: is not a field; the fields here are dual_mate, earlier_repairs"),
]


@pytest.mark.parametrize(("field", "value", "words"), REFUSED, ids=range(len(REFUSED)))
def test_a_wrong_value_is_refused_with_field_value_and_what_is_accepted(field: str, value: Any, words: str) -> None:
    data = {"tire": {"casing": "passenger"}, field: value}

    with pytest.raises(CaseError) as refused:
        parse_case(data)

    assert any(problem.startswith(words) for problem in refused.value.problems), refused.value.problems
    assert all(problem.isprintable() for problem in refused.value.problems)


def test_all_problems_are_told_at_once() -> None:
    with pytest.raises(CaseError) as refused:
        parse_case({"tire": {"casing": "x", "build": "y"}, "injuries": [{"diameter": 5, "zone": "z"}], "extra": 1})

    assert len(refused.value.problems) == 5


@pytest.mark.parametrize("data", [None, [], "case", 5, True, {}])
def test_what_is_no_object_with_a_casing_is_no_case(data: Any) -> None:
    with pytest.raises(CaseError):
        parse_case(data)


def test_every_word_of_the_vocabulary_is_accepted_where_it_says() -> None:
    places: dict[str, Any] = {
        "edition": lambda word: {"edition": word},
        "purpose": lambda word: {"purpose": word},
        "tire.casing": lambda word: {"tire": {"casing": word}},
        "tire.build": lambda word: {"tire": {"casing": "truck", "build": word}},
        "tire.designation": lambda word: {"tire": {"casing": "truck", "designation": word}},
        "position.vehicle": lambda word: {"position": {"vehicle": word}},
        "position.axle": lambda word: {"position": {"axle": word}},
        "position.wheel": lambda word: {"position": {"wheel": word}},
        "injury.kind": lambda word: {"injuries": [{"kind": word}]},
        "injury.zone": lambda word: {"injuries": [{"zone": word}]},
        "injury.reaches": lambda word: {"injuries": [{"reaches": word}]},
        "findings": lambda word: {"findings": [word]},
        "findings.value": lambda word: {"findings": {"bulge": {"true": True, "false": False}.get(word, word)}},
        "earlier_repair.kind": lambda word: {"earlier_repairs": [{"kind": word}]},
        "earlier_repair.zone": lambda word: {"earlier_repairs": [{"zone": word}]},
        "proposed": lambda word: {"proposed": word},
        "tire.date_code": lambda word: {
            "tire": {"casing": "truck", "date_code": {"WWYY": "3219", "WWY": "329"}.get(word, word)}
        },
        "tire.max_load": lambda _: {"tire": {"casing": "truck", "max_load": "1356 lb"}},
        "tire.max_load_dual": lambda _: {"tire": {"casing": "truck", "max_load_dual": "1356 lb"}},
        "tire.approval_mark": lambda word: {"tire": {"casing": "truck", "approval_mark": word == "true"}},
        "tire.part_worn_mark": lambda word: {"tire": {"casing": "truck", "part_worn_mark": word == "true"}},
        "tire.ran_without_air": lambda word: {"tire": {"casing": "truck", "ran_without_air": word == "true"}},
        "position.asked_size": lambda _: {"position": {"asked_size": "205/55R16 91V"}},
        "position.asked_load_index": lambda _: {"position": {"asked_load_index": 91}},
        "position.asked_speed": lambda _: {"position": {"asked_speed": "V"}},
        "position.asked_load": lambda _: {"position": {"asked_load": "615 kg"}},
        "position.carried": lambda _: {"position": {"carried": "615 kg"}},
        "pressure.sidewall_max": lambda _: {"pressure": {"sidewall_max": "44 psi"}},
        "pressure.for_load": lambda _: {"pressure": {"for_load": "44 psi"}},
        "roadside.means": lambda word: {"roadside": {"means": word}},
        "roadside.driven": lambda _: {"roadside": {"means": "plug", "driven": "30 mi"}},
    }

    for field, word, meaning in vocabulary():
        parse_case({"tire": {"casing": "truck"}, **places[field](word)})
        assert meaning


NESTED = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=8)
    | st.sampled_from(["5 mm", "1/4 in", "12 deg", "crown", "doubt", "passenger", "two-piece", *FINDINGS]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


@settings(max_examples=times(400), deadline=None)
@given(spoiled(st.just(WHOLE), NESTED, most=3) | NESTED)
def test_any_data_is_decided_or_refused_and_never_stumbles(data: Any) -> None:
    problems: tuple[str, ...] = ()
    try:
        answer = decide(data).to_json()
    except CaseError as refused:
        problems, answer = refused.problems, {}

    assert bool(problems) != bool(answer)
    assert all(problem.isprintable() for problem in problems)
    json.dumps(answer, allow_nan=False)


def test_the_examined_case_of_these_tests_is_a_case() -> None:
    assert parse_case(an_examined_case())
