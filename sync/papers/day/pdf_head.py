"""Upper part of a day sheet: heading, status bar, needs of the owner, four numbers, tables."""

from __future__ import annotations

from sync.papers.day.facts.day import DaySheet, Head
from sync.papers.day.facts.progress import BigNumber, DayStatus
from sync.papers.drawing.primitives import Mark, Shape, Tone
from sync.papers.pdf.drawing_ops import draw_mark
from sync.papers.pdf.flow import Piece
from sync.papers.pdf.pen import PdfPen
from sync.papers.pdf.rows import BODY_PT, Cell, column_heads, fit_text, paragraph, rows
from sync.papers.wording.measures import (
    Measure,
    bare_or_over,
    mean_depth,
    number_text,
    percent,
    printed_unit,
    signed_offset,
    within_limits,
)
from sync.papers.wording.safe_text import single_line

MOST_NEEDS = 4
_SHAPES = {
    DayStatus.OK: (Shape.DISC, Tone.OK),
    DayStatus.CHECK: (Shape.TRIANGLE, Tone.CHECK),
    DayStatus.OUT: (Shape.CROSSED_SQUARE, Tone.OUT),
}


def title_band(pen: PdfPen, day: DaySheet, left: float, top: float, width: float) -> float:
    """Paint the heading of the sheet; return where it ends."""
    head = day.head
    number = f"Day sheet {head.number}" if head.number else "Day without work"
    day_width = max(pen.measure(head.day_words, 13, True), pen.measure(number, 9)) + 4
    job = fit_text(pen, single_line(head.job), width - day_width, 15, True)
    pen.write(left, top + 5.2, job, 15, bold=True)
    pen.write(left + width, top + 5.0, head.day_words, 13, bold=True, align=1)
    closed = "closed" if head.is_closed else "not closed"
    right = f"{number}, revision {head.revision}, {closed}"
    pen.write(left + width, top + 10, right, 8.5, align=1)
    first, *more = _whose(pen, head, width, width - pen.measure(right, 8.5) - 4)
    pen.write(left, top + 10, first, 8.5)
    for line in more:
        pen.write(left, top + 13.4, line, 8.5)
    return top + (15.2 if more else 11.8)


def _whose(pen: PdfPen, head: Head, width: float, beside: float) -> list[str]:
    """Site, contractor and owner: on one line if they stand whole there, else on two."""
    site, contractor = single_line(head.site), single_line(head.contractor)
    owner = f"for {single_line(head.owner)}" if head.owner else ""
    by = " ".join(part for part in (contractor, owner) if part)
    both = ", ".join(part for part in (site, contractor) if part)
    one = f"{both} {owner}".strip()
    if pen.measure(one, 8.5) <= beside:
        return [one]
    first, second = (both, owner) if pen.measure(both, 8.5) <= beside else (site, by)
    return [fit_text(pen, first, beside, 8.5), fit_text(pen, second, width, 8.5)]


def status_band(pen: PdfPen, day: DaySheet, left: float, top: float, width: float) -> float:
    """Paint the status bar: shape, word, why; how far; when it may be finished."""
    bar = day.bar
    shape, tone = _SHAPES[bar.standing]
    pen.rule(left, top, left + width, top, 0.8)
    draw_mark(pen, Mark((left + 4.2, top + 6.2), shape, 6.4, tone))
    wide = pen.write(left + 9.4, top + 8.6, bar.standing.value, 19, bold=True)
    right = max(pen.measure(bar.done_words, 10.5, True), pen.measure(bar.finish, BODY_PT))
    room = width - wide - right - 18
    pen.write(left + 12.4 + wide, top + 8.3, fit_text(pen, bar.why, room, 10), 10)
    pen.write(left + width, top + 5.2, bar.done_words, 10.5, bold=True, align=1)
    pen.write(left + width, top + 9.3, bar.finish, BODY_PT, align=1)
    _progress(pen, day, left, top + 11.2, width)
    pen.write(left, top + 17.2, f"Forecast basis: {bar.basis}.", 7, tone=Tone.PLANNED)
    key = "grey: done before; dark: today; open: left"
    pen.write(left + width, top + 17.2, key, 7, align=1, tone=Tone.PLANNED)
    return top + 18.4


def _progress(pen: PdfPen, day: DaySheet, left: float, top: float, width: float) -> None:
    """Bar of the planned length: done before in grey, today in dark, the rest open."""
    bar, high = day.bar, 3.4
    if bar.planned_nm:
        done = width * min(bar.done_nm / bar.planned_nm, 1)
        today = width * min(bar.today_nm / bar.planned_nm, 1)
        pen.box(left, top, done - today, high, Tone.BAND)
        pen.box(left + done - today, top, today, high, Tone.TODAY)
    pen.frame(left, top, width, high, 0.35)


def needs_band(pen: PdfPen, day: DaySheet, left: float, top: float, width: float) -> float:
    """Paint what the owner must decide, give or know."""
    count = len(day.needs)
    title = "Needs you" if count else "Nothing needed from you"
    if not count:
        pen.rule(left, top, left + width, top, 0.5)
        pen.write(left, top + 4.2, title, 10, bold=True)
        return top + 6.4
    shown = day.needs[:MOST_NEEDS]
    high = 4.3 * len(shown) + 1.6 + (4.0 if count > len(shown) else 0.0)
    pen.frame(left + 0.4, top + 0.4, width - 0.8, high, 0.8)
    pen.write(left + 3, top + 4.6, title, 10, bold=True)
    start = left + 27
    base = top + 4.6
    for need in shown:
        wide = pen.write(start, base, f"{need.kind}: ", 9, bold=True)
        room = width - 30 - wide
        pen.write(start + wide, base, fit_text(pen, single_line(need.said), room, 9), 9)
        base += 4.3
    if count > len(shown):
        pen.write(start, base, f"and {count - len(shown)} more below", 9)
    return top + high + 1.9


def numbers_band(pen: PdfPen, day: DaySheet, left: float, top: float, width: float) -> float:
    """Paint the four large numbers, where they could be worked out."""
    if not day.numbers:
        return top
    each = width / len(day.numbers)
    for place, number in enumerate(day.numbers):
        x = left + place * each
        if place:
            pen.rule(x - 2, top + 1, x - 2, top + 14.8, 0.25)
        _big(pen, number, x, top, each - 4)
    return top + 15.9


def _big(pen: PdfPen, number: BigNumber, x: float, top: float, width: float) -> None:
    value = fit_text(pen, number.value, width - 8, 20, True)
    wide = pen.write(x, top + 7.2, value, 20, bold=True)
    if number.status is not None:
        shape, tone = _SHAPES[number.status]
        draw_mark(pen, Mark((x + wide + 4, top + 4.9), shape, 3.6, tone))
    pen.write(x, top + 11.2, fit_text(pen, number.label, width, 8.5), 8.5)
    pen.write(
        x, top + 14.6, fit_text(pen, number.remark, width, BODY_PT), BODY_PT, tone=Tone.PLANNED
    )


def quantity_rows(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """Quantities: item, unit, today in bold, to date, left or over, plan."""
    cells = [Cell(), Cell(6), Cell(14, 1, bold=True), Cell(14, 1), Cell(17, 1), Cell(14, 1)]
    names = ["quantity", "", "today", "to date", "left", "plan"]
    texts = []
    for one in day.quantities:
        amounts = (one.today, one.to_date, one.plan)
        shown = [number_text(one.measure, amount, day.figures) for amount in amounts]
        shown.insert(2, bare_or_over(one.measure, one.left, day.figures))
        unit = printed_unit(one.measure, day.figures)
        texts.append([single_line(one.item), unit, *shown])
    if not texts:
        texts = [["nothing yet", "", "", "", "", ""]]
    return [column_heads(pen, width, cells, names), *rows(pen, width, cells, texts)]


def quality_rows(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """Quality: a line a lot, then a line a collector."""
    depth = printed_unit(Measure.DEPTH, day.figures)
    names = [f"quality, {depth}", "n", "least", "mean", "most", "in tol.", "PWL"]
    cells = [Cell(), Cell(7, 1), *[Cell(10.5, 1)] * 3, Cell(10.5, 1, bold=True), Cell(9, 1)]
    texts = []
    for one in day.quality:
        lot, figures = one.lot, day.figures
        texts.append(
            [
                single_line(f"{one.where}, {one.what}"),
                f"{lot.n}",
                number_text(Measure.DEPTH, lot.least_nm, figures),
                mean_depth(lot.mean_nm, figures),
                number_text(Measure.DEPTH, lot.most_nm, figures),
                percent(lot.inside, lot.n),
                within_limits(lot.percent_within)[0],
            ]
        )
    if not texts and not day.grades:
        texts = [["no reading today", "", "", "", "", "", ""]]
    heads = column_heads(pen, width, cells, names)
    told = [heads, *rows(pen, width, cells, texts), *_grade_rows(pen, day, width)]
    if any(one.lot.percent_within is not None for one in day.quality):
        told += paragraph(pen, width, "PWL: estimated percent of all the work within limits")
    return told


def _grade_rows(pen: PdfPen, day: DaySheet, width: float) -> list[Piece]:
    """A line a collector: how far its inverts lie off design, and the grade they make."""
    texts = []
    for one in day.grades:
        figures = day.figures
        low, high = (signed_offset(round(off), figures) for off in (one.lowest_nm, one.highest_nm))
        grade = "-" if one.grade is None else figures.grade(round(one.grade * 1_000_000))
        design = figures.grade(round(one.design_grade * 1_000_000))
        texts.append(
            [
                f"{single_line(one.collector_id)} inverts {low.rsplit(' ', 1)[0]} to {high}"
                f" off design, grade {grade} for {design}",
                f"{one.inside}/{one.n}",
            ]
        )
    return rows(pen, width, [Cell(), Cell(12, 1, bold=True)], texts)


def rows_height(pieces: list[Piece]) -> float:
    """Height of pieces one below the other."""
    return sum(piece.height for piece in pieces)


def paint_rows(pen: PdfPen, pieces: list[Piece], left: float, top: float) -> None:
    """Paint pieces one below the other."""
    for piece in pieces:
        piece.paint(pen, left, top)
        top += piece.height
