"""An invented paper of every format, and its key; nothing is drawn from a family."""

from datetime import date
from typing import Any

from certificates.documents.paper import KeyEntry, Question, QuestionPaper, Rule, Wrong

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 60" font-size="5" fill="#211f1d">'
    '<line x1="5" y1="20" x2="95" y2="20" stroke="#211f1d" stroke-width="1"/><text x="50" y="15">62 mm</text></svg>'
)
OPTIONS = (("A", "Take it out of service"), ("B", "Repair it by stem and patch"), ("C", "Add air"))
ONE = Question(1, "one", ["A tire, off the wheel."], "What now?", SVG, OPTIONS)
FORMATS = (
    ONE,
    Question(2, "several", [], "Which are right?", "", OPTIONS),
    Question(3, "number", ["Read the gauge."], "How deep is it?", SVG, units=("in", "mm")),
    Question(4, "order", [], "In what order?", "", OPTIONS),
    Question(5, "place", ["The rulers are in mm."], "Where does it come out?", SVG),
    Question(6, "fault", ["A ticket."], "Which line is wrong?", "", OPTIONS, (("A", "Too fast"), ("B", "Too hot"))),
)


def a_paper(**facts: Any) -> QuestionPaper:
    given: dict[str, Any] = {
        "number": "4F2A-91C7",
        "reference": "4f2a91c7-1c1e-4d0b-9d4e-0a1b2c3d4e5f",
        "title": "Puncture repair, passenger and light truck",
        "shop_name": "Quarry Road Tire",
        "learner_name": "Noor Haddad",
        "drawn_date": date(2026, 11, 25),
        "edition_title": "North America",
        "edition_version": "2026.1",
        "minutes": 60,
        "pass_mark": "32 of 40 right, and at most 1 unsafe release",
        "questions": FORMATS,
    }
    return QuestionPaper(**(given | facts))


def an_entry(question: Question = ONE) -> KeyEntry:
    return KeyEntry(
        question=question,
        short="A",
        right=["A. Take it out of service"],
        wrong=[Wrong("C. Add air", ["Air mends it"], True)],
        rules=[
            Rule(
                "After damage removal it may be at most 1/4 in (6 mm) across.",
                ["9 mm: not in order"],
                "at most 1/4 in (6 mm)",
                "US association, wall chart (guidance)",
                "Size of the hole",
            )
        ],
        figure=question.figure,
        lesson="Measure the injury",
    )
