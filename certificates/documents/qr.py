"""A QR code drawn as black squares, and the form of an address that makes the smallest code."""

from dataclasses import dataclass
from itertools import groupby
from urllib.parse import urlsplit

import segno
from reportlab.pdfgen.canvas import Canvas

QUIET_MODULES = 4  # ISO/IEC 18004: the empty border a reader needs
# ISO/IEC 18004, alphanumeric mode: 5.5 bits a character instead of 8
ALPHANUMERIC = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")


def address_to_scan(site: str, path: str) -> str:
    """The address in capitals where that is the same place: scheme and host always, and our own path answers both.

    `site` is scheme and host, `path` begins with "/". A site that lives below a path of its own keeps its letters.
    Example: ("https://training.example.org", "/c/K7QD-2M9X-4T/") gives "HTTPS://TRAINING.EXAMPLE.ORG/C/K7QD-2M9X-4T/".
    """
    parts = urlsplit(site)
    address = site.rstrip("/") + path
    if parts.path.strip("/") or not set(address.upper()) <= ALPHANUMERIC:
        return address
    return address.upper()


@dataclass(frozen=True)
class Code:
    """A QR code of error level Q: rows of modules, each black (1) or white (0)."""

    rows: tuple[bytearray, ...]

    @classmethod
    def of(cls, text: str) -> "Code":
        """The code of a text, never of a smaller symbol kind that phone readers do not know."""
        return cls(rows=segno.make(text, error="q", boost_error=False, micro=False).matrix)

    def quiet(self, side: float) -> float:
        """The empty border to keep around the code when its black part is `side` points wide, in points."""
        return QUIET_MODULES * side / len(self.rows)

    def draw(self, canvas: Canvas, *, x: float, y: float, side: float) -> None:
        """Draw it with its black part `side` points wide, lower left corner at (x, y)."""
        module = side / len(self.rows)
        path = canvas.beginPath()
        for number, row in enumerate(self.rows):
            bottom, column = y + side - (number + 1) * module, 0
            # one rectangle a run of black, so that no hairline of white shows between modules
            for is_black, run in groupby(row):
                length = len(list(run))
                if is_black:
                    path.rect(x + column * module, bottom, length * module, module)
                column += length
        canvas.drawPath(path, stroke=0, fill=1)
