"""Mistakes in an edition file: one small broken file for each, and the words its message must contain."""

import shutil
from pathlib import Path

import pytest

from training.rulebook import RulebookError, read_edition

BROKEN = Path(__file__).with_name("broken")
GOOD_HEADER = BROKEN / "edition.toml"

MISTAKES = {
    "unknown-field.toml": 'unknown-field.toml: clause "size", limit: is not a field; the fields here are',
    "no-id.toml": "no-id.toml: clause number 1, id: nothing is not accepted; give a short name",
    "id-twice.toml": 'id-twice.toml: clause "size", id: is used twice, also in id-twice.toml',
    "no-title.toml": 'clause "size", title: nothing is not accepted; give a name for people, such as',
    "title-like-an-id.toml": 'clause "size", title: "injury-size" is not accepted; give a name for people',
    "title-like-a-quantity.toml": 'clause "size", title: "Injury.diameter" is not accepted; give a name for people',
    "title-too-long.toml": 'after the damage was cut out" is not accepted; give one line of at most 40 characters',
    "unknown-quantity.toml": 'clause "size", quantity: "injury.width" is not accepted; choose',
    "no-limit.toml": 'clause "size", limit: [] is not accepted; give exactly one of at_most, below',
    "two-limits.toml": "limit: ['at_most', 'below'] is not accepted; give exactly one of",
    "bare-number.toml": 'clause "size", at_most: 6 is not a length; give a number and a unit',
    "not-a-list.toml": 'clause "size", at_most: "6 mm" is not accepted; give a list of limits as printed',
    "wrong-dimension.toml": 'clause "size", at_most: "6 deg" is not a length; give a number and a unit',
    "wrong-bound.toml": 'clause "size", must_be: is not accepted for injury.diameter; give one of at_most',
    "unknown-verdict.toml": 'otherwise: "refuse" is not accepted; choose accept, advise, repair, inspect',
    "no-consequence.toml": 'clause "size", otherwise: nothing is not accepted; choose accept, advise',
    "unknown-kind.toml": 'clause "size", kind: "rumor" is not accepted; choose law, standard, guidance',
    "no-source.toml": 'clause "size", cites: nothing is not accepted; give',
    "no-reason.toml": 'clause "size", because: nothing is not accepted; give a text',
    "unknown-casing.toml": 'clause "size", casings: "car" is not accepted; choose passenger',
    "no-casing.toml": 'clause "size", casings: nothing is not accepted; give a list of texts',
    "unknown-purpose.toml": 'clause "size", purposes: "sale" is not accepted; choose repair, service or fit-used',
    "not-a-day.toml": 'clause "size", checked_on: "yesterday" is not accepted; give a day, for example 2026-11-20',
    "no-example.toml": 'clause "size", fails: nothing is not accepted; give a case that fails',
    "unknown-word.toml": 'clause "zone", must_be: "middle" is not accepted; choose crown, shoulder',
    "unknown-condition.toml": 'clause "size", when: "injury.color" is not accepted; name a quantity',
    "condition-of-another-subject.toml": 'clause "size", when: "repair.kind" is not accepted; name a quantity',
    "statement-without-source.toml": 'clause "size", cites: nothing is not accepted; give',
    "limit-beside-statements.toml": 'clause "size", at_most: is not accepted beside statements',
    "between-upside-down.toml": 'clause "drying", between: ',
    "share-of-nothing.toml": 'clause "size", quantity: "tire.age" is not accepted; choose',
    "not-toml.toml": "not-toml.toml: is not TOML:",
    "stray-table.toml": "stray-table.toml: clauses: is not a field; the fields here are clause, trade",
}


def edition_folder(tmp_path: Path, *files: Path, header: Path = GOOD_HEADER) -> Path:
    shutil.copy(header, tmp_path / "edition.toml")
    for file in files:
        shutil.copy(file, tmp_path / file.name.removeprefix("procedure-of-"))
    return tmp_path


def test_the_frame_of_these_tests_is_good(tmp_path: Path) -> None:
    edition = read_edition(edition_folder(tmp_path, BROKEN / "good.toml"))

    assert set(edition.clauses) == {"size"}


@pytest.mark.parametrize("name", MISTAKES)
def test_a_mistake_is_named_with_file_clause_field_value_and_what_is_accepted(name: str, tmp_path: Path) -> None:
    with pytest.raises(RulebookError) as refused:
        read_edition(edition_folder(tmp_path, BROKEN / name))

    assert MISTAKES[name] in str(refused.value)
    assert name in str(refused.value)


HEADERS = {
    "header-without-version.toml": "edition.toml: version, version: is not accepted; give [[version]] tables",
    "header-with-wrong-units.toml": 'edition.toml: units: "cm" is not accepted; choose in or mm',
    "header-with-unknown-field.toml": "edition.toml: color: is not a field; the fields here are",
    "header-with-wrong-crown.toml": 'edition.toml: crown, basis: "middle" is not accepted; choose outer-groove',
    "header-with-wrong-essential.toml": 'edition.toml: repair: "injury.color" is not accepted; choose',
}


@pytest.mark.parametrize("name", HEADERS)
def test_a_mistake_in_the_header_is_named(name: str, tmp_path: Path) -> None:
    with pytest.raises(RulebookError) as refused:
        read_edition(edition_folder(tmp_path, header=BROKEN / name))

    assert HEADERS[name] in str(refused.value)


PROCEDURES = {
    "unknown-clause": 'procedure.toml: step "inspect", clauses: "speed" is not accepted; choose size',
    "unknown-step": 'procedure.toml: two-piece: "polish" is not accepted; choose inspect',
    "unknown-method": 'procedure.toml: order: "magic" is not accepted; choose one-piece, two-piece',
    "step-in-no-order": 'procedure.toml: step "inspect", id: is in no order',
    "criterion-without-kind": 'procedure.toml: step "inspect", kind: nothing is not accepted; choose law',
    "critical-in-words": 'procedure.toml: step "inspect", critical: "yes" is not accepted; give true or false',
    "step-twice": 'procedure.toml: id: "inspect" is used for two steps',
}


@pytest.mark.parametrize("name", PROCEDURES)
def test_a_mistake_in_the_procedure_is_named(name: str, tmp_path: Path) -> None:
    folder = edition_folder(tmp_path, BROKEN / "good.toml")
    shutil.copy(BROKEN / "procedures" / f"{name}.toml", folder / "procedure.toml")

    with pytest.raises(RulebookError) as refused:
        read_edition(folder)

    assert PROCEDURES[name] in str(refused.value)


def test_a_folder_without_a_header_is_no_edition(tmp_path: Path) -> None:
    with pytest.raises(RulebookError, match=r"has no edition\.toml"):
        read_edition(tmp_path)


def test_every_broken_file_has_its_words() -> None:
    files = {path.name for path in BROKEN.glob("*.toml")} - {"edition.toml", "good.toml"}

    assert files == set(MISTAKES) | set(HEADERS)
    assert {path.stem for path in (BROKEN / "procedures").glob("*.toml")} == set(PROCEDURES)
