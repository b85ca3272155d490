"""Loose pieces of a drawing joined end to end into outlines."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from models.readers.outlines.problems import FileProblem
from models.science.shapes.rings import PointNm, distance_nm, show_place

Piece = tuple[PointNm, ...]


@dataclass(frozen=True, slots=True)
class Chain:
    """Points of pieces joined end to end; a closed one does not repeat its first."""

    points: tuple[PointNm, ...]
    is_closed: bool


class _Knots:
    """Ends of pieces, those within reach of each other being one knot."""

    def __init__(self, reach_nm: int) -> None:
        self.reach_nm = max(reach_nm, 1)
        self.places: list[PointNm] = []
        self.cells: defaultdict[tuple[int, int], list[int]] = defaultdict(list)

    def knot_at(self, point: PointNm) -> int:
        """Number of the knot at a point, a new one if none is near."""
        column, row = point.x_nm // self.reach_nm, point.y_nm // self.reach_nm
        for cell in ((column + i, row + j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            for knot in self.cells.get(cell, ()):
                if distance_nm(self.places[knot], point) <= self.reach_nm:
                    return knot
        self.places.append(point)
        self.cells[column, row].append(len(self.places) - 1)
        return len(self.places) - 1


def join_pieces(
    pieces: Sequence[Piece], reach_nm: int, problems: list[FileProblem]
) -> tuple[Chain, ...]:
    """Join pieces whose ends lie within reach of each other, in the order of the drawing.

    Where more than two ends meet, which way the outline goes can't be told: that is added
    to ``problems``.
    """
    knots = _Knots(reach_nm)
    ends = [(knots.knot_at(piece[0]), knots.knot_at(piece[-1])) for piece in pieces]
    at_knot: defaultdict[int, list[int]] = defaultdict(list)
    for number, pair in enumerate(ends):
        for knot in pair:
            at_knot[knot].append(number)
    for knot, meeting in at_knot.items():
        if len(meeting) > 2:
            met = f"{len(meeting)} ends of lines meet"
            accepted = "an outline goes on one way: put what branches off on a layer of its own"
            problems.append(FileProblem(show_place(knots.places[knot]), met, accepted))
    if problems:
        return ()
    free = [number for number, pair in enumerate(ends) if any(len(at_knot[k]) == 1 for k in pair)]
    used: set[int] = set()
    chains: list[Chain] = []
    for number in [*free, *range(len(pieces))]:
        if number not in used:
            chains.append(_walk(number, pieces, ends, at_knot, used))
    return tuple(chains)


def _walk(
    number: int,
    pieces: Sequence[Piece],
    ends: Sequence[tuple[int, int]],
    at_knot: dict[int, list[int]],
    used: set[int],
) -> Chain:
    """Follow pieces from one on, until none goes on."""
    start, knot = ends[number]
    piece = pieces[number]
    if len(at_knot[start]) == 2 and len(at_knot[knot]) == 1:
        start, knot, piece = knot, start, piece[::-1]
    points = list(piece)
    used.add(number)
    while following := [other for other in at_knot[knot] if other not in used]:
        other = following[0]
        used.add(other)
        first, last = ends[other]
        piece = pieces[other] if first == knot else pieces[other][::-1]
        knot = last if first == knot else first
        points += piece[1:]
    is_closed = knot == start
    return Chain(tuple(points[:-1] if is_closed else points), is_closed)
