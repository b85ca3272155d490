"""Shapes read from a file of outlines: traces, not yet judged, and courses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from models.science.layout.cuttable_ground import Ground, KeepOut
from models.science.shapes.outline import LEAST_KEEP_OUT_NM2, Trace, require_outline
from models.science.shapes.projection import LocalProjection
from models.science.shapes.rings import PointNm


@dataclass(frozen=True, slots=True)
class TracedShape:
    """A polygon: its edge and the holes in it, as traced."""

    name: str
    edge: Trace
    holes: tuple[Trace, ...] = ()


@dataclass(frozen=True, slots=True)
class NamedPath:
    """A line that bounds nothing, such as the course of a collector."""

    name: str
    points: tuple[PointNm, ...]


@dataclass(frozen=True, slots=True)
class NamedPoint:
    """A single point, such as a head or a benchmark."""

    name: str
    at: PointNm


@dataclass(frozen=True, slots=True)
class PlanShapes:
    """Shapes read from a file; ``remarks`` lists what was left out or turned round.

    ``unread`` names what the file draws and no reader takes. ``are_walks`` says that points
    are those of the shapes: each is there a second time, point by point.
    """

    shapes: tuple[TracedShape, ...] = ()
    paths: tuple[NamedPath, ...] = ()
    points: tuple[NamedPoint, ...] = ()
    projection: LocalProjection | None = None
    remarks: tuple[str, ...] = ()
    unread: tuple[str, ...] = ()
    are_walks: bool = False


def ground_of(shapes: Sequence[TracedShape], clearance_nm: int = 0, setback_nm: int = 0) -> Ground:
    """The ground of shapes that are all sound; their holes are keep-outs with one clearance.

    Raises
    ------
    OutlineError
        If an edge or a hole is no outline; its sentence says which and where.
    """
    outlines = tuple(require_outline(shape.edge) for shape in shapes)
    keep_outs = tuple(
        KeepOut(require_outline(hole, LEAST_KEEP_OUT_NM2), clearance_nm, hole.name)
        for shape in shapes
        for hole in shape.holes
    )
    return Ground(outlines, keep_outs, setback_nm)
