"""Questions on pictures: what each is worth, how often the tire is sound, and that drawing one computes no picture."""

import subprocess
import sys
from collections import Counter

import pytest

from assessments.questions import Item, draw, misconceptions
from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.phrases import outcome
from assessments.questions.cases.sights import JUDGED
from assessments.questions.draws.registry import family
from assessments.questions.families.rejecting_conditions.picture_verdict import of_another
from assessments.questions.items.claims import Sighted, laid_over
from tests.present import as_a, present
from tests.questions.many import items_of
from training.pictures import CONDITIONS, Degree
from training.rulebook import decide, load_edition, parse_case

NAMED, VERDICT, ODD = "picture-named", "picture-verdict", "picture-odd"
EDITIONS = ("north-america", "united-kingdom")
# What the bar is: a sign that the law counts by (49 CFR 570.9(a); 49 CFR 569.7 in its words), so never harmless.
MAKES_LITTLE_OF = ("harmless", "nothing", "only a")


def only(item: Item) -> tuple[str, bool]:
    assert item.figure is not None
    [sight] = item.figure.sights
    return sight.name, sight.look_alike


@pytest.mark.parametrize("name", [NAMED, VERDICT, ODD])
def test_drawing_a_question_loads_nothing_that_computes_a_picture(name) -> None:
    told = (
        f"import sys; from assessments.questions import draw; from training.rulebook import load_edition\n"
        f"item = draw({name!r}, seed='1', edition=load_edition('north-america'))\n"
        "assert item.figure.pictures, item\n"
        "print(sorted(one for one in sys.modules if one in ('numpy', 'PIL')))"
    )

    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)

    assert done.stdout == "[]\n"


@pytest.mark.parametrize("name", [NAMED, VERDICT])
def test_the_tire_is_sound_as_often_as_not_and_every_degree_comes_up(name) -> None:
    items = items_of(name)

    sound = sum(only(item)[1] for item in items) / len(items)
    degrees = Counter(item.features["degree"] for item in items)
    # four standard errors of a fair coin over these draws
    assert abs(sound - 0.5) < 4 * 0.5 / len(items) ** 0.5
    assert set(degrees) == {one.value for one in Degree}
    assert min(degrees.values()) > len(items) / 5


@pytest.mark.parametrize("name", [NAMED, VERDICT])
def test_the_words_of_a_question_say_nothing_of_which_it_is(name) -> None:
    described: dict[bool, set[str]] = {False: set(), True: set()}
    for item in items_of(name):
        opened = item.open()
        assert opened.figure is not None
        described[only(item)[1]].add(opened.figure.description)
        assert set(opened.to_json()["figure"]) == {"pictures", "description"}

    assert described[False] == described[True]


def test_every_condition_is_asked_for_by_name_and_the_key_is_what_the_picture_shows() -> None:
    seen = set()
    for number in range(600):  # of 38 kinds, each one in 38
        item = draw(NAMED, seed=f"kind/{number}", edition=load_edition("north-america"))
        name, look_alike = only(item)
        claim = as_a(Sighted, item.option(str(item.key)).claim)
        assert (claim.name, claim.kind) == (name, "look-alike" if look_alike else "condition")
        seen.add((name, look_alike))

    assert seen == {(name, look_alike) for name in CONDITIONS for look_alike in (False, True)}


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_condition_is_rejected_and_what_looks_like_it_is_repaired(edition) -> None:
    rulebook = load_edition(edition)
    for number in range(80):
        item = draw(VERDICT, seed=f"told/{number}", edition=rulebook)
        name, look_alike = only(item)
        found = [one for one, is_there in as_a(dict, present(item.case)["findings"]).items() if is_there]
        # published lists of rejecting conditions (common practice); weather checking without cord is noted
        expected = (["weather-checking"] if name == "ozone-cracking" else []) if look_alike else [name]
        assert found == expected
        assert item.key_text.startswith("Repair" if look_alike else "Out of service")
        assert bool(item.unsafe) is not look_alike


@pytest.mark.parametrize("edition", EDITIONS)
def test_of_six_tires_one_comes_off_the_road_and_five_run(edition) -> None:
    rulebook = load_edition(edition)
    casings = set()
    for number in range(60):
        item = draw(ODD, seed=f"six/{number}", edition=rulebook)
        assert item.figure is not None
        bad = [place for place, one in enumerate(item.figure.sights, 1) if not one.look_alike]
        assert [str(item.key)] == list(map(str, bad))
        assert len({one.seed for one in item.figure.sights}) == len(item.options) == 6
        assert [one.text for one in item.options] == [f"Picture {place}" for place in range(1, 7)]
        sound = decide(parse_case(item.case or {}), edition=rulebook, rest_in_order=True)
        assert sound.verdict in ("accept", "advise")
        casings.add(as_a(dict, present(item.case)["tire"])["casing"])

    assert casings == {"passenger", "light-truck-fabric", "light-truck-steel", "truck", "motorcycle"}


def test_nothing_makes_little_of_a_wear_bar() -> None:
    told = [item for item in items_of(NAMED) if only(item)[0] in ("excessive-wear", "wear-indicators-flush")]
    texts = [option.text for item in told for option in item.options]
    texts += [misconceptions()[one].refutation for one in ("worn-out-taken-for-worn", "wear-bar-taken-for-its-end")]

    assert told
    assert not [text for text in texts if any(word in text.lower() for word in MAKES_LITTLE_OF)]


@pytest.mark.parametrize("name", EDITIONS)
def test_another_condition_comes_to_the_same_on_every_size_with_a_hole_as_without(name) -> None:
    edition = load_edition(name)
    sizes = [size for size in edition.sizes if size.casing in family(VERDICT).casings]

    for size in {one.casing: one for one in sizes}.values():  # the last of each casing: the first is the one kept
        for pair in JUDGED:
            told = looked_at(size, edition, injuries=[hole(diameter="1/8 in")])
            decision = decide(parse_case(laid_over(told, pair.case(look_alike=False))), edition=edition)
            assert of_another(edition, size.casing, pair.condition) == outcome(decision, edition)
