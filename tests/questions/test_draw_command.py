"""`manage.py draw`: items as JSON lines without a database, and refusals in words."""

import json
from typing import Any

import pytest
from django.core.management import call_command

from assessments.questions import Item, draw
from tests.homes import at_home_in

FIELDS = {
    "family", "skill", "edition", "seed", "format", "stem", "figure", "options", "key", "tolerance", "distractors",
    "unsafe", "explanation", "sources", "case", "lesson",
}  # fmt: skip


def lines(capsys: pytest.CaptureFixture[str], *args: str) -> list[str]:
    call_command("draw", *args)
    return capsys.readouterr().out.splitlines()


def test_one_line_an_item_with_every_field(capsys) -> None:
    drawn = [json.loads(line) for line in lines(capsys, "holes-by-size", "--count", "3", "--seed", "shop")]

    assert len(drawn) == 3
    assert len({item["stem"] + str(item["options"]) for item in drawn}) == 3
    for item in drawn:
        assert set(item) >= FIELDS
        assert Item.from_json(item).to_json() == item


def test_all_draws_the_count_of_every_family(capsys) -> None:
    families = [json.loads(line)["family"] for line in lines(capsys, "all", "--count", "2")]

    assert families == [name for name in at_home_in("north-america") for _ in range(2)]


def test_more_items_of_a_seed_begin_with_the_same_ones(capsys) -> None:
    few = lines(capsys, "doubt", "--count", "2", "--seed", "x")
    many = lines(capsys, "doubt", "--count", "5", "--seed", "x")
    others = lines(capsys, "doubt", "--count", "2", "--seed", "y")

    assert many[:2] == few
    assert others != few


def test_an_item_is_drawn_again_from_the_seed_it_carries(capsys, edition) -> None:
    item = Item.from_json(json.loads(lines(capsys, "tire-age", "--seed", "again")[0]))

    assert draw("tire-age", seed=item.seed, edition=edition) == item


def key_claim(item: dict[str, Any]) -> object:
    return next(option["claim"] for option in item["options"] if option["id"] == item["key"])


def test_items_are_in_the_language_of_the_rulebook_or_in_the_one_asked_for(capsys) -> None:
    british, american, asked = (
        json.loads(lines(capsys, "tire-verdict", "--seed", "words", *args)[0])
        for args in (
            ("--edition", "united-kingdom"),
            ("--edition", "united-kingdom", "--language", "en-US"),
            ("--language", "en-GB"),
        )
    )

    # "tyre" is British, "tire" American: common spelling, no published source
    assert "tyre" in british["stem"] + asked["stem"]
    assert "tire" not in british["stem"] + asked["stem"]
    assert "tyre" not in american["stem"]
    assert american["stem"] != british["stem"]
    assert american["case"] == british["case"]
    assert key_claim(american) == key_claim(british)


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (("nope",), 'family: "nope" is not known; choose after-the-cutter, '),
        (("doubt", "--count", "0"), '--count: "0" is not accepted; give a whole number from 1 to 1000000'),
        (("doubt", "--count", "many"), '--count: "many" is not accepted'),
        (("doubt", "--count", "9" * 30), "give a whole number from 1 to 1000000"),
        (("doubt", "--edition", "atlantis"), '--edition: edition: "atlantis" is not an edition; choose north-america'),
        (("all", "--prefer", "cm"), 'prefer: "cm" is not accepted; choose in or mm'),
        (("doubt", "--units", "/nowhere/units.toml"), "--units: units.toml: cannot be read as repair units"),
    ],
)
def test_a_refusal_exits_with_2_and_says_what_is_accepted(args, words, capsys) -> None:
    with pytest.raises(SystemExit) as stopped:
        call_command("draw", *args)

    assert stopped.value.code == 2
    assert words in capsys.readouterr().err
