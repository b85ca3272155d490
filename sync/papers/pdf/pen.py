"""A pen for one PDF: words in any script, and drawing primitives, in mm from the top left.

Plain text is set letter by letter; text in scripts whose letters join, pile up or run
from right to left goes through the shaping engine. A letter that no font has is named
by its number, so that nothing turns into a silent box.
"""

from __future__ import annotations

import logging
from typing import Any

from models.units.times import utc_moment
from sync.papers.drawing.primitives import Tone
from sync.papers.drawing.tones import PRINT_TONES
from sync.papers.pdf.archive import archive_metadata
from sync.papers.pdf.font_files import font_for, own_fonts
from sync.papers.pdf.recorder import record_item
from sync.papers.wording.safe_text import code_point

PT_MM = 25.4 / 72
CAP_PER_EM = 1456 / 2048
"""Roboto's capital height."""

_PLAIN, _WIDE = "roboto", "dejavu"
ARCHIVE = "PDF/A-1B"
"""The strictest form for keeping, and the one that a checker at hand can prove."""


class PdfPen:
    """Writes into one document; to be used in a ``with``, which lets go of the fonts' files.

    ``width`` and ``height`` are those of the pages, in mm; ``is_archived`` makes a
    document for keeping (PDF/A-1b).
    """

    def __init__(self, width_mm: float, height_mm: float, *, is_archived: bool = False) -> None:
        from fpdf import FPDF  # heavy: only when something is printed

        logging.getLogger("fontTools").setLevel(logging.ERROR)  # its notes are for font makers
        self.width, self.height = width_mm, height_mm
        kept = ARCHIVE if is_archived else None
        self.pdf: Any = FPDF("portrait", "mm", (width_mm, height_mm), enforce_compliance=kept)
        self._is_archived = is_archived
        self.pdf.set_auto_page_break(False)
        self.pdf.set_margin(0)
        self.pdf.c_margin = 0
        regular, bold, wide = own_fonts()
        self.pdf.add_font(_PLAIN, "", regular)
        self.pdf.add_font(_PLAIN, "B", bold)
        self._wide = wide
        self._fallbacks: list[str] = []
        self._has: dict[str, bool] = {}
        self._widths: dict[tuple[str, float, bool], float] = {}

    def describe(self, title: str, subject: str, made_ms: int) -> None:
        """Set what the document says about itself; the time is the day's own."""
        self.pdf.set_title(title)
        self.pdf.set_subject(subject)
        self.pdf.set_author("crewapp")
        self.pdf.set_creator("crewapp")
        self.pdf.set_lang("en")
        made = utc_moment(made_ms // 1000 * 1000)
        self.pdf.set_creation_date(made)
        if self._is_archived:
            self.pdf.set_producer("fpdf2")
            self.pdf.set_xmp_metadata(archive_metadata(title, subject, made))

    def __enter__(self) -> PdfPen:
        return self

    def __exit__(self, *_: object) -> None:
        """Close the font files, which the library reads from until the end."""
        for font in self.pdf.fonts.values():
            font.ttfont.close()

    def add_page(self) -> None:
        """Begin a page of the document."""
        self.pdf.add_page()

    def bytes(self) -> bytes:
        """Return the whole document as bytes."""
        return bytes(self.pdf.output())

    def printable_text(self, text: str) -> str:
        """Text with every letter that no font has named by its number."""
        if text.isascii():
            return text
        return "".join(letter if self._can_show(letter) else code_point(letter) for letter in text)

    def _can_show(self, letter: str) -> bool:
        if letter.isascii() or letter in "\u200c\u200d":
            return True
        if letter not in self._has:
            self._has[letter] = self._is_plain(letter) or self._find_fallback(letter)
        return self._has[letter]

    def _is_plain(self, letter: str) -> bool:
        return ord(letter) in self.pdf.fonts[_PLAIN].cmap

    def _find_fallback(self, letter: str) -> bool:
        """Look a letter up in the fonts loaded, then in Kivy's wide one, then in the system's."""
        if any(ord(letter) in self.pdf.fonts[name].cmap for name in self._fallbacks):
            return True
        if _WIDE not in self._fallbacks:
            self._load(_WIDE, self._wide, 0)
            return self._find_fallback(letter)
        found = font_for(letter)
        if found is None:
            return False
        self._load(f"other{len(self._fallbacks)}", *found)
        return True

    def _load(self, name: str, path: object, face: int) -> None:
        self.pdf.add_font(name, "", path, collection_font_number=face)
        self._fallbacks.append(name)
        self.pdf.set_fallback_fonts(self._fallbacks, exact_match=False)

    def measure(self, text: str, size_pt: float, bold: bool = False) -> float:
        """Width of a text in mm as it will be printed."""
        key = (text, size_pt, bold)
        if key not in self._widths:
            shown = self.printable_text(text)
            self._set(size_pt, bold, shown)
            self._widths[key] = self.pdf.get_string_width(shown, normalized=True)
        return self._widths[key]

    def _set(self, size_pt: float, bold: bool, shown: str) -> bool:
        """Choose font and way of setting; return whether the text needs shaping."""
        self.pdf.set_font(_PLAIN, "B" if bold else "", size_pt)
        complex_ = not shown.isascii() and not all(map(self._is_simple, shown))
        self.pdf.set_text_shaping(complex_)
        return complex_

    def _is_simple(self, letter: str) -> bool:
        """Whether a letter stands by itself in the plain font: Latin, Greek, Cyrillic."""
        return (letter.isascii() or ord(letter) < 0x530) and self._is_plain_or_ascii(letter)

    def _is_plain_or_ascii(self, letter: str) -> bool:
        return letter.isascii() or self._is_plain(letter)

    def write(
        self,
        x: float,
        base: float,
        text: str,
        size_pt: float,
        *,
        bold: bool = False,
        align: float = 0.0,
        tone: Tone = Tone.INK,
    ) -> float:
        """Write one line with its baseline at ``base``; return its width.

        ``align`` is the share of the width that lies left of ``x``: 0, 0.5 or 1.
        """
        width = self.measure(text, size_pt, bold)
        if not text:
            return 0.0
        shown = self.printable_text(text)
        needs_shaping = self._set(size_pt, bold, shown)
        self.pdf.set_text_color(*PRINT_TONES[tone])
        left = x - align * width
        cap = size_pt * PT_MM * CAP_PER_EM
        record_item(self.pdf.page, "text", shown, (left, base - cap, left + width, base))
        if needs_shaping:
            height = size_pt * PT_MM
            self.pdf.set_xy(left, base - 0.5 * height - 0.3 * height)
            self.pdf.cell(width + 0.01, height, shown)
        else:
            self.pdf.text(left, base, shown)
        return width

    def rule(self, x1: float, y1: float, x2: float, y2: float, weight_mm: float = 0.25) -> None:
        """Draw a straight line in ink, whole whatever was drawn before it."""
        record_item(self.pdf.page, "rule", "", (x1, y1, x2, y2))
        self.pdf.set_dash_pattern()
        self.pdf.set_draw_color(0)
        self.pdf.set_line_width(weight_mm)
        self.pdf.line(x1, y1, x2, y2)

    def box(self, x: float, y: float, width: float, height: float, tone: Tone) -> None:
        """Fill a box with a tone."""
        record_item(self.pdf.page, f"box of {tone}", "", (x, y, x + width, y + height))
        self.pdf.set_fill_color(*PRINT_TONES[tone])
        self.pdf.rect(x, y, width, height, style="F")

    def frame(self, x: float, y: float, width: float, height: float, weight_mm: float) -> None:
        """Draw the edge of a box in ink, with the pattern of dashes that was drawn last."""
        record_item(self.pdf.page, "frame", "", (x, y, x + width, y + height))
        self.pdf.set_draw_color(0)
        self.pdf.set_line_width(weight_mm)
        self.pdf.rect(x, y, width, height)
