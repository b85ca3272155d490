"""Papers in one column: a head on the first page, a running head after it, a foot on each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from sync.papers.drawing.primitives import Tone
from sync.papers.pdf.flow import PlacedPiece, Section, fill_columns
from sync.papers.pdf.page_sizes import A4_MM, LETTER_MM, MARGIN_MM
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import fit_text

LOW_HEAD_MM, TALL_HEAD_MM, RUNNING_MM, FOOT_MM = 13.0, 17.0, 8.0, 7.0
RULE_UP_MM = 1.4
MOST_PAGES = 400


@dataclass(frozen=True, slots=True)
class ColumnPaper:
    """Frame round the column: name of the paper, whose it is, what it is made from.

    ``dated`` stands under the name, ``warning`` in bold under the place; a paper that may
    have one has a tall head, so that its first page is laid out alike with and without.
    """

    name: str
    job: str
    place: str
    foot: str
    code: str
    last_at_ms: int
    is_us: bool
    dated: str = ""
    warning: str = ""
    has_tall_head: bool = False

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its pages, in mm."""
        return LETTER_MM if self.is_us else A4_MM

    @property
    def inside(self) -> float:
        """Width between the margins."""
        return self.size[0] - 2 * MARGIN_MM

    def head(self, number: int) -> float:
        """Height of what stands on top of a page, the first being 0."""
        return RUNNING_MM if number else TALL_HEAD_MM if self.has_tall_head else LOW_HEAD_MM


def build_column_pdf(
    paper: ColumnPaper, sections: Callable[[PdfPen, float], list[Section]]
) -> bytes:
    """Print sections under each other; the same sections give the same bytes.

    ``sections`` is given the pen and the width between the margins.
    """
    with PdfPen(*paper.size) as pen:
        pen.describe(f"{paper.name}, {paper.job}", f"Code {paper.code}", paper.last_at_ms)
        placed = _placed(sections(pen, paper.inside), paper)
        count = max((one.page for one in placed), default=0) + 1
        for number in range(count):
            pen.add_page()
            _paint_head(pen, paper, number)
            for one in placed:
                if one.page == number:
                    one.piece.paint(pen, MARGIN_MM, MARGIN_MM + paper.head(number) + one.depth)
            _paint_foot(pen, paper, number, count)
        return pen.bytes()


def _placed(sections: list[Section], paper: ColumnPaper) -> list[PlacedPiece]:
    """Every piece at its place, in one column a page."""
    free = paper.size[1] - 2 * MARGIN_MM - FOOT_MM
    placed = fill_columns(
        sections, [free - paper.head(number) for number in range(MOST_PAGES)], columns=1
    )
    assert placed is not None, "a section is taller than a page"
    return placed


def _paint_head(pen: PdfPen, paper: ColumnPaper, number: int) -> None:
    left, top, right = MARGIN_MM, MARGIN_MM, paper.size[0] - MARGIN_MM
    if number:
        job = fit_text(pen, paper.job, paper.inside - 30, 8.5, True)
        pen.write(left, top + 3.2, job, 8.5, bold=True)
        pen.write(right, top + 3.2, paper.name, 8.5, align=1)
        pen.rule(left, top + 4.8, right, top + 4.8, 0.25)
        return
    job = fit_text(pen, paper.job, paper.inside - 32, 15, True)
    pen.write(left, top + 5.2, job, 15, bold=True)
    pen.write(right, top + 5.0, paper.name, 13, bold=True, align=1)
    pen.write(right, top + 10, paper.dated, 8.5, align=1)
    room = paper.inside - pen.measure(paper.dated, 8.5) - 4
    pen.write(left, top + 10, fit_text(pen, paper.place, room, 8.5), 8.5)
    warning = fit_text(pen, paper.warning, paper.inside, 8.5, True)
    pen.write(left, top + 14.2, warning, 8.5, bold=True)
    rule = top + paper.head(0) - RULE_UP_MM
    pen.rule(left, rule, right, rule, 0.5)


def _paint_foot(pen: PdfPen, paper: ColumnPaper, number: int, count: int) -> None:
    base, right = paper.size[1] - MARGIN_MM - 1.0, paper.size[0] - MARGIN_MM
    pen.rule(MARGIN_MM, base - 3.6, right, base - 3.6, 0.25)
    words = f"{paper.foot} Code of the book {paper.code}"
    pen.write(MARGIN_MM, base, words, 6.6, tone=Tone.PLANNED)
    pen.write(right, base, f"page {number + 1} of {count}", 6.6, align=1, tone=Tone.PLANNED)
