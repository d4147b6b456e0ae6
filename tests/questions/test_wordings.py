"""The same answer in other words, and the choosing of words by length."""

from random import Random

import pytest

from assessments.questions.drafts.balance import rivals_beside
from assessments.questions.items.wordings import groups, plain, wordings
from tests.present import present


@pytest.mark.parametrize(
    ("other", "usual"),
    [
        ("Repair: stem and patch only", "Repair: only a stem with a separate patch"),
        ("Out of service: hole outside the crown", "Out of service: the hole leaves the repairable crown"),
        (
            "Repair allowed: the limit is no more than 1/4 in (6 mm)",
            "Repair allowed: the limit is at most 1/4 in (6 mm)",
        ),
        ("A and C both, but B may not", "Only A and C"),
        ("Repair allowed: 1/4 in is what counts", "Repair allowed: 1/4 in counts"),
        ("None", "None of them"),
        ("None of them", "None of them"),
        ("Steel body, as the letter of the load range says", "Steel body, by its load range letter"),
        ("Repair both: 15 mm left over", "Repair both: 15 mm to spare"),
    ],
)
def test_other_words_have_one_plain_wording(other, usual) -> None:
    assert plain(other) == usual
    assert other in wordings(usual)


def test_no_phrase_stands_in_two_groups_and_each_group_has_several_lengths() -> None:
    phrases = [phrase for group in groups() for phrase in group]

    assert len(set(phrases)) == len(phrases)
    for group in groups():
        assert len({len(phrase) for phrase in group}) == len(group), group


def test_every_wording_of_a_phrase_leads_back_to_it() -> None:
    for group in groups():
        for phrase in group:
            assert plain(phrase) == group[0]


@pytest.mark.parametrize("shorter", [0, 1, 2, 3])
def test_as_many_rivals_as_wanted_are_shorter_than_the_key(shorter) -> None:
    rivals = ["a", "bb", "ccc", "ddddd", "eeeeee", "fffffff"]

    key, chosen = present(rivals_beside(Random(shorter), "KEYS", rivals, places=3, shorter=shorter))

    assert key == "KEYS"
    assert len({place for place, _ in chosen}) == 3
    assert sum(len(words) < 4 for _, words in chosen) == shorter


def test_where_no_words_give_the_length_nothing_is_chosen() -> None:
    assert rivals_beside(Random(1), "KEYS", ["a", "b", "c"], places=3, shorter=1) is None
