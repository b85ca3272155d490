"""Tables of the record as pieces for columns of a page: rows, struck rows, notes."""

from __future__ import annotations

from dataclasses import replace

from sync.papers.pdf.flow import Piece, Section
from sync.papers.pdf.pen import PT_MM, PdfPen
from sync.papers.pdf.rows import (
    BODY_PT,
    CELL_GAP_MM,
    LINE_MM,
    Cell,
    column_heads,
    fit_text,
    paragraph,
    rows,
    section,
    wrap,
)
from sync.papers.tables.record_table import Record, Row


def record_section(pen: PdfPen, table: Record, width: float) -> Section:
    """A table under its heading; an empty one says so."""
    return section(width, table.title, record_pieces(pen, table, width))


def record_pieces(pen: PdfPen, table: Record, width: float) -> list[Piece]:
    """Rows of a table, then its note."""
    if not table.rows:
        return paragraph(pen, width, _with_note(table.none, table.note))
    columns = _columns(table)
    cells = [cell for cell, _ in columns]
    heads = [fit_text(pen, head, room, BODY_PT) for head, room in heads_of(table, width)]
    pieces = [column_heads(pen, width, cells, heads)]
    for row in table.rows:
        pieces += _row(pen, width, columns, row)
    if table.note:
        apart = Piece(0.8, lambda pen, left, top: None, keep_with_next=True)
        pieces += [apart, *paragraph(pen, width, table.note)]
    return pieces


def _with_note(words: str, note: str) -> str:
    """An empty table says so; only a note that names what is missing is worth its room then."""
    missing = [part for part in note.split(". ") if part.startswith(("Fewer", "Ends"))]
    return " ".join([words, *(f"{part.rstrip('.')}." for part in missing)])


Column = tuple[Cell, int | None]


def _columns(table: Record) -> list[Column]:
    """Cells with the places they show; a little room parts a number from words after it."""
    columns: list[Column] = []
    was_number = False
    for place in table.printed_columns:
        field = table.fields[place]
        if was_number and not field.is_number:
            columns.append((Cell(0.5), None))
        columns.append((Cell(field.width_mm, 1.0 if field.is_number else 0.0), place))
        was_number = field.is_number
    return columns


def heads_of(table: Record, width: float) -> list[tuple[str, float]]:
    """Heads of the printed columns, each with the room it has."""
    columns = _columns(table)
    rooms = _widths(width, [cell for cell, _ in columns])
    heads = [table.fields[place].head if place is not None else "" for _, place in columns]
    return list(zip(heads, rooms, strict=True))


def _row(pen: PdfPen, width: float, columns: list[Column], row: Row) -> list[Piece]:
    cells = [replace(cell, bold=row.is_heavy) for cell, _ in columns]
    texts = [row.items[place].shown if place is not None else "" for _, place in columns]
    pieces = rows(pen, width, cells, [texts])
    if not row.is_struck:
        return pieces
    widths = _widths(width, cells)
    lines = [wrap(pen, text, wide, BODY_PT) for text, wide in zip(texts, widths, strict=True)]
    count = max(map(len, lines[:-1]))
    long = width - widths[-1] - CELL_GAP_MM
    return [_crossed(one, long) if at < count else one for at, one in enumerate(pieces)]


def _widths(width: float, cells: list[Cell]) -> list[float]:
    """Widths of columns as they are set: those without share what is left."""
    fixed = sum(cell.width for cell in cells) + CELL_GAP_MM * (len(cells) - 1)
    each = (width - fixed) / max(1, sum(not cell.width for cell in cells))
    return [cell.width or each for cell in cells]


def _crossed(piece: Piece, long: float) -> Piece:
    """A piece with a line through all but its last column, where the reason stands."""

    def paint(pen: PdfPen, left: float, top: float) -> None:
        piece.paint(pen, left, top)
        middle = top + LINE_MM - 0.8 - 0.33 * BODY_PT * PT_MM
        pen.rule(left, middle, left + long, middle, 0.3)

    return Piece(piece.height, paint, piece.keep_with_next)


def words_section(pen: PdfPen, title: str, paragraphs: tuple[str, ...], width: float) -> Section:
    """Running words under a heading, a paragraph each."""
    pieces: list[Piece] = []
    for text in paragraphs:
        pieces += paragraph(pen, width, text)
        pieces.append(Piece(0.9, lambda pen, left, top: None))
    return section(width, title, pieces)
