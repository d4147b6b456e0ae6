"""The certificate: one page, and behind it a note on its pass mark. Lengths in points; plain values, never a model."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from io import BytesIO

from reportlab.lib.colors import white
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from certificates.documents import fonts
from certificates.documents.blocks import CRAYON, HAIRLINE, RUBBER, Column, draw_line
from certificates.documents.note import Simulated, draw_note
from certificates.documents.qr import Code, address_to_scan
from training.trade.days import written_day
from training.trade.lists import all_of, one_of
from training.trade.speech import language, say, say_many

PAPERS: dict[str, tuple[float, float]] = {"a4": A4, "letter": letter}
MARGIN, BAND, CODE_SIDE, NAME_SIZE = 20 * mm, 17 * mm, 30 * mm, 40.0
RULES_PRINTED = 6
SCALES = (1.0, 0.92, 0.84, 0.76, 0.68, 0.6)  # a page with unusually long names is set smaller, never cut


class NotDrawable(ValueError):
    """A name holds characters that our fonts cannot draw; the message names the field and the characters."""


@dataclass(frozen=True)
class CertificateRecord:
    """What a certificate says; `number` as shown to people, `site` scheme and host, `path` that of the check page."""

    number: str
    holder_name: str
    scope_title: str
    casings: Sequence[str]  # in words
    shop_name: str
    issued_date: date
    expires_date: date
    edition_title: str
    edition_version: str
    assessed_date: date
    right_count: int
    asked_count: int
    unsafe_count: int
    pass_mark: str
    hands_on_date: date
    trainer_name: str
    issuer_name: str
    site: str
    path: str
    curve: Simulated | None = None  # who passes that mark
    house_rules: Sequence[str] = ()  # in words, each with the rulebook's own limit

    @property
    def address(self) -> str:
        """The check page's address, written out."""
        return self.site.rstrip("/") + self.path


def certificate_pdf(record: CertificateRecord, *, paper: str = "a4") -> bytes:
    """The certificate as a PDF file, with a second page on its pass mark where there is a curve to print; the same
    record gives the same bytes.

    `paper` is "a4" or "letter". Raises ValueError for another paper, NotDrawable for a name that our fonts cannot draw.
    """
    if paper not in PAPERS:
        raise ValueError(f'paper: "{paper}" is not accepted; choose {one_of(PAPERS)}')
    for field in ("holder_name", "shop_name", "trainer_name", "issuer_name", "scope_title"):
        if missing := fonts.missing_glyphs(getattr(record, field)):
            raise NotDrawable(f'{field}: "{missing}" cannot be drawn by the certificate\'s fonts')
    out = BytesIO()
    page_width, page_height = PAPERS[paper]
    canvas = Canvas(out, pagesize=PAPERS[paper], invariant=1, lang=language(), initialFontName=fonts.TEXT)
    canvas.setTitle(
        say("Certificate {number}: {holder}", number=record.number, holder=fonts.composed(record.holder_name))
    )
    canvas.setAuthor(fonts.composed(record.shop_name))
    canvas.setSubject(
        say(
            "{scope}, valid through {day}",
            scope=record.scope_title,
            day=written_day(record.expires_date),
        )
    )
    canvas.setCreator("Sound Casing")
    _band(canvas, record, page_width, page_height)
    foot = _check(canvas, record, page_width - 2 * MARGIN)
    top = page_height - BAND - 14 * mm
    for scale in SCALES:
        width = (page_width - 2 * MARGIN) / scale
        if _body(Column(None, width), record).y * scale + top > foot:
            break
    canvas.translate(MARGIN, top)
    canvas.scale(scale, scale)
    _body(Column(canvas, width), record)
    canvas.showPage()
    if record.curve is not None:
        _band(canvas, record, page_width, page_height)
        canvas.translate(MARGIN, page_height - BAND - 14 * mm)
        draw_note(Column(canvas, page_width - 2 * MARGIN), record.curve, pass_mark=record.pass_mark)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _band(canvas: Canvas, record: CertificateRecord, page_width: float, page_height: float) -> None:
    """The dark of rubber across the top, ending in a row of tread blocks."""
    canvas.setFillColor(RUBBER)
    canvas.rect(0, page_height - BAND, page_width, BAND, stroke=0, fill=1)
    blocks, gap, height = 34, 1.1 * mm, 3.2 * mm
    step = page_width / blocks
    for index in range(blocks):
        canvas.rect(index * step + gap / 2, page_height - BAND - gap - height, step - gap, height, stroke=0, fill=1)
    canvas.setFillColor(white)
    base, number = page_height - BAND / 2 - 5.5, say("No. {number}", number=record.number)
    draw_line(canvas, "Sound Casing", fonts.HEAD, 17, x=MARGIN, y=base)
    draw_line(canvas, number, fonts.HEAD, 15, x=page_width - MARGIN - fonts.width(number, fonts.HEAD, 15), y=base)


def _body(column: Column, record: CertificateRecord) -> Column:
    """Who may do what, until when, and on the strength of what."""
    column.text(say("Certificate of training and evaluation"), fonts.HEAD, 15, is_quiet=True)
    _name(column, record.holder_name)
    column.text(say("passed the theory assessment and the hands-on evaluation for"), size=12, before=12)
    column.text(record.scope_title, fonts.HEAD, 21, before=3)
    column.text(say("For {tires}.", tires=all_of(record.casings)), size=12, before=3)
    column.facts(
        [
            (say("Issued"), written_day(record.issued_date)),
            (say("Valid through"), written_day(record.expires_date)),
            (say("Shop"), record.shop_name),
            (
                say("Rulebook"),
                say("{edition}, version {version}", edition=record.edition_title, version=record.edition_version),
            ),
        ],
        before=16,
    )
    column.text(say("Based on"), fonts.HEAD, 14, before=16)
    seen = say(
        "{day}: {trainer} saw every critical step done correctly.",
        day=written_day(record.hands_on_date),
        trainer=record.trainer_name,
    )
    column.rows(
        [
            (say("Theory"), _score(record)),
            (say("Pass mark"), record.pass_mark),
            (say("Hands-on"), seen),
            *_house_rules(record),
        ],
        least=26 * mm,
        before=3,
    )
    column.signatures(
        [
            say("For the shop: {issuer}", issuer=record.issuer_name),
            say("Holder: {holder}", holder=record.holder_name),
        ],
        before=19 * mm,
    )
    return column


def _score(record: CertificateRecord) -> str:
    facts = {"day": written_day(record.assessed_date), "right": record.right_count, "asked": record.asked_count}
    if not record.unsafe_count:
        return say("{day}: {right} of {asked} right, no unsafe release.", **facts)
    return say_many(
        "{day}: {right} of {asked} right, {count} unsafe release.",
        "{day}: {right} of {asked} right, {count} unsafe releases.",
        record.unsafe_count,
        **facts,
    )


def _house_rules(record: CertificateRecord) -> list[tuple[str, str]]:
    """The shop's stricter limits; what does not fit the page stands on the page that the code opens."""
    if not record.house_rules:
        return []
    rules, left = "; ".join(record.house_rules[:RULES_PRINTED]), len(record.house_rules) - RULES_PRINTED
    if left <= 0:
        return [(say("House rules"), say("Stricter in this shop. {rules}.", rules=rules))]
    told = say_many(
        "Stricter in this shop. {rules}; and {count} more, on the page below.",
        "Stricter in this shop. {rules}; and {count} more, on the page below.",
        left,
        rules=rules,
    )
    return [(say("House rules"), told)]


def _name(column: Column, name: str) -> None:
    """The holder's name as large as fits, marked once in crayon."""
    size = NAME_SIZE
    while size > 24 and fonts.width(name, fonts.HEAD, size) > column.width:
        size -= 1
    column.text(name, fonts.HEAD, size, before=4, leading=1.12)
    length = min(column.width, max(30 * mm, fonts.width(name, fonts.HEAD, size)))
    y = column.skip(7)
    if column.canvas:
        column.canvas.saveState()
        column.canvas.setStrokeColor(CRAYON)
        column.canvas.setLineWidth(4.2)
        column.canvas.setLineCap(1)
        column.canvas.bezier(2, y - 1.5, length * 0.3, y + 1.6, length * 0.6, y - 2.4, length, y + 1.2)
        column.canvas.restoreState()


def _check(canvas: Canvas, record: CertificateRecord, width: float) -> float:
    """At the foot: the code to scan, the address to type, and what the paper is not. Returns the upper edge."""
    canvas.saveState()
    scanned = address_to_scan(record.site, record.path)
    code = Code.of(scanned)
    quiet = code.quiet(CODE_SIDE)
    base = _note(None, width) + quiet + 13 * mm
    canvas.translate(MARGIN, base)
    canvas.setFillColor(RUBBER)
    code.draw(canvas, x=0, y=0, side=CODE_SIDE)
    canvas.setStrokeColor(HAIRLINE)
    canvas.setLineWidth(0.6)
    canvas.line(0, CODE_SIDE + quiet, width, CODE_SIDE + quiet)
    canvas.saveState()
    canvas.translate(CODE_SIDE + quiet + 2 * mm, CODE_SIDE)
    room = width - CODE_SIDE - quiet - 2 * mm
    scale = next((one for one in SCALES if -_beside(None, room / one, record) * one <= CODE_SIDE), SCALES[-1])
    canvas.scale(scale, scale)
    _beside(canvas, room / scale, record)
    canvas.restoreState()
    canvas.translate(0, -quiet - 1 * mm)
    _note(canvas, width)
    canvas.restoreState()
    return float(base + CODE_SIDE + quiet)


def _beside(canvas: Canvas | None, width: float, record: CertificateRecord) -> float:
    """Beside the code, how to check the paper. Returns how far down it reaches, as a negative length."""
    column = Column(canvas, width)
    column.text(say("Check it before you rely on it"), fonts.HEAD, 14)
    column.text(
        say(
            "This paper was true on the day of issue. The page below says what is true now: valid, "
            "expired, suspended or revoked."
        )
    )
    column.text(record.address, fonts.STRONG, 10.5, before=4)
    return column.y


def _note(canvas: Canvas | None, width: float) -> float:
    """Under the code, what the paper is not. Returns its height."""
    column = Column(canvas, width)
    column.text(
        say(
            "This is the shop's own record of training. It is no license and no accreditation. Local "
            "codes and the instructions of the tire maker and the material maker come first; repair "
            "only what you are trained and allowed to repair."
        ),
        size=9,
        is_quiet=True,
    )
    return -column.y
