"""Where piped slits cross sand slits, numbered along each piped slit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from models.calculations.laid_lines import LaidSegment
from models.calculations.ring import PointNm
from models.calculations.shapes import numpy

_SLACK_NM = 1_000.0  # ends were rounded, so a line that ends on another may fall short by one


@dataclass(frozen=True, slots=True)
class Crossing:
    """A piped slit meeting a sand slit.

    Attributes
    ----------
    number : int
        From 1, along the first piped slit, then the next. [-]
    piped_id, sand_id : str
        The two. [-]
    at : PointNm
        Where. [nm]
    piped_nm : int
        From the start of the piped slit. [nm]
    sand_nm : int
        From the start of the sand slit. [nm]
    """

    number: int
    piped_id: str
    sand_id: str
    at: PointNm
    piped_nm: int
    sand_nm: int


def find_crossings(
    piped: Sequence[LaidSegment], sand: Sequence[LaidSegment]
) -> tuple[Crossing, ...]:
    """Every crossing of piped and sand slits, at any angle.

    Parameters
    ----------
    piped : sequence of LaidSegment
        Piped slits, in the order they are to be numbered. [nm]
    sand : sequence of LaidSegment
        Sand slits. [nm]

    Returns
    -------
    crossings : tuple of Crossing
        In order along each piped slit. [nm]

    Notes
    -----
    A slit that ends on another within a micrometre crosses it. Parallel slits never do.
    Two straight lines solved in floats, good to about a nanometre on a site. Derived here.

    Examples
    --------
    By hand: a field 2 m square, one piped slit across its middle, two sand slits along it.

    >>> from models.calculations.ground import Ground
    >>> from models.calculations.laid_lines import LinePattern
    >>> from models.calculations.layout import lay_lines
    >>> from models.calculations.offsets import rectangle
    >>> field = Ground((rectangle(2 * 10**9, 2 * 10**9),))
    >>> sand = lay_lines(field, LinePattern(10**9)).segments
    >>> piped = lay_lines(field, LinePattern(2 * 10**9, 90_000_000, prefix="P")).segments
    >>> [(c.number, c.piped_id, c.sand_id, c.piped_nm) for c in find_crossings(piped, sand)]
    [(1, 'P01', 'S01', 500000000), (2, 'P01', 'S02', 1500000000)]
    """
    if not piped or not sand:
        return ()
    origin = piped[0].start
    starts, ways, lengths = _columns(sand, origin)
    found: list[Crossing] = []
    for segment in piped:
        for place, at_piped, at_sand in _along(segment, origin, (starts, ways, lengths)):
            other = sand[place]
            way_x, way_y = ways[place]
            at = PointNm(
                other.start.x_nm + round(float(way_x) * at_sand),
                other.start.y_nm + round(float(way_y) * at_sand),
            )
            number = len(found) + 1
            names = (segment.line_id, other.line_id)
            found.append(Crossing(number, *names, at, round(at_piped), round(at_sand)))
    return tuple(found)


def count_crossings(piped: Sequence[LaidSegment], sand: Sequence[LaidSegment]) -> int:
    """How many crossings ``find_crossings`` would find, without listing them.

    Parameters
    ----------
    piped, sand : sequence of LaidSegment
        The slits. [nm]

    Returns
    -------
    count : int
        Crossings. [-]

    Notes
    -----
    As ``find_crossings``, in a fraction of its time: a large field has 100,000 of them.

    Examples
    --------
    By hand: a slit across two others.

    >>> def slit(name, *ends):
    ...     (x1, y1), (x2, y2) = ends
    ...     return LaidSegment(name, 1, PointNm(x1, y1), PointNm(x2, y2), 1, 0, 1)
    >>> across = [slit("P01", (0, 5 * 10**6), (10**7, 5 * 10**6))]
    >>> along = [slit(f"S{x}", (x * 10**6, 0), (x * 10**6, 10**7)) for x in (2, 8)]
    >>> count_crossings(across, along)
    2
    """
    if not piped or not sand:
        return 0
    origin = piped[0].start
    columns = _columns(sand, origin)
    return sum(int(numpy.count_nonzero(_met(one, origin, columns)[0])) for one in piped)


def _columns(segments: Sequence[LaidSegment], origin: PointNm) -> tuple[Any, Any, Any]:
    """Starts, unit directions and lengths of segments as arrays."""
    starts = numpy.array(
        [(s.start.x_nm - origin.x_nm, s.start.y_nm - origin.y_nm) for s in segments], dtype=float
    )
    reach = numpy.array(
        [(s.end.x_nm - s.start.x_nm, s.end.y_nm - s.start.y_nm) for s in segments], dtype=float
    )
    lengths = numpy.hypot(reach[:, 0], reach[:, 1])
    return starts, reach / lengths[:, None], lengths


def _along(
    segment: LaidSegment, origin: PointNm, sand: tuple[Any, Any, Any]
) -> Iterator[tuple[int, float, float]]:
    """Which sand slits one piped slit crosses, with the way along both, in order."""
    lengths = sand[2]
    is_met, at_piped, at_sand, length = _met(segment, origin, sand)
    places = numpy.flatnonzero(is_met)
    for place in sorted(places.tolist(), key=lambda p: (round(float(at_piped[p])), p)):
        yield (
            place,
            float(min(max(at_piped[place], 0.0), length)),
            float(min(max(at_sand[place], 0.0), lengths[place])),
        )


def _met(
    segment: LaidSegment, origin: PointNm, sand: tuple[Any, Any, Any]
) -> tuple[Any, Any, Any, float]:
    """Whether each sand slit is crossed, how far along both, and the piped slit's length."""
    starts, ways, lengths = sand
    start, way, length = (column[0] for column in _columns([segment], origin))
    gap = starts - start
    cross = way[0] * ways[:, 1] - way[1] * ways[:, 0]
    is_slanted = numpy.abs(cross) > 1e-9
    safe = numpy.where(is_slanted, cross, 1.0)
    at_piped = (gap[:, 0] * ways[:, 1] - gap[:, 1] * ways[:, 0]) / safe
    at_sand = (gap[:, 0] * way[1] - gap[:, 1] * way[0]) / safe
    is_on_piped = (at_piped >= -_SLACK_NM) & (at_piped <= length + _SLACK_NM)
    is_on_sand = (at_sand >= -_SLACK_NM) & (at_sand <= lengths + _SLACK_NM)
    return is_slanted & is_on_piped & is_on_sand, at_piped, at_sand, float(length)
