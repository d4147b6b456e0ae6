"""Size designations: what each part says, and which part is wrong when one cannot be right."""

from fractions import Fraction

import pytest

from training.rulebook.markings import MarkingError, read_designation


# Forms and prefixes: vehicle owner's manuals (published): P, none, LT, T or S, and the flotation form; C: facts of the
# trade (published); code sizes and dual load index: UN Regulation No. 54 (from memory).
@pytest.mark.parametrize(
    ("text", "form", "kind"),
    [
        ("P215/65R15 95H", "metric", "passenger"),
        ("215/65R15 96H", "metric", "passenger"),
        ("LT235/85R16C", "metric", "light-truck"),
        ("T145/80D18 103M", "metric", "temporary-spare"),
        ("S125/70D15", "metric", "temporary-spare"),
        ("ST205/75R15 D", "metric", "special-trailer"),
        ("31x10.5 R15 LT", "flotation", "light-truck"),
        ("225/65R16C 112/110R", "metric", "commercial"),
        ("195R14C 106/104S", "metric-width", "commercial"),
        ("11R22.5 148/145L", "code", "truck"),
        ("295/75R22.5 G", "metric", "truck"),
        ("10.00-20 16PR", "code", "truck"),
        ("7.50R16LT/E", "code", "light-truck"),
        ("120/70ZR17 M/C (58W)", "metric", "motorcycle"),
        ("MT90B16", "metric", "motorcycle"),
        ("6.00-13", "code", "unstated"),
        ("3.00-21", "code", "unstated"),
        ("25x8-12", "flotation", "unstated"),
    ],
)
def test_the_form_and_the_letters_tell_what_the_tire_is_for(text: str, form: str, kind: str) -> None:
    tire = read_designation(text)

    assert (tire.form, tire.kind) == (form, kind)


def test_every_part_of_a_light_truck_size_is_read() -> None:
    tire = read_designation("lt245/75r16 120/116S load range E  10PR M+S")

    assert (tire.prefix, tire.section_width_mm, tire.aspect_percent, tire.construction) == ("LT", 245, 75, "R")
    assert (tire.rim_code, tire.rim_mm) == ("16", 406)
    assert (tire.load_index_single, tire.load_index_dual, tire.speed_symbol) == (120, 116, "S")
    assert (tire.load_range, tire.ply_rating, tire.marks) == ("E", 10, ("M+S",))
    assert [tire.load_single_kg, tire.load_dual_kg] == [1400, 1250]  # UN Regulation No. 54, load index table
    assert tire.speed is not None
    assert tire.speed.km_h == 180


def test_a_flotation_size_keeps_its_inches_as_molded() -> None:
    tire = read_designation("31X10.50R15LT 109S LR C")

    assert (tire.overall_diameter_code, tire.section_code, tire.suffix) == ("31", "10.50", "LT")
    assert Fraction(tire.rim_code) == 15
    assert tire.load_range == "C"


# UN Regulation No. 30 (from memory): ZR alone says above 240 km/h, a bracketed (Y) above 300 km/h.
@pytest.mark.parametrize(
    ("text", "symbol"),
    [
        ("245/45ZR18", "ZR"),
        ("245/45ZR18 96Y", "Y"),
        ("245/45ZR18 (100Y)", "(Y)"),
        ("245/45R18", None),
        ("225/60VR16", None),
    ],
)
def test_the_speed_symbol_comes_from_the_service_description_before_the_size(text: str, symbol: str | None) -> None:
    assert read_designation(text).speed_symbol == symbol


def test_a_second_service_description_is_kept_apart_from_the_first() -> None:
    tire = read_designation("315/70R22.5 156/150L (154/150M) TL")

    assert (tire.load_index_single, tire.speed_symbol) == (156, "L")
    assert tire.second_service is not None
    assert (tire.second_service.single, tire.second_service.speed_symbol) == (154, "M")


# C is a commercial tire's suffix behind a metric size without prefix, and a load range behind an LT size.
@pytest.mark.parametrize(
    ("text", "suffix", "load_range"),
    [
        ("225/65R16C", "C", None),
        ("225/65R16 C", "C", None),
        ("LT225/75R16C", None, "C"),
        ("LT225/75R16 C", None, "C"),
        ("31x10.50R15LT C", "LT", "C"),
        ("215/75R17.5 C", None, "C"),
    ],
)
def test_a_c_is_a_suffix_or_a_load_range_by_what_stands_before_it(
    text: str, suffix: str | None, load_range: str | None
) -> None:
    tire = read_designation(text)

    assert (tire.suffix, tire.load_range) == (suffix, load_range)


# Common practice, no published source: what a width in millimeters and an aspect ratio can be on a road tire.
@pytest.mark.parametrize("text", ["60/100-12", "495/45R22.5", "205/20R22", "130/100R16"])
def test_the_widest_and_narrowest_sizes_are_read(text: str) -> None:
    assert read_designation(text).size == text


# Vehicle owner's manuals (published): MT90B16 is 130/90 on a 16 inch rim, bias-belted.
@pytest.mark.parametrize("text", ["MT90B16 74H", "mt90 b16 74h", "MT90B-16 74H"])
def test_letters_stand_for_the_width_of_a_motorcycle_tire(text: str) -> None:
    tire = read_designation(text)

    assert (tire.section_width_mm, tire.aspect_percent, tire.construction, tire.rim_code) == (130, 90, "B", "16")
    assert tire.text == "MT90B16 74H"
    assert read_designation(tire.text) == tire


def test_a_speed_letter_before_the_b_is_read_beside_it() -> None:
    tire = read_designation("MU85HB16")

    assert (tire.size_speed, tire.construction, tire.section_width_mm) == ("H", "B", 140)


# A tire that is smaller than its rim fits on none.
def test_an_overall_diameter_within_the_rim_is_refused() -> None:
    with pytest.raises(MarkingError, match='overall diameter: "20"'):
        read_designation("20x10R30")


def test_spaces_case_and_a_printers_cross_change_nothing() -> None:
    assert read_designation(" 31 × 10.50 r 15 lt ") == read_designation("31x10.50R15LT")
    assert read_designation("P 205/65 R 15 94 V") == read_designation("P205/65R15 94V")
    assert read_designation("11-22.5") == read_designation("11D22.5")


# Each line breaks one part of a designation that would be read but for that.
@pytest.mark.parametrize(
    ("text", "part", "found"),
    [
        ("XY205/55R16 91V", "prefix", "XY"),
        ("208/55R16 91V", "section width", "208"),
        ("55/55R16 91V", "section width", "55"),
        ("500/55R16 91V", "section width", "500"),
        ("1000R20", "section width", "1000"),
        ("23R22.5", "section width", "23"),
        ("31x30.50R15LT", "section width", "30.50"),
        ("205/5R16 91V", "aspect ratio", "5"),
        ("205/19R16 91V", "aspect ratio", "19"),
        ("205/101R16 91V", "aspect ratio", "101"),
        ("205/R16 91V", "aspect ratio", "R16"),
        ("99x10.50R15LT", "overall diameter", "99"),
        ("205/55Q16 91V", "construction", "Q"),
        ("205/55TR16 91V", "construction", "TR"),
        ("205/55 16 91V", "construction", ""),
        ("205/55R27 91V", "rim diameter", "27"),
        ("205/55R1691V", "rim diameter", "1691"),
        ("11R22.6", "rim diameter", "22.6"),
        ("205/55R16V", "suffix", "V"),
        ("P205/55R16LT", "suffix", "LT"),
        ("205/55R16 181V", "load index", "181"),
        ("205/55R16 91X", "speed symbol", "X"),
        ("205/55R16 91A9", "speed symbol", "A9"),
        ("LT245/75R16 116/120S", "load index", "116/120"),
        ("205/55R16 V", "service description", "V"),
        ("205/55R16 91V 94W", "service description", "94W"),
        ("205/55R16 (91V)", "service description", "(91V)"),
        ("205/55R16 1203R", "service description", "1203R"),
        ("LT245/75R16 120/116S I", "load range", "I"),
        ("LT245/75R16 load range K", "load range", "K"),
        ("LT245/75R16 E D", "load range", "D"),
        ("LT245/75R16 9PR", "ply rating", "9PR"),
        ("LT245/75R16 E 8PR", "ply rating", "8PR"),
        ("205/55R16 91V ROUND", "marking", "ROUND"),
        ("ROUND", "size", "ROUND"),
        ("", "size", ""),
        ("205/55R16 91V\N{SNOWMAN}", "size", "205/55R16 91V\N{SNOWMAN}"),
    ],
)
def test_a_bad_marking_says_which_part_is_wrong(text: str, part: str, found: str) -> None:
    with pytest.raises(MarkingError) as refused:
        read_designation(text)

    assert (refused.value.part, refused.value.found) == (part, found)
    assert refused.value.accepted
    assert str(refused.value).startswith(f'{part}: "{found}"')


def test_a_width_without_its_point_is_met_with_the_likely_reading() -> None:
    with pytest.raises(MarkingError, match=r"did you read 10\.00\?"):
        read_designation("1000R20")


def test_what_is_not_text_is_refused_in_words() -> None:
    with pytest.raises(MarkingError, match="size: a int is not text"):
        read_designation(20555)  # type: ignore[arg-type]
