"""Who believes the contrary of a right line of a log blames it: what that answer says, and what it does not."""

from collections import Counter
from collections.abc import Iterator

import pytest

from assessments.questions import Item, draw, mark
from assessments.questions.diagnosis.diagnosis import Outlook, diagnose
from assessments.questions.items.shapes import Blame
from training.rulebook import Edition

# Which right words someone takes for a fault, and what they believe: each statement says that something else is right.
# "Makes no difference", "is enough" and "helps" blame nobody.
CONTRARY = {
    ("from inside first", "The cutter began on the wrong side"): "outside-first",
    ("arrows to the beads", "The unit lay the wrong way around"): "arrows-along-the-tread",
    ("Stitch: from the center outward", "The unit was stitched in the wrong direction"): "stitched-from-the-edge",
}
FAMILIES = ("fault-in-preparation", "fault-in-installation", "fault-in-return", "whole-case-return")


@pytest.fixture(scope="module")
def logs(edition: Edition) -> list[Item]:
    return [draw(name, seed=f"blame {n}", edition=edition) for name in FAMILIES for n in range(150)]


def blamed(item: Item) -> Iterator[tuple[str, str, str, str, tuple[str, ...]]]:
    """(line, reason, misconceptions) of every tagged answer that names a line."""
    reasons = {one.id: one.text for one in item.reasons}
    for answer, names in item.distractors.items():
        step, _, reason = answer.partition(", ")
        if reason:
            yield step, reason, item.line_of(item.option(step)), reasons[reason], names


def nothing_is_wrong(item: Item) -> bool:
    return item.key == Blame((item.options[-1].id,), "")


def test_a_right_line_is_tagged_where_someone_believes_its_contrary_and_nowhere_else(logs) -> None:
    seen: Counter[str] = Counter()
    for item in logs:
        tagged = {(text, reason): names for _, _, text, reason, names in blamed(item)}
        expected = {
            (item.line_of(line), reason.text): (name,)
            for line in item.options
            for reason in item.reasons
            for (words, why), name in CONTRARY.items()
            if words in item.line_of(line) and reason.text == why
        }
        assert tagged == expected
        seen.update(name for names in tagged.values() for name in names)
    assert set(seen) == set(CONTRARY.values())
    assert min(seen.values()) > 20


def test_blaming_a_right_line_is_wrong_says_what_is_behind_it_and_releases_nothing(logs) -> None:
    for item in logs:
        for step, reason, _, _, names in blamed(item):
            marked = mark(item, {"step": step, "reason": reason})

            assert (marked.right, marked.unsafe, marked.misconceptions) == (False, False, names)


def test_in_a_right_log_the_holder_blames_the_line_and_beside_a_fault_one_of_the_two(logs) -> None:
    right, wrong = (
        next(item for item in logs if nothing_is_wrong(item) == is_right and list(blamed(item)))
        for is_right in (True, False)
    )
    for item, also in ((right, ()), (wrong, (("key",),))):
        step, reason, _, _, (name,) = next(blamed(item))

        assert Outlook(item).predicted(frozenset([name])) == (*also, (f"{step}, {reason}",))


def test_who_sees_no_fault_but_one_in_a_right_line_names_that_line(logs) -> None:
    item = next(item for item in logs if item.options[-1].id in item.distractors and list(blamed(item)))
    (blind,) = item.distractors[item.options[-1].id]
    step, reason, _, _, (name,) = next(blamed(item))

    assert Outlook(item).predicted(frozenset([blind])) == ((item.options[-1].id,),)
    assert Outlook(item).predicted(frozenset([blind, name])) == ((f"{step}, {reason}",),)


def test_blaming_the_right_line_again_and_again_makes_the_belief_probable_and_the_key_speaks_against_it(logs) -> None:
    about = [
        (item, step, reason)
        for item in logs
        if nothing_is_wrong(item)
        for step, reason, _, _, names in blamed(item)
        if names == ("stitched-from-the-edge",)
    ][:4]
    believed = [(item, {"step": step, "reason": reason}) for item, step, reason in about]
    known = [(item, {"step": item.options[-1].id, "reason": ""}) for item, _, _ in about]

    assert [one.misconception for one in diagnose(believed).probable] == ["stitched-from-the-edge"]
    assert diagnose(known).probability("stitched-from-the-edge") < diagnose([]).unseen / 10


def test_a_log_speaks_of_more_misconceptions_than_the_one_behind_its_fault(logs) -> None:
    named = [len(Outlook(item).names) for item in logs]

    assert max(named) == 3
    assert sum(count > 1 for count in named) > len(logs) / 8
