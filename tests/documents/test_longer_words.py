"""Papers are set by the width of their words: where a language needs more room, nothing runs together."""

import gettext
import re
from io import BytesIO
from itertools import pairwise
from typing import Any

import pytest
from pypdf import PdfReader
from reportlab.pdfbase import pdfmetrics

from certificates.documents.certificate import certificate_pdf
from certificates.documents.paper import answer_key_pdf, question_paper_pdf
from tests.documents.papers import FORMATS, a_paper, an_entry
from tests.documents.records import a_record
from tests.speaking import BRACKETED
from training.trade.speech import in_language

LEAST_MARGIN = 8  # [pt] what printers leave white at the edge of a sheet: common practice, no published source


def longer(text: str, times: int) -> str:
    """A text in a language whose words need so much more room; what fills its places is as long as ever."""
    words = re.sub(r"\{\w+\}", "", text)
    return " ".join([text, *[words] * (times - 1)])


class Longer(gettext.NullTranslations):
    """Every text so many times as long."""

    def __init__(self, times: int) -> None:
        super().__init__()
        self.times = times

    def gettext(self, message: str) -> str:
        return longer(message, self.times)


def test_no_line_of_a_paper_runs_into_another_or_off_the_page(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("training.trade.speech.catalogue", lambda tag: Longer(4))
    with in_language(BRACKETED):
        paper = a_paper(questions=FORMATS)
        printed = question_paper_pdf(paper), answer_key_pdf(paper, [an_entry(one) for one in FORMATS])

    for pdf in printed:
        for page in PdfReader(BytesIO(pdf)).pages:
            assert collisions(page) == []


@pytest.mark.parametrize("sheet", ["a4", "letter"])
def test_the_certificate_keeps_to_its_page(monkeypatch: pytest.MonkeyPatch, sheet: str) -> None:
    monkeypatch.setattr("training.trade.speech.catalogue", lambda tag: Longer(2))
    with in_language(BRACKETED):
        read = PdfReader(BytesIO(certificate_pdf(a_record(house_rules=("A rule",) * 9), paper=sheet)))

    assert len(read.pages) == 1
    assert collisions(read.pages[0]) == []


def collisions(page: Any) -> list[str]:
    """Pieces of text that run into the next one on their line, off the page, or below it."""
    lines: dict[int, list[tuple[float, float, str]]] = {}
    found: list[str] = []

    def visit(text: str, cm: Any, tm: Any, font: Any, size: float) -> None:
        told = text.strip()
        if told and font:
            name = str(font["/BaseFont"]).partition("+")[2]
            left, base = tm[4] * cm[0] + cm[4], tm[5] * cm[3] + cm[5]
            width = max(pdfmetrics.stringWidth(line, name, size) * cm[0] for line in told.split("\n"))
            lines.setdefault(round(base), []).append((left, left + width, told))
            if base - 1.35 * size * cm[3] * told.count("\n") < LEAST_MARGIN:  # lines of a paragraph come as one
                found.append(told)

    page.extract_text(visitor_text=visit)
    room = float(page.mediabox.width)
    for line in lines.values():
        ordered = [*sorted(line), (room - LEAST_MARGIN, 0.0, "")]
        found += [told for (_, right, told), (following, _, _) in pairwise(ordered) if right > following + 1]
    return found
