"""Pieces that a pass cut, line by line; an old pass is read by a rule that is written here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from models.entries.bodies.passes import PassCut, PieceCut
from models.entries.bodies.surfaces import LinePlace
from models.units.spec import FOOT_NM

GAP_NM = FOOT_NM
"""What a drive over gaps may be longer than its pieces and gaps. Common practice, no source."""


def pieces_of(cut: PassCut, places: Mapping[str, LinePlace]) -> tuple[PieceCut, ...]:
    """Pieces of a pass in force, in the order in which they are written.

    A pass of before gave one length for every leg. Its lines that share a row are one leg's:
    the length is dealt out to them in the order of the plan, each from its start up to its
    planned length. A rest no greater than the gaps between them and 1 ft was driven with the
    blade up; a greater one ran on beyond the last. A line named twice was cut twice, and a
    leg of one line has a piece from its start to the length.
    """
    return cut.pieces or tuple(_old_pieces(cut, places))


def _old_pieces(cut: PassCut, places: Mapping[str, LinePlace]) -> Iterator[PieceCut]:
    """Pieces of a pass that gave one length for every leg."""
    legs: dict[object, list[str]] = {}
    again: list[str] = []
    for line_id in cut.line_ids:
        place = places.get(line_id)
        leg = (place.line.use, place.number) if place is not None else line_id
        named = legs.setdefault(leg, [])
        (again if line_id in named else named).append(line_id)
    for named in legs.values():
        if len(named) == 1:
            yield _old(named[0], cut.length_nm)
        else:
            yield from _dealt_out([places[line_id] for line_id in named], cut.length_nm)
    for line_id in again:
        yield _old(line_id, cut.length_nm)


def _dealt_out(row: list[LinePlace], length_nm: int) -> Iterator[PieceCut]:
    """Pieces of one leg in several lines of a row, from the length that it was driven."""
    row = sorted(row, key=_along)
    rest_nm = length_nm
    for place in row[:-1]:
        piece_nm = min(rest_nm, place.line.length_nm)
        rest_nm -= piece_nm
        if piece_nm:
            yield _old(place.line.line_id, piece_nm)
    last = row[-1].line
    over_nm = rest_nm - last.length_nm
    if 0 < over_nm <= _gaps_nm(row) + GAP_NM:
        rest_nm = last.length_nm
    if rest_nm > 0:
        yield _old(last.line_id, rest_nm)


def _along(place: LinePlace) -> tuple[int, int]:
    """Order of the lines of a row, the way the first of them runs in the plan's frame."""
    line = place.line
    dx, dy = line.x2_nm - line.x1_nm, line.y2_nm - line.y1_nm
    return (line.x1_nm * dx + line.y1_nm * dy, 0)


def _gaps_nm(row: list[LinePlace]) -> int:
    """Ground between the lines of a row."""
    total_nm = 0
    for before, after in zip(row, row[1:], strict=False):
        dx, dy = after.line.x1_nm - before.line.x2_nm, after.line.y1_nm - before.line.y2_nm
        total_nm += round((dx * dx + dy * dy) ** 0.5)
    return total_nm


def _old(line_id: str, length_nm: int) -> PieceCut:
    """A piece from the start of its line, of a pass that did not say where it lay."""
    return PieceCut.model_construct(
        line_id=line_id, leg=0, from_nm=0, to_nm=length_nm, by="old", typed=""
    )
