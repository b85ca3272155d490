"""Outlines: the faults of a traced one, and the sound ring that it must be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from models.counted import CountedNoun
from models.errors import OutlineError
from models.science.shapes.rings import (
    PointNm,
    Ring,
    distance_nm,
    perimeter_nm,
    show_both,
    show_place,
    signed_area_nm2,
)
from models.science.shapes.self_crossings import find_crossed_sides

SAME_NM = 1_000_000
"""Corners nearer than a millimetre are one corner taken twice."""

LEAST_AREA_NM2 = 10**18
"""One square metre: below it an outline bounds no surface."""

LEAST_KEEP_OUT_NM2 = 10**15
"""Ten square centimetres: what lines go round may be as small as a head."""

MOST_CORNERS = 20_000
FARTHEST_NM = 2**52
"""Coordinates beyond 4,500 km could not be told apart to the nanometre by a float."""


@dataclass(frozen=True, slots=True)
class Trace:
    """An outline as it came, sound or not.

    Attributes
    ----------
    points : tuple of PointNm
        Points in order; the first not repeated at the end. [nm]
    is_closed : bool
        Whether the source brings its end back to its beginning. [-]
    name : str
        What a sentence calls it. [-]
    """

    points: tuple[PointNm, ...]
    is_closed: bool = True
    name: str = "as traced"

    @classmethod
    def from_walk(cls, points: Sequence[PointNm], name: str = "as traced") -> Trace:
        """A trace of points as they were walked: closed if the last is on the first."""
        is_closed = len(points) > 1 and distance_nm(points[0], points[-1]) < SAME_NM
        return cls(tuple(points[:-1] if is_closed else points), is_closed, name)


@dataclass(frozen=True, slots=True)
class Outline:
    """A sound ring: closed, counterclockwise, crossing itself nowhere.

    Attributes
    ----------
    ring : tuple of PointNm
        Corners in order, the first not repeated. [nm]
    """

    ring: Ring

    @property
    def area_nm2(self) -> Fraction:
        """Area inside, in nm2."""
        return abs(signed_area_nm2(self.ring))

    @property
    def perimeter_nm(self) -> int:
        """Length once round, in nm."""
        return perimeter_nm(self.ring)


class OutlineFaultKind(StrEnum):
    """Kinds of fault of an outline."""

    TOO_FEW = "too few points"
    TOO_MANY = "too many points"
    TOO_FAR = "too far"
    OPEN = "open"
    DUPLICATE = "duplicate point"
    CROSSING = "crosses itself"
    TINY = "tiny"
    WOUND = "wrongly wound"


@dataclass(frozen=True, slots=True)
class OutlineFault:
    """A fault of an outline, and its place.

    Attributes
    ----------
    kind : OutlineFaultKind
        What is wrong. [-]
    sentence : str
        The fault, its place and what would do. [-]
    at : PointNm or None
        Where it is, if it is anywhere. [nm]
    """

    kind: OutlineFaultKind
    sentence: str
    at: PointNm | None = None


def find_outline_faults(
    trace: Trace, least_area_nm2: int = LEAST_AREA_NM2
) -> tuple[OutlineFault, ...]:
    """Find every fault that keeps a trace from being an outline.

    Parameters
    ----------
    trace : Trace
        The points as they came. [nm]
    least_area_nm2 : int
        Smallest area that bounds a surface. [nm2]

    Returns
    -------
    faults : tuple of OutlineFault
        The faults with their places; empty for a sound outline. [nm]

    Notes
    -----
    Corners run counterclockwise, as the outer rings of RFC 7946 section 3.1.6 do. Size and
    turn are judged only where the sides don't cross, since only there they mean anything.
    At most ten crossings are listed.

    Examples
    --------
    By hand: a square of 10 m walked clockwise.

    >>> square = ((0, 0), (0, 10**10), (10**10, 10**10), (10**10, 0))
    >>> trace = Trace(tuple(PointNm(*corner) for corner in square))
    >>> [fault.kind.value for fault in find_outline_faults(trace)]
    ['wrongly wound']
    """
    blocking = _unreadable(trace)
    if blocking:
        return (blocking,)
    faults = [*_open_end(trace), *_duplicates(trace)]
    ring = _without_duplicates(trace.points)
    if len(ring) < 3:
        return (*faults, _too_few(len(ring)))
    crossed = [
        OutlineFault(
            OutlineFaultKind.CROSSING,
            f"side {pair.first} (from corner {pair.first}) meets side {pair.second} at "
            f"{show_place(pair.at)}: an outline may not cross or touch itself",
            pair.at,
        )
        for pair in find_crossed_sides(ring)
    ]
    return (*faults, *(crossed or _size_and_turn(ring, least_area_nm2)))


def require_outline(trace: Trace, least_area_nm2: int = LEAST_AREA_NM2) -> Outline:
    """The outline that a trace is, if nothing is wrong with it.

    Parameters
    ----------
    trace : Trace
        The points as they came. [nm]
    least_area_nm2 : int
        Smallest area that bounds a surface. [nm2]

    Returns
    -------
    outline : Outline
        The same corners. [nm]

    Raises
    ------
    OutlineError
        If anything is wrong; ``faults`` on its context lists all of it.

    Notes
    -----
    Nothing is mended here: that is offered by ``mend_outline`` and used when somebody
    has looked at it.

    Examples
    --------
    By hand, a square of 2 m:

    >>> corners = ((0, 0), (2, 0), (2, 2), (0, 2))
    >>> points = tuple(PointNm(x * 10**9, y * 10**9) for x, y in corners)
    >>> int(require_outline(Trace(points)).area_nm2 / 10**18)
    4
    """
    faults = find_outline_faults(trace, least_area_nm2)
    if faults:
        raise OutlineError(
            name=trace.name,
            count=f"{CountedNoun(len(faults)):fault|faults}",
            listing="\n".join(f"  {fault.sentence}." for fault in faults),
            faults=faults,
        )
    return Outline(trace.points)


def _too_few(count: int) -> OutlineFault:
    """The fault of a trace that bounds nothing."""
    words = (
        f"it has {CountedNoun(count):different point|different points}: an outline has at least 3"
    )
    return OutlineFault(OutlineFaultKind.TOO_FEW, words)


def _unreadable(trace: Trace) -> OutlineFault | None:
    """A fault that leaves nothing else to look for."""
    if len(trace.points) < 3:
        return _too_few(len(set(trace.points)))
    if len(trace.points) > MOST_CORNERS:
        words = f"it has {len(trace.points)} points: at most {MOST_CORNERS} are read"
        return OutlineFault(OutlineFaultKind.TOO_MANY, words)
    for number, point in enumerate(trace.points, start=1):
        if max(abs(point.x_nm), abs(point.y_nm)) > FARTHEST_NM:
            words = (
                f"point {number} lies farther than 4,500 km from the origin: check the unit, "
                "or measure from a point on the site"
            )
            return OutlineFault(OutlineFaultKind.TOO_FAR, words, point)
    return None


def _open_end(trace: Trace) -> list[OutlineFault]:
    """The gap of an outline that was left open."""
    if trace.is_closed:
        return []
    first, last = trace.points[0], trace.points[-1]
    words = (
        f"it is open: the last point ({show_place(last)}) ends "
        f"{show_both(distance_nm(first, last))} from the first ({show_place(first)}). "
        "End it on its first point, or take the closed one that is offered"
    )
    return [OutlineFault(OutlineFaultKind.OPEN, words, last)]


def _duplicates(trace: Trace) -> list[OutlineFault]:
    """Points that lie on the point before them."""
    return [
        OutlineFault(
            OutlineFaultKind.DUPLICATE,
            f"point {number % len(trace.points) + 1} lies on point {number} "
            f"({show_place(point)}): take one of them out",
            point,
        )
        for number, (before, point) in enumerate(
            zip(trace.points, [*trace.points[1:], trace.points[0]], strict=True), start=1
        )
        if distance_nm(before, point) < SAME_NM and (trace.is_closed or number < len(trace.points))
    ]


def _without_duplicates(points: Sequence[PointNm]) -> Ring:
    """The corners, each that lies on the one before it left out."""
    kept: list[PointNm] = []
    for point in points:
        if not kept or distance_nm(kept[-1], point) >= SAME_NM:
            kept.append(point)
    while len(kept) > 1 and distance_nm(kept[-1], kept[0]) < SAME_NM:
        kept.pop()
    return tuple(kept)


def _size_and_turn(ring: Ring, least_area_nm2: int) -> list[OutlineFault]:
    """What is wrong with the area of a ring that does not cross itself."""
    area_nm2 = signed_area_nm2(ring)
    if abs(area_nm2) < least_area_nm2:
        words = (
            f"it bounds {float(abs(area_nm2)) / 1e18:.4f} m2, less than "
            f"{least_area_nm2 / 1e18:g} m2, near {show_place(ring[0])}: check the unit"
        )
        return [OutlineFault(OutlineFaultKind.TINY, words, ring[0])]
    if area_nm2 < 0:
        words = (
            f"it runs clockwise from point 1 ({show_place(ring[0])}): an outline runs "
            "counterclockwise, so turn the order of its points round"
        )
        return [OutlineFault(OutlineFaultKind.WOUND, words, ring[0])]
    return []
