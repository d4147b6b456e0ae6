"""No page and no question shows an identifier where a person reads a name, and no code makes a label of one."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from django.urls import reverse

from tests.identifiers import identifiers_in, visible
from tests.pages import ClientAs
from tests.permissions import TABLE, WHO

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

ROOT = Path(__file__).parent.parent
APPS = ("training", "assessments", "certificates")
# no identifiers: the names of time zones, and of bounds in a sentence of their own
NO_IDS = {"training/forms/shop.py": 'name.replace("_", " ")'}
READ = [(page, answers[0].split().index("200")) for page, answers in TABLE.items() if "200" in answers[0].split()]


@pytest.mark.parametrize(("page", "who"), READ, ids=[name for (name, _), _ in READ])
def test_a_page_shows_no_identifier(
    page: tuple[str, tuple[str, ...]], who: int, value: Callable[[str], object], client_as: ClientAs
) -> None:
    name, arguments = page
    address = reverse(name, args=[value(argument) for argument in arguments])

    answer = client_as(WHO[who]).get(address)

    if answer["Content-Type"].startswith("text/html"):
        assert identifiers_in(visible(answer.content.decode())) == set()


@pytest.mark.parametrize("app", APPS)
def test_no_code_makes_a_label_of_an_identifier(app: str) -> None:
    made = re.compile(r"\w+(?:\(\))?\.replace\(\"[-_]\", \" \"\)|\bid\|(?:title|capfirst)|slug\|(?:title|capfirst)")
    for path in (*ROOT.glob(f"{app}/**/*.py"), *ROOT.glob(f"{app}/**/*.html")):
        found = made.findall(path.read_text("utf-8"))
        assert found in ([], [NO_IDS.get(path.relative_to(ROOT).as_posix())]), path
