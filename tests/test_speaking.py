"""The language of tests: it is spoken inside of its block, and nowhere after it."""

from django.utils.translation import gettext

from tests.speaking import CLOSE, OPEN, bracketed


def test_djangos_own_texts_stand_in_brackets_inside_only() -> None:
    with bracketed():
        with bracketed():
            pass
        within = gettext("Yes")

    assert within == f"{OPEN}Yes{CLOSE}"
    assert gettext("Yes") == "Yes"
