"""How often piped slits cross sand slits."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from models.science.layout.layout_types import LaidSegment
from models.science.shapes.geometry_library import numpy
from models.science.shapes.rings import PointNm

_SLACK_NM = 1_000.0  # ends were rounded, so a line that ends on another may fall short by one


def count_crossings(piped: Sequence[LaidSegment], sand: Sequence[LaidSegment]) -> int:
    """Count the crossings of piped and sand slits, at any angle.

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
    A slit that ends on another within a micrometre crosses it. Parallel slits never do.
    Two straight lines solved in floats, good to about a nanometre on a site: a large field
    has 100,000 crossings. Derived here.

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
