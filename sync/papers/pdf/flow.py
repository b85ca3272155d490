"""Sections that flow down two columns and on to the next page, cut only between lines."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from sync.papers.pdf.pen import PdfPen

COLUMNS = 2
GUTTER_MM = 6.0
BETWEEN_SECTIONS_MM = 1.5
CUT_FROM_MM = 40.0
"""Pieces that stick together are parted only if they are taller than this."""

Paint = Callable[[PdfPen, float, float], None]


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a page that is never cut: ``paint(pen, left, top)``; ``sticks`` to the next.

    ``is_head`` marks the names of columns, said again where their rows go on.
    """

    height: float
    paint: Paint
    keep_with_next: bool = False
    is_head: bool = False

    def over(self, below: Piece) -> Piece:
        """Join this piece and another below it into a single piece."""

        def paint(pen: PdfPen, left: float, top: float) -> None:
            self.paint(pen, left, top)
            below.paint(pen, left, top + self.height)

        return Piece(self.height + below.height, paint, keep_with_next=True)


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and its pieces; ``again`` is printed on top where the section goes on."""

    heading: Piece
    again: Piece
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A piece at its place: page from 0, column from 0, depth below the column's top."""

    page: int
    column: int
    depth: float
    piece: Piece


@dataclass
class _Filler:
    """Fills columns in turn; ``rooms`` are the heights of the columns, page by page."""

    rooms: list[float]
    columns: int
    page: int = 0
    column: int = 0
    depth: float = 0.0
    is_full: bool = False
    placed: list[PlacedPiece] = field(default_factory=list)

    @property
    def room(self) -> float:
        """Height of the column being filled."""
        return self.rooms[self.page]

    def next_column(self) -> None:
        """Go on at the top of the next column, if there is one."""
        self.depth = 0.0
        self.column += 1
        if self.column == self.columns:
            self.column, self.page = 0, self.page + 1
        if self.page >= len(self.rooms):
            self.page, self.is_full = len(self.rooms) - 1, True

    def put(self, piece: Piece) -> None:
        """Put one piece down."""
        self.placed.append(PlacedPiece(self.page, self.column, self.depth, piece))
        self.depth += piece.height

    def fits(self, height: float) -> bool:
        """Whether so much more goes into this column."""
        return self.depth + height <= self.room + 1e-6


def _groups(pieces: Iterable[Piece]) -> list[list[Piece]]:
    """Pieces that stay together."""
    groups: list[list[Piece]] = [[]]
    for piece in pieces:
        groups[-1].append(piece)
        if not piece.keep_with_next:
            groups.append([])
    return [group for group in groups if group]


def fill_columns(
    sections: list[Section], rooms: list[float], columns: int = COLUMNS
) -> list[PlacedPiece] | None:
    """Place every piece into columns of the heights given; None if they don't hold them."""
    filler = _Filler(rooms, columns)
    for section in sections:
        _fill_section(filler, section)
        if filler.is_full:
            return None
    return filler.placed


def _fill_section(filler: _Filler, section: Section) -> None:
    first, *others = _groups(section.pieces)
    if filler.depth:
        filler.depth += BETWEEN_SECTIONS_MM
    if not filler.fits(section.heading.height + _height(first)) and filler.depth:
        filler.next_column()
    filler.put(section.heading)
    _fill_group(filler, section, first)
    for group in others:
        if not filler.fits(_height(group)):
            filler.next_column()
            filler.put(section.again)
        _fill_group(filler, section, group)


def _height(group: list[Piece]) -> float:
    return sum(piece.height for piece in group)


def _fill_group(filler: _Filler, section: Section, group: list[Piece]) -> None:
    """Put a group down; one taller than a whole column is cut between its pieces."""
    whole = _height(group) <= CUT_FROM_MM
    for piece in group:
        if not filler.fits(piece.height):
            if whole or filler.depth <= section.again.height:
                filler.is_full = True  # it fits into no column of this height
            filler.next_column()
            filler.put(section.again)
        if filler.is_full:
            return
        filler.put(piece)


def balance_columns(
    sections: list[Section], rooms: list[float], columns: int = COLUMNS
) -> list[PlacedPiece] | None:
    """Place every piece, the last page's columns as even as they will go."""
    best = fill_columns(sections, rooms, columns)
    if best is None:
        return None
    low, high = 0.0, rooms[-1]
    while high - low > 1.0:
        middle = (low + high) / 2
        tried = fill_columns(sections, [*rooms[:-1], middle], columns)
        if tried is None:
            low = middle
        else:
            best, high = tried, middle
    return best


def page_depth(placed: Iterable[PlacedPiece], page: int) -> float:
    """How far down the pieces of a page reach."""
    return max((one.depth + one.piece.height for one in placed if one.page == page), default=0.0)
