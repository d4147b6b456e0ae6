"""The printed certificate: the same facts give the same bytes, everything is on it, and its code can be read."""

import shutil
import subprocess
import sys
import unicodedata
from io import BytesIO
from pathlib import Path
from typing import cast

import pytest
from PIL import Image, ImageDraw
from pypdf import PdfReader
from pypdf.generic import DictionaryObject

from certificates.documents.certificate import certificate_pdf
from certificates.documents.qr import Code, address_to_scan
from tests.documents.records import FACTS, a_record
from tests.present import present

MM = 72 / 25.4  # points in a millimeter: 72 points are an inch, an inch is 25.4 mm


def resources_of(pdf: bytes) -> DictionaryObject:
    """Fonts and pictures of the first page."""
    return cast("DictionaryObject", PdfReader(BytesIO(pdf)).pages[0]["/Resources"])


def text_of(pdf: bytes) -> str:
    reader = PdfReader(BytesIO(pdf))
    assert len(reader.pages) == 1
    return " ".join(reader.pages[0].extract_text().split())


def decoded(picture: Image.Image) -> list[tuple[str, str]]:
    """Text and error level of each code that an independent reader finds."""
    zxingcpp = pytest.importorskip("zxingcpp", reason="reading the code needs zxing-cpp, of the dev extra")
    return [(found.text, found.ec_level) for found in zxingcpp.read_barcodes(picture)]


def test_the_same_record_gives_the_same_bytes() -> None:
    assert certificate_pdf(a_record()) == certificate_pdf(a_record())


def test_another_process_gives_the_same_bytes_too(tmp_path: Path) -> None:
    script = (
        "import sys; from certificates.documents.certificate import certificate_pdf; "
        "from tests.documents.records import a_record; "
        "certificate_pdf(a_record(holder_name='Someone Else')); sys.stdout.buffer.write(certificate_pdf(a_record()))"
    )
    root = Path(__file__).parents[2]

    made = subprocess.run([sys.executable, "-c", script], cwd=root, capture_output=True, check=True).stdout

    assert made == certificate_pdf(a_record())


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_page_says_who_what_where_when_and_on_what_it_rests(paper: str) -> None:
    text = text_of(certificate_pdf(a_record(), paper=paper))

    for fact in (
        "No. K7QD-2M9X-4T",
        "Dana Okafor",
        "Puncture repair, passenger and light truck",
        "For passenger tires and light truck tires with a fabric body.",
        "Quarry Road Tire",
        "Nov 25, 2026",
        "Nov 25, 2028",
        "North America, version 2026.1",
        "Nov 20, 2026: 36 of 40 right, 1 unsafe release.",
        "80 % right and at most 1 unsafe release. Provisional until measured.",
        "Nov 22, 2026: Lena Marsh saw every critical step done correctly.",
        "For the shop: Max Lind",
        "https://training.example.org/c/K7QD-2M9X-4T/",
        "no license and no accreditation",
        "Local codes",
        "tire maker",
    ):
        assert fact in text


def test_the_file_names_its_title_author_and_language() -> None:
    reader = PdfReader(BytesIO(certificate_pdf(a_record())))

    about, root = present(reader.metadata), cast("DictionaryObject", reader.trailer["/Root"])
    assert about.title == "Certificate K7QD-2M9X-4T: Dana Okafor"
    assert about.author == "Quarry Road Tire"
    assert str(root["/Lang"]) == "en-US"


@pytest.mark.parametrize(
    ("paper", "width_mm", "height_mm"),
    [("a4", 210, 297), ("letter", 8.5 * 25.4, 11 * 25.4)],  # ISO 216; ANSI/ASME Y14.1 size A
)
def test_papers_have_their_standard_sizes(paper: str, width_mm: float, height_mm: float) -> None:
    box = PdfReader(BytesIO(certificate_pdf(a_record(), paper=paper))).pages[0].mediabox

    assert float(box.width) / MM == pytest.approx(width_mm, abs=0.1)
    assert float(box.height) / MM == pytest.approx(height_mm, abs=0.1)


def test_another_paper_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match='paper: "a3" is not accepted; choose a4 or letter'):
        certificate_pdf(a_record(), paper="a3")


def test_every_font_is_embedded() -> None:
    fonts = resources_of(certificate_pdf(a_record(holder_name="Дана Okafor")))["/Font"].get_object()

    assert isinstance(fonts, DictionaryObject)
    assert len(fonts) >= 3
    for font in fonts.values():
        assert "/FontFile2" in font.get_object()["/FontDescriptor"]


@pytest.mark.parametrize(
    "name",
    [
        "<b>Bold</b> & <i>Co</i>",
        '<img src="file:///etc/passwd"/>',
        "<para alignment='center'>A</para>",
        "&lt;b&gt;",
        "A <font size=90>B",
        "R&D; Tire]]>",
    ],
)
def test_markup_in_a_name_is_printed_not_obeyed(name: str) -> None:
    pdf = certificate_pdf(a_record(holder_name=name, shop_name=name, trainer_name=name))

    assert text_of(pdf).count(name) >= 3
    assert "/XObject" not in resources_of(pdf)


@pytest.mark.parametrize(
    "name",
    # the last in letters with separate marks, as some phones send them
    [
        "Zażółć Gęślą-Jaźń",
        "Nguyễn Thị Hương",
        "Σοφία Παπαδοπούλου",
        "Александра Щукина",
        "Åsa O'Brien",
        "Þóra Ðuro",
        "Jose\u0301 Nun\u0303ez",
    ],
)
def test_names_beyond_english_are_drawn_whole(name: str) -> None:
    assert unicodedata.normalize("NFC", name) in text_of(certificate_pdf(a_record(holder_name=name)))


@pytest.mark.parametrize(
    "name",
    ["王小明", "محمد علي", "דנה לוי", "Dana \N{GRINNING FACE}", "हरि", "Te\u0301\u0302st"],
)
def test_a_name_the_fonts_cannot_draw_is_refused_in_words(name: str) -> None:
    with pytest.raises(ValueError, match=r"holder_name: .* cannot be drawn"):
        certificate_pdf(a_record(holder_name=name))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_longest_facts_stay_on_one_page_and_clear_of_the_code(paper: str) -> None:
    long = a_record(
        holder_name=("Wolfeschlegelsteinhausenbergerdorff Александра " * 3)[:120],
        shop_name="W" * 120,
        scope_title=("Puncture repair of passenger tires " * 6)[:160],
        pass_mark=("right and no unsafe release " * 20)[:400],
        trainer_name="Maximiliane " * 10,
        issuer_name="Maximiliane " * 10,
    )

    page = PdfReader(BytesIO(certificate_pdf(long, paper=paper))).pages[0]

    heights: dict[str, list[float]] = {"above": [], "below": []}

    def note(text: str, cm: list[float], tm: list[float], *_: object) -> None:
        if text.strip():
            y = tm[5] * cm[3] + cm[5]
            heights["below" if "Check it" in text or heights["below"] else "above"].append(y)

    page.extract_text(visitor_text=note)
    line_over_the_code = (30 + 30) * MM
    assert heights["above"]
    # the foot is drawn first, so what comes after its last line is the body
    body = heights["below"][8:] if len(heights["below"]) > 8 else heights["above"]
    assert min(body) > line_over_the_code


def test_a_reader_finds_the_address_in_the_code() -> None:
    code = Code.of(address_to_scan(FACTS["site"], FACTS["path"]))
    size, quiet, pixels = len(code.rows), 4, 8
    picture = Image.new("L", ((size + 2 * quiet) * pixels,) * 2, 255)
    draw = ImageDraw.Draw(picture)
    for y, row in enumerate(code.rows):
        for x, is_black in enumerate(row):
            if is_black:
                left, top = (x + quiet) * pixels, (y + quiet) * pixels
                draw.rectangle((left, top, left + pixels - 1, top + pixels - 1), fill=0)

    assert decoded(picture) == [("HTTPS://TRAINING.EXAMPLE.ORG/C/K7QD-2M9X-4T/", "Q")]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_reader_finds_the_address_on_the_printed_page_and_the_code_is_large_enough(
    paper: str, tmp_path: Path
) -> None:
    zxingcpp = pytest.importorskip("zxingcpp", reason="reading the code needs zxing-cpp, of the dev extra")
    if shutil.which("pdftoppm") is None:
        pytest.skip("turning the page into a picture needs pdftoppm of poppler-utils")
    (tmp_path / "page.pdf").write_bytes(certificate_pdf(a_record(), paper=paper))
    subprocess.run(["pdftoppm", "-r", "254", "-gray", "-png", "page.pdf", "page"], cwd=tmp_path, check=True)
    picture = Image.open(next(tmp_path.glob("page*.png")))

    # only this kind: a line of small text can pass for a bar code
    (found,) = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)

    assert found.text == "HTTPS://TRAINING.EXAMPLE.ORG/C/K7QD-2M9X-4T/"
    corners = [getattr(found.position, name) for name in ("top_left", "top_right", "bottom_left", "bottom_right")]
    left, right = min(corner.x for corner in corners), max(corner.x for corner in corners)
    upper, lower = min(corner.y for corner in corners), max(corner.y for corner in corners)
    assert (right - left) / 10 >= 25  # 254 dots an inch are 10 a millimeter
    # ISO/IEC 18004: 4 modules of white all around; this text makes version 3 (29 modules) or a finer one
    quiet, inked = 4 * (right - left) // 37, 4
    page = picture.convert("L")
    for strip in (
        (left - quiet, upper, left - inked, lower),
        (right + inked, upper, right + quiet, lower),
        (left, upper - quiet, right, upper - inked),
        (left, lower + inked, right, lower + quiet),
    ):
        assert page.crop(strip).getextrema() == (255, 255)


@pytest.mark.parametrize(
    ("site", "path", "address"),
    [
        ("https://training.example.org", "/c/K7QD-2M9X-4T/", "HTTPS://TRAINING.EXAMPLE.ORG/C/K7QD-2M9X-4T/"),
        ("http://127.0.0.1:8000", "/c/K7QD-2M9X-4T/", "HTTP://127.0.0.1:8000/C/K7QD-2M9X-4T/"),
        # RFC 3986, 6.2.2.1: scheme and host ignore case, a path does not; only our own path answers to both
        ("https://example.org/tires", "/c/K7QD-2M9X-4T/", "https://example.org/tires/c/K7QD-2M9X-4T/"),
        ("https://my_shop.example", "/c/K7QD-2M9X-4T/", "https://my_shop.example/c/K7QD-2M9X-4T/"),
    ],
)
def test_the_address_is_in_capitals_only_where_that_is_the_same_place(site: str, path: str, address: str) -> None:
    assert address_to_scan(site, path) == address
