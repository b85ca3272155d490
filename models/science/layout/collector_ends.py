"""Where piped slits join a collector, numbered by station."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from models.counted import CountedNoun
from models.errors import CalculationInputError
from models.science.layout.layout_types import LaidSegment
from models.science.shapes.geometry_library import numpy, shapely
from models.science.shapes.rings import PointNm, distance_nm, path_length_nm, show_both

MOST_PATH_POINTS = 5_000


@dataclass(frozen=True, slots=True)
class CollectorEnd:
    """End of a piped slit at the collector.

    Attributes
    ----------
    number : int
        From 1, by station. [-]
    line_id : str
        The piped slit. [-]
    station_nm : int
        Along the collector. [nm]
    at : PointNm
        On the collector. [nm]
    gap_nm : int
        From the end of the slit to the collector; 0 where it reaches or crosses it. [nm]
    goes_through : bool
        Whether the slit lies on both sides of the collector. [-]
    """

    number: int
    line_id: str
    station_nm: int
    at: PointNm
    gap_nm: int
    goes_through: bool


@dataclass(frozen=True, slots=True)
class CollectorEnds:
    """Ends of the piped slits at one collector, all of them.

    Attributes
    ----------
    ends : tuple of CollectorEnd
        By station. [nm]
    unjoined : tuple of str
        Slits that come nowhere near it, in the order given. [-]
    """

    ends: tuple[CollectorEnd, ...]
    unjoined: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Joint:
    """A slit and the place where it meets the path."""

    station_nm: int
    line_id: str
    at: PointNm
    gap_nm: int
    goes_through: bool


def find_collector_ends(
    piped: Sequence[LaidSegment],
    path: Sequence[PointNm],
    reach_nm: int,
    start_station_nm: int = 0,
) -> CollectorEnds:
    """Find where each piped slit joins a collector, numbered with its station.

    Parameters
    ----------
    piped : sequence of LaidSegment
        The slits. [nm]
    path : sequence of PointNm
        Course of the collector, from its first station on. [nm]
    reach_nm : int
        An end this near is meant to join, as where the setback left it short. [nm]
    start_station_nm : int
        Station of the first point of the path. [nm]

    Returns
    -------
    ends : CollectorEnds
        Joints by station, and the slits that have none. [nm]

    Raises
    ------
    CalculationInputError
        If the path has no length, or the reach is below zero.

    Notes
    -----
    A slit that crosses the path joins where it first does; else its nearer end joins at
    the nearest point of the path. A slit within a micrometre of its end does not go
    through. Derived here.

    Examples
    --------
    By hand: slits at 0.5 m and 1.5 m run north to within 0.1 m of a collector at 2.1 m.

    >>> from models.science.layout.cuttable_ground import Ground
    >>> from models.science.layout.layout_types import LinePattern
    >>> from models.science.layout.layout import lay_lines
    >>> from models.science.shapes.offsets import rectangle
    >>> slits = lay_lines(Ground((rectangle(2 * 10**9, 2 * 10**9),)), LinePattern(10**9)).segments
    >>> path = (PointNm(0, 2_100_000_000), PointNm(2 * 10**9, 2_100_000_000))
    >>> found = find_collector_ends(slits, path, reach_nm=200_000_000)
    >>> [(end.number, end.line_id, end.station_nm, end.gap_nm) for end in found.ends]
    [(1, 'S01', 500000000, 100000000), (2, 'S02', 1500000000, 100000000)]
    """
    if len(path) < 2 or path_length_nm(path) == 0 or reach_nm < 0 or len(path) > MOST_PATH_POINTS:
        raise CalculationInputError(
            what="ends at the collector",
            why=f"its course has {CountedNoun(len(path)):point|points} and "
            f"{show_both(path_length_nm(path))}, and the reach is {show_both(reach_nm)}",
            accepted=f"Give a course of 2 to {MOST_PATH_POINTS} points and a reach of 0 or more",
        )
    joints = [_joint(segment, path, reach_nm) for segment in piped]
    found = sorted(
        (joint for joint in joints if joint), key=lambda joint: (joint.station_nm, joint.line_id)
    )
    ends = tuple(
        CollectorEnd(
            number,
            joint.line_id,
            start_station_nm + joint.station_nm,
            joint.at,
            joint.gap_nm,
            joint.goes_through,
        )
        for number, joint in enumerate(found, start=1)
    )
    named = zip(piped, joints, strict=True)
    return CollectorEnds(ends, tuple(one.line_id for one, joint in named if not joint))


def _joint(segment: LaidSegment, path: Sequence[PointNm], reach_nm: int) -> _Joint | None:
    """Where one slit joins, or None if it stays away."""
    origin = path[0]
    course = _line(path, origin)
    slit = _line((segment.start, segment.end), origin)
    shared = shapely.get_coordinates(shapely.intersection(slit, course))
    if len(shared):
        points = [_whole(point, origin) for point in shared]
        at = min(points, key=lambda point: (distance_nm(segment.start, point), point))
        tails = [distance_nm(end, at) for end in (segment.start, segment.end)]
        return _Joint(_station_nm(path, at), segment.line_id, at, 0, min(tails) > 1_000)
    nearest = []
    for end in (segment.start, segment.end):
        place = numpy.array((end.x_nm - origin.x_nm, end.y_nm - origin.y_nm), dtype=float)
        along = shapely.line_locate_point(course, shapely.points(place))
        near = shapely.get_coordinates(shapely.line_interpolate_point(course, along))[0]
        at = _whole(near, origin)
        nearest.append((distance_nm(end, at), at))
    gap_nm, at = min(nearest)
    if gap_nm > reach_nm:
        return None
    return _Joint(_station_nm(path, at), segment.line_id, at, gap_nm, False)


def _station_nm(path: Sequence[PointNm], at: PointNm) -> int:
    """Distance along a path of the point of it that lies nearest."""
    begun_nm, best = 0, (-1, 0)
    for start, end in pairwise(path):
        long_nm = distance_nm(start, end)
        to_nm = distance_nm(start, at)
        off_nm = to_nm + distance_nm(at, end) - long_nm
        if best[0] < 0 or off_nm < best[0]:
            best = (max(off_nm, 0), begun_nm + min(to_nm, long_nm))
        begun_nm += long_nm
    return best[1]


def _line(points: Sequence[PointNm], origin: PointNm) -> object:
    """Points as a line of the geometry library, counted from an origin."""
    corners = [(x_nm - origin.x_nm, y_nm - origin.y_nm) for x_nm, y_nm in points]
    return shapely.linestrings(numpy.array(corners, dtype=float))


def _whole(point: tuple[float, float], origin: PointNm) -> PointNm:
    """A point of the geometry library in whole nanometres."""
    return PointNm(origin.x_nm + round(float(point[0])), origin.y_nm + round(float(point[1])))
