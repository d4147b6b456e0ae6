"""A text made of others is put together in the language spoken when it is asked for, and compared as it was written."""

import pickle
from dataclasses import dataclass

from tests.speaking import bracketed
from training.trade.composed import Composed, as_written
from training.trade.lists import all_of, either, one_of
from training.trade.measures import as_read
from training.trade.records import RECORDS
from training.trade.speech import say, saying

LIMIT = Composed(lambda: say("at most {limit}", limit="25°"))


@dataclass
class Line:
    text: str
    words: tuple[str, ...]


def test_it_reads_in_the_language_spoken_and_compares_as_written() -> None:
    with bracketed():
        made_there = Composed(lambda: say("at most {limit}", limit="25°"))
        assert f"{LIMIT}" == str(made_there) == "⟦at most 25°⟧"
        assert made_there == LIMIT == as_written(made_there) == "at most 25°"
    assert str(made_there) == "at most 25°"
    assert hash(LIMIT) == hash("at most 25°")


def test_what_is_kept_of_it_is_plain_text_in_the_language_spoken() -> None:
    with bracketed():
        kept = RECORDS.unstructure(Line(LIMIT, (saying("none"), LIMIT)))
        sent = pickle.loads(pickle.dumps(LIMIT))
    assert kept == {"text": "⟦at most 25°⟧", "words": ["⟦none⟧", "⟦at most 25°⟧"]}
    assert type(kept["text"]) is type(sent) is str
    assert sent == "⟦at most 25°⟧"


def test_words_in_a_row_are_joined_by_the_language() -> None:
    with bracketed():
        assert all_of(["a", "b", "c"]) == "⟦a, b and c⟧"
        assert all_of([saying("truck"), "b and c"]) == "⟦⟦truck⟧ and b and c⟧"
        assert one_of(["a", "b", "c"]) == "⟦a, b or c⟧"
        assert either(["a", "b", "c"]) == "⟦⟦a or b⟧ or c⟧"
        assert (all_of(["a"]), one_of([]), either(["a"])) == ("a", "", "a")


def test_what_is_counted_is_a_word_of_the_language_and_a_unit_is_not() -> None:
    assert as_read("3 times, 25 deg, 5 mm, 10 years") == "3 times, 25°, 5 mm, 10 years"
    with bracketed():
        assert as_read("3 times, 25 deg, 5 mm, 10 years") == "⟦3 times⟧, 25°, 5 mm, ⟦10 years⟧"
