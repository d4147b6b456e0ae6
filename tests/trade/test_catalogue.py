"""The catalogues hold what the program says, and British texts no American word."""

import ast
import re
import string
import subprocess
import sys
import tomllib
from datetime import date, datetime
from io import BytesIO

import pytest
from babel.messages.pofile import read_po

from training.management.catalogue import APPS, HOME, KEYWORDS, files_of, languages
from training.rulebook import parse_quantity, show, units_offered
from training.trade.days import long_day, written_day, written_instant
from training.trade.measures import as_read
from training.trade.speech import FOLDER, in_language, say, saying

# Unicode CLDR 48, charts of en and en_GB: medium date, short time
WRITTEN = {"en-US": ("Nov 5, 2026", "November 5, 2026", "Nov 5, 2026, 2:07 PM"),
           "en-GB": ("5 Nov 2026", "5 November 2026", "5 Nov 2026, 14:07")}  # fmt: skip


@pytest.mark.parametrize("tag", WRITTEN)
def test_days_and_times_are_written_as_the_place_writes_them(tag: str) -> None:
    with in_language(tag):
        told = (
            written_day(date(2026, 11, 5)),
            long_day(date(2026, 11, 5)),
            written_instant(datetime(2026, 11, 5, 14, 7)),
        )

    assert tuple(one.replace("\N{NO-BREAK SPACE}", " ") for one in told) == WRITTEN[tag]


def test_a_catalogue_is_what_the_program_says_today() -> None:
    answer = subprocess.run([sys.executable, "manage.py", "catalogue", "--check"], capture_output=True, text=True)

    assert answer.returncode == 0, answer.stderr
    assert "; 0 wait" in answer.stdout, answer.stdout


@pytest.mark.parametrize("tag", languages())
def test_a_translation_fills_the_same_places(tag: str) -> None:
    for message in read_po(BytesIO(files_of(tag)[0].read_bytes())):
        if message.id and isinstance(message.id, str):
            assert _places(message.id) == _places(str(message.string)), message.id


@pytest.mark.parametrize("app", APPS)
def test_no_text_is_said_where_no_catalogue_finds_it(app: str) -> None:
    for path in sorted((HOME / app).rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.JoinedStr):
                for one in ast.walk(node):
                    if isinstance(one, ast.Call) and isinstance(one.func, ast.Name) and one.func.id in KEYWORDS:
                        assert not isinstance(one.args[0], ast.Constant), f"{path}:{node.lineno}"


def test_british_texts_hold_no_american_word() -> None:
    words = tomllib.loads((FOLDER / "en_GB" / "spelling.toml").read_text())["words"]
    american = re.compile(rf"(?<![\w/])(?:{'|'.join(words)})(?![\w/])", re.IGNORECASE)

    for message in read_po(BytesIO(files_of("en-GB")[0].read_bytes())):
        text = message.string if isinstance(message.string, str) else " ".join(message.string or ())
        assert not american.search(re.sub(r"\{[^}]*\}|%\([^)]*\)s|<[^>]*>", "", text)), text


def test_what_is_marked_early_is_read_in_the_language_spoken_later() -> None:
    marked = saying("Tires off the wheel")
    with in_language("en-GB"):
        assert marked == "Tires off the wheel"
        assert hash(marked) == hash("Tires off the wheel")
        assert say("{what}", what=marked) == str(marked) == f"{marked}"


def test_a_language_without_a_catalogue_is_refused() -> None:
    with pytest.raises(ValueError, match="language: 'xx-YY' is not known; choose en-US or en-GB"), in_language("xx-YY"):
        pass


def _places(text: str) -> list[str]:
    named = re.findall(r"%\((.*?)\)s", text)
    try:
        return sorted(named + [name for _, name, _, _ in string.Formatter().parse(text) if name])
    except ValueError:
        return sorted(named)


def test_pressures_read_in_the_unit_of_the_place() -> None:
    # Bureau International des Poids et Mesures, The International System of Units, 9th ed., 4.1: 1 bar = 100 kPa
    stated = parse_quantity("275 kPa", "pressure")
    with in_language("en-GB"):
        assert as_read("seat the beads at 275 kPa (40 psi) at most") == "seat the beads at 2.75 bar (40 psi) at most"
        assert show(stated, prefer="mm") == "2.75 bar (40 psi)"
        assert units_offered("pressure", "mm")[0] == "bar"
    assert show(stated, prefer="mm") == "275 kPa (40 psi)"


def test_an_identification_number_is_no_temperature() -> None:
    # a plant code of 49 CFR 574.5 is three symbols, numerals among them
    assert as_read("DOT 89C JLXRRL 1121, at 15 C") == "DOT 89C JLXRRL 1121, at 15 °C"
