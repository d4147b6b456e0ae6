"""How long somebody was at a question: what the server saw, put together by hand here."""

from datetime import UTC, datetime, timedelta

from assessments.measurement.timing import Seen, Time, times_at

START = datetime(2026, 11, 25, 15, 0, tzinfo=UTC)


def after(seconds: int) -> datetime:
    return START + timedelta(seconds=seconds)


def shown(position: int, seconds: int) -> Seen:
    return Seen(position, after(seconds))


def answered(position: int, seconds: int) -> Seen:
    return Seen(position, after(seconds), is_answer=True)


def test_time_runs_from_one_sight_of_the_server_to_the_next() -> None:
    seen = [shown(1, 0), answered(1, 30), shown(2, 40), answered(2, 75), shown(0, 80)]

    assert times_at(seen, ended_at=after(95), stays=True) == {1: Time(after(0), 40), 2: Time(after(40), 40)}


def test_what_goes_beyond_two_minutes_without_anything_is_cut_off() -> None:
    seen = [shown(1, 0), answered(1, 119), answered(1, 119 + 3600), shown(2, 3800)]

    # 119 s, then 120 of an hour, then 81 s
    assert times_at(seen, ended_at=after(3800), stays=True)[1] == Time(after(0), 320)


def test_a_question_that_is_looked_at_again_goes_on_from_where_it_was() -> None:
    seen = [shown(1, 0), shown(2, 10), shown(1, 30), answered(1, 35), shown(0, 36)]

    assert times_at(seen, ended_at=after(60), stays=True) == {1: Time(after(0), 16), 2: Time(after(10), 20)}


def test_in_practice_the_explanation_is_not_time_at_the_question() -> None:
    seen = [shown(1, 0), answered(1, 30), shown(2, 90)]

    assert times_at(seen, ended_at=after(100), stays=False) == {1: Time(after(0), 30), 2: Time(after(90), 10)}


def test_the_end_cuts_the_last_question_and_what_came_after_it() -> None:
    seen = [shown(1, 0), shown(2, 20), answered(2, 90)]

    assert times_at(seen, ended_at=after(50), stays=True) == {1: Time(after(0), 20), 2: Time(after(20), 30)}


def test_an_answer_to_what_was_never_shown_says_no_first_sight() -> None:
    assert times_at([answered(3, 5)], ended_at=after(15), stays=True) == {3: Time(None, 10)}


def test_of_nothing_seen_there_is_no_time() -> None:
    assert times_at([], ended_at=after(10), stays=True) == {}
