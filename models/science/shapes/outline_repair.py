"""A mended outline to look at beside the one that was traced; never used by itself."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.counted import CountedNoun
from models.science.shapes.geometry_library import numpy, shapely
from models.science.shapes.outline import (
    LEAST_AREA_NM2,
    SAME_NM,
    Outline,
    Trace,
    find_outline_faults,
)
from models.science.shapes.rings import (
    PointNm,
    Ring,
    distance_nm,
    show_both,
    show_place,
    signed_area_nm2,
)
from models.science.shapes.self_crossings import find_crossed_sides


@dataclass(frozen=True, slots=True)
class MendedOutline:
    """An outline that could stand for one that can't.

    Attributes
    ----------
    outline : Outline
        The mended ring. [nm]
    changes : tuple of str
        What was done to it, a sentence each; empty if nothing was wrong. [-]
    left_out_nm2 : Fraction
        Area of the parts that were left out. [nm2]
    """

    outline: Outline
    changes: tuple[str, ...]
    left_out_nm2: Fraction


def mend_outline(trace: Trace, least_area_nm2: int = LEAST_AREA_NM2) -> MendedOutline | None:
    """A sound outline as near as can be to a trace, with what was changed.

    Parameters
    ----------
    trace : Trace
        The points as they came. [nm]
    least_area_nm2 : int
        Smallest area that bounds a surface. [nm2]

    Returns
    -------
    mended : MendedOutline or None
        The outline to show; None where nothing sensible can be offered. [nm]

    Notes
    -----
    It is closed by a straight side; doubled points are dropped; where it crosses itself
    the parts are told apart (``make_valid`` of the geometry library) and the largest is
    kept, without its holes; the order is turned to counterclockwise. Corners are rounded
    to the nanometre.

    Examples
    --------
    By hand: a bow tie of two triangles, 4 x 2.4 / 2 and 6 x 3.6 / 2 m2; the larger is kept.

    >>> bow = ((0, 0), (6, 6), (6, 0), (0, 4))
    >>> mended = mend_outline(Trace(tuple(PointNm(x * 10**9, y * 10**9) for x, y in bow)))
    >>> float(mended.outline.area_nm2 / 10**18), float(mended.left_out_nm2 / 10**18)
    (10.8, 4.8)
    """
    changes: list[str] = []
    if not trace.is_closed and len(trace.points) > 2:
        gap_nm = distance_nm(trace.points[0], trace.points[-1])
        changes.append(f"Closed by a straight side of {show_both(gap_nm)}.")
    ring = _dropped(trace.points, changes)
    left_out_nm2 = Fraction(0)
    if len(ring) < 3 or any(abs(c) > 2**52 for point in ring for c in point):
        return None
    if find_crossed_sides(ring, 1):
        ring, left_out_nm2 = _largest_part(ring, changes)
    if ring and signed_area_nm2(ring) < 0:
        ring = ring[:1] + ring[:0:-1]
        changes.append("Turned round to run counterclockwise.")
    if not ring or find_outline_faults(Trace(ring), least_area_nm2):
        return None
    return MendedOutline(Outline(ring), tuple(changes), left_out_nm2)


def _dropped(points: tuple[PointNm, ...], changes: list[str]) -> Ring:
    """The corners without those that lie on the one before; each is told."""
    kept: list[PointNm] = []
    for number, point in enumerate(points, start=1):
        if kept and distance_nm(kept[-1], point) < SAME_NM:
            changes.append(f"Left out point {number}, which lies on the one before it.")
        else:
            kept.append(point)
    while len(kept) > 1 and distance_nm(kept[-1], kept[0]) < SAME_NM:
        kept.pop()
        changes.append("Left out the last point, which lies on the first.")
    return tuple(kept)


def _largest_part(ring: Ring, changes: list[str]) -> tuple[Ring, Fraction]:
    """The largest part of a ring that crosses itself, and the area of the others."""
    origin = numpy.array(ring[0], dtype=float)
    parts = shapely.get_parts(
        shapely.make_valid(shapely.polygons(numpy.array(ring, dtype=float) - origin))
    )
    parts = [part for piece in parts for part in shapely.get_parts(piece)]
    parts = [part for part in parts if shapely.get_type_id(part) == 3]
    if not parts:
        return (), Fraction(0)
    rings = [_ring_of(part, ring[0]) for part in parts]
    areas = [abs(signed_area_nm2(one)) for one in rings]
    best = max(range(len(rings)), key=lambda number: (areas[number], rings[number]))
    left_out_nm2 = sum(areas) - areas[best]
    where = show_place(find_crossed_sides(ring, 1)[0].at)
    share = float(areas[best] / sum(areas)) * 100
    holes = ", without its holes" if len(shapely.get_rings(parts[best])) > 1 else ""
    if len(rings) == 1:
        changes.append(f"Left out sides that double back on it (first at {where}){holes}.")
    else:
        changes.append(
            f"Cut apart where it crosses itself (first at {where}) and kept the largest of "
            f"{CountedNoun(len(rings)):part|parts}, {share:.1f} % of their area{holes}."
        )
    return rings[best], Fraction(left_out_nm2)


def _ring_of(polygon: object, origin: PointNm) -> Ring:
    """The outer ring of a polygon in whole nanometres, from its least corner on."""
    corners = shapely.get_coordinates(shapely.get_exterior_ring(polygon))[:-1]
    points = [
        PointNm(round(float(x)) + origin.x_nm, round(float(y)) + origin.y_nm) for x, y in corners
    ]
    start = points.index(min(points))
    ring = tuple(points[start:] + points[:start])
    return ring if signed_area_nm2(ring) > 0 else ring[:1] + ring[:0:-1]
