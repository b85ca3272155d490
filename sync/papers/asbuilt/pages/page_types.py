"""Pages of the record as they are laid out before any is printed: each knows its own painting."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sync.papers.asbuilt.plans.paper_sizes import FOOT_MM, MARGIN_MM, PaperSheet
from sync.papers.asbuilt.records.heading import HOW_TO_PROVE, UNSOUND, Heading
from sync.papers.drawing.primitives import Tone
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, fit_text
from sync.papers.wording.safe_text import single_line

Paint = Callable[[PdfPen], None]


@dataclass(frozen=True, slots=True)
class Page:
    """A page: its name in the list of sheets, and how it is painted.

    Pages of one ``set`` that follow each other are listed in one line.
    """

    name: str
    paint: Paint
    set: str = ""


@dataclass(frozen=True, slots=True)
class Frame:
    """Frame of every page: paper and heading."""

    sheet: PaperSheet
    head: Heading

    @property
    def pt(self) -> float:
        """Size of running words on the first sheet: larger on larger paper."""
        return 10.5 if self.sheet.columns > 2 else 8.5

    @property
    def line_mm(self) -> float:
        """Height of a line of running words."""
        return self.pt * 0.459

    def foot(self, pen: PdfPen, number: int, count: int) -> None:
        """Foot of a page: sheet number, title, how it is proven, and its limits."""
        head, left, right = self.head, MARGIN_MM, self.sheet.width - MARGIN_MM
        top = self.sheet.height - MARGIN_MM - FOOT_MM + 1.6
        pen.rule(left, top, right, top, 0.25)
        code = f"Check code {head.code}"
        room = self.sheet.inside - pen.measure(code, BODY_PT, True) - 4
        what = f"Sheet {number} of {count}, as built, "
        job = fit_text(pen, single_line(head.job), room - pen.measure(what, BODY_PT), BODY_PT)
        pen.write(left, top + 3.0, what + job, BODY_PT)
        pen.write(right, top + 3.0, code, BODY_PT, bold=True, align=1)
        note = f"Record by the contractor, not a survey; {head.units}. {HOW_TO_PROVE} {head.code}"
        note = note if head.is_sound else UNSOUND
        pen.write(left, top + 5.9, fit_text(pen, note, self.sheet.inside, 7), 7, tone=Tone.PLANNED)

    def running_head(self, pen: PdfPen, title: str) -> None:
        """Name of the page on its left, of the job on its right, ruled below."""
        base, left, right = MARGIN_MM + 4.2, MARGIN_MM, self.sheet.width - MARGIN_MM
        room = self.sheet.inside / 2 - 4
        pen.write(left, base, fit_text(pen, title, room, 11, True), 11, bold=True)
        job = fit_text(pen, single_line(self.head.job), room, 9)
        pen.write(right, base, job, 9, align=1)
        pen.rule(left, MARGIN_MM + 6.2, right, MARGIN_MM + 6.2, 0.5)


HEAD_MM = 8.6
"""Height of the running head with the room below it."""
