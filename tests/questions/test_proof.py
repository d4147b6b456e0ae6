"""Every family proved over some draws, and each check of the proof seen to find what it is for."""

from dataclasses import replace

import pytest

from assessments.questions import Item, Option, draw
from assessments.questions.items.claims import Decided
from assessments.questions.items.digest import digest
from assessments.questions.items.shapes import Region
from tests.present import as_a, present
from tests.proof.__main__ import main
from tests.proof.chance import chi_square_tail, estimated_kinds, evenness
from tests.proof.eyes import is_placed, misshown
from tests.proof.proof import Proof, _alike, _marked_alone, _put_back, _Tally, _unsafe, claims
from tests.proof.readback import gauge_reading, misdrawn
from tests.questions.solving import gauge_of
from training.rulebook import Edition, parse_case

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too


# Statistical tables: upper 5 % and 1 % points of chi-square.
@pytest.mark.parametrize(
    ("value", "freedom", "chance"),
    [(3.841, 1, 0.05), (5.991, 2, 0.05), (7.815, 3, 0.05), (9.488, 4, 0.05), (11.345, 3, 0.01), (13.277, 4, 0.01)],
)
def test_the_tail_of_chi_square_is_that_of_the_tables(value, freedom, chance) -> None:
    assert chi_square_tail(value, freedom) == pytest.approx(chance, rel=2e-3)


def test_an_even_count_is_likely_and_a_leaning_one_is_not() -> None:
    assert evenness([50, 50, 50, 50]) == 1
    assert evenness([80, 40, 40, 40]) < 1e-4
    assert evenness([]) == evenness([7]) == 1


def test_the_number_of_kinds_is_estimated_from_what_was_seen_once_and_twice() -> None:
    # Chao 1984, bias-corrected: 4 kinds seen, 2 of them once, 1 twice: 4 + 2 * 1 / (2 * 2) = 4.5.
    assert estimated_kinds([1, 1, 2, 5]) == 4.5
    assert estimated_kinds([5, 6]) == 2


@pytest.fixture
def item(edition: Edition) -> Item:
    return draw("lean-and-exit", seed="7", edition=edition)


def test_a_key_that_the_rulebook_does_not_give_is_found(item, edition) -> None:
    other = next(option.id for option in item.options if option.id != item.key)

    assert list(_put_back(item, edition, Proof("", (), 1))) == []
    assert "the rulebook says" in next(_put_back(replace(item, key=other), edition, Proof("", (), 1)))


def test_a_claim_that_the_rulebook_does_not_hold_is_found(item, edition) -> None:
    # The crown of a passenger tire is left by a hole in its shoulder; nobody repairs it there.
    place = next(number for number, option in enumerate(item.options) if option.id == item.key)
    said = list(item.options)
    said[place] = replace(said[place], claim=Decided(("accept",)))

    assert "the rulebook says ''" in next(_put_back(replace(item, options=tuple(said)), edition, Proof("", (), 1)))


def test_an_option_that_lets_a_tire_go_is_found_if_it_is_not_marked_so(edition) -> None:
    item = draw("lean-and-exit", seed="1", edition=edition)
    assert item.key_text.startswith(("Out of service", "Send")) == bool(item.unsafe)
    turned = () if item.unsafe else tuple(option.id for option in item.options if option.id != item.key)[:1]

    assert list(_unsafe(item, edition)) == []
    assert "marked as unsafe" in next(_unsafe(replace(item, unsafe=turned), edition))


def test_words_that_claim_now_this_and_now_that_are_found(item) -> None:
    tally, found = _Tally(), Proof("lean-and-exit", ("one",), 2)
    swapped = tuple(
        replace(one, claim=other.claim) for one, other in zip(item.options, item.options[::-1], strict=True)
    )
    for drawn in (item, replace(item, options=swapped)):
        tally.add(drawn)

    tally.close(found)

    assert any("claims" in trouble.what for trouble in found.troubles)


def test_a_question_between_two_statements_is_found(item, edition) -> None:
    # 1/4 in is 6.35 mm and the text says 6 mm: 15.9/64 in, taken in tenths of an inch, lies between them.
    (injury,) = item.case["injuries"]
    between = replace(item, case={**item.case, "injuries": [{**injury, "angle": "30 deg"}]})

    assert any("the sources disagree" in line for line in _put_back(between, edition, Proof("", (), 1)))


def test_two_right_options_are_found(item) -> None:
    assert list(_marked_alone(item)) == []
    assert list(_marked_alone(replace(item, key="9"))) == ["marked right: [], key 9"]


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("at most 1/4 in", "at most 6.35 mm", True),
        ("at most 1/4 in", "at most 6 mm", False),
        ("1 1/2 in counts", "38.1 mm counts", True),
        ("1,200 rpm", "1200 rpm", True),
        ("at most 1/4 in", "more than 1/4 in", False),
    ],
)
def test_options_that_say_the_same_in_two_units_are_found(item, one, other, same) -> None:
    # 1 in = 25.4 mm exactly: international yard and pound agreement, 1959.
    asked = replace(item, options=(Option("1", one), Option("2", other)), key="1")

    assert bool(list(_alike(asked))) == same


def test_quantities_are_taken_out_of_an_option() -> None:
    words, values = claims("Out of service: 1/4 in counts, at 40 psi")

    assert words == "Out of service: <length> counts, at <pressure>"
    assert [float(value) for _, value in values] == pytest.approx([6.35, 275.79], abs=0.01)


def test_a_drawing_that_lies_is_found(item, edition) -> None:
    case = parse_case(item.case)
    (injury,) = item.case["injuries"]
    lateral = float(injury["lateral"].split()[0])
    moved = parse_case({**item.case, "injuries": [{**injury, "lateral": f"{lateral + 1} mm"}]})
    leaning = parse_case({**item.case, "injuries": [{**injury, "angle": "1 deg"}]})
    wider = parse_case({**item.case, "tire": {**item.case["tire"], "outer_groove": "100 mm"}})

    assert misdrawn(item.figure.svg, item.figure.description, case) == []
    for other, words in ((moved, "lateral"), (leaning, "lean"), (wider, "groove")):
        assert misdrawn(item.figure.svg, item.figure.description, other)[0].startswith(words)


def test_a_plan_that_lies_is_found(edition) -> None:
    item = draw("place-on-drawing", seed="3", edition=edition)
    case, figure = as_a(dict, item.case), present(item.figure)
    first, *others = case["injuries"]
    moved = {**first, "lateral": f"{float(first['lateral'].split()[0]) + 1} mm"}

    assert misdrawn(figure.svg, figure.description, parse_case(case)) == []
    (lie,) = misdrawn(figure.svg, figure.description, parse_case({**case, "injuries": [moved, *others]}))[:1]
    assert lie.startswith("hole")


def test_a_picture_that_lies_is_found(edition) -> None:
    item = draw("picture-verdict", seed="1", edition=edition)
    shown = present(item.figure)
    [sight] = shown.sights

    assert is_placed(shown)
    assert misshown(shown, item.case) == []
    for other, words in (
        (replace(shown, svg="<svg/>"), "a drawing stands beside pictures"),
        (replace(shown, description="A computed picture of a rim."), "is not said"),
        (replace(shown, sights=(replace(sight, look_alike=not sight.look_alike),)), "findings: "),
        (replace(shown, sights=(replace(sight, degree="faint"),)), "degree: 'faint' is not known"),
    ):
        [lie] = misshown(other, item.case)
        assert words in lie
    assert not is_placed(replace(shown, sights=(replace(sight, name="flat-spot"),)))


def test_two_bad_tires_among_six_are_found(edition) -> None:
    shown = present(draw("picture-odd", seed="1", edition=edition).figure)
    first, *others = shown.sights
    all_bad = tuple(replace(one, look_alike=False) for one in shown.sights)

    assert misshown(shown, None) == []
    assert misshown(replace(shown, sights=all_bad), None)[0].startswith("6 of 6 pictures show a condition")
    assert "one picture is shown twice" in misshown(replace(shown, sights=(first, first, *others[1:])), None)


@pytest.mark.parametrize("kind", ["caliper", "tread-gauge", "probe"])
@pytest.mark.parametrize("reading", ["5 mm", "7.5 mm", "3/16 in"])
def test_a_gauge_is_read_from_its_drawing(kind, reading) -> None:
    from training.drawings import gauge
    from training.rulebook import parse_quantity

    figure = gauge(kind, parse_quantity(reading, "length"))

    # 3/16 in = 4.7625 mm
    expected = {"5 mm": 5, "7.5 mm": 7.5, "3/16 in": 4.7625}[reading]
    assert gauge_reading(figure.svg, figure.description) == pytest.approx(expected, abs=0.05)
    value, unit = gauge_of(figure.description)
    assert value * (25.4 if unit == "in" else 1) == pytest.approx(expected)


def test_wording_and_units_first_make_no_other_question_but_numbers_do(edition) -> None:
    item = draw("lean-and-exit", seed="1", edition=edition)
    case = as_a(dict, item.case)
    (injury,) = case["injuries"]
    reworded = replace(item, seed="2", stem=item.stem.replace("What do you do", "What now"), options=item.options[::-1])
    larger = replace(item, case={**case, "injuries": [{**injury, "diameter": "9 mm"}]})

    assert digest(reworded) == digest(item)
    assert digest(larger) != digest(item)


def test_the_command_prints_a_row_a_family_and_says_how_many_hold(capsys) -> None:
    assert main(["date-code", "--draws", "60"]) == 0

    out = capsys.readouterr().out
    assert "date-code" in out
    assert "1 of 1 families hold over 60 draws each" in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["nope"], 'family: "nope" is not known'),
        (["date-code", "--draws", "0"], '"0" is not accepted; give a whole number from 1'),
        (["date-code", "--edition", "mars"], 'edition: "mars" is not an edition'),
    ],
)
def test_the_command_refuses_with_the_value_and_what_is_accepted(capsys, arguments, words) -> None:
    with pytest.raises(SystemExit) as stop:
        main(arguments)

    assert stop.value.code == 2
    assert words in capsys.readouterr().err


def test_a_place_that_the_rulebook_does_not_give_is_found(edition) -> None:
    item = draw("nail-to-liner", seed="5", edition=edition)
    wrong = Region.from_text(next(iter(item.distractors)))

    assert list(_put_back(item, edition, Proof("", (), 1))) == []
    assert "the rulebook says" in next(_put_back(replace(item, key=wrong), edition, Proof("", (), 1)))


def test_an_order_that_the_rulebook_does_not_keep_is_found(edition) -> None:
    item = draw("order-of-inspection", seed="5", edition=edition)
    key = as_a(tuple, item.key)
    turned = replace(item, key=(key[1], key[0], *key[2:]))

    assert list(_put_back(item, edition, Proof("", (), 1))) == []
    assert "is not the order of the rulebook" in next(_put_back(turned, edition, Proof("", (), 1)))
