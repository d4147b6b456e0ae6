"""What is said of a picture: what is seen and where, no finding by its name, and nothing by how long it is."""

import re
from itertools import product

import pytest

from tests.pictures.measuring import auc
from tests.speaking import bracketed, outside
from training.pictures import CONDITIONS, Degree, described, picture
from training.rulebook import FINDINGS
from training.trade.words import finding_in_words

NAMES = list(CONDITIONS)
KINDS = list(product(NAMES, (False, True)))
# words of findings that also say where something is, or what it is made of
PLACES = frozenset(
    ["bead", "body", "casing", "cord", "edge", "fabric", "inside", "liner", "outside", "ply", "rubber", "sidewall"]
)
MATTER = frozenset(["steel", "tire", "tread"])
SMALL = frozenset(
    ["and", "any", "are", "for", "from", "has", "its", "not", "off", "than", "that", "the", "with", "where"]
)
# seen and not judged: the thing itself, whatever its state
ALSO_SEEN = frozenset(["bar", "bars", "repair", "unit", "under", "wheel", "valve", "one", "bare", "string", "size"])


def words_of_findings() -> set[str]:
    """Words that a finding is named by, in the vocabulary of cases and as people read it."""
    harmless = PLACES | MATTER | SMALL | ALSO_SEEN
    texts = [*FINDINGS, *(str(finding_in_words(name)) for name in FINDINGS), *NAMES]
    return {word for text in texts for word in re.findall(r"[a-z]{3,}", text.lower())} - harmless


def all_said(name: str, look_alike: bool) -> set[str]:
    """Every text that seeds choose of, in all degrees."""
    return {described(name, degree=degree, look_alike=look_alike, seed=seed) for degree in Degree for seed in range(40)}


@pytest.mark.parametrize(("name", "look_alike"), KINDS)
def test_a_description_says_what_is_seen_and_names_no_finding(name: str, look_alike: bool) -> None:
    banned = words_of_findings()
    for said in all_said(name, look_alike):
        assert set(re.findall(r"[a-z]+", said.lower())) & banned == set()
        # surface and lamp, where to look, what is seen, how readily
        assert re.fullmatch(r"(?:[A-Z][^.]+\.(?: |$)){4}", said)


@pytest.mark.parametrize(("name", "look_alike"), KINDS)
def test_a_kind_is_not_known_by_one_text(name: str, look_alike: bool) -> None:
    condition = CONDITIONS[name]
    wordings = condition.look_alike if look_alike else condition.shown
    said = all_said(name, look_alike)

    assert len(said) > 30
    assert len(set(wordings)) == len(wordings) >= 2
    for wording in wordings:
        assert any(str(wording) in text for text in said)


@pytest.mark.parametrize("name", NAMES)
def test_no_sentence_is_said_of_both_kinds(name: str) -> None:
    """A picture says the truth: what is seen of a condition is not seen of what is taken for it."""
    condition = CONDITIONS[name]

    assert {str(text) for text in condition.shown} & {str(text) for text in condition.look_alike} == set()


@pytest.mark.parametrize("name", NAMES)
def test_the_length_of_a_description_does_not_tell_the_kind(name: str) -> None:
    lengths = [
        [len(described(name, degree="grave", look_alike=look_alike, seed=seed)) for seed in seeds]
        for look_alike, seeds in ((False, range(1000)), (True, range(1000, 2000)))
    ]

    assert auc(*lengths) <= 0.6


def test_a_description_says_the_side_the_height_and_the_lamp() -> None:
    for seed in range(40):
        one = picture("bulge", degree="plain", seed=seed)

        said = one.description
        assert ("lit from the left." in said) == (one.setting.lit_from == "left")
        place = said.split(". ")[1]
        assert ("left" in place, "right" in place) == (one.side == "left", one.side == "right")
        assert any(word in place.split() for word in ("upper", "up")) == (one.place[1] < 240)


@pytest.mark.parametrize("name", NAMES)
def test_what_keeps_to_a_line_says_that_and_no_half(name: str) -> None:
    said = {text.split(". ")[1] for text in all_said(name, False) | all_said(name, True)}

    assert all(("left" in one or "right" in one) != bool(CONDITIONS[name].line) for one in said)


def test_every_word_of_a_description_passes_the_seam() -> None:
    with bracketed():
        left = {
            word
            for name, look_alike in KINDS
            for seed in range(6)
            for word in outside(described(name, degree="plain", look_alike=look_alike, seed=seed))
        }

    assert left == set()
