"""What a tire is asked to do: less capacity, more load, more age, more pressure is never judged milder."""

from copy import deepcopy
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.examples import times
from tests.rulebook.cases import without_injury
from training.rulebook import CASINGS, decide, load_edition, severity
from training.trade.words import PURPOSES

many = settings(max_examples=times(200), deadline=None)
VEHICLES = ("car", "light-truck", "truck", "bus", "minibus", "trailer")
# designations with the load index left open, for each kind of tire a case can have
SIZES = {"passenger": "P235/75R15 {}S", "truck": "11R22.5 {}L", "motorcycle": "120/70R17 {}S"}
MASSES_KG = st.integers(300, 3000)
INDICES = st.integers(70, 160)


@st.composite
def asked(draw: st.DrawFn) -> dict[str, Any]:
    """A tire in order of which load, pressure and age are told, or some of them."""
    casing = draw(st.sampled_from(CASINGS))
    index = draw(INDICES)
    case = without_injury(
        casing,
        tire={"designation": SIZES.get(casing, "LT245/75R16 {}S").format(index)},
        purpose=draw(st.sampled_from(PURPOSES)),
        edition=draw(st.sampled_from(["north-america", "united-kingdom"])),
    )
    position: dict[str, Any] = {"vehicle": draw(st.none() | st.sampled_from(VEHICLES)), "axle": "rear"}
    position["dual"] = draw(st.sampled_from([None, True, False]))
    for name in ("asked_load", "carried"):
        if draw(st.booleans()):
            position[name] = f"{draw(MASSES_KG)} kg"
    if draw(st.booleans()):
        position["asked_load_index"] = draw(INDICES)
    case["position"] = position
    return case


def verdict(case: dict[str, Any]) -> tuple[int, int]:
    decision = decide(case)
    return severity(decision.verdict), severity(decision.if_nothing_else)


def not_milder(worse: dict[str, Any], case: dict[str, Any]) -> bool:
    return all(one >= other for one, other in zip(verdict(worse), verdict(case), strict=True))


def can_be_molded(case: dict[str, Any]) -> bool:
    """Is the figure on the sidewall one that such a tire has? One that none has was misread, and is looked at again."""
    return all(ruling.holds for ruling in decide(case).rulings if ruling.clause.startswith("molded-"))


@many
@given(asked(), st.integers(1, 40))
def test_a_lower_load_index_is_never_judged_milder(case: dict[str, Any], less: int) -> None:
    worse = deepcopy(case)
    size, service = case["tire"]["designation"].split(" ")
    index = int(service[:-1])
    worse["tire"]["designation"] = f"{size} {max(0, index - less)}{service[-1]}"

    assert not_milder(worse, case)


@many
@given(asked(), MASSES_KG, st.integers(1, 500), st.booleans())
def test_a_lower_load_on_the_sidewall_is_never_judged_milder(
    case: dict[str, Any], molded_kg: int, less_kg: int, is_paired: bool
) -> None:
    name = "max_load_dual" if is_paired else "max_load"
    stated, worse = deepcopy(case), deepcopy(case)
    stated["tire"][name] = f"{molded_kg} kg"
    worse["tire"][name] = f"{max(1, molded_kg - less_kg)} kg"

    assume(can_be_molded(stated))
    assert not_milder(worse, stated)


@many
@given(asked(), st.sampled_from(["asked_load", "carried"]), MASSES_KG, st.integers(1, 2000))
def test_more_load_is_never_judged_milder(case: dict[str, Any], name: str, kg: int, more_kg: int) -> None:
    stated, worse = deepcopy(case), deepcopy(case)
    stated["position"][name] = f"{kg} kg"
    worse["position"][name] = f"{kg + more_kg} kg"

    assert not_milder(worse, stated)


@many
@given(asked(), INDICES, st.integers(1, 20))
def test_a_higher_index_on_the_placard_is_never_judged_milder(case: dict[str, Any], index: int, more: int) -> None:
    stated, worse = deepcopy(case), deepcopy(case)
    stated["position"]["asked_load_index"] = index
    worse["position"]["asked_load_index"] = index + more

    assert not_milder(worse, stated)


@many
@given(asked(), st.sampled_from("NQSTHVWY"), st.sampled_from("NQSTHVWY"))
def test_a_faster_placard_is_never_judged_milder(case: dict[str, Any], one: str, other: str) -> None:
    slow, fast = sorted((one, other), key="NQSTHVWY".index)  # in the order of their speeds, UN Regulation No. 30
    stated, worse = deepcopy(case), deepcopy(case)
    stated["position"]["asked_speed"] = slow
    worse["position"]["asked_speed"] = fast

    assert not_milder(worse, stated)


@many
@given(asked(), st.integers(0, 25), st.integers(1, 20))
def test_an_older_tire_is_never_judged_milder(case: dict[str, Any], year: int, earlier: int) -> None:
    stated, worse = deepcopy(case), deepcopy(case)
    stated["tire"]["date_code"] = f"20{year:02d}"
    worse["tire"]["date_code"] = f"20{max(0, year - earlier):02d}"

    assert not_milder(worse, stated)


@many
@given(asked(), st.integers(100, 1200), st.none() | st.integers(100, 1200), st.integers(0, 300), st.integers(1, 300))
def test_more_air_above_the_recommended_pressure_is_never_judged_milder(
    case: dict[str, Any], recommended_kpa: int, most_kpa: int | None, over_kpa: int, more_kpa: int
) -> None:
    stated, worse = deepcopy(case), deepcopy(case)
    pressure = {"recommended": f"{recommended_kpa} kPa"}
    if most_kpa is not None:
        pressure["sidewall_max"] = f"{most_kpa} kPa"
    stated["pressure"] = {**pressure, "found": f"{recommended_kpa + over_kpa} kPa"}
    worse["pressure"] = {**pressure, "found": f"{recommended_kpa + over_kpa + more_kpa} kPa"}

    assert not_milder(worse, stated)


@many
@given(asked(), st.integers(50, 1200), st.integers(1, 400))
def test_a_lower_maximum_on_the_sidewall_is_never_judged_milder(
    case: dict[str, Any], most_kpa: int, less_kpa: int
) -> None:
    stated, worse = deepcopy(case), deepcopy(case)
    stated["pressure"] = {"found": "600 kPa", "sidewall_max": f"{most_kpa} kPa"}
    worse["pressure"] = {"found": "600 kPa", "sidewall_max": f"{max(1, most_kpa - less_kpa)} kPa"}

    assume(can_be_molded(stated))
    assert not_milder(worse, stated)


def test_a_state_and_the_trade_both_ask_for_the_whole_load_index() -> None:
    # Utah Administrative Code R714-162-8(1)(b)(i)(B), and common practice, no published source
    statements = load_edition("north-america").clause("load-index-for-the-vehicle").statements

    assert [[str(one) for one in statement.quantities] for statement in statements] == [["100 %"], ["100 %"]]
