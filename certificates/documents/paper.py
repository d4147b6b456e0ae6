"""An assessment on paper: questions with their answer sheet, and the key. Lengths in points; plain values come in."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from io import BytesIO
from typing import Any

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Frame, KeepTogether, PageBreak, PageTemplate, Spacer, Table, TableStyle

from certificates.documents import fonts
from certificates.documents.answer_sheet import answer_rows
from certificates.documents.blocks import HAIRLINE, RUBBER, WORN, draw_line, paragraph, size_to_fit, widest
from certificates.documents.certificate import PAPERS, NotDrawable
from certificates.documents.shots import beside, in_rows
from certificates.documents.svg import figure
from training.trade.days import written_day
from training.trade.lists import one_of
from training.trade.speech import language, say, saying

MARGIN, HEAD_HEIGHT, FOOT_HEIGHT = 18 * mm, 21 * mm, 19 * mm
NUMBER_WIDTH, FIGURE_WIDTH, FIGURE_HEIGHT, GAP = 10 * mm, 74 * mm, 78 * mm, 6 * mm
SIZE = 10.5
FOOT_SIZE, FOOT_LINE = 8, 4 * mm
SAFETY = saying(
    "Training aid. Local codes, the tire maker and the material maker prevail; repair only "
    "what you are trained and allowed to repair."
)
HOW = {
    "one": saying("Choose one."),
    "several": saying("Choose all that are right."),
    "number": saying("Write the number and mark its unit."),
    "order": saying("Write the letters in the right order."),
    "place": saying("Read the place off the rulers of the drawing: how far across, how far up."),
    "fault": saying("Write the letter of the line and the letter of the reason."),
}
UNPRINTABLE = {
    "learner_name": saying("\"{missing}\" in the learner's name cannot be drawn by the paper's fonts"),
    "shop_name": saying("\"{missing}\" in the shop's name cannot be drawn by the paper's fonts"),
}
Story = list[Any]  # reportlab's flowables have no types


@dataclass(frozen=True)
class Question:
    """One question as it is printed. Options and reasons are (letter, words); `figure` is one of our drawings or "",
    `pictures` are files of pictures."""

    number: int
    format: str
    situation: Sequence[str]
    ask: str
    figure: str
    options: Sequence[tuple[str, str]] = ()
    reasons: Sequence[tuple[str, str]] = ()
    units: Sequence[str] = ()
    pictures: Sequence[bytes] = ()

    @property
    def has_beside(self) -> bool:
        """Does something stand at the right of its words?"""
        return bool(self.figure) or len(self.pictures) == 1


@dataclass(frozen=True)
class QuestionPaper:
    """What is printed for one person. `number` is what people call the paper by, `reference` its form's."""

    number: str
    reference: str
    title: str
    shop_name: str
    learner_name: str
    drawn_date: date
    edition_title: str
    edition_version: str
    minutes: int
    pass_mark: str
    questions: Sequence[Question]


@dataclass(frozen=True)
class Wrong:
    """A wrong answer, the beliefs that give it, and whether it releases a rejected tire."""

    words: str
    beliefs: Sequence[str]
    is_unsafe: bool


@dataclass(frozen=True)
class Rule:
    """One rule of an explanation; `found` are lines like "A: 9 mm, does not hold". An old form has no `title`."""

    because: str
    found: Sequence[str]
    limit: str
    source: str
    title: str = ""


@dataclass(frozen=True)
class KeyEntry:
    """The key of one question. `short` is what stands on the sheet, `figure` the drawing with the place marked."""

    question: Question
    short: str
    right: Sequence[str]
    wrong: Sequence[Wrong]
    rules: Sequence[Rule]
    figure: str
    lesson: str


def question_paper_pdf(paper: QuestionPaper, *, page: str = "a4") -> bytes:
    """The questions, then the answer sheet on a page of its own, as a PDF file; the same paper gives the same bytes.

    `page` is "a4" or "letter". Raises ValueError for another, NotDrawable for a name that our fonts cannot draw.
    """
    width = _size(page)[0] - 2 * MARGIN

    def story() -> Story:
        parts = _opening(paper, width, say("Question paper"))
        parts += [_bullet(line, width) for line in _rules_of(paper)]
        parts.append(Spacer(0, 5 * mm))
        for question in paper.questions:
            parts.append(KeepTogether([_question(question, width), Spacer(0, 6 * mm)]))
        parts += [PageBreak(), *_answer_sheet(paper, width)]
        return parts

    return _build(paper, story, page=page, kind=say("Question paper"))


def answer_key_pdf(paper: QuestionPaper, entries: Sequence[KeyEntry], *, page: str = "a4") -> bytes:
    """The key in short, then each answer explained, as a PDF file for the trainer. Errors as of the question paper."""
    width = _size(page)[0] - 2 * MARGIN

    def story() -> Story:
        parts = _opening(paper, width, say("Key"))
        parts.append(
            paragraph(say("For the trainer alone: keep it away from whoever sits the paper."), fonts.STRONG, SIZE)
        )
        parts += [Spacer(0, 3 * mm), _short_key(entries, width), Spacer(0, 6 * mm)]
        for entry in entries:
            parts += _entry(entry, width)
        return parts

    return _build(paper, story, page=page, kind=say("Key"))


def _size(page: str) -> tuple[float, float]:
    if page not in PAPERS:
        raise ValueError(f'page: "{page}" is not accepted; choose {one_of(PAPERS)}')
    return PAPERS[page]


def _build(paper: QuestionPaper, story: Callable[[], Story], *, page: str, kind: str) -> bytes:
    """Set it twice: once to count the pages, once with "page 3 of 12" on them."""
    for field, words in UNPRINTABLE.items():
        if missing := fonts.missing_glyphs(getattr(paper, field)):
            raise NotDrawable(say(words, missing=missing))
    width, height = _size(page)
    total = 0
    foot = FOOT_HEIGHT + _safety(width - 2 * MARGIN)[1]
    for _ in range(2):
        out = BytesIO()

        def furnish(canvas: Canvas, document: BaseDocTemplate, last: int = total) -> None:
            _furniture(
                canvas,
                paper,
                say("{document}, page {page} of {last}", document=kind, page=document.page, last=last),
                width,
                height,
            )

        document = BaseDocTemplate(
            out,
            pagesize=(width, height),
            title=say(
                "{document} {number}: {learner}",
                document=kind,
                number=paper.number,
                learner=fonts.composed(paper.learner_name),
            ),
            author=fonts.composed(paper.shop_name),
            subject=paper.title,
            creator="Sound Casing",
            lang=language(),
            invariant=1,
        )
        bare = dict.fromkeys(("leftPadding", "rightPadding", "topPadding", "bottomPadding"), 0)
        frame = Frame(MARGIN, foot, width - 2 * MARGIN, height - HEAD_HEIGHT - foot, **bare)
        document.addPageTemplates([PageTemplate(id="page", frames=[frame], onPage=furnish)])
        document.build(story())
        total = document.page
    return out.getvalue()


def _furniture(canvas: Canvas, paper: QuestionPaper, where: str, width: float, height: float) -> None:
    """At the head which paper and which page, at the foot what the paper is not."""
    canvas.saveState()
    canvas.setFillColor(RUBBER)
    base = height - HEAD_HEIGHT + 6 * mm
    which = say("Sound Casing – paper {number}", number=paper.number)
    size = size_to_fit(fonts.HEAD, 12, [which, where], width - 2 * MARGIN - GAP)
    draw_line(canvas, which, fonts.HEAD, size, x=MARGIN, y=base)
    draw_line(canvas, where, fonts.HEAD, size, x=width - MARGIN - fonts.width(where, fonts.HEAD, size), y=base)
    canvas.setStrokeColor(RUBBER)
    canvas.setLineWidth(1.2)
    canvas.line(MARGIN, base - 2 * mm, width - MARGIN, base - 2 * mm)
    canvas.setStrokeColor(HAIRLINE)
    canvas.setLineWidth(0.6)
    safety, further = _safety(width - 2 * MARGIN)
    foot = FOOT_HEIGHT + further
    canvas.line(MARGIN, foot - 3 * mm, width - MARGIN, foot - 3 * mm)
    canvas.setFillColor(WORN)
    for number, line in enumerate(safety):
        draw_line(canvas, line, fonts.TEXT, FOOT_SIZE, x=MARGIN, y=foot - 7 * mm - number * FOOT_LINE)
    form = say("Form {reference}", reference=paper.reference)
    draw_line(canvas, form, fonts.TEXT, FOOT_SIZE, x=MARGIN, y=FOOT_HEIGHT - 11 * mm)
    canvas.restoreState()


def _safety(width: float) -> tuple[list[str], float]:
    """What the paper is not, in lines of a width, and how much higher they make the foot than one line."""
    lines = fonts.lines(str(SAFETY), fonts.TEXT, FOOT_SIZE, width)
    return lines, (len(lines) - 1) * FOOT_LINE


def _opening(paper: QuestionPaper, width: float, kind: str) -> Story:
    facts = [
        (say("For"), paper.learner_name),
        (say("Shop"), paper.shop_name),
        (
            say("Paper"),
            say("{number}, printed for this person on {day}", number=paper.number, day=written_day(paper.drawn_date)),
        ),
        (
            say("Rulebook"),
            say("{edition}, version {version}", edition=paper.edition_title, version=paper.edition_version),
        ),
        (
            say("Asks"),
            say("{count} questions in {minutes} minutes", count=len(paper.questions), minutes=paper.minutes),
        ),
        (say("Pass mark"), paper.pass_mark),
    ]
    rows = [[_quiet(caption, SIZE), paragraph(value, fonts.STRONG, SIZE)] for caption, value in facts]
    captions = widest([caption for caption, _ in facts], fonts.TEXT, SIZE, least=26 * mm, most=width / 3)
    return [
        paragraph(kind, fonts.HEAD, 14, is_quiet=True),
        paragraph(paper.title, fonts.HEAD, 21, leading=1.15),
        Spacer(0, 3 * mm),
        Table(rows, colWidths=[captions, width - captions], style=_tight(), hAlign="LEFT"),
        Spacer(0, 4 * mm),
    ]


def _rules_of(paper: QuestionPaper) -> Sequence[str]:
    return (
        say("Mark your answers on the answer sheet, the last page. Only that sheet counts."),
        say("You have {minutes} minutes. An unanswered question counts as wrong.", minutes=paper.minutes),
        say(
            "Measure nothing off the paper: every measurement you need is in the text or on the "
            "drawing. Drawings are to their own scale; where one has rulers, read those."
        ),
        say(
            "An unsafe release is an answer that puts a tire on the road, or up for repair, that the "
            "rulebook takes out of service. It counts against you by itself."
        ),
    )


def _bullet(text: str, width: float) -> Table:
    row = [paragraph("–", fonts.TEXT, SIZE), paragraph(text, fonts.TEXT, SIZE)]
    return Table([row], colWidths=[5 * mm, width - 5 * mm], style=_tight(), hAlign="LEFT")


def _tight(*more: tuple[Any, ...]) -> TableStyle:
    padding = {"LEFT": 0, "RIGHT": 0, "TOP": 1, "BOTTOM": 1}
    paddings = [(f"{side}PADDING", (0, 0), (-1, -1), points) for side, points in padding.items()]
    return TableStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), *paddings, *more])


def _lettered(choices: Sequence[tuple[str, str]], width: float) -> Table:
    # a letter that stands for a line of the stem is its own words
    told = [(letter, "" if words == letter else words) for letter, words in choices]
    rows = [[paragraph(letter, fonts.STRONG, SIZE), paragraph(words, fonts.TEXT, SIZE)] for letter, words in told]
    return Table(rows, colWidths=[7 * mm, width - 7 * mm], style=_tight(), hAlign="LEFT")


def _beside(question: Question, words: Story, svg: str, width: float) -> Table:
    """A number in the margin, words, and where there is a drawing or one picture that at the right; several follow."""
    head = paragraph(str(question.number), fonts.HEAD, 15, leading=1.1)
    if not question.has_beside:
        told = [*words, *(in_rows(question.pictures, width - NUMBER_WIDTH) if question.pictures else ())]
        return Table([[head, told]], colWidths=[NUMBER_WIDTH, width - NUMBER_WIDTH], style=_tight())
    drawing: Any = beside(question.pictures[0], FIGURE_WIDTH) if question.pictures else None
    drawing = drawing or figure(svg, width=FIGURE_WIDTH, height=FIGURE_HEIGHT)
    widths = [NUMBER_WIDTH, width - NUMBER_WIDTH - FIGURE_WIDTH, FIGURE_WIDTH]
    return Table([[head, words, drawing]], colWidths=widths, style=_tight(("RIGHTPADDING", (1, 0), (1, 0), GAP)))


def _words_width(question: Question, width: float) -> float:
    return float(width - NUMBER_WIDTH - (FIGURE_WIDTH + GAP if question.has_beside else 0))


def _question(question: Question, width: float) -> Table:
    inner = _words_width(question, width)
    words: Story = [paragraph(line, fonts.TEXT, SIZE) for line in question.situation]
    words.append(paragraph(question.ask, fonts.STRONG, SIZE))
    words.append(_quiet(HOW[question.format], 9))
    if question.options:
        words += [Spacer(0, 1.5 * mm), _lettered(question.options, inner)]
    if question.reasons:
        words += [paragraph(say("Reasons:"), fonts.TEXT, SIZE), _lettered(question.reasons, inner)]
    return _beside(question, words, question.figure, width)


def _answer_sheet(paper: QuestionPaper, width: float) -> Story:
    captions = (say("Date"), say("Signature of whoever sat it"), say("Signature of the trainer"))
    lines = Table(
        [[_quiet(caption, 9) for caption in captions]],
        colWidths=[width * 0.2, width * 0.4, width * 0.4],
        style=_tight(("LINEABOVE", (0, 0), (-1, -1), 0.6, RUBBER)),
    )
    return [
        paragraph(say("Answer sheet"), fonts.HEAD, 21, leading=1.15),
        paragraph(
            say(
                "{learner}, {shop} – paper {number}",
                learner=paper.learner_name,
                shop=paper.shop_name,
                number=paper.number,
            ),
            fonts.STRONG,
            SIZE,
        ),
        paragraph(
            say(
                "Put a cross in a box. To change it, fill the box and put a cross in another. For "
                "several right answers put several crosses."
            ),
            fonts.TEXT,
            9.5,
        ),
        Spacer(0, 3 * mm),
        *answer_rows(paper.questions, width),
        Spacer(0, 11 * mm),
        lines,
    ]


def _short_key(entries: Sequence[KeyEntry], width: float) -> Table:
    """All right answers at a glance, down two columns like the answer sheet."""
    half = -(-len(entries) // 2)
    cells = [
        [paragraph(str(entry.question.number), fonts.STRONG, 9.5), paragraph(entry.short, fonts.TEXT, 9.5)]
        for entry in entries
    ]
    cells += [[paragraph("", fonts.TEXT, 9.5)] * 2] * (2 * half - len(cells))
    rows = [[*cells[row], *cells[row + half]] for row in range(half)]
    column = width / 2 - 8 * mm
    style = _tight(("LINEBELOW", (0, 0), (-1, -1), 0.4, HAIRLINE), ("RIGHTPADDING", (1, 0), (1, -1), 6 * mm))
    return Table(rows, colWidths=[8 * mm, column, 8 * mm, column], style=style)


def _entry(entry: KeyEntry, width: float) -> Story:
    """The answer beside its drawing, kept with the first rule; further rules may run on to the next page."""
    told = [_told(one) for one in entry.wrong]
    rows = [(say("Right"), _lines(entry.right, fonts.STRONG))]
    if told:
        rows.append((say("Wrong"), _lines(told, fonts.TEXT)))
    answer: Story = [paragraph(entry.question.ask, fonts.STRONG, SIZE)]
    answer.append(_captioned(rows, _words_width(entry.question, width)))
    parts: Story = [_beside(entry.question, answer, entry.figure, width)]
    after = [(say("Why"), [*_lines(_said(rule), fonts.TEXT), _quiet(rule.source, 8.5)]) for rule in entry.rules]
    if entry.lesson:
        after.append((say("Lesson"), _lines([entry.lesson], fonts.TEXT)))
    for caption, cell in after:
        inner = _captioned([(caption, cell)], width - NUMBER_WIDTH)
        parts.append(Table([["", inner]], colWidths=[NUMBER_WIDTH, width - NUMBER_WIDTH], style=_tight()))
    return [KeepTogether(parts[:2]), *parts[2:], Spacer(0, 5 * mm)]


def _said(rule: Rule) -> Sequence[str]:
    return [rule.because, *rule.found, *([_limit(rule)] if rule.limit else [])]


def _limit(rule: Rule) -> str:
    return say("{rule}: {limit}", rule=rule.title or say("Rulebook"), limit=rule.limit)


def _told(wrong: Wrong) -> str:
    """A wrong answer, what its believer thinks, and whether it is unsafe."""
    answer, beliefs = wrong.words.rstrip("."), "; ".join(wrong.beliefs)
    told = say("{answer}: {beliefs}", answer=answer, beliefs=beliefs) if answer and beliefs else answer or beliefs
    return say("{answer} – unsafe: it releases a rejected tire", answer=told) if wrong.is_unsafe else told


def _quiet(text: str, size: float) -> Any:
    return paragraph(text, fonts.TEXT, size, is_quiet=True)


def _captioned(rows: Sequence[tuple[str, Story]], width: float) -> Table:
    # as wide for one row as for another, so that all stand under one another
    words = (say("Right"), say("Wrong"), say("Why"), say("Lesson"))
    captions = widest(words, fonts.TEXT, 9.5, least=14 * mm, most=width / 3)
    cells = [[_quiet(caption, 9.5), cell] for caption, cell in rows]
    return Table(cells, colWidths=[captions, width - captions], style=_tight(), hAlign="LEFT")


def _lines(lines: Sequence[str], font: str) -> Story:
    return [paragraph(line, font, 9.5) for line in lines]
