"""The sizes in use against what was read of them: a public register, makers' tables, and the tables of dimensions."""

import csv
import re
from pathlib import Path

import pytest

from tests.published.tables import LOADS, SPEEDS
from training.rulebook import load_edition
from training.rulebook.markings import Designation, dimensions, read_designation, sizes_in_use

_LB_PER_KG = 2.20462
_MM_PER_INCH = 25.4
# UN Regulation No. 54 (from memory): a new tire's section may stand 3 % lower and 4 % higher than the design, and be
# 4 % wider.
_LOWER, _HIGHER, _WIDER = 0.97, 1.04, 1.04
ROOT = Path(__file__).parents[2]
_MOLDED = re.compile(r"\b(?:[A-Z]{1,2})?[0-9]{2,3}/[0-9]{2}Z?[RDB-][0-9.]{2,4}C? [0-9]{2,3}(?:/[0-9]{2,3})?[A-Z]\b")
ROWS = [(kind, size) for kind, sizes in sizes_in_use().items() for size in sizes]


def table(name: str) -> list[dict[str, str]]:
    with Path(__file__).with_name(f"{name}.csv").open(newline="", encoding="utf-8") as lines:
        return list(csv.DictReader(lines))


def spelled(size: str) -> str:
    """The register also writes LT behind the size, and ZR for any tire faster than V."""
    plain = size.replace("ZR", "R")
    return f"LT{plain[:-2]}" if plain.endswith("LT") else plain


# European Product Registry for Energy Labelling: number of the entry (the registry is public by it), size, load
# index and symbol as its sheet or label says.
@pytest.mark.parametrize("entry", table("register_entries"), ids=lambda entry: f"{entry['entry']}")
def test_a_size_carries_what_the_register_says(entry: dict[str, str]) -> None:
    (found,) = [
        size for _, size in ROWS if (size.size, size.load_index) == (spelled(entry["size"]), entry["load_index"])
    ]

    assert entry["speed_symbol"] in found.speed_symbols
    assert found.status == "published"


def test_what_is_called_published_was_read() -> None:
    entries = {(spelled(row["size"]), row["load_index"]) for row in table("register_entries")}
    printed = {(row["size"], row["load_index"]) for row in table("light_truck_sizes")}

    published = {(size.size, size.load_index) for _, size in ROWS if size.status == "published"}

    # Of this one the part of the maker's table that was read ends before its measures.
    assert published - printed - {("LT255/80R17", "121/118")} <= entries
    assert {size.status for _, size in ROWS} == {"published", "from memory"}


# Two tables of a maker's light truck tires, in inches: load indexes, symbol, overall diameter and width when inflated.
@pytest.mark.parametrize("row", table("light_truck_sizes"), ids=lambda row: f"{row['size']} {row['table']}")
def test_a_light_truck_size_is_as_large_as_a_maker_prints_it(row: dict[str, str]) -> None:
    (found,) = [size for _, size in ROWS if (size.size, size.load_index) == (row["size"], row["load_index"])]
    size = found.with_symbol(row["speed_symbol"])

    assert row["speed_symbol"] in found.speed_symbols
    assert_allowed(size, float(row["outer_diameter_in"]) * _MM_PER_INCH, float(row["section_width_in"]) * _MM_PER_INCH)


# UN Regulations No. 30 and No. 54, annexes (from memory), a public size table, a chart of truck sizes over makers.
def test_a_size_is_as_large_as_its_printed_row() -> None:
    printed = {row["designation"]: row for row in table("tire_sizes")}
    both = {size.size: printed[plain] for _, size in ROWS if (plain := size.size.removeprefix("P")) in printed}

    for size, row in both.items():
        for diameter, width in zip(spans(row["outer_diameter_mm"]), spans(row["section_width_mm"]), strict=True):
            assert_allowed(read_designation(size), diameter, width)
    assert len(both) >= 24


def spans(text: str) -> tuple[float | None, float | None]:
    least, _, most = text.partition("-")
    return (float(least), float(most or least)) if text else (None, None)


def assert_allowed(size: Designation, outer_diameter_mm: float | None, section_width_mm: float | None) -> None:
    """A tire of these measures may carry this size."""
    found = dimensions(size)
    assert found is not None
    if found.section_height_mm is not None and outer_diameter_mm is not None:
        section = (outer_diameter_mm - size.rim_mm) / 2 / found.section_height_mm
        assert _LOWER <= section <= _HIGHER
    if found.section_width_mm is not None and section_width_mm is not None:
        assert 1 / _WIDER <= section_width_mm / found.section_width_mm <= _WIDER


# A trailer dealer's replacement table, in pounds by load range; its loads are those of the standard before rounding.
@pytest.mark.parametrize("row", table("special_trailer_loads"), ids=lambda row: f"{row['size']} {row['load_range']}")
def test_a_trailer_size_has_the_load_index_nearest_to_its_printed_load(row: dict[str, str]) -> None:
    load_kg = int(row["single_load_lb"]) / _LB_PER_KG
    nearest = min(LOADS, key=lambda index: abs(float(LOADS[index]) - load_kg))

    assert nearest in {int(size.load_index.split("/")[0]) for _, size in ROWS if size.size == row["size"]}


@pytest.mark.parametrize("kind", sizes_in_use())
def test_a_size_is_read_back_as_it_is_molded(kind: str) -> None:
    written_in_inches = {"flotation": "light-truck", "code": "truck"}

    for size in sizes_in_use()[kind]:
        for symbol in size.speed_symbols:
            found = size.with_symbol(symbol)
            assert found.text == f"{size.size} {size.load_index}{symbol}"
            assert found.kind == written_in_inches.get(kind, kind)
            assert found.construction == "R" or kind in ("motorcycle", "temporary-spare")
            assert symbol in SPEEDS


def test_no_size_stands_twice_with_one_load_index_and_a_pair_never_carries_more_each() -> None:
    seen = [(size.size, size.load_index) for _, size in ROWS]

    assert len(seen) == len(set(seen))
    for _, size in ROWS:
        single, *dual = map(int, size.load_index.split("/"))
        assert all(each < single for each in dual)


# A tire of a passenger car, a van or a truck carries about as much for each liter of air as others of its kind do: a
# slip of the pen in an index shows (common practice, no published source).
@pytest.mark.parametrize(
    "kind", ["passenger", "motorcycle", "commercial", "temporary-spare", "special-trailer", "truck"]
)
def test_no_load_index_is_far_from_what_its_size_can_hold(kind) -> None:
    def strength(size: Designation) -> float:
        width, height = size.section_width_mm or 0, (size.section_width_mm or 0) * (size.aspect_percent or 0) / 100
        air: float = width * height * (size.rim_mm + height)
        return float(LOADS[size.load_index_single or 0]) / float(air**0.75)

    found = sorted(strength(size.with_symbol(size.speed_symbols[0])) for size in sizes_in_use()[kind])

    middle = found[len(found) // 2]
    assert all(0.75 < one / middle < 1.32 for one in found)


def services() -> set[str]:
    """Every size in use with each of its service descriptions; a tire in hand need not say M/C."""
    return {size.with_symbol(symbol).text.replace("M/C", "") for _, size in ROWS for symbol in size.speed_symbols}


@pytest.mark.parametrize("edition", ["north-america", "united-kingdom"])
def test_the_sizes_of_an_edition_are_in_use(edition: str) -> None:
    assert not {size.designation for size in load_edition(edition).sizes} - services()


def test_the_sizes_that_lessons_drawings_and_examples_show_are_in_use() -> None:
    places = (
        "training/course/**/*.md", "training/drawings/**/*.py", "training/forms/*.py", "fixtures/**/*.json",
        "fixtures/**/*.toml", "training/rulebook/editions/**/*.toml",
    )  # fmt: skip
    texts = [file.read_text("utf-8") for place in places for file in ROOT.glob(place)]
    found = {size for text in texts for size in _MOLDED.findall(text)}

    assert len(found) >= 30
    # One is a van's size without its C, in the example of what cannot both be true.
    assert found - services() == {"225/75R16 121/120R"}
