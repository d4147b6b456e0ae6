"""Forms of one blueprint are alike: places of the keys, what makes them hard, and nothing seen before."""

from collections import Counter

import pytest

from assessments.questions import Blueprint, Item, blueprint, blueprint_names, draw, draw_form, draw_practice, family
from assessments.questions.blueprints.blueprint import BlueprintError, parse_blueprint
from assessments.questions.drafts.seeding import key_place
from assessments.questions.draws.fairness import COUNTED, Band, KeyPlaces, counts_of, off_bands
from assessments.questions.items.digest import digest
from tests.questions.many import forms_of
from tests.questions.test_forms import ENTRY
from training.rulebook import load_edition


@pytest.fixture(scope="module", params=blueprint_names())
def plan(request: pytest.FixtureRequest) -> Blueprint:
    return blueprint(request.param)


@pytest.fixture(scope="module")
def forms(plan: Blueprint) -> list[list[Item]]:
    return forms_of(plan.name)


def test_every_form_keeps_the_bands_of_its_blueprint(plan, forms) -> None:
    assert {band.what for band in plan.bands} == set(COUNTED)
    for form in forms:
        counts = counts_of(form)
        for band in plan.bands:
            assert band.least <= counts[band.what] <= band.most, (band, counts)


def test_what_a_band_counts_is_what_it_says(forms) -> None:
    # counted by hand on the questions themselves: an unsafe option names itself, a lean is in its features
    for form in forms[:10]:
        of_one = [item for item in form if item.format == "one"]
        by_hand = sum(3 * len(item.unsafe) / (len(item.options) - 1) for item in of_one)
        assert counts_of(of_one)["critical"] == pytest.approx(by_hand)
        assert counts_of([item for item in form if not item.unsafe])["critical"] == 0
        assert counts_of(form)["leaning"] == sum(1 for item in form if item.features.get("lean_deg"))


def test_the_keys_of_a_form_stand_at_every_place(forms) -> None:
    for form in forms:
        places = Counter(item.key for item in form if item.format == "one" and len(item.options) == 4)
        assert max(places.values()) - min(places[place] for place in "1234") <= 3, places


def test_without_balancing_the_places_would_lie_farther_apart(edition) -> None:
    # the check above can fail: keys drawn freely do not always keep it
    free = []
    for number in range(60):
        items = [draw("size-verdict", seed=f"free {number}/{n}", edition=edition) for n in range(16)]
        places = Counter(item.key for item in items)
        free.append(max(places.values()) - min(places[place] for place in "1234"))

    assert max(free) > 3


def test_a_later_form_asks_nothing_of_an_earlier_one(plan) -> None:
    edition = load_edition(plan.edition)
    shown: set[str] = set()
    for number in range(4):
        form = draw_form(plan, secret=b"kept", form_id=f"again {number}", edition=edition, shown=shown)
        assert shown.isdisjoint(map(digest, form))
        shown |= set(map(digest, form))


def test_where_a_family_has_no_more_questions_it_repeats_itself(edition) -> None:
    # the order of the work has a handful of next steps only
    items = draw_practice(["next-preparation-step"], seed="1", count=12, edition=edition)
    shown = set(map(digest, items))

    again = draw_practice(["next-preparation-step"], seed="2", count=3, edition=edition, shown=shown)

    assert len(again) == 3


def test_a_place_takes_a_key_while_the_others_are_not_left_behind(edition) -> None:
    places, items = KeyPlaces(), (draw("doubt", seed=str(n), edition=edition) for n in range(200))
    same = [item for item in items if item.key == "1" and len(item.options) == 4][:4]

    taken = []
    for item in same:
        taken.append(places.takes(item))
        places.add(item)

    assert taken == [True, True, False, False]


def test_no_form_asks_twice_what_has_the_same_key_for_the_same_reason(forms) -> None:
    # two readings of one gauge were the same question in one form of sixteen
    for form in forms:
        assert len({digest(item) for item in form}) == len(form)


def test_the_parts_of_a_case_stay_one_tire_when_drawn_again(forms) -> None:
    for form in forms:
        tires = {str((item.case or {}).get("tire")) for item in form if family(item.family).series and item.case}
        assert len(tires) <= 1


def test_a_band_says_how_far_off_a_count_is() -> None:
    band = Band("critical", 12, 16)

    assert [band.off_by(count) for count in (10, 12, 16, 19)] == [-2, 0, 0, 3]
    assert off_bands([], [band]) == 12


@pytest.mark.parametrize(
    ("band", "words"),
    [
        (
            '{ what = "luck", least = 1, most = 2 }',
            'band, what: "luck" is not accepted; choose critical, near-limit or leaning',
        ),
        (
            '{ what = "critical", least = 3, most = 2 }',
            'band "critical", most: 2 is not accepted; give a whole number from 3',
        ),
        ('{ what = "critical", least = "a", most = 2 }', 'band "critical", least: "a" is not accepted'),
    ],
)
def test_a_wrong_band_is_refused_with_field_and_value(band, words) -> None:
    with pytest.raises(BlueprintError) as refusal:
        parse_blueprint(ENTRY.replace("cell =", f"band = [{band}]\ncell ="), "small.toml")

    assert words in str(refusal.value)


def test_where_the_key_stands_is_known_before_a_question_is_drawn(edition) -> None:
    # of a question with one right option whose options have no order of their own
    for name in ("doubt", "size-verdict", "deciding-finding"):
        for number in range(20):
            item = draw(name, seed=f"known {number}", edition=edition)
            assert int(str(item.key)) == key_place(name, item.seed, len(item.options))


def test_keys_stand_at_each_place_as_often() -> None:
    counts = Counter(key_place("doubt", f"even {number}", 4) for number in range(4000))

    assert set(counts) == {1, 2, 3, 4}
    # four standard errors of one place in four over these seeds
    assert all(abs(count - 1000) < 4 * (4000 * 0.25 * 0.75) ** 0.5 for count in counts.values())
