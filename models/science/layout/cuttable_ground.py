"""Ground that lines may be cut in: outlines less keep-outs and the strip along the edge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NoReturn

from models.errors import CalculationInputError
from models.science.shapes.geometry_library import numpy, shapely
from models.science.shapes.outline import Outline
from models.science.shapes.rings import PointNm, Ring, show_both

ARC_SEGMENTS = 16
"""Chords in a quarter of a rounded corner: an arc is cut by up to 0.12 % of its radius."""


@dataclass(frozen=True, slots=True)
class KeepOut:
    """A place that no line may enter.

    Attributes
    ----------
    outline : Outline
        Its edge. [nm]
    clearance_nm : int
        How far lines stay away from it. [nm]
    name : str
        What it is, such as a head or a valve box. [-]
    islands : tuple of Outline
        Ground within it that is cut again. [nm]
    """

    outline: Outline
    clearance_nm: int = 0
    name: str = ""
    islands: tuple[Outline, ...] = ()


@dataclass(frozen=True, slots=True)
class RoundKeepOut:
    """A circle or a corridor that no line may enter.

    Attributes
    ----------
    corners : tuple of PointNm
        Its middle, or the corners of its course. [nm]
    half_nm : int
        Its radius, or half of its width. [nm]
    clearance_nm : int
        How far lines stay away from it. [nm]
    name : str
        What it is, such as a head or a cable. [-]
    """

    corners: tuple[PointNm, ...]
    half_nm: int
    clearance_nm: int = 0
    name: str = ""


@dataclass(frozen=True, slots=True)
class Ground:
    """A surface as lines see it.

    Attributes
    ----------
    outlines : tuple of Outline
        Its parts; they may touch but not overlap. [nm]
    keep_outs : tuple of KeepOut
        Places with corners that no line may enter. [nm]
    rounds : tuple of RoundKeepOut
        Circles and corridors that no line may enter; lines are clipped to them by their
        radius (``round_clipping``), not here. [nm]
    setback_nm : int
        How far lines stay inside the edge. [nm]
    """

    outlines: tuple[Outline, ...]
    keep_outs: tuple[KeepOut, ...] = ()
    setback_nm: int = 0
    rounds: tuple[RoundKeepOut, ...] = ()

    @property
    def origin(self) -> PointNm:
        """The corner from which the geometry library counts, to keep its floats small."""
        return self.outlines[0].ring[0]


def open_shape(ground: Ground) -> Any:
    """The ground as a shape of the geometry library, counted from ``ground.origin``.

    Parameters
    ----------
    ground : Ground
        The surface with its keep-outs and setback. [nm]

    Returns
    -------
    shape : shapely Polygon or MultiPolygon
        What is left to cut in. [nm from ground.origin]

    Raises
    ------
    CalculationInputError
        If there is no outline, parts overlap, a distance is negative, an island reaches
        out of its keep-out, or nothing is left.

    Notes
    -----
    Corners of setbacks and clearances are rounded by chords (``ARC_SEGMENTS``).

    Examples
    --------
    By hand: 4 m2 less a keep-out of 1 m2 in a corner.

    >>> def square(side):
    ...     corners = ((0, 0), (side, 0), (side, side), (0, side))
    ...     return Outline(tuple(PointNm(*corner) for corner in corners))
    >>> shape = open_shape(Ground((square(2 * 10**9),), (KeepOut(square(10**9)),)))
    >>> shape.area / 1e18
    3.0
    """
    if not ground.outlines:
        _refuse("it has no outline", "Give one outline or more")
    shape = _open_shape(ground)
    if shapely.is_empty(shape):
        _refuse(
            f"a setback of {show_both(ground.setback_nm)} and {len(ground.keep_outs)} keep-outs "
            "leave nothing of it",
            "Give a smaller setback, or look whether the unit is right",
        )
    return shape


def _refuse(why: str, accepted: str) -> NoReturn:
    """Say why no line can be laid on a ground."""
    raise CalculationInputError(what="the ground to be cut", why=why, accepted=accepted)


def _open_shape(ground: Ground) -> Any:
    """What is left of the parts, empty if nothing is."""
    clearances = [one.clearance_nm for one in ground.keep_outs]
    clearances += [one.clearance_nm for one in ground.rounds]
    distances = (ground.setback_nm, *clearances)
    if min(distances) < 0:
        _refuse("a setback or clearance is negative", "Give 0 or more")
    parts = [_polygon(outline.ring, ground.origin) for outline in ground.outlines]
    shape = parts[0] if len(parts) == 1 else _joined(parts)
    if ground.setback_nm:
        shape = shapely.buffer(shape, -ground.setback_nm, quad_segs=ARC_SEGMENTS)
    if ground.keep_outs:
        barred = [_barred(keep_out, ground.origin) for keep_out in ground.keep_outs]
        shape = shapely.difference(shape, shapely.union_all(barred))
    return shape


def _joined(parts: list[Any]) -> Any:
    """The union of parts that do not overlap."""
    shape = shapely.union_all(parts)
    if shapely.area(shape) < sum(shapely.area(part) for part in parts) * (1 - 1e-9):
        _refuse("two of its outlines overlap", "Draw them so that they touch at most")
    return shape


def _barred(keep_out: KeepOut, origin: PointNm) -> Any:
    """A keep-out with its clearance, its islands left open."""
    shape = _polygon(keep_out.outline.ring, origin)
    for island in keep_out.islands:
        hole = _polygon(island.ring, origin)
        if not shapely.covers(shape, hole):
            _refuse(
                f"an island reaches out of the keep-out {keep_out.name or 'it lies in'}",
                "Draw islands inside their keep-out, apart from each other",
            )
        shape = shapely.difference(shape, hole)
    if keep_out.clearance_nm:
        shape = shapely.buffer(shape, keep_out.clearance_nm, quad_segs=ARC_SEGMENTS)
    return shape


def _polygon(ring: Ring, origin: PointNm) -> Any:
    """A ring as a polygon counted from an origin; the differences are exact."""
    corners = [(x_nm - origin.x_nm, y_nm - origin.y_nm) for x_nm, y_nm in ring]
    return shapely.polygons(numpy.array(corners, dtype=float))
