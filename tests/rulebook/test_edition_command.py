"""`manage.py edition`: the list, the difference in words, and what nobody has read."""

from io import StringIO

import pytest
from django.core.management import call_command


def run(*arguments: str) -> tuple[int, str, str]:
    out, err = StringIO(), StringIO()
    try:
        call_command("edition", *arguments, stdout=out, stderr=err)
    except SystemExit as stopped:
        return int(str(stopped.code)), out.getvalue(), err.getvalue()
    return 0, out.getvalue(), err.getvalue()


def test_list_names_every_edition_with_version_and_day() -> None:
    code, out, _ = run("list")

    assert code == 0
    assert [line.split("\t")[:2] for line in out.splitlines()] == [
        ["north-america@2026.1", "North America"],
        ["united-kingdom@2026.1", "United Kingdom"],
    ]


@pytest.mark.parametrize("before", ["north-america", "north-america@2026.1"])
def test_diff_tells_in_words_what_changed(before: str) -> None:
    code, out, _ = run("diff", before, "united-kingdom")

    assert code == 0
    assert "Size of the hole (injury-size): changed\n  limit: at most 1/4 in (6 mm); otherwise reject" in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("diff", "mars", "united-kingdom"), 'edition: "mars" is not an edition; choose north-america, united-kingdom'),
        (("diff", "united-kingdom", "united-kingdom@1.1"), 'has no version "1.1"; it has 2026.1'),
        (("memory", "../secrets"), "is not an edition; choose north-america, united-kingdom"),
    ],
)
def test_an_edition_that_does_not_exist_is_named_and_ends_with_2(arguments: tuple[str, ...], words: str) -> None:
    code, _, err = run(*arguments)

    assert code == 2
    assert words in err


def test_memory_lists_what_was_not_read_and_nothing_else() -> None:
    code, out, _ = run("memory", "united-kingdom")
    names = {line.split("\t")[1] for line in out.splitlines() if line.startswith("clause")}

    assert code == 0
    # A summary is not the text: the standard was read as an association sums it up, UN Regulation No. 141 not at all.
    assert {"Tread depth of a part-worn tire", "Size of the hole", "Time until the monitor warns"} <= names
    assert not {"Cut in the rubber", "Wheel", "Cutter speed"} & names
