"""Printed pages, read by another program than the one that printed them (pypdfium2)."""

from dataclasses import dataclass, field
from math import hypot
from pathlib import Path

import pypdfium2
from pypdfium2 import raw
from tests.browser.phone import Phone
from tests.browser.shots import SHOTS

POINTS_PER_MM = 72 / 25.4
SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""ISO 216 and ANSI/ASME Y14.1, mm."""
ROUNDED = 0.5
"""mm: browsers round a page to whole pixels."""


def squeezed(text: str) -> str:
    """Without the spaces and line ends that setting text adds or takes away."""
    return "".join(text.split()).replace("\u00ad", "").replace("\ufffe", "").replace("\u2011", "-")


@dataclass
class Page:
    """One page: its size, its words, and the box that holds all of its words; mm from the left and from below."""

    size: tuple[float, float]
    text: str
    box: tuple[float, float, float, float]
    largest: float
    """The largest size of letters on it, points."""


@dataclass
class Printed:
    """A whole print."""

    pages: list[Page] = field(default_factory=list)

    def holds(self, text: str) -> bool:
        """Whether one page, whole, holds the text."""
        return any(squeezed(text) in page.text for page in self.pages)


def printed(phone: Phone, name: str) -> Printed:
    """What the phone's screen prints, also kept as pictures for a person to look at."""
    SHOTS.mkdir(parents=True, exist_ok=True)
    path = SHOTS / f"{name}.pdf"
    phone.page.pdf(path=path, prefer_css_page_size=True)
    return read(path)


def read(path: Path) -> Printed:
    """Its pages."""
    document = pypdfium2.PdfDocument(path)
    found = Printed([_page(page) for page in document])
    for number, page in enumerate(document, 1):
        page.render(scale=1.5).to_pil().save(path.with_name(f"{path.stem}-{number}.png"))
    document.close()
    return found


def _page(page: pypdfium2.PdfPage) -> Page:
    words = page.get_textpage()
    letters = [n for n in range(words.count_chars()) if words.get_text_range(n, 1).strip()]
    lefts, lows, rights, highs = zip(*(words.get_charbox(n) for n in letters), strict=True)
    width, height = page.get_size()
    box = (_mm(min(lefts)), _mm(min(lows)), _mm(max(rights)), _mm(max(highs)))
    largest = max(_size(words, n) for n in letters)
    return Page((_mm(width), _mm(height)), squeezed(words.get_text_range()), box, largest)


def _size(words: pypdfium2.PdfTextPage, letter: int) -> float:
    """Of a letter as it stands on the page, however the page was scaled to fit; points."""
    matrix = raw.FS_MATRIX()
    if not raw.FPDFText_GetMatrix(words, letter, matrix):
        raise ValueError(letter)
    return float(raw.FPDFText_GetFontSize(words, letter)) * hypot(matrix.b, matrix.d)


def _mm(points: float) -> float:
    return points / POINTS_PER_MM
